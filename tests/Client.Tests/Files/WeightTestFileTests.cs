using System.Text;
using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Tests.Files;

public sealed class WeightTestFileTests : IDisposable
{
    private const string Installation = """
        name: x
        helm: { grip radius: 12 in, crank radius: 4 in, efficiency: 0.9 }
        route: [ { straight: 4 ft } ]
        arm:
          load radius: 9 in
          hole radius: 3 in
          efficiency: 0.92
        inline: [ { name: reducer, at: arm, force ratio: 1, efficiency: 0.8 } ]
        loads: [ { name: raise, direction: pull, force: 18 lbf } ]
        present cable: { friction: 0.17 }
        """;

    private const string Example = """
        # Invented; no real boat.
        installation: boat.yaml
        fitted cable: marble
        paid: 231.40 USD
        series:
          - name: everything connected
            connected: whole chain
            load: raise
            direction: pull
            force uncertainty: 0.5 lbf
            weight uncertainty: 0.25 lbf
            readings:
              - { added: 0 lbf, held: 35 lbf, moved: 40 lbf }
              - { added: 10 lbf, moved: 60 lbf }
          - connected: Cable_Alone
            direction: push
            coil radius: 10 in
            coil: 180 deg
            readings:
              - added: 100 N
                held: 12 lbf
          - connected: inline device alone
            device: reducer
            readings: [ { added: 1 kgf, held: 9 N } ]
        """;

    // The least that is a test; each test of a bad file changes one line of it.
    private const string Least = """
        installation: boat.yaml
        series:
          - connected: whole chain
            readings:
              - { added: 0 lbf, held: 35 lbf, moved: 40 lbf }
              - { added: 10 lbf, moved: 60 lbf }
              - { added: 20 lbf, held: 70 lbf }
        """;

    private readonly string folder = Directory.CreateTempSubdirectory().FullName;

    public WeightTestFileTests() => File.WriteAllText(Boat, Installation);

    private string Boat => Path.Combine(folder, "boat.yaml");

    private string Test => Path.Combine(folder, "tests.yaml");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void The_example_reads_to_the_exact_message()
    {
        // Expected: the example's figures times the exact factors of NIST SP 811, appendix B.8 (1 lbf = 4.4482216152605 N,
        // 1 in = 0.0254 m, 1 kgf = 9.80665 N), by hand.
        var expected = new WeightTest
        {
            Installation = InstallationFile.Parse("boat.yaml", Installation).Value!.Message,
            FittedGrade = "grades/marble",
            AmountPaid = new Money { Units = 231, Nanos = 400_000_000, CurrencyCode = "USD" },
            Series =
            {
                new TestSeries
                {
                    DisplayName = "everything connected",
                    Connected = Connected.WholeChain,
                    LoadCase = "raise",
                    Direction = Direction.Pull,
                    ForceUncertaintyN = 2.22411080763025,
                    WeightUncertaintyN = 1.112055403815125,
                    Readings =
                    {
                        new WeightReading { AddedN = 0, HeldN = 155.6877565341175, MovedN = 177.92886461042 },
                        new WeightReading { AddedN = 44.482216152605, MovedN = 266.89329691563 },
                    },
                },
                new TestSeries
                {
                    Connected = Connected.CableAlone,
                    Direction = Direction.Push,
                    CoilRadiusM = 0.254,
                    CoilAngleRad = Math.PI,
                    Readings = { new WeightReading { AddedN = 100, HeldN = 53.378659383126 } },
                },
                new TestSeries
                {
                    Connected = Connected.InlineDeviceAlone,
                    InlineDevice = "reducer",
                    Readings = { new WeightReading { AddedN = 9.80665, HeldN = 9 } },
                },
            },
        };

        Assert.Equal(expected, Read(Example).Message);
    }

