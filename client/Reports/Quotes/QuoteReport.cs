using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports.Plots;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>A quote as a page to hand over: one or two sheets of paper, or a phone.</summary>
internal static class QuoteReport
{
    /// <summary>The text of the page.</summary>
    public static string Html(QuotedControl quote, Figures figures)
    {
        WeighOptionsResponse weighing = quote.Answer.Weighing;
        AdviceWords words = quote.Advice(figures);
        string about = quote.Answer.Boat.Length > 0 ? quote.Answer.Boat : quote.Answer.InstallationDisplayName;
        return Page.Text(
            $"Quote: {about}",
            words.Sentence(),
            "",
            string.Create(CultureInfo.InvariantCulture, $"Catalogue revision {weighing.CatalogRevision}."),
            weighing.Cautions,
            weighing.Assumptions.Select(assumption => AssumptionWords.Of(assumption, figures)),
            [
                Particulars(quote),
                Reports.Html.Section("The options", Options(quote, figures), Remark(quote)),
                Reports.Html.Section(
                    "Effort and cost", Reports.Html.Element("div", Reports.Html.Class("plots"), Efforts(quote, figures), Costs(quote, figures))),
                Reports.Html.Section($"Effort in each load, {figures.ForceUnit} (low to high)", Loads(quote, figures)),
                Reports.Html.Section("What each costs", Bills(quote), Reports.Html.Paragraph(QuotedControl.Rounding)),
                Reports.Html.Section("Worth knowing", Reports.Html.List(Notes(quote, figures))),
                Reports.Html.Section("What would change the advice", Reports.Html.List(words.WhatWouldChange().Concat(words.Measuring()))),
            ]);
    }

    private static XElement Particulars(QuotedControl quote) => Reports.Html.Element(
        "dl",
        Reports.Html.Class("particulars"),
        quote.Particulars().Select(line => Reports.Html.Element(
            "div", Reports.Html.Element("dt", line.What), Reports.Html.Element("dd", line.Text))));

    private static XElement? Remark(QuotedControl quote) =>
        quote.Answer.Remark.Length > 0 ? Reports.Html.Paragraph(quote.Answer.Remark) : null;

    private static XElement? Options(QuotedControl quote, Figures figures)
    {
        string currency = quote.Control.Answer.CurrencyCode;
        string unit = figures.ForceUnit;
        bool limited = quote.Control.LimitN is not null;
        string[] headings =
        [
            "Option", "What is done", $"Effort, {unit} (low to high)", $"Saved, {unit} (low to high)", $"Cost, {currency}",
            $"{currency} a {unit}", $"{currency} each extra {unit}",
            .. limited ? [$"Meets {figures.Force(quote.Control.LimitN!.Value)}"] : Array.Empty<string>(),
        ];
        WeighedOption now = quote.Control.Answer.Options[0];
        return Reports.Html.Table(
            headings,
            quote.Answer.Options.Select((quoted, row) => Row(quote, quoted, row, figures)).Prepend(
            [
                "now", "the present cable, as it is", RiggingWords.Band(now.WorstEffortN, " ", figures), "", "", "", "",
                .. limited ? [now.HasMeetChance ? OptionWords.Chance(now.MeetChance) : ""] : Array.Empty<object?>(),
            ]));
    }

    private static object?[] Row(QuotedControl quote, QuotedOption quoted, int row, Figures figures)
    {
        WeighedOption option = quote.Option(quoted);
        string saved = OptionWords.Saved(option, " ", figures);
        string doubt = option.SavingVerdict == SavingVerdict.MaySaveNothing ? "; may save nothing" : "";
        return
        [
            quoted.Advised ? $"{QuotedControl.Letter(row)}, advised" : QuotedControl.Letter(row),
            quote.Control.Name(quoted.Option),
            RiggingWords.Band(option.WorstEffortN, " ", figures),
            saved.Length > 0 ? $"{quote.Control.UpTo}{saved}{doubt}" : "",
            Figures.Amount(option.Bill.Total),
            option.CostPerNewtonSaved is { } cost ? figures.PerForce(cost) : "",
            quoted.ExtraCostPerNewton is { } extra ? figures.PerForce(extra) : "",
            .. quote.Control.LimitN is null
                ? Array.Empty<object?>()
                : [option.HasMeetChance ? OptionWords.Chance(option.MeetChance) : ""],
        ];
    }

