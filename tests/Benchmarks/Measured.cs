namespace CableCatalog.Benchmarks;

/// <summary>One thing measured beside its yardstick in the same run.</summary>
/// <param name="Group">What it belongs to: a heading of the page.</param>
/// <param name="What">What was measured.</param>
/// <param name="Ours">This project's figure.</param>
/// <param name="Yardstick">What it is held against.</param>
/// <param name="Theirs">The yardstick's figure, in the same unit.</param>
/// <param name="Unit">The unit of both.</param>
/// <param name="Limit">What ours over theirs must keep to; null where it is only reported.</param>
internal sealed record Measured(
    string Group, string What, double Ours, string Yardstick, double Theirs, string Unit, Limit? Limit = null)
{
    /// <summary>Ours over theirs.</summary>
    public double Ratio => Ours / Theirs;

    /// <summary>Whether it keeps to its limit, if it has one.</summary>
    public bool Holds => Limit is not { } limit || limit.Holds(Ratio);
}

/// <summary>What a ratio must keep to.</summary>
/// <param name="AtMost">No more than this; null: no upper limit.</param>
/// <param name="AtLeast">No less than this; null: no lower limit.</param>
internal readonly record struct Limit(double? AtMost = null, double? AtLeast = null)
{
    /// <summary>Whether a ratio keeps to it.</summary>
    public bool Holds(double ratio) => !(ratio > AtMost) && !(ratio < AtLeast);

    /// <summary>In words.</summary>
    public override string ToString() => this switch
    {
        { AtMost: { } most } => FormattableString.Invariant($"at most {most:0.##}"),
        { AtLeast: { } least } => FormattableString.Invariant($"at least {least:0.##}"),
        _ => "",
    };
}
