namespace CableCatalog.Client.Reports.Plots;

/// <summary>How a range is drawn, so that it can be told without colour.</summary>
internal enum RangeLook
{
    /// <summary>Filled.</summary>
    Read,

    /// <summary>Hatched.</summary>
    ReadBefore,

    /// <summary>A dashed outline.</summary>
    Predicted,
}
