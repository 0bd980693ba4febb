using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>grades add, grades edit and grades remove.</summary>
internal static class GradeChanging
{
    /// <summary>Makes grades add.</summary>
    public static Command MakeAdd(CatalogChoice choice, Terminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = "YAML or JSON file with one new grade; - reads standard input" };
        Option<string> output = CommonOptions.Output("table", "json");
        var command = new ExampledCommand(
            "add", "Add one grade; its id must be new.", "cablecatalog grades add granite.yaml")
        {
            file, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            GradeDocument document = GradeFiles.ReadGrades(parsed.GetRequiredValue(file));
            if (document.Grades is not [GradeEntry entry])
            {
                throw new ClientFailure(
                    ExitCode.BadInput,
                    $"{parsed.GetRequiredValue(file)}: one grade is expected, found {document.Grades.Count}; "
                        + "use grades import for many.");
            }

            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new CreateGradeRequest { GradeId = entry.Id, Grade = entry.Grade };
            Grade added = await connection.CallAsync(
                o => connection.Grades.CreateGradeAsync(request, o), cancellation, PlaceIn(entry.Sources));
            Report(terminal, CommonOptions.Format(parsed, output), added, $"Added {GradeTables.Id(added)}.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>Makes grades edit.</summary>
    public static Command MakeEdit(CatalogChoice choice, Terminal terminal)
    {
        Argument<string> id = GradesCommand.IdArgument();
        var changes = new Argument<string[]>("KEY=VALUE")
        {
            Description = "What to change, with the keys of grade files, "
                + "such as \"friction.likely=0.07\" or \"rated pull=180 lbf\"",
            Arity = ArgumentArity.ZeroOrMore,
        };
        var file = new Option<string?>("--file") { Description = "Take the changes from a YAML or JSON file", HelpName = "FILE" };
        Option<string?> etag = GradesCommand.ETagOption();
        Option<string> output = CommonOptions.Output("table", "json");
        var command = new ExampledCommand(
            "edit",
            "Change some of a grade; the rest stays.",
            "cablecatalog grades edit marble \"price.base=58.00 USD\" \"price.date=2026-12-01\"",
            "cablecatalog grades edit marble --file changes.yaml")
        {
            id, changes, file, etag, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string grade = GradeName.ToId(GradesCommand.Name(parsed.GetRequiredValue(id)));
            GradeEdit edit = ReadEdit(parsed.GetValue(changes) ?? [], parsed.GetValue(file));
            if (edit.Id is not null && edit.Id != grade)
            {
                throw new ClientFailure(
                    ExitCode.BadInput, $"The changes are for {edit.Id}, the command is for {grade}; an id cannot be changed.");
            }

            await using Connection connection = await choice.ConnectAsync(parsed);
            Grade changed = edit.Grade.Clone();
            changed.Name = GradeName.FromId(grade);
            changed.Etag = parsed.GetValue(etag) ?? "";
            var request = new UpdateGradeRequest { Grade = changed, UpdateMask = edit.Mask };
            Grade updated = await connection.CallAsync(
                o => connection.Grades.UpdateGradeAsync(request, o), cancellation, PlaceIn(edit.Sources));
            Report(
                terminal,
                CommonOptions.Format(parsed, output),
                updated,
                $"Changed {GradeTables.Id(updated)}; its etag is now {updated.Etag}.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>Makes grades remove.</summary>
    public static Command MakeRemove(CatalogChoice choice, Terminal terminal)
    {
        Argument<string> id = GradesCommand.IdArgument();
        Option<string?> etag = GradesCommand.ETagOption();
        var command = new ExampledCommand("remove", "Remove a grade.", "cablecatalog grades remove cobble")
        {
            id, etag,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new DeleteGradeRequest
            {
                Name = GradesCommand.Name(parsed.GetRequiredValue(id)),
                Etag = parsed.GetValue(etag) ?? "",
            };
            await connection.CallAsync(o => connection.Grades.DeleteGradeAsync(request, o), cancellation);
            terminal.Out.WriteLine($"Removed {GradeName.ToId(request.Name)}.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    // A script gets the grade as it now is, with its etag; a person gets a sentence.
    private static void Report(Terminal terminal, OutputFormat format, Grade grade, string sentence) =>
        terminal.Out.WriteLine(format == OutputFormat.Json ? ProtoJson.Write(grade) : sentence);

    private static GradeEdit ReadEdit(string[] changes, string? file)
    {
        if (changes.Length > 0 == file is not null)
        {
            throw new ClientFailure(ExitCode.BadInput, "Give what to change either as KEY=VALUE or with --file.");
        }

        FileResult<GradeEdit> read = file is not null ? GradeEdit.Read(file) : GradeEdit.FromAssignments("command line", changes);
        return read.Value ?? throw ClientFailure.Of(read.Problems);
    }

    private static Func<string, SourceMark?> PlaceIn(SourceMap sources)
    {
        const string Root = "grade.";
        return field => field == "grade_id" ? sources.Find(field)
            : field.StartsWith(Root, StringComparison.Ordinal) ? sources.Find(field[Root.Length..])
            : null;
    }
}
