using System.CommandLine;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;

namespace CableCatalog.Client.Commands;

/// <summary>Options that every command takes.</summary>
internal sealed class CommonOptions
{
    /// <summary>The variable that stands for --server.</summary>
    public const string ServerVariable = "CABLECATALOG_SERVER";

    /// <summary>The variable that holds the key to a service.</summary>
    public const string KeyVariable = "CABLECATALOG_KEY";

    /// <summary>The variable that stands for --catalog.</summary>
    public const string CatalogVariable = "CABLECATALOG_FILE";

    /// <summary>--server.</summary>
    public Option<string?> Server { get; } = new("--server")
    {
        Description = $"Ask the service at this address instead of the catalogue on this computer [{ServerVariable}]",
        HelpName = "URL",
        Recursive = true,
    };

    /// <summary>--key-file.</summary>
    public Option<string?> KeyFile { get; } = new("--key-file")
    {
        Description = $"The file with the key to the service, where that needs one [{KeyVariable}: the key itself]",
        HelpName = "FILE",
        Recursive = true,
    };

    /// <summary>--trust.</summary>
    public Option<string?> Trust { get; } = new("--trust")
    {
        Description = "Trust this certificate of the service (PEM), or those that it has signed, and no other",
        HelpName = "FILE",
        Recursive = true,
    };

    /// <summary>--catalog.</summary>
    public Option<string?> Catalog { get; } = new("--catalog")
    {
        Description = "Use this catalogue file, or PostgreSQL connection string, instead of the file in the user's data folder "
            + $"[{CatalogVariable}]",
        HelpName = "FILE",
        Recursive = true,
    };

    /// <summary>--create-catalog.</summary>
    public Option<string?> CreateCatalog { get; } = new Option<string?>("--create-catalog")
    {
        Description = "Make the catalogue named by --catalog where there is none: with the invented demo grades, or empty",
        HelpName = "demo|empty",
        Recursive = true,
    }.OneOf("demo", "empty");

    /// <summary>--units.</summary>
    public Option<string> Units { get; } = new Option<string>("--units")
    {
        Description = "Units to show: us (lbf, in, ft) or si (N, mm, m)",
        HelpName = "us|si",
        DefaultValueFactory = _ => "us",
        Recursive = true,
    }.OneOf("us", "si");

    /// <summary>A fresh --output for one command.</summary>
    public static Option<string> Output(params string[] formats) => new Option<string>("--output")
    {
        Description = $"Write the result as {string.Join(", ", formats[..^1])} or {formats[^1]}",
        HelpName = string.Join('|', formats),
        DefaultValueFactory = _ => formats[0],
    }.OneOf(formats);

    /// <summary>The value of an --output.</summary>
    public static OutputFormat Format(ParseResult parsed, Option<string> output) =>
        Enum.Parse<OutputFormat>(parsed.GetValue(output)!, ignoreCase: true);

    /// <summary>Figures in the units asked for.</summary>
    public Figures Figures(ParseResult parsed) =>
        new(parsed.GetValue(Units) == "si" ? UnitSystem.Si : UnitSystem.Us);
}
