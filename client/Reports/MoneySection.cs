using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>What a new cable cost, what it saved, and what each pound saved cost.</summary>
internal static class MoneySection
{
    /// <summary>The section; null where nothing is known of either.</summary>
    public static XElement? Of(VerifyCableResponse proof, Figures figures) => proof is { SavedN: null, Cost: null }
        ? null
        : Html.Section("What it saved, and at what cost", SavedLines.Of(proof, figures).Select(line => Html.Paragraph(line)));
}
