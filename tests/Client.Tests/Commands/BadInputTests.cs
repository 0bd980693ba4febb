namespace CableCatalog.Client.Tests.Commands;

/// <summary>Slips of people: one clear message each, no result, and the catalogue as it was.</summary>
public sealed class BadInputTests : IDisposable
{
    private readonly Workplace _workplace = new();
    private readonly string[] _before;

    public BadInputTests() => _before = _workplace.Fingerprint();

    public void Dispose()
    {
        Assert.Equal(_before, _workplace.Fingerprint());
        _workplace.Dispose();
    }

    [Theory]
    // The place is that of the value in the file, counted by hand.
    [InlineData("crank radius: 3 in", "crnk radius: 3 in", "7:3: \"crnk radius\" is not known here; did you mean \"crank radius\"?")]
    [InlineData("effort limit", "efort limit", "39:1: \"efort limit\" is not known here; did you mean \"effort limit\"?")]
    [InlineData("force: 17 lbf", "force: -17 lbf", "36:44: force: -17 lbf: must be 0 to 100000 N (22480 lbf); a load that assists is entered as 0")]
    [InlineData("force: 17 lbf", "force: .nan", "36:44: force: .nan is not a finite number")]
    [InlineData("force: 17 lbf", "force: .inf lbf", "36:44: force: .inf lbf is not a finite number")]
    [InlineData("force: 17 lbf", "force: 1e400 lbf", "36:44: force: 1e400 lbf is too large a number")]
    [InlineData("force: 17 lbf", "force: 17", "36:44: force: 17 has no unit; write for example 17 lbf or 76 N")]
    [InlineData("force: 17 lbf", "force: 17 lb", "36:44: force: 17 lb is not a force with a known unit (did you mean lbf?); expected one number and one of lbf, ozf, kgf, N or kN")]
    [InlineData("bend: 60 deg", "bend: 4000 deg", "19:11: bend: 4000 deg: must be 0.06 to 1080 deg (0.001 to 18.85 rad)")]
    [InlineData("bend: 60 deg", "bend: 0 deg", "19:11: bend: 0 deg: must be 0.06 to 1080 deg (0.001 to 18.85 rad)")]
    [InlineData("straight: 5 ft", "straight: 5000 ft", "21:15: straight: 5000 ft: must be 0.001 to 100 m (0.04 in to 328 ft)")]
    [InlineData("grip radius: 14 in", "grip radius: 14 ft", "6:16: grip radius: 14 ft: must be 0.005 to 2 m (0.2 in to 78 in)")]
    [InlineData("friction: 0.17", "friction: 1.7", "38:28: friction: 1.7: must be 0 to 1 (a ratio, without unit)")]
    [InlineData("friction: 0.17", "grade: flint", "38:25: grade: flint: must be a grade of this catalogue, which has no \"flint\"; list the grades to see which it has")]
    [InlineData("friction: 0.17", "measured effort: 38 lbf", "38:35: measured effort: 38 lbf: must be the name of one of the loads: the one it was measured in")]
    [InlineData("low: 0.5 deg/ft", "low: 5 deg/ft", "12:15: route wobble: must have low <= likely <= high")]
    [InlineData("name: lower", "name: raise", "37:13: name: raise: must differ from the names of the other loads")]
    [InlineData("sweep: 70 deg", "sweep: 140 deg", "8:10: sweep: 140 deg: must end within 90 deg of where the crank is perpendicular to the cable")]
    public async Task A_slip_in_a_value_is_answered_with_its_place(string written, string slip, string message)
    {
        string file = Spoilt(text => text.Replace(written, slip, StringComparison.Ordinal));

        Ran ran = await _workplace.RunAsync("compare", file);

        Remove(file);
        ran.MustFail(2, $"{file}:{message}");
    }

    [Fact]
    public async Task A_missing_section_is_named_with_an_example()
    {
        string file = Spoilt(text => string.Join(
            '\n', text.Split('\n').Where(line => !line.StartsWith("arm:", StringComparison.Ordinal))));

        Ran ran = await _workplace.RunAsync("compare", file);

        Remove(file);
        ran.MustFail(
            2,
            $"{file}:4:1: \"arm\" is missing (the arm that the cable drives); "
                + "add for example \"arm: { load radius: 9 in, hole radius: 3 in }\"");
    }

    [Fact]
    public async Task An_empty_route_is_refused()
    {
        string file = Spoilt(text => text[..text.IndexOf("route:  ", StringComparison.Ordinal)] + "route: []\n"
            + text[text.IndexOf("end allowance", StringComparison.Ordinal)..]);

        Ran ran = await _workplace.RunAsync("compare", file);

        Remove(file);
        ran.MustFail(2, $"{file}:13:8: route: must be 1 to 200 straights and bends");
    }

