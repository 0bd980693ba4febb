namespace CableCatalog.Client.Tests.Commands;

/// <summary>What a command did.</summary>
/// <param name="Code">Its exit code.</param>
/// <param name="Out">What it wrote as its result.</param>
/// <param name="Error">What it wrote beside.</param>
internal sealed record Ran(int Code, string Out, string Error)
{
    /// <summary>The result of a command that must succeed and have nothing to say beside.</summary>
    public string Result
    {
        get
        {
            Assert.Equal((0, ""), (Code, Error));
            return Out;
        }
    }

    /// <summary>Asserts that the command failed with one message and without a result.</summary>
    public void MustFail(int code, params string[] lines)
    {
        Assert.Equal(string.Concat(lines.Select(line => line + '\n')), Error);
        Assert.Equal((code, ""), (Code, Out));
    }

    public override string ToString() => $"exit code {Code}, result \"{Out}\", beside \"{Error}\"";
}
