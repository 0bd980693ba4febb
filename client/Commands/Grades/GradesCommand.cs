using System.CommandLine;
using CableCatalog.Client.Connections;
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
}
