using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>grades list and grades show.</summary>
internal static class GradeReading
{
    /// <summary>Makes grades list.</summary>
    public static Command MakeList(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        var choosing = new ListOptions("the grades");
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var command = new ExampledCommand(
            "list",
            "List the grades, all or those that match a filter.",
            "cablecatalog grades list",
            "cablecatalog grades list --filter \"price.base < 90 AND rated_pull_n:*\" --order-by friction.likely",
            "cablecatalog grades list --filter \"display_name:stone OR coefficient_basis = MEASURED\"",
            "cablecatalog grades list --output csv > grades.csv")
        {
            choosing.Filter, choosing.OrderBy, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using Connection connection = await choice.ConnectAsync(parsed);
            ListGradesResponse all = await connection.AllGradesAsync(
                cancellation, choosing.FilterOf(parsed), choosing.OrderOf(parsed));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                all,
                writer => GradeCsv.Write(writer, all.Grades),
                console => choosing.Draw(
                    console, parsed, all.Grades.Count, () => GradeTables.DrawList(console, all.Grades, options.Figures(parsed))));
            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>Makes grades show.</summary>
    public static Command MakeShow(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> id = GradesCommand.IdArgument();
        Option<string> output = CommonOptions.Output("table", "json");
        var command = new ExampledCommand(
            "show",
            "Show everything about one grade.",
            "cablecatalog grades show marble",
            "cablecatalog grades show marble --units si")
        {
            id, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new GetGradeRequest { Name = GradesCommand.Name(parsed.GetRequiredValue(id)) };
            Grade grade = await connection.CallAsync(o => connection.Grades.GetGradeAsync(request, o), cancellation);
            if (CommonOptions.Format(parsed, output) == OutputFormat.Json)
            {
                terminal.Out.WriteLine(ProtoJson.Write(grade));
            }
            else
            {
                terminal.Draw(console => GradeTables.DrawOne(console, grade, options.Figures(parsed)));
            }

            return (int)ExitCode.Success;
        });
        return command;
    }
}
