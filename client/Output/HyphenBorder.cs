using Spectre.Console;
using Spectre.Console.Rendering;

namespace CableCatalog.Client.Output;

/// <summary>The lines of <see cref="TableBorder.Horizontal"/> in hyphens, for writers that know nothing else.</summary>
internal sealed class HyphenBorder : TableBorder
{
    /// <inheritdoc/>
    public override string GetPart(TableBorderPart part) => Horizontal.GetPart(part).Replace('─', '-');
}
