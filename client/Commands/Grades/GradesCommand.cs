using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Commands;

/// <summary>grades: the catalogue itself.</summary>
internal static class GradesCommand
{
    /// <summary>Makes the command and those under it.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal) => new ExampledCommand(
        "grades",
        "See and change the grades of the catalogue.",
        "cablecatalog grades list",
        "cablecatalog grades show marble",
        "cablecatalog grades import my-grades.yaml")
    {
        GradeReading.MakeList(options, choice, terminal),
        GradeReading.MakeShow(options, choice, terminal),
        GradeChanging.MakeAdd(choice, terminal),
        GradeChanging.MakeEdit(choice, terminal),
        GradeChanging.MakeRemove(choice, terminal),
        GradeFiles.MakeImport(choice, terminal),
        GradeFiles.MakeExport(choice, terminal),
    };

    /// <summary>One grade's id.</summary>
    public static Argument<string> IdArgument() => new("ID") { Description = "The grade's id, as grades list shows it" };

    /// <summary>From the field of a request that holds a grade's id to where the person gave it.</summary>
    /// <param name="field">The field's path.</param>
    /// <param name="given">The argument or the option.</param>
    /// <param name="id">The id as given.</param>
    public static Func<string, SourceMark?> PlaceOfId(string field, string given, string id) =>
        wrong => wrong == field ? new SourceMark("command line", default, given, id) : null;
}