    [Fact]
    public async Task A_file_that_breaks_off_is_refused()
    {
        string file = Spoilt(text => text[..(text.IndexOf("name: lower", StringComparison.Ordinal) + 30)]);

        Ran ran = await _workplace.RunAsync("compare", file);

        Remove(file);
        // The end of the file, where the closing bracket is missing.
        ran.MustFail(
            2,
            $"{file}:38:1: the file cannot be read from here on; check for a missing \":\", \"-\", quote or bracket "
                + "and that the line starts under the one it belongs with");
    }

    [Fact]
    public async Task An_empty_file_is_refused()
    {
        string file = _workplace.Write("empty.yaml", "# nothing\n");

        Ran ran = await _workplace.RunAsync("compare", file);

        Remove(file);
        ran.MustFail(2, $"{file}: the file is empty");
    }

    [Theory]
    [InlineData(new byte[] { 0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A })]
    [InlineData(new byte[] { 0x6E, 0x00, 0x61, 0x00 })]
    public async Task A_file_that_is_not_text_is_refused(byte[] bytes)
    {
        string file = _workplace.At("picture.yaml");
        await File.WriteAllBytesAsync(file, bytes);

        Ran ran = await _workplace.RunAsync("compare", file);

        Remove(file);
        ran.MustFail(2, $"{file}: this is not a file of plain text; save it as UTF-8 text");
    }

    [Theory]
    [InlineData("compare", "", "1 MiB")]
    [InlineData("grades", "add", "32 MiB")]
    [InlineData("grades", "import", "32 MiB")]
    public async Task A_file_of_50_MB_is_refused(string command, string sub, string most)
    {
        string file = _workplace.At("big.yaml");
        await using (FileStream big = File.Create(file))
        {
            big.SetLength(50_000_000);
        }

        Ran ran = await _workplace.RunAsync([command, .. sub.Length > 0 ? [sub] : Array.Empty<string>(), file]);

        Remove(file);
        ran.MustFail(2, $"{file}: the file is larger than {most}, so it is not what is expected here; check the name");
    }

    [Theory]
    [InlineData("compare", "{0}")]
    [InlineData("explain", "{0} --grade jade")]
    [InlineData("plan", "{0}")]
    [InlineData("diagnose", "{0}")]
    [InlineData("verify", "{0} tests.yaml")]
    [InlineData("grades add", "{0}")]
    [InlineData("grades import", "{0}")]
    [InlineData("grades edit", "jade --file {0}")]
    public async Task A_file_that_is_not_there_and_a_folder_are_refused(string command, string arguments)
    {
        foreach ((string name, string message) in new[]
        {
            ("none.yaml", "there is no such file; check the name and the folder"),
            ("", "this is a folder; name a file in it"),
        })
        {
            string file = _workplace.At(name);
            string[] words = [.. $"{command} {arguments}".Split(' ').Select(word => word == "{0}" ? file : word)];

            (await _workplace.RunAsync(words)).MustFail(2, $"{file}: {message}");
        }
    }

    [Fact]
    public async Task An_id_twice_in_a_file_is_refused()
    {
        const string Grade = """
              - id: granite
                name: Granite
                coefficients: assumed
                friction: 0.12
                minimum bend radius: 7 in
                lengths made: { shortest: 3 ft, longest: 40 ft, step: 6 in }
                price: { base: 60.00 USD, per length: 10.00 USD/m, fittings: 9.00 USD, date: 2026-10-01 }

            """;
        string file = _workplace.Write("grades.yaml", $"grades:\n{Grade}{Grade}");

        Ran ran = await _workplace.RunAsync("grades", "import", file);

        Remove(file);
        ran.MustFail(2, $"{file}:9:9: id: granite is used twice; it is already on line 2");
    }

    [Fact]
    public async Task One_wrong_value_of_an_edit_is_reported_once() =>
        (await _workplace.RunAsync("grades", "edit", "marble", "friction=1.2")).MustFail(
            2, "command line: friction: 1.2: must be 0 to 1 (a ratio, without unit)");

    [Theory]
    [InlineData("marble", "Give what to change either as KEY=VALUE or with --file.")]
    [InlineData("marble friction=0.1 --file x.yaml", "Give what to change either as KEY=VALUE or with --file.")]
    [InlineData("marble frictoin=0.1", "command line: \"frictoin\" is not known here; did you mean \"friction\"?")]
    [InlineData("marble friction.low=0.2", "command line: friction: must have low <= likely <= high")]
    public async Task A_slip_in_an_edit_is_refused(string arguments, string message) =>
        (await _workplace.RunAsync(["grades", "edit", .. arguments.Split(' ')])).MustFail(2, message);

