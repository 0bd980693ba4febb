namespace CableCatalog.Client.Failures;

/// <summary>What the process tells scripts; documented in the README.</summary>
internal enum ExitCode
{
    /// <summary>Done.</summary>
    Success = 0,

    /// <summary>A defect of this program.</summary>
    Defect = 1,

    /// <summary>The command line or a file is wrong.</summary>
    BadInput = 2,

    /// <summary>The server cannot be reached, or speaks another version.</summary>
    Unreachable = 3,

    /// <summary>The catalogue refused, or cannot be opened.</summary>
    Refused = 4,
}
