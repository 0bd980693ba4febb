using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A quote for people at a terminal; to hand over there is a page.</summary>
internal sealed class QuoteSheet(QuotedControl quote, Figures figures)
{
    /// <summary>Draws all of it.</summary>
    public void Draw(IAnsiConsole console)
    {
        WeighOptionsResponse weighing = quote.Answer.Weighing;
        console.WriteLine("Quote");
        foreach ((string what, string text) in quote.Particulars())
        {
            console.WriteLine($"  {what + ":",-13}{text}");
        }

        console.WriteLine();
        console.Write(Options(new TableMaker(console)));
        foreach ((int row, QuotedOption quoted) in quote.Answer.Options.Index())
        {
            WeighedOption option = quote.Option(quoted);
            console.WriteLine();
            console.WriteLine($"{QuotedControl.Letter(row)}: {quote.Control.Name(quoted.Option)}");
            console.Write(Bill(option, quoted));
            foreach (string note in FitWords.OfAll(option.FitNotes, figures))
            {
                console.WriteLine($"  note: {note}");
            }
        }

        console.WriteLine();
        console.WriteLine(QuotedControl.Rounding);
        AdviceWords words = quote.Advice(figures);
        Paragraphs.List(
            console,
            $"In each load, now and with the options, {figures.ForceUnit}:",
            quote.Loads().Select(load => $"{load.Load}: {string.Join("; ", load.EffortsN.Select(n => RiggingWords.Band(n, " ", figures)))}"));
        console.WriteLine();
        console.WriteLine(words.Sentence());
        Paragraphs.Line(console, quote.Answer.Remark);
        Paragraphs.List(console, "What would change this:", words.WhatWouldChange());
        Paragraphs.List(console, "Measuring first:", words.Measuring());
        Paragraphs.List(console, "Assumed, not measured:", weighing.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
        console.WriteLine();
        console.WriteLine(weighing.Cautions.OneLine);
    }

    private Table Options(TableMaker table)
    {
        const string Apart = "\n";
        string currency = quote.Control.Answer.CurrencyCode;
        string unit = figures.ForceUnit;
        table.ShortNames("").Numbers($"Effort, {unit}\n(low to high)");
        table.Numbers($"{(quote.Control.UpTo.Length > 0 ? "Saved, up to" : "Saved")}, {unit}\n(low to high)");
        table.Numbers($"Cost,\n{currency}").Numbers($"{currency}\na {unit}").Numbers($"{currency} each\nextra {unit}");
        if (quote.Control.LimitN is not null)
        {
            table.Numbers("Meets\nlimit", 1);
        }

        WeighedOption now = quote.Control.Answer.Options[0];
        AddRow(table.Table, "now", now, null, Apart);
        foreach ((int row, QuotedOption quoted) in quote.Answer.Options.Index())
        {
            AddRow(table.Table, $"{(quoted.Advised ? "* " : "")}{QuotedControl.Letter(row)}", quote.Option(quoted), quoted, Apart);
        }

        return table.Table;
    }

    private void AddRow(Table table, string name, WeighedOption option, QuotedOption? quoted, string apart)
    {
        string[] cells =
        [
            name,
            RiggingWords.Band(option.WorstEffortN, apart, figures),
            quoted is null ? "" : OptionWords.Saved(option, apart, figures),
            quoted is null ? "" : Figures.Amount(option.Bill.Total),
            quoted is not null && option.CostPerNewtonSaved is { } cost ? figures.PerForce(cost) : "",
            quoted?.ExtraCostPerNewton is { } extra ? figures.PerForce(extra) : "",
            .. quote.Control.LimitN is null
                ? Array.Empty<string>()
                : [option.HasMeetChance ? OptionWords.ShortChance(option.MeetChance) : ""],
        ];
        table.AddRow(cells.Select(cell => new Text(cell)).ToArray());
    }

    private Grid Bill(WeighedOption option, QuotedOption quoted)
    {
        Grid grid = new Grid().AddColumn(new GridColumn().PadLeft(2)).AddColumn(new GridColumn().NoWrap().RightAligned().PadLeft(2));
        foreach (BillLine line in option.Bill.Lines)
        {
            grid.AddRow(new Text(OptionWords.BillLine(line, option)), new Text(Figures.Amount(line.Amount)));
        }

        if (quote.Answer.TaxShare > 0)
        {
            grid.AddRow(new Text($"tax {PriceListSheet.Percent(quote.Answer.TaxShare)}"), new Text(Figures.Amount(option.Bill.Tax)));
        }

        grid.AddRow(new Text("in all"), new Text(Figures.Amount(option.Bill.Total, "")));
        if (quote.Answer.Quantity > 1)
        {
            grid.AddRow(new Text($"for {quote.Answer.Quantity}"), new Text(Figures.Amount(quoted.Total, "")));
        }

        return grid;
    }
}
