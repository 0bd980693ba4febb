using System.Text.RegularExpressions;
using CableCatalog.V1;
using Google.Protobuf;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>keys, history, watch, backup and restore; and serve over TLS.</summary>
public sealed class KeepingTests(ServedCatalog served) : IClassFixture<ServedCatalog>, IDisposable
{
    private readonly Workplace _workplace = new();

    public void Dispose() => _workplace.Dispose();

    [Fact]
    public async Task A_key_is_shown_once_and_then_only_as_a_row()
    {
        Ran made = await _workplace.RunAsync("keys", "create", "till", "--role", "price-editor", "--for", "Front desk", "--expires", "2091-12-31");
        Ran list = await _workplace.RunAsync("keys", "list");
        Ran json = await _workplace.RunAsync("keys", "list", "--output", "json");

        Assert.Equal(0, made.Code);
        Assert.Matches("^till\\.[A-Za-z0-9_-]{43}\n$", made.Out);
        Assert.Equal("Made the key till: price editor, until 2092-01-01 00:00 UTC. This is the only time it is shown:\n", made.Error);
        Assert.Contains("till Front desk price editor", list.Result, StringComparison.Ordinal);
        string secret = made.Out.Trim()["till.".Length..];
        Assert.DoesNotContain(secret, list.Result + json.Result, StringComparison.Ordinal);
        AccessKey key = Assert.Single(JsonParser.Default.Parse<ListAccessKeysResponse>(json.Result).AccessKeys);
        Assert.Equal((AccessRole.PriceEditor, true), (key.Role, key.Good));
    }

    [Theory]
    [InlineData("keys create till --role boss", "--role boss: reader, price-editor or administrator is expected.\nSee: cablecatalog keys create --help")]
    [InlineData("keys create Till --role reader", "\"Till\" is not a key's name (a lower-case letter, then lower-case letters, digits and hyphens, 63 characters at most); keys list shows those there are.")]
    [InlineData("keys create till --role reader --expires soon", "--expires \"soon\" is not a day; write it as 2027-12-31 (year-month-day).")]
    [InlineData("keys create till --role reader --expires 2020-01-01", "--expires must be in the future")]
    [InlineData("history --grade marble --prices autumn", "--grade and --prices exclude each other; give one of them.")]
    [InlineData("watch", "A catalogue in a file tells nobody of its changes; name the service that runs on it with --server.")]
    [InlineData("serve --listen everywhere", "--listen everywhere: an IP address such as 127.0.0.1 or 0.0.0.0 is expected.")]
    [InlineData("serve --certificate-key x.key", "--certificate-key is the key of --certificate; give both.")]
    public async Task What_is_wrong_is_said(string line, string message) =>
        (await _workplace.RunAsync(line.Split(' '))).MustFail(2, message);

    [Fact]
    public async Task A_name_is_not_given_twice_and_a_revoked_key_is_good_for_nothing()
    {
        await _workplace.RunAsync("keys", "create", "till", "--role", "reader");

        (await _workplace.RunAsync("keys", "create", "till", "--role", "reader"))
            .MustFail(4, "There is a key \"till\" already, good or not; choose another id.");
        Assert.Equal("Revoked the key till.\n", (await _workplace.RunAsync("keys", "revoke", "till")).Result);
        Assert.Contains("revoked 2", (await _workplace.RunAsync("keys", "list")).Result, StringComparison.Ordinal);
        (await _workplace.RunAsync("keys", "revoke", "other"))
            .MustFail(4, "The catalogue has no key \"other\"; list the keys to see which it has.");
    }

    [Fact]
    public async Task The_history_says_who_changed_which_price_from_what_to_what()
    {
        await _workplace.RunAsync("grades", "edit", "marble", "price.base=60.00 USD");
        await _workplace.RunAsync("grades", "edit", "marble", "friction=0.11");
        await _workplace.RunAsync("grades", "remove", "cobble");

        string[] rows = (await _workplace.RunAsync("history", "--output", "csv")).Result.TrimEnd().Split('\n');
        string table = (await _workplace.RunAsync("history", "--grade", "marble")).Result;

        string author = $"command line \\({Environment.UserName}\\)";
        Assert.Contains(rows, row => Regex.IsMatch(row.Trim(), $"^4,.*,{author},grades/cobble,removed,price.base,25,,USD$"));
        Assert.Contains(rows, row => Regex.IsMatch(row.Trim(), "^3,.*,grades/marble,updated,friction.high,0.15,0.11,$"));
        Assert.Matches("^2,.*,grades/marble,updated,price.base,79,60,USD$", rows[^1].Trim());
        Assert.Contains("price 91.00 + 3.81/ft to 72.00", table, StringComparison.Ordinal);
        Assert.Contains(" friction", table, StringComparison.Ordinal);
        Assert.DoesNotContain("cobble", table, StringComparison.Ordinal);
    }