    [Theory]
    [InlineData("compar boat.yaml --output json", "\"compar\" is not known here; did you mean \"compare\"?", "")]
    [InlineData("frobnicate", "\"frobnicate\" is not known here; expected compare, explain, route, rig, weigh, quote, batch, prices, plan, diagnose, verify, grades, history, watch, serve, keys, backup, restore or completion", "")]
    [InlineData("grades lst", "\"lst\" is not known here; did you mean \"list\"?", "grades")]
    [InlineData("compare boat.yaml --untis si", "\"--untis\" is not known here; did you mean \"--units\"?", "compare")]
    [InlineData("compare boat.yaml other.yaml", "\"other.yaml\" is more than compare takes; put a value with spaces in quotes", "compare")]
    [InlineData("compare boat.yaml --top 0", "--top 0: a whole number from 1 to 1000 is expected.", "compare")]
    [InlineData("compare boat.yaml --top 1001", "--top 1001: a whole number from 1 to 1000 is expected.", "compare")]
    [InlineData("compare boat.yaml --top many", "--top many: a whole number from 1 to 1000 is expected.", "compare")]
    [InlineData("compare boat.yaml --top 1.5", "--top 1.5: a whole number from 1 to 1000 is expected.", "compare")]
    [InlineData("compare boat.yaml --units metric", "--units metric: us or si is expected.", "compare")]
    [InlineData("compare boat.yaml --rank best", "--rank best: cost, effort or price is expected.", "compare")]
    [InlineData("compare boat.yaml --output xml", "--output xml: table, json or csv is expected.", "compare")]
    [InlineData("grades list --create-catalog full", "--create-catalog full: demo or empty is expected.", "grades list")]
    [InlineData("completion tcsh", "SHELL tcsh: bash, zsh, fish or pwsh is expected.", "completion")]
    [InlineData("serve --port 70000", "--port 70000: a whole number from 0 to 65535 is expected.", "serve")]
    [InlineData("serve --json-port -1", "--json-port -1: a whole number from 0 to 65535 is expected.", "serve")]
    [InlineData("serve --port http", "--port http: a whole number from 0 to 65535 is expected.", "serve")]
    [InlineData("plan boat.yaml --step 5", "--step 5 has no unit; write for example 5 lbf or 22 N.", "plan")]
    [InlineData("plan boat.yaml --step 5kg", "--step 5kg is not a force with a known unit (did you mean kgf?); expected one number and one of lbf, ozf, kgf, N or kN.", "plan")]
    [InlineData("diagnose tests.yaml --step 5in", "--step 5in is not a force; expected one of lbf, ozf, kgf, N or kN.", "diagnose")]
    [InlineData("diagnose tests.yaml --step 5 lbf", "\"lbf\" is more than diagnose takes; put a value with spaces in quotes", "diagnose")]
    [InlineData("verify tests.yaml", "Required argument 'AFTER' missing for command: 'verify'.", "verify")]
    [InlineData("compare", "Required argument 'INSTALLATION' missing for command: 'compare'.", "compare")]
    [InlineData("explain boat.yaml", "Option '--grade' is required.", "explain")]
    [InlineData("compare boat.yaml --catalog", "Required argument missing for option: '--catalog'.", "compare")]
    [InlineData("grades", "Required command was not provided.", "grades")]
    public async Task A_slip_on_the_command_line_is_refused(string line, string message, string command) =>
        (await Workplace.RunBareAsync(line.Split(' '))).MustFail(
            2, message, $"See: {string.Join(' ', new[] { "cablecatalog", command, "--help" }.Where(word => word.Length > 0))}");

    [Fact]
    public async Task The_edges_of_top_are_taken()
    {
        string file = Repository.Demo("dunlin-shift");

        string one = (await _workplace.RunAsync("compare", file, "--top", "1")).Result;
        string all = (await _workplace.RunAsync("compare", file, "--top", "1000")).Result;

        Assert.Contains("The best 1 of 11 grades; --top 11 shows all.", one, StringComparison.Ordinal);
        Assert.Equal((await _workplace.RunAsync("compare", file)).Result, all);
    }

    private void Remove(string file)
    {
        File.Delete(file);
        Assert.Equal(_before, _workplace.Fingerprint());
    }

    private string Spoilt(Func<string, string> change)
    {
        string text = File.ReadAllText(Repository.Demo("plover-deflector"));
        string changed = change(text);
        Assert.NotEqual(text, changed);
        return _workplace.Write("boat.yaml", changed);
    }
}
