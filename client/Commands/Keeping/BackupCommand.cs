using System.CommandLine;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>backup: all of a catalogue into one checked file, while it is in use.</summary>
internal static class BackupCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CatalogChoice choice, Terminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = "Where to write it" };
        var overwrite = new Option<bool>("--overwrite") { Description = "Replace the file where it exists" };
        var command = new ExampledCommand(
            "backup",
            "Write all of the catalogue with its history, price lists and keys (as hashes) to a file, while it is in use.",
            "cablecatalog backup monday.backup",
            "cablecatalog backup monday.backup --server https://shop.example:7420 --key-file boss.key")
        {
            file, overwrite,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string path = parsed.GetRequiredValue(file);
            OutputFile.MustBeFree(path, parsed.GetValue(overwrite));
            await using Connection connection = await choice.ConnectAsync(parsed);
            CatalogContents written = await WriteAsync(connection, path, cancellation);
            terminal.Out.WriteLine(
                $"Wrote {path}: revision {written.Catalog.Revision} with {Wording.Grades(written.Catalog.Count)} and "
                    + $"{written.Journal.Count} entries of history, checked.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    // Beside the file first, checked and on disk, so that a failure leaves whatever was there.
    private static async Task<CatalogContents> WriteAsync(Connection connection, string path, CancellationToken cancellation)
    {
        string beside = path + ".part";
        bool isOurs = false;
        try
        {
            CatalogContents contents;
            await using (FileStream text = OpenPrivate(beside))
            {
                isOurs = true;
                await foreach (BackUpCatalogResponse piece in connection.StreamAsync(
                    o => connection.Backups.BackUpCatalog(new BackUpCatalogRequest(), o), cancellation))
                {
                    text.Write(piece.Text.Span);
                }

                text.Position = 0;
                contents = CatalogBackup.Read(path, text);
                CatalogBackup.Flush(text);
            }

            CatalogBackup.Keep(beside, path);
            return contents;
        }
        catch (CatalogStoreException failure)
        {
            throw new ClientFailure(ExitCode.Refused, failure.Message);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new ClientFailure(ExitCode.Refused, $"{path} cannot be written: {failure.Message}");
        }
        finally
        {
            if (isOurs)
            {
                File.Delete(beside);
            }
        }
    }

    // For this user alone: a dealer's prices and the hashes of keys are in it.
    private static FileStream OpenPrivate(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.ReadWrite };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        return new FileStream(path, options);
    }
}