    [Fact]
    public async Task History_says_what_a_price_list_charged_before_and_after()
    {
        string dearer = File.ReadAllText(Repository.At("catalog-demo", "prices", "autumn.csv"))
            .Replace("margin,marble,,18 %", "margin,marble,,35 %", StringComparison.Ordinal);
        await _workplace.RunAsync("prices", "import", "autumn", Repository.At("catalog-demo", "prices", "autumn.csv"));
        await _workplace.RunAsync("prices", "import", "autumn", _workplace.Write("dearer.csv", dearer), "--replace");

        string table = (await _workplace.RunAsync("history", "--prices", "autumn")).Result;
        string rows = (await _workplace.RunAsync("history", "--prices", "autumn", "--last", "1", "--output", "csv")).Result;

        Assert.Contains("grades[marble].margin 0.18 to", table, StringComparison.Ordinal);
        Assert.EndsWith(",priceLists/autumn,updated,grades[marble].margin,0.18,0.35,", rows.TrimEnd(), StringComparison.Ordinal);
        Assert.EndsWith(
            "There are older ones: --last shows more.\n",
            (await _workplace.RunAsync("history", "--prices", "autumn", "--last", "1")).Result,
            StringComparison.Ordinal);
    }

    // What base costs more, fittings cost less: the sum says nothing.
    [Fact]
    public async Task History_says_which_part_of_a_price_was_moved()
    {
        await _workplace.RunAsync("grades", "edit", "marble", "price.base=80.00 USD", "price.fittings=11.00 USD");

        Assert.Contains("price.base 79.00 to 80.00", (await _workplace.RunAsync("history")).Result, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_backup_is_for_its_owner_alone()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        await _workplace.RunAsync("backup", _workplace.At("monday.backup"));

        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(_workplace.At("monday.backup")));
    }

    [Fact]
    public async Task A_watch_ends_when_nobody_reads_it_any_more()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        string boss = _workplace.Write("boss.key", (await _workplace.RunAsync("keys", "create", "boss", "--role", "administrator")).Out);
        using Served serve = await Served.StartAsync(_workplace.Catalog);
        using ChildProcess watch = ChildProcess.Start(new Dictionary<string, string>(), "watch", "--server", serve.Address);
        Assert.Equal("Watching; Ctrl+C ends it.", await watch.ReadLineAsync());

        watch.StopReading();
        await Workplace.RunBareAsync("grades", "remove", "slate", "--server", serve.Address, "--key-file", boss);

