using System.Text.Json.Nodes;
using CableCatalog.Client.Files;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A batch of quotes: for people, a row an installation; for scripts, all of it.</summary>
internal static class BatchSheet
{
    private static readonly string[] Heading =
    [
        "file", "customer", "boat", "installation", "advice", "option", "effort_now_n", "effort_likely_n", "saved_likely_n", "cost",
        "currency", "meet_chance", "problems",
    ];

    /// <summary>Draws it.</summary>
    public static void Draw(IAnsiConsole console, IReadOnlyList<BatchOutcome> outcomes, Figures figures)
    {
        TableMaker table = new TableMaker(console).Words("Installation").Words("Advice")
            .Numbers($"Now,\n{figures.ForceUnit}", 1).Numbers($"Then,\n{figures.ForceUnit}", 1).Numbers("Cost", 1).Numbers("Meets\nlimit", 1);
        foreach (BatchOutcome outcome in outcomes)
        {
            table.Table.AddRow(Cells(outcome, figures).Select(cell => new Text(cell)).ToArray());
        }

        console.Write(table.Table);
        Paragraphs.List(
            console,
            "Not quoted:",
            outcomes.SelectMany(outcome => outcome.Problems.Select(problem =>
                problem.StartsWith(outcome.Entry.File, StringComparison.Ordinal) ? problem : $"{outcome.Entry.File}: {problem}")));
        if (outcomes.FirstOrDefault(outcome => outcome.Quote is not null)?.Quote is { } any)
        {
            console.WriteLine();
            console.WriteLine("Every figure rests on assumed coefficients; each quote lists what it assumes.");
            console.WriteLine(any.Answer.Weighing.Cautions.OneLine);
        }
    }

    /// <summary>Writes a row an installation.</summary>
    public static void WriteCsv(TextWriter writer, IEnumerable<BatchOutcome> outcomes) =>
        CsvRows.Write(writer, Heading, outcomes.Select(Row));

    /// <summary>Writes all of it: for each installation its quote, or why there is none.</summary>
    public static void WriteJson(TextWriter writer, IEnumerable<BatchOutcome> outcomes)
    {
        var quotes = new JsonArray([.. outcomes.Select(outcome =>
        {
            var one = new JsonObject { ["file"] = outcome.Entry.File };
            if (outcome.Quote is { } quote)
            {
                one["quote"] = JsonNode.Parse(ProtoJson.Write(quote.Answer));
            }
            else
            {
                one["problems"] = new JsonArray([.. outcome.Problems.Select(problem => (JsonNode)problem)]);
            }

            return (JsonNode)one;
        })]);
        writer.WriteLine(new JsonObject { ["quotes"] = quotes }.ToJsonString());
    }

    private static string[] Cells(BatchOutcome outcome, Figures figures)
    {
        if (outcome.Quote is not { } quote)
        {
            return [Path.GetFileName(outcome.Entry.File), "not quoted; see below", "", "", "", ""];
        }

        WeighOptionsResponse weighing = quote.Answer.Weighing;
        WeighedOption? option = Advised(weighing);
        return
        [
            quote.Answer.InstallationDisplayName,
            Advice(quote),
            Number(weighing.PresentCable.WorstEffortN, figures),
            option is null ? "" : Number(option.WorstEffortN, figures),
            option is null ? "" : Figures.Amount(option.Bill.Total),
            option is { HasMeetChance: true } ? OptionWords.ShortChance(option.MeetChance) : "",
        ];
    }

    private static string Advice(QuotedControl quote)
    {
        OptionAdvice advice = quote.Answer.Weighing.Advice;
        string name = advice.HasOption ? quote.Control.Name(advice.Option) : "";
        return advice.Verdict switch
        {
            AdviceVerdict.Keep => "keep what is there",
            AdviceVerdict.Take => name,
            AdviceVerdict.MeasureFirst => $"measure first{(name.Length > 0 ? $"; best guess: {name}" : "")}",
            AdviceVerdict.NoneMeetsLimit => $"none meets the limit; nearest: {name}",
            _ => "give a limit or a value of a pound",
        };
    }

    private static WeighedOption? Advised(WeighOptionsResponse weighing) =>
        weighing.Advice.HasOption ? weighing.Options[weighing.Advice.Option] : null;

    private static string Number(ForceBand band, Figures figures) => band.HasLikely ? figures.ForceNumber(band.Likely) : "locks";

    private static object?[] Row(BatchOutcome outcome)
    {
        string problems = string.Join("; ", outcome.Problems);
        BatchEntry entry = outcome.Entry;
        if (outcome.Quote is not { } quote)
        {
            return [entry.File, entry.Customer, entry.Boat, "", "", "", null, null, null, null, "", null, problems];
        }

        WeighOptionsResponse weighing = quote.Answer.Weighing;
        WeighedOption? option = Advised(weighing);
        return
        [
            entry.File, entry.Customer, entry.Boat, quote.Answer.InstallationDisplayName, Records.Word(weighing.Advice.Verdict),
            option is null ? "" : quote.Control.Name(weighing.Advice.Option),
            weighing.PresentCable.WorstEffortN is { HasLikely: true } now ? now.Likely : null,
            option?.WorstEffortN is { HasLikely: true } then ? then.Likely : null,
            option?.SavedN is { HasLikely: true } saved ? saved.Likely : null,
            option is null ? null : MoneyText.ToDecimal(option.Bill.Total),
            weighing.CurrencyCode,
            option is { HasMeetChance: true } ? option.MeetChance : null,
            problems,
        ];
    }
}
