using System.CommandLine;
using CableCatalog.Catalog.Grades;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Client.Commands;

/// <summary>keys: who may call the service, and for what.</summary>
internal static class KeysCommand
{
    private static readonly Dictionary<string, AccessRole> Roles = new()
    {
        ["reader"] = AccessRole.Reader,
        ["price-editor"] = AccessRole.PriceEditor,
        ["administrator"] = AccessRole.Administrator,
    };

    /// <summary>Makes the command and those under it.</summary>
    public static Command Make(CatalogChoice choice, Terminal terminal) => new ExampledCommand(
        "keys",
        "See, make and revoke the keys to the service.",
        "cablecatalog keys list",
        "cablecatalog keys create till --role price-editor --for \"Front desk\" --expires 2027-12-31",
        "cablecatalog keys revoke till")
    {
        MakeList(choice, terminal),
        MakeCreate(choice, terminal),
        MakeRevoke(choice, terminal),
    };

    private static Command MakeList(CatalogChoice choice, Terminal terminal)
    {
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var command = new ExampledCommand("list", "List the keys; the keys themselves are not kept.", "cablecatalog keys list")
        {
            output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using Connection connection = await choice.ConnectAsync(parsed);
            ListAccessKeysResponse all = await connection.AllPagesAsync<ListAccessKeysResponse>(
                (all, o) => connection.Keys.ListAccessKeysAsync(
                    new ListAccessKeysRequest { PageSize = Connection.MostOnAPage, PageToken = all.NextPageToken }, o),
                cancellation);
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                all,
                writer => KeySheet.Write(writer, all.AccessKeys),
                console => KeySheet.Draw(console, all.AccessKeys));
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Command MakeCreate(CatalogChoice choice, Terminal terminal)
    {
        var name = new Argument<string>("NAME") { Description = "What to call the key, in the history too: letters, digits and hyphens" };
        Option<string> role = new Option<string>("--role")
        {
            Description = "What it is good for; each may do what those before it may",
            HelpName = string.Join('|', Roles.Keys),
            Required = true,
        }.OneOf([.. Roles.Keys]);
        var displayName = new Option<string?>("--for") { Description = "Whom it is for, in plain words", HelpName = "TEXT" };
        var expires = new Option<string?>("--expires") { Description = "Its last day (UTC); without it, it does not expire", HelpName = "DAY" };
        var command = new ExampledCommand(
            "create",
            "Make a key. It is shown once, on standard output, and cannot be shown again.",
            "cablecatalog keys create boss --role administrator",
            "cablecatalog keys create till --role price-editor --expires 2027-12-31 > till.key")
        {
            name, role, displayName, expires,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string id = parsed.GetRequiredValue(name);
            var request = new CreateAccessKeyRequest
            {
                AccessKeyId = IdOf(id),
                AccessKey = new AccessKey
                {
                    DisplayName = parsed.GetValue(displayName) ?? id,
                    Role = Roles[parsed.GetRequiredValue(role)],
                    ExpireTime = parsed.GetValue(expires) is { } day ? EndOf(day) : null,
                },
            };
            await using Connection connection = await choice.ConnectAsync(parsed);
            CreateAccessKeyResponse made =
                await connection.CallAsync(o => connection.Keys.CreateAccessKeyAsync(request, o), cancellation);
            terminal.Error.WriteLine(
                $"Made the key {id}: {KeySheet.InWords(made.AccessKey.Role)}, {KeySheet.Until(made.AccessKey)}. This is the only time it is shown:");
            terminal.Out.WriteLine(made.Key);
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Command MakeRevoke(CatalogChoice choice, Terminal terminal)
    {
        var name = new Argument<string>("NAME") { Description = "The key, as keys list shows it" };
        var command = new ExampledCommand(
            "revoke", "Make a key good for nothing, at once and for ever.", "cablecatalog keys revoke till")
        {
            name,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string id = IdOf(parsed.GetRequiredValue(name));
            var request = new RevokeAccessKeyRequest { Name = KeySheet.Collection + id };
            await using Connection connection = await choice.ConnectAsync(parsed);
            await connection.CallAsync(o => connection.Keys.RevokeAccessKeyAsync(request, o), cancellation);
            terminal.Out.WriteLine($"Revoked the key {id}.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static string IdOf(string text) => GradeId.IsValid(text)
        ? text
        : throw new ClientFailure(
            ExitCode.BadInput, $"\"{Wording.Shown(text)}\" is not a key's name ({GradeId.InWords}); keys list shows those there are.");

    // The last day is good to its end.
    private static Timestamp EndOf(string day) => DateText.Parse(day) is { } date
        ? Timestamp.FromDateTime(new DateTime(date.Year, date.Month, date.Day, 0, 0, 0, DateTimeKind.Utc).AddDays(1))
        : throw new ClientFailure(
            ExitCode.BadInput, $"--expires \"{Wording.Shown(day)}\" is not a day; write it as 2027-12-31 (year-month-day).");
}
