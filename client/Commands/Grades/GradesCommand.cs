using System.CommandLine;
using CableCatalog.Catalog.Grades;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
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

    /// <summary>The name in the contract of a grade that a person named by its id.</summary>
    /// <exception cref="ClientFailure">It is no id.</exception>
    public static string Name(string id)
    {
        string name = GradeName.FromId(id);
        return GradeId.IsValid(GradeName.ToId(name))
            ? name
            : throw new ClientFailure(
                ExitCode.BadInput, $"\"{id}\" is not a grade's id ({GradeId.InWords}); grades list shows those there are.");
    }

    /// <summary>--etag, for a change that must not overwrite another.</summary>
    public static Option<string?> ETagOption() => new("--etag")
    {
        Description = "Refuse if the grade is no longer the one that grades show gave this etag for",
        HelpName = "ETAG",
    };

    /// <summary>One grade's id.</summary>
    public static Argument<string> IdArgument() => new("ID") { Description = "The grade's id, as grades list shows it" };
}