        Assert.Equal(0, await watch.CodeAsync());
    }

    [Fact]
    public async Task A_backup_restores_all_of_the_catalogue_somewhere_else()
    {
        await _workplace.RunAsync("keys", "create", "till", "--role", "reader");
        await _workplace.RunAsync("grades", "remove", "cobble");
        string backup = _workplace.At("monday.backup");
        string other = _workplace.At("other.db");

        Ran written = await _workplace.RunAsync("backup", backup);
        Ran restored = await Workplace.RunBareAsync("restore", backup, "--catalog", other);

        Assert.Equal($"Wrote {backup}: revision 3 with 10 grades and 2 entries of history, checked.\n", written.Result);
        Assert.Equal($"Restored revision 3 with 10 grades and 2 entries of history: {other}.\n", restored.Result);
        foreach (string[] command in new string[][] { ["grades", "list", "--output", "json"], ["keys", "list"], ["history"] })
        {
            Assert.Equal(
                (await _workplace.RunAsync(command)).Result,
                (await Workplace.RunBareAsync([.. command, "--catalog", other])).Result);
        }

        (await _workplace.RunAsync("backup", backup)).MustFail(4, $"{backup} exists; choose another name, or add --overwrite.");
        (await Workplace.RunBareAsync("restore", backup, "--catalog", other))
            .MustFail(4, $"A new catalogue cannot be made at {other}: {other}, {other}.snapshot are there. Nothing has been changed. Choose another path, or move them aside.");
        File.WriteAllText(backup, File.ReadAllText(backup).Replace("Marble", "Marvel", StringComparison.Ordinal));
        (await Workplace.RunBareAsync("restore", backup, "--catalog", _workplace.At("third.db")))
            .MustFail(4, $"The backup {backup} cannot be used: its text does not match its checksum. Nothing has been changed. Use another backup.");
    }

    [Fact]
    public async Task Nothing_is_restored_over_a_service()
    {
        string backup = _workplace.At("monday.backup");
        await _workplace.RunAsync("backup", backup);
        const string Why = "restore makes the catalogue in a file or a database, not over a service";

        (await Workplace.RunBareAsync("restore", backup, "--server", served.Address)).MustFail(
            2, $"{served.Address}: {Why}. Leave out --server (or CABLECATALOG_SERVER) and name the place with --catalog.");
        (await Workplace.RunBareAsync("restore", backup, "--catalog", _workplace.At("other.db"), "--create-catalog", "demo"))
            .MustFail(2, $"--create-catalog has no meaning here: {Why}. Leave it out.");
        Assert.False(File.Exists(_workplace.At("other.db")));
    }

    [Fact]
    public async Task Without_a_key_a_service_is_read_and_not_written()
    {
        Ran refused = await Workplace.RunBareAsync("grades", "remove", "cobble", "--server", served.Address);
        Ran wrong = await Workplace.RunWithAsync(
            new Dictionary<string, string> { ["CABLECATALOG_KEY"] = "till.abc" }, "grades", "list", "--server", served.Address);

        Assert.Equal(0, (await Workplace.RunBareAsync("grades", "list", "--server", served.Address)).Code);
        refused.MustFail(
            4,
            $"The server at {served.Address} does not let this in: This call needs a key: send the metadata \"authorization: Bearer KEY\". "
                + "Here a key goes into a file for --key-file, or into the variable CABLECATALOG_KEY.");
        wrong.MustFail(
            4,
            $"The server at {served.Address} does not let this in: The key is none of this catalogue's: check it, or ask an administrator for one. "
                + "Here a key goes into a file for --key-file, or into the variable CABLECATALOG_KEY.");
        (await Workplace.RunWithAsync(
            new Dictionary<string, string> { ["CABLECATALOG_KEY"] = "my secret word" }, "grades", "list", "--server", served.Address))
            .MustFail(2, "CABLECATALOG_KEY: one line with a key as keys create shows it is expected.");
    }

    [Fact]
    public async Task Beyond_this_machine_nothing_is_opened_that_was_not_asked_for_in_so_many_words()
    {
        Ran clear = await _workplace.RunAsync("serve", "--listen", "0.0.0.0", "--port", "0");
        Ran keyless = await _workplace.RunAsync("serve", "--listen", "0.0.0.0", "--port", "0", "--listen-beyond-this-machine-without-tls");

        clear.MustFail(
            4,
            "--listen 0.0.0.0 is reached from other machines, and without TLS anybody between can read keys and prices. "
                + "Give a --certificate, or say --listen-beyond-this-machine-without-tls.");
        keyless.MustFail(
            4,
            "--listen 0.0.0.0 is reached from other machines, and there is no key to let anybody in with. "
                + "Make one first (cablecatalog keys create), or say --listen-beyond-this-machine-without-keys.");
    }

    [Fact]
    public async Task Over_TLS_a_service_is_called_with_its_certificate_trusted_and_a_key_from_a_file_and_watched()
    {
        string certificate = _workplace.At("shop.pem");
        string key = _workplace.At("shop.key");
        TestCertificates.SelfSigned().Write(certificate, key);
        string boss = _workplace.Write("boss.key", (await _workplace.RunAsync("keys", "create", "boss", "--role", "administrator")).Out);
        using Served serve = await Served.StartAsync(
            _workplace.Catalog, "--require-keys", "--certificate", certificate, "--certificate-key", key);
        string address = serve.Address.Replace("127.0.0.1", "localhost", StringComparison.Ordinal);
        Assert.StartsWith("https://", address, StringComparison.Ordinal);
        string[] trusting = ["--server", address, "--trust", certificate];
        string[] known = [.. trusting, "--key-file", boss];

        Assert.Equal(4, (await Workplace.RunBareAsync(["grades", "list", .. trusting])).Code);
        (await Workplace.RunBareAsync("grades", "list", "--server", address, "--key-file", boss)).MustFail(
            3,
            $"The server at {address} has no certificate that this computer trusts, or speaks no TLS; give its certificate with --trust, "
                + "or its address with http:// where it runs without one.");
        Assert.Equal(0, (await Workplace.RunBareAsync(["grades", "list", .. known])).Code);
        using ChildProcess watch = ChildProcess.Start(new Dictionary<string, string>(), ["watch", .. known]);
        Assert.Equal("Watching; Ctrl+C ends it.", await watch.ReadLineAsync());
        Assert.Equal(0, (await Workplace.RunBareAsync(["grades", "edit", "marble", "price.base=60.00 USD", .. known])).Code);
        Assert.EndsWith("r3  grades/marble  price 91.00 + 3.81/ft to 72.00 + 3.81/ft", await watch.ReadLineAsync(), StringComparison.Ordinal);
        Assert.Matches(" boss +grades/marble +price", (await Workplace.RunBareAsync(["history", .. known])).Result);
        Assert.Equal(0, (await Workplace.RunBareAsync(["backup", _workplace.At("b"), .. known])).Code);
        Assert.Equal(0, (await watch.TerminateAsync()).Code);
        Assert.Equal(0, (await serve.Process.TerminateAsync()).Code);
    }
}
