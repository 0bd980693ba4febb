using CableCatalog.Client.Files;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Grades by routes: what each grade takes along each route in the worst load case, and at the floor.</summary>
internal sealed class GradesByRoutesTable(RouteStudy study, Figures figures)
{
    // More columns than this do not fit a page.
    private const int MostRoutes = 4;

    private readonly StudyRoutesResponse _answer = study.Answer;

    /// <summary>Draws it, in as many tables as the routes need, with why grades do not fit below.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine(
            $"Effort at the grip in the worst load case, {figures.ForceUnit} (low to high), by grade and route"
                + (study.Installation.HasEffortLimitN ? $"; your limit is {figures.Force(study.Installation.EffortLimitN)}" : ""));
        foreach (int[] routes in Enumerable.Range(0, _answer.Routes.Count).Chunk(MostRoutes))
        {
            console.Write(Rows(new TableMaker(console), routes));
        }

        console.WriteLine(
            "* the route on which the grade takes least."
                + (_answer.Floor is { } floor ? $" Floor: no route {RouteWords.BetweenEnds(floor)} can beat it." : ""));
        if (_answer.NextPageToken.Length > 0)
        {
            console.WriteLine(
                $"The best {_answer.Grades.Count} of {_answer.TotalSize} grades; "
                    + $"--top {Math.Min(_answer.TotalSize, 1000)} shows {(_answer.TotalSize > 1000 ? "more" : "all")}.");
        }

        Paragraphs.List(console, "Does not fit:", Misfits());
    }

    private Table Rows(TableMaker table, int[] routes)
    {
        table.Names("Grade", _answer.Grades.Select(grade => GradeName.ToId(grade.Grade)));
        foreach (int route in routes)
        {
            table.Numbers(Heading(RouteWords.Name(_answer, route)));
        }

        if (_answer.Floor is not null)
        {
            table.Numbers("Floor");
        }

        table.Table.AddRow(
        [
            new Text("present"),
            .. routes.Select(route => new Text(RiggingWords.Band(
                _answer.Routes[route].PresentCable.CaseEfforts.Count > 0 ? _answer.Routes[route].PresentCable.WorstEffortN : null,
                "\n",
                figures))),
            .. Floor(_answer.Floor?.PresentCableEffortN),
        ]);
        foreach (GradeOnRoutes grade in _answer.Grades)
        {
            table.Table.AddRow(
            [
                new Text(GradeName.ToId(grade.Grade)),
                .. routes.Select(route => new Text(
                    (grade.HasBestRoute && grade.BestRoute == route ? "* " : "") + RouteWords.Effort(grade.Scores[route], "\n", figures),
                    new Style(decoration: grade.Scores[route].Fits ? Decoration.None : Decoration.Dim))),
                .. Floor(grade.FloorEffortN),
            ]);
        }

        return table.Table;
    }

    private IEnumerable<Text> Floor(ForceBand? effortN) =>
        _answer.Floor is null ? [] : [new Text(RiggingWords.Band(effortN, "\n", figures))];

    /// <summary>Why grades do not fit; what is wrong along every route is said once.</summary>
    public IEnumerable<string> Misfits() =>
        from grade in _answer.Grades
        from reason in grade.Scores.Index()
            .SelectMany(score => score.Item.FitProblems.Select(problem => (Text: FitWords.Of(problem, figures), Route: score.Index)))
            .GroupBy(problem => problem.Text, problem => problem.Route + 1)
        let along = reason.Distinct().Count() == _answer.Routes.Count ? "" : $" (route {string.Join(", ", reason.Distinct())})"
        select $"{GradeName.ToId(grade.Grade)}{along}: {reason.Key}";

    // A long name takes more lines rather than a wider column: cut short, two routes may look the same.
    private static string Heading(string name)
    {
        const int Longest = 16;
        var lines = new List<string> { "" };
        foreach (string word in name.Split(' ').SelectMany(word => word.Chunk(Longest).Select(part => new string(part))))
        {
            if (lines[^1].Length == 0)
            {
                lines[^1] = word;
            }
            else if (lines[^1].Length + 1 + word.Length <= Longest)
            {
                lines[^1] += $" {word}";
            }
            else
            {
                lines.Add(word);
            }
        }

        return string.Join('\n', lines).EscapeMarkup();
    }
}
