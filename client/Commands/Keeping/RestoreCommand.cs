using System.CommandLine;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Catalog.Storage.Postgres;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Commands;

/// <summary>restore: a catalogue from a backup, in a file or a database that has none.</summary>
internal static class RestoreCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CatalogChoice choice, Terminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = "The backup, or a published copy of a catalogue" };
        var command = new ExampledCommand(
            "restore",
            "Make a catalogue from a backup, in a file or a database where there is none.",
            "cablecatalog restore monday.backup --catalog shop.db",
            "cablecatalog restore monday.backup --catalog \"Host=db.example;Database=cables;Username=shop\"")
        {
            file,
        };
        command.SetAction(parsed =>
        {
            choice.RequireHere(parsed, "restore makes the catalogue in a file or a database, not over a service");
            CatalogContents contents = Read(parsed.GetRequiredValue(file));
            using ICatalogStore store = Restore(choice.Place(parsed), contents);
            terminal.Out.WriteLine(
                $"Restored revision {store.Current.Revision} with {Wording.Grades(store.Current.Count)} and "
                    + $"{contents.Journal.Count} entries of history: {choice.PlaceInWords(parsed)}.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static CatalogContents Read(string path)
    {
        try
        {
            // What comes out of a pipe can be read only once.
            using FileStream file = File.OpenRead(path);
            using Stream text = file.CanSeek ? file : new MemoryStream();
            if (!file.CanSeek)
            {
                file.CopyTo(text);
                text.Position = 0;
            }

            return CatalogBackup.Read(path, text);
        }
        catch (CatalogStoreException failure)
        {
            throw new ClientFailure(ExitCode.Refused, failure.Message);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new ClientFailure(ExitCode.BadInput, $"{path} cannot be read: {failure.Message}");
        }
    }

    private static ICatalogStore Restore(string place, CatalogContents contents)
    {
        try
        {
            return PostgresCatalogStore.IsConnectionString(place)
                ? PostgresCatalogStore.Restore(place, contents, TimeProvider.System)
                : LiteCatalogStore.Restore(place, contents, "the command line", TimeProvider.System);
        }
        catch (CatalogStoreException failure)
        {
            throw new ClientFailure(ExitCode.Refused, failure.Message);
        }
    }
}