    [Fact]
    public void What_is_left_out_is_absent()
    {
        WeightTest test = Read(Least).Message;
        TestSeries series = test.Series.Single();

        Assert.Equal(("", null), (test.FittedGrade, test.AmountPaid));
        Assert.Equal(("", "", "", Direction.Unspecified),
            (series.DisplayName, series.LoadCase, series.InlineDevice, series.Direction));
        Assert.False(series.HasCoilRadiusM || series.HasCoilAngleRad);
        Assert.False(series.HasForceUncertaintyN || series.HasWeightUncertaintyN);
        Assert.Equal((false, true), (series.Readings[1].HasHeldN, series.Readings[1].HasMovedN));
        Assert.Equal((true, false), (series.Readings[2].HasHeldN, series.Readings[2].HasMovedN));
        Assert.True(series.Readings[0].HasAddedN);
    }

    [Theory]
    [InlineData("whole chain", Connected.WholeChain)]
    [InlineData("cable off at the arm", Connected.CableOffAtArm)]
    [InlineData("helm alone", Connected.HelmAlone)]
    [InlineData("cable alone", Connected.CableAlone)]
    [InlineData("arm alone", Connected.ArmAlone)]
    [InlineData("inline device alone", Connected.InlineDeviceAlone)]
    public void What_was_connected_is_said_in_words(string words, Connected connected) =>
        Assert.Equal(connected, Read(With("connected: whole chain", $"connected: {words}")).Message.Series[0].Connected);

    [Fact]
    public void Json_is_read_too()
    {
        const string Json = """
            {
              "installation": "boat.yaml",
              "series": [ { "connected": "whole chain", "readings": [
                { "added": "0 lbf", "held": "35 lbf", "moved": "40 lbf" },
                { "added": "10 lbf", "moved": "60 lbf" },
                { "added": "20 lbf", "held": "70 lbf" } ] } ]
            }
            """;

        Assert.Equal(Read(Least).Message, Read(Json).Message);
    }

    [Fact]
    public void An_installation_is_found_from_the_folder_of_the_test_file()
    {
        Directory.CreateDirectory(Path.Combine(folder, "tests"));
        string test = Path.Combine(folder, "tests", "t.yaml");

        Assert.Equal(Boat, WeightTestFile.Parse(test, With("boat.yaml", "../boat.yaml")).Value!.InstallationPath);
        Assert.Equal(Boat, WeightTestFile.Parse(test, With("boat.yaml", Boat)).Value!.InstallationPath);
        Assert.Equal(Boat, WeightTestFile.Parse("-", With("boat.yaml", Boat)).Value!.InstallationPath);
    }

    [Theory]
    // The path that the service would name, then the file and where it is in it: counted by hand.
    [InlineData("installation.arm.efficiency", "boat.yaml", 7, 15, "efficiency", "0.92")]
    [InlineData("installation.helm.efficiency", "boat.yaml", 2, 61, "efficiency", "0.9")]
    [InlineData("installation.present_cable.friction.low", "boat.yaml", 10, 28, "friction", "0.17")]
    [InlineData("installation.route[0].straight.length_m", "boat.yaml", 3, 22, "straight", "4 ft")]
    [InlineData("installation.arm.friction_n", "boat.yaml", 5, 3, "arm", "")]
    [InlineData("installation.effort_limit_n", "boat.yaml", 1, 1, "", "")]
    [InlineData("installation", "boat.yaml", 1, 1, "", "")]
    [InlineData("fitted_grade", "tests.yaml", 3, 15, "fitted cable", "marble")]
    [InlineData("amount_paid.units", "tests.yaml", 4, 7, "paid", "231.40 USD")]
    [InlineData("series", "tests.yaml", 6, 3, "series", "")]
    [InlineData("series[0]", "tests.yaml", 6, 5, "series 1", "")]
    [InlineData("series[0].connected", "tests.yaml", 7, 16, "connected", "whole chain")]
    [InlineData("series[0].load_case", "tests.yaml", 8, 11, "load", "raise")]
    [InlineData("series[0].inline_device", "tests.yaml", 6, 5, "series 1", "")]
    [InlineData("series[0].readings[0].added_n", "tests.yaml", 13, 18, "added", "0 lbf")]
    [InlineData("series[0].readings[0].moved_n", "tests.yaml", 13, 46, "moved", "40 lbf")]
    [InlineData("series[0].readings[1].held_n", "tests.yaml", 14, 9, "readings 2", "")]
    [InlineData("series[0].readings[1]", "tests.yaml", 14, 9, "readings 2", "")]
    [InlineData("series[1].coil_radius_m", "tests.yaml", 17, 18, "coil radius", "10 in")]
    [InlineData("series[1].coil_angle_rad", "tests.yaml", 18, 11, "coil", "180 deg")]
    [InlineData("series[2].inline_device", "tests.yaml", 23, 13, "device", "reducer")]
    [InlineData("series[2].readings[0].held_n", "tests.yaml", 24, 39, "held", "9 N")]
    public void Every_field_knows_in_which_file_and_where_it_was_written(
        string path, string file, int line, int column, string key, string text)
    {
        SourceMap sources = Read(Example).Sources;
        var expected = new SourceMark(Path.Combine(folder, file), new TextPlace(line, column), key, text);

        Assert.Equal(expected, sources.Find(path));
        Assert.Equal(expected, sources.FindUnder("test", $"test.{path}"));
    }

