namespace CableCatalog.Client.Files;

/// <summary>The key with which a file names the installation file that it belongs to.</summary>
internal static class InstallationReference
{
    private const string StandardInput = "-";

    /// <summary>Reads the file that is named, as seen from the folder of the file that names it.</summary>
    public static readonly Form Form =
        new(Read, _ => throw new NotSupportedException("the message does not keep its file's name"));

    private static object? Read(FieldValue field)
    {
        if (field.Scalar("the name of the installation's file") is not { } name)
        {
            return null;
        }

        if (name == StandardInput)
        {
            return field.Fail("the installation is not read from standard input; name its file");
        }

        ProblemList problems = field.Reading.Problems;
        bool isPiped = problems.File == StandardInput;
        string file = Path.Combine(isPiped ? "" : Path.GetDirectoryName(problems.File) ?? "", name);
        FileResult<InstallationDocument> read = InstallationFile.Read(file);
        foreach (FileProblem problem in read.Problems)
        {
            if (problem.Line > 0)
            {
                problems.Add(problem);
                continue;
            }

            // Nothing in the file is wrong, but that it is the one that is named.
            string seenFrom = Path.IsPathRooted(name) ? ""
                : isPiped ? " (seen from the current folder)"
                : " (seen from the folder of this file)";
            field.Fail($"{Wording.Shown(name)}{seenFrom}: {problem.Message}");
        }

        if (read.Value is { } installation)
        {
            field.Reading.Sources.Add(field.Path, installation.Sources);
        }

        return read.Value?.Message;
    }
}
