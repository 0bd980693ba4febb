namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>Kinds of fault.</summary>
public enum FaultKind
{
    /// <summary>A worn or dirty liner: more friction over the whole cable, on its route and off it.</summary>
    Liner,

    /// <summary>Bends that are too tight, or more of them than described: more friction on the route only.</summary>
    Bends,

    /// <summary>An inline device.</summary>
    Device,

    /// <summary>The driven arm.</summary>
    Arm,

    /// <summary>The helm.</summary>
    Helm,

    /// <summary>A stop met early: a force at the arm's hole that comes with the cable, not with the load.</summary>
    Stop,

    /// <summary>The load is larger than described.</summary>
    Load,
}

/// <summary>One thing that may be at fault.</summary>
/// <param name="Kind">What.</param>
/// <param name="DeviceIndex">Which of the chain's inline devices; -1 for any other kind.</param>
public readonly record struct Fault(FaultKind Kind, int DeviceIndex = -1)
{
    /// <summary>Whether two faults are of the same part, so that this model does not have them both.</summary>
    internal bool SharesPartWith(Fault other) => Part == other.Part;

    private int Part => Kind switch
    {
        FaultKind.Liner or FaultKind.Bends => -1,
        FaultKind.Helm => -2,
        FaultKind.Device => DeviceIndex,
        _ => -3,
    };
}