    [Theory]
    [InlineData("tests")]
    [InlineData("before.series")]
    [InlineData("weight_step_n")]
    [InlineData("")]
    public void A_path_of_another_field_of_the_request_is_not_of_the_test(string path) =>
        Assert.Null(Read(Example).Sources.FindUnder("test", path));

    [Fact]
    public void A_request_that_is_wrong_as_a_whole_is_shown_at_the_first_line() =>
        Assert.Equal(
            new SourceMark(Test, new TextPlace(2, 1), "", ""), Read(Example).Sources.FindUnder("test", "test"));

    [Theory]
    [InlineData("installation: boat.yaml", "installation: ^~", "installation: expected the name of the installation's file; found nothing")]
    [InlineData("installation: boat.yaml", "installation: ^{ name: x }", "installation: expected the name of the installation's file; found a group of keys")]
    [InlineData("installation: boat.yaml", "installation: ^none.yaml", "installation: none.yaml (seen from the folder of this file): there is no such file; check the name and the folder")]
    [InlineData("installation: boat.yaml", "installation: ^/none/none.yaml", "installation: /none/none.yaml: there is no such file; check the name and the folder")]
    [InlineData("installation: boat.yaml", "installation: ^.", "installation: . (seen from the folder of this file): this is a folder; name a file in it")]
    [InlineData("installation: boat.yaml", "installation: ^\"-\"", "installation: the installation is not read from standard input; name its file")]
    [InlineData("installation: boat.yaml", "^instalation: boat.yaml", "\"instalation\" is not known here; did you mean \"installation\"?")]
    [InlineData("installation: boat.yaml", "^fitted cable: marble", "\"installation\" is missing (the file that describes the installation); add for example \"installation: my-boat.yaml\"")]
    [InlineData("series:", "^serie:", "\"serie\" is not known here; did you mean \"series\"?")]
    [InlineData("connected: whole chain", "connected: ^all", "connected: \"all\" is not known here; expected whole chain, cable off at the arm, helm alone, cable alone, arm alone or inline device alone")]
    [InlineData("connected: whole chain", "connected: ^cable of at the arm", "connected: \"cable of at the arm\" is not known here; did you mean \"cable off at the arm\"?")]
    [InlineData("- connected: whole chain", "- ^load: raise", "series 1: \"connected\" is missing (which parts were connected); add for example \"connected: whole chain\"")]
    [InlineData("added: 0 lbf", "added: ^0", "added: 0 has no unit; write for example 0 lbf or 0 N")]
    [InlineData("added: 10 lbf", "added: ^10 lb", "added: 10 lb is not a force with a known unit (did you mean lbf?); expected one number and one of lbf, ozf, kgf, N or kN")]
    [InlineData("held: 35 lbf", "held: ^35 in", "held: 35 in is not a force; expected one of lbf, ozf, kgf, N or kN")]
    [InlineData("held: 35 lbf", "held: ^.nan", "held: .nan is not a finite number")]
    [InlineData("held: 35 lbf", "^hold: 35 lbf", "\"hold\" is not known here; did you mean \"held\"?")]
    [InlineData("- { added: 10 lbf, moved", "- ^{ moved", "readings 2: \"added\" is missing (the weight hung, also where it is none); add for example \"added: 0 lbf\"")]
    [InlineData("- { added: 10 lbf, moved: 60 lbf }", "- ^60 lbf", "readings 2: expected a group of keys (added, held, moved); found \"60 lbf\"")]
    public void A_slip_is_reported_where_it_is(string written, string slip, string message)
    {
        // The caret stands before the place that the message must name.
        string marked = With(written, slip);
        string[] lines = marked.Split('\n');
        int line = 1 + Array.FindIndex(lines, l => l.Contains('^', StringComparison.Ordinal));
        int column = 1 + lines[line - 1].IndexOf('^', StringComparison.Ordinal);

        Assert.Equal([new FileProblem(Test, line, column, message)], Problems(marked.Replace("^", "", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("direction: pul", 13, "direction: \"pul\" is not known here; did you mean \"pull\"?")]
    [InlineData("coil radius: 10", 15, "coil radius: 10 has no unit; write for example 10 in or 254 mm")]
    [InlineData("coil: 360", 8, "coil: 360 has no unit; write for example 360 deg or 6.3 rad")]
    [InlineData("coil: 1 in", 8, "coil: 1 in is not an angle; expected one of deg, rad or turn")]
    [InlineData("force uncertainty: 0.5", 21, "force uncertainty: 0.5 has no unit; write for example 0.5 lbf or 2.2 N")]
    [InlineData("uncertainty: 0.5 lbf", 1, "\"uncertainty\" is not known here; expected name, connected, load, direction, device, coil radius, coil, force uncertainty, weight uncertainty or readings")]
    public void A_slip_in_a_key_of_a_series_is_reported_where_it_is(string line, int columnInIt, string message) =>
        Assert.Equal(
            [new FileProblem(Test, 4, 4 + (columnInIt == 1 ? 1 : columnInIt - 1), message)],
            Problems(With("whole chain", $"whole chain\n    {line}")));

    [Theory]
    [InlineData("paid: 231.40", 7, "paid: expected an amount such as 21.00 USD; found \"231.40\"")]
    [InlineData("fitted cable: [marble]", 15, "fitted cable: expected the id of a grade; found a list")]
    public void A_slip_in_what_was_fitted_is_reported_where_it_is(string line, int column, string message) =>
        Assert.Equal([new FileProblem(Test, 1, column, message)], Problems($"{line}\n{Least}"));

    [Theory]
    [InlineData("readings: []", 15, "readings: expected at least one reading such as { added: 0 lbf, held: 35 lbf, moved: 40 lbf }; found none")]
    [InlineData("readings: none", 15, "readings: expected a list, each of it on a line that starts with \"- \"; found \"none\"")]
    [InlineData("readings:", 14, "readings: expected a list, each of it on a line that starts with \"- \"; found nothing")]
    public void A_series_has_readings(string readings, int column, string message) =>
        Assert.Equal(
            [new FileProblem(Test, 4, column, message)],
            Problems($"installation: boat.yaml\nseries:\n  - connected: helm alone\n    {readings}\n"));

    [Fact]
    public void A_reading_that_was_not_filled_in_is_left_out_and_noted()
    {
        WeightTestDocument read = Read(With("moved: 60 lbf", "held: , moved: ~"));

        Assert.Equal([0, 20], read.Message.Series[0].Readings.Select(r => Math.Round(r.AddedN / 4.4482216152605)));
        Assert.Equal([new FileProblem(Test, 6, 9, "left out: neither held nor moved is filled in")], read.Notes);

        // The path counts what is sent, the name what is written.
        Assert.Equal(
            new SourceMark(Test, new TextPlace(7, 9), "readings 3", ""), read.Sources.Find("series[0].readings[1]"));
    }

    [Fact]
    public void A_series_of_nothing_else_is_to_be_filled_in_or_taken_out() =>
        Assert.Equal(
            [
                new FileProblem(
                    Test,
                    4,
                    17,
                    "must be given: a force that held, or one that moved it, or both; fill it in or take the series out"),
            ],
            Problems("installation: boat.yaml\nseries:\n  - connected: helm alone\n    readings: [ { added: 0 lbf, held: , moved: } ]\n"));

    [Theory]
    [InlineData("held: 35 lbf, moved: 40 lbf", "held: 0 lbf, moved: 0 lbf", true)]
    [InlineData("held: 35 lbf, moved: 40 lbf", "held: 0 lbf, moved: 0.1 lbf", false)]
    [InlineData("held: 35 lbf, moved: 40 lbf", "moved: 0 lbf", false)]
    public void Nothing_holds_and_moves_at_no_force(string written, string other, bool isRefused) =>
        Assert.Equal(
            isRefused
                ?
                [
                    new FileProblem(
                        Test,
                        5,
                        9,
                        "held 0 and moved 0 is impossible: nothing both holds and moves it; write the least that moved it, or leave "
                            + "both blank where it was not tried"),
                ]
                : [],
            Problems(With(written, other)));

    [Fact]
    public void A_series_without_the_key_for_readings_is_told_of_it() =>
        Assert.Equal(
            [
                new FileProblem(
                    Test,
                    3,
                    5,
                    "series 1: \"readings\" is missing (what held and what moved it at each weight); "
                        + "add for example \"readings: [ { added: 0 lbf, held: 35 lbf, moved: 40 lbf } ]\""),
            ],
            Problems("installation: boat.yaml\nseries:\n  - connected: helm alone\n"));

    // Ranges and contradictions are the service's: it knows the chain.
    [Theory]
    [InlineData("held: 35 lbf", "held: -35 lbf")]
    [InlineData("added: 10 lbf", "added: -10 lbf")]
    [InlineData("moved: 40 lbf", "moved: 4 lbf")]
    [InlineData(", held: 70 lbf", "")]
    [InlineData("whole chain", "whole chain\n    load: no such load")]
    public void What_only_the_service_can_judge_is_left_to_it(string written, string other) => Read(With(written, other));

    [Theory]
    [InlineData("moved: 60 lbf", "moved: ^60 N", "moved: 60 N is in N, others of this series are in lbf; write all held and moved of a series in one unit")]
    [InlineData("held: 35 lbf", "held: ^35 kgf", "held: 35 kgf is in kgf, others of this series are in lbf; write all held and moved of a series in one unit")]
    [InlineData("held: 70 lbf", "held: ^7 kN", "held: 7 kN is in kN, others of this series are in lbf; write all held and moved of a series in one unit")]
    [InlineData("added: 0 lbf", "added: ^0 N", "added: 0 N is in N, others of this series are in lbf; write all weights added in a series in one unit")]
    [InlineData("added: 20 lbf", "added: ^20 ozf", "added: 20 ozf is in ozf, others of this series are in lbf; write all weights added in a series in one unit")]
    public void A_reading_in_another_unit_than_its_neighbours_is_a_slip(string written, string slip, string message) =>
        A_slip_is_reported_where_it_is(written, slip, message);

    [Fact]
    public void Of_two_units_written_equally_often_the_first_is_taken_for_the_right_one() =>
        Assert.Equal(
            [
                "6:33: moved: 60 N is in N, others of this series are in lbf; write all held and moved of a series in one unit",
            ],
            Problems(With("moved: 60 lbf", "moved: 60 N").Replace("held: 70 lbf", "held: 70 N", StringComparison.Ordinal))
                .Select(p => $"{p.Line}:{p.Column}: {p.Message}"));

    [Fact]
    public void A_scale_may_have_another_unit_than_the_weights_and_another_series_another_scale()
    {
        Read(With("added: 0 lbf", "added: 0 kgf")
            .Replace("added: 10 lbf", "added: 1 kgf", StringComparison.Ordinal)
            .Replace("added: 20 lbf", "added: 2kgf", StringComparison.Ordinal));
        Read(Least + "\n  - connected: helm alone\n    readings: [ { added: 0 N, held: 3 N } ]\n");
    }

    [Fact]
    public void Both_kinds_of_mixed_units_of_every_series_are_reported()
    {
        const string Series = """

              - connected: helm alone
                readings:
                  - { added: 0 N, held: 3 lbf }
                  - { added: 0 N, held: 4 lbf }
                  - { added: 5 lbf, held: 6 N, moved: 7 N }
                  - { added: 5 lbf, held: 6 lbf }
                  - { added: 5 N }
            """;

        Assert.Equal(
            [(12, 18), (12, 31), (19, 18), (19, 31)],
            Problems(Least + Series + Series).Select(p => (p.Line, p.Column)));
    }

    [Fact]
    public void A_problem_of_the_installation_is_reported_in_its_file_after_those_of_the_test()
    {
        File.WriteAllText(Boat, Installation.Replace("12 in", "12", StringComparison.Ordinal));

        Assert.Equal(
            [
                $"{Test}:6:18: added: 10 has no unit; write for example 10 lbf or 44 N",
                $"{Boat}:2:22: grip radius: 12 has no unit; write for example 12 in or 305 mm",
            ],
            Problems(With("added: 10 lbf", "added: 10")).Select(p => p.ToString()));
    }

    [Fact]
    public void A_test_file_that_is_not_there_is_said_to_be_missing() =>
        Assert.Equal(
            [$"{Test}: there is no such file; check the name and the folder"],
            WeightTestFile.Read(Test).Problems.Select(p => p.ToString()));

    [Fact]
    public void A_file_is_read_as_its_text_is()
    {
        File.WriteAllText(Test, Example);

        Assert.Equal(Read(Example).Message, WeightTestFile.Read(Test).Value!.Message);
    }

    // Cut anywhere and with any bytes changed, a file gives a message or problems, and never an exception.
    [Fact]
    public void A_file_with_bytes_changed_gives_a_message_or_problems()
    {
        byte[] bytes = Encoding.UTF8.GetBytes(Example);
        byte[] special = [.. "\t\n\r :,-?[]{}#&*!|>'\"%@`~\\.0eE\0"u8, 0xC2, 0x85, 0xFF, 0xEF, 0xBB, 0xBF];
        var random = new Random(2026);
        for (int i = 0; i < 500; i++)
        {
            byte[] changed = bytes[..random.Next(bytes.Length / 2, bytes.Length)];
            for (int edits = random.Next(5); edits > 0; edits--)
            {
                changed[random.Next(changed.Length)] = special[random.Next(special.Length)];
            }

            FileResult<WeightTestDocument> read = WeightTestFile.Parse(Test, Encoding.UTF8.GetString(changed));

            Assert.Equal(read.Value is null, read.Problems.Count > 0);
            Assert.InRange(read.Problems.Count, 0, ProblemList.Most);
            Assert.All(read.Problems, p => Assert.DoesNotContain('\n', p.ToString()));
        }
    }

    private static string With(string written, string other)
    {
        Assert.Contains(written, Least, StringComparison.Ordinal);
        return Least.Replace(written, other, StringComparison.Ordinal);
    }

    private IReadOnlyList<FileProblem> Problems(string text) => WeightTestFile.Parse(Test, text).Problems;

    private WeightTestDocument Read(string text)
    {
        FileResult<WeightTestDocument> read = WeightTestFile.Parse(Test, text);
        Assert.Empty(read.Problems);
        return read.Value!;
    }
}
