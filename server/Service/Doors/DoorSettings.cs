namespace CableCatalog.Service.Doors;

/// <summary>Who may read without a key. Whatever changes something needs one, always.</summary>
public enum OpenReads
{
    /// <summary>Nobody.</summary>
    ToNobody,

    /// <summary>Programs on this machine.</summary>
    OnThisMachine,

    /// <summary>Anybody who reaches the port.</summary>
    ToAnybody,
}

/// <summary>Who is let in.</summary>
/// <param name="Reads">Who may read without a key.</param>
/// <param name="CallsPerSecond">How many calls a second each key may make for long, and all callers without a key from one address
/// together; ten times as many at once. 1 to 100000.</param>
public sealed record DoorSettings(OpenReads Reads = OpenReads.OnThisMachine, int CallsPerSecond = DoorSettings.UsualCallsPerSecond)
{
    /// <summary>Enough for any shop tool, too little to keep others waiting.</summary>
    public const int UsualCallsPerSecond = 100;
}