    private static XElement Efforts(QuotedControl quote, Figures figures)
    {
        Unit unit = QuantityKind.Force.UnitFor(figures.Units);
        RangeRow[] rows =
        [
            .. new[] { Bar("now", quote.Control.Answer.Options[0], figures, unit) }
                .Concat(quote.Answer.Options.Select((quoted, row) =>
                    Bar($"option {QuotedControl.Letter(row)}", quote.Option(quoted), figures, unit)))
                .OfType<RangeRow>(),
        ];
        (double, string)? limit = quote.Control.LimitN is { } limitN
            ? (unit.FromSi(limitN), $"limit {figures.Force(limitN)}")
            : null;
        return Reports.Html.Element(
            "figure",
            Reports.Html.Element("h3", "Effort at the grip, worst load"),
            new RangePlot(rows, $"effort at the grip, {unit.Name}", limit).Draw("effort", "Effort at the grip now and with each option"),
            Reports.Html.Element("figcaption", "A bar goes from low to high; the line in it is the likely effort."));
    }

    private static RangeRow? Bar(string label, WeighedOption option, Figures figures, Unit unit) =>
        RangeRow.Of(label, $"{RiggingWords.Band(option.WorstEffortN, " ", figures)} {figures.ForceUnit}", option.WorstEffortN, unit);

    private static XElement Costs(QuotedControl quote, Figures figures) => Reports.Html.Element(
        "figure",
        Reports.Html.Element("h3", "Cost against effort"),
        FrontierPlot.Draw("Cost against effort, with the frontier", quote, figures),
        Reports.Html.Element(
            "figcaption",
            "Filled squares are quoted. The line joins what is the best buy for some value of a "
                + $"{OptionWords.OneForce(figures)}; open squares are beaten by it."));

    private static XElement? Loads(QuotedControl quote, Figures figures) => Reports.Html.Table(
        ["Load", "Now", .. quote.Answer.Options.Select((_, row) => $"Option {QuotedControl.Letter(row)}")],
        quote.Loads().Select(load =>
            load.EffortsN.Select(effortN => (object?)RiggingWords.Band(effortN, " ", figures)).Prepend(load.Load).ToArray()));

    private static XElement Bills(QuotedControl quote) => Reports.Html.Element(
        "div",
        Reports.Html.Class("bills"),
        quote.Answer.Options.Select((quoted, row) => Bill(quote, quoted, row)));

    private static XElement Bill(QuotedControl quote, QuotedOption quoted, int row)
    {
        WeighedOption option = quote.Option(quoted);
        Bill bill = option.Bill;
        IEnumerable<(string What, string Amount)> lines =
        [
            .. bill.Lines.Select(line => (OptionWords.BillLine(line, option), Figures.Amount(line.Amount))),
            .. quote.Answer.TaxShare > 0
                ? [($"tax {PriceListSheet.Percent(quote.Answer.TaxShare)}", Figures.Amount(bill.Tax))]
                : Array.Empty<(string, string)>(),
            ("in all", Figures.Amount(bill.Total, "")),
            .. quote.Answer.Quantity > 1
                ? [($"for {quote.Answer.Quantity}", Figures.Amount(quoted.Total, ""))]
                : Array.Empty<(string, string)>(),
        ];
        return Reports.Html.Element(
            "div",
            Reports.Html.Element("h3", $"Option {QuotedControl.Letter(row)}"),
            Reports.Html.Table(["For", "Amount"], lines.Select(line => new object?[] { line.What, line.Amount })));
    }

    private static IEnumerable<string> Notes(QuotedControl quote, Figures figures) => quote.Answer.Options
        .SelectMany((quoted, row) => FitWords.OfAll(quote.Option(quoted).FitNotes, figures)
            .Select(note => (Note: note, Letter: QuotedControl.Letter(row))))
        .GroupBy(note => note.Note, note => note.Letter)
        .Select(group => $"{string.Join(", ", group)}: {group.Key}");
}
