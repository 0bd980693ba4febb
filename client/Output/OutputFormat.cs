namespace CableCatalog.Client.Output;

/// <summary>How a command writes its result.</summary>
internal enum OutputFormat
{
    /// <summary>For people.</summary>
    Table,

    /// <summary>The service's answer as protobuf JSON.</summary>
    Json,

    /// <summary>Rows for a spreadsheet, in SI units, the unit in each column's name.</summary>
    Csv,
}
