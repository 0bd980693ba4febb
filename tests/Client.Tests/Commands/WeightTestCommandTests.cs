using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>What the commands on weight tests ask, of a service that answers as it is told, and how they show where it
/// complains.</summary>
public sealed class WeightTestCommandTests : IDisposable
{
    private const string Before = """
        installation: boat.yaml
        series:
          - connected: whole chain
            load: raise
            readings:
              - { added: 0 lbf, held: 35 lbf, moved: 40 lbf }
              - { added: 10 lbf, moved: 60 lbf }
        """;

    private readonly Workplace _workplace = new();
    private readonly Answers _answers = new();

    public WeightTestCommandTests()
    {
        _workplace.Write("boat.yaml", File.ReadAllText(Repository.Demo("plover-deflector")));
        _workplace.Write("other.yaml", File.ReadAllText(Repository.Demo("dunlin-shift")));
        _workplace.Write("before.yaml", Before);
        _workplace.Write("after.yaml", $"fitted cable: marble\n{Before}");
    }

    private string Boat => _workplace.At("boat.yaml");

    private string BeforeFile => _workplace.At("before.yaml");

    private string AfterFile => _workplace.At("after.yaml");

    public void Dispose() => _workplace.Dispose();

    [Fact]
    public async Task Diagnose_sends_the_test_and_shows_the_answer()
    {
        var answer = new DiagnoseInstallationResponse { ConsideredChainCount = 7 };

        Ran ran = await RunAsync(answer, "diagnose", BeforeFile, "--output", "json");

        Assert.Equal(ProtoJson.Write(answer) + "\n", ran.Result);
        Assert.Equal(new DiagnoseInstallationRequest { Test = Test(BeforeFile) }, _answers.Asked);
    }

    [Fact]
    public async Task Verify_sends_both_tests_and_shows_the_answer()
    {
        var answer = new VerifyCableResponse { Grade = "grades/marble" };

        Ran ran = await RunAsync(answer, "verify", BeforeFile, AfterFile, "--output", "json");

        Assert.Equal(ProtoJson.Write(answer) + "\n", ran.Result);
        Assert.Equal(new VerifyCableRequest { Before = Test(BeforeFile), After = Test(AfterFile) }, _answers.Asked);
    }

    [Fact]
    public async Task Plan_sends_the_installation_and_shows_the_answer()
    {
        var answer = new PlanWeightTestResponse { WeightStepN = 22 };

        Ran ran = await RunAsync(answer, "plan", Boat, "--output", "json");

        Assert.Equal(ProtoJson.Write(answer) + "\n", ran.Result);
        Assert.Equal(
            new PlanWeightTestRequest { Installation = InstallationFile.Read(Boat).Value!.Message }, _answers.Asked);
    }

    [Fact]
    public async Task Compare_sends_the_series_of_a_test_of_the_same_installation()
    {
        var answer = new ScoreGradesResponse { PresentCable = new PresentCableScore { Basis = BaselineBasis.Diagnosed } };

        Ran ran = await RunAsync(answer, "compare", Boat, "--tests", BeforeFile, "--output", "json");

        Assert.Equal(ProtoJson.Write(answer) + "\n", ran.Result);
        var asked = (ScoreGradesRequest)_answers.Asked!;
        Assert.Equal(Test(BeforeFile).Series, asked.TestSeries);
        Assert.Equal(Test(BeforeFile).Installation, asked.Installation);
    }

    [Theory]
    // 1 lbf = 4.4482216152605 N exactly (NIST SP 811, appendix B.8).
    [InlineData("2 lbf", 8.896443230521)]
    [InlineData("10N", 10.0)]
    public async Task A_step_is_sent_in_newtons(string step, double stepN)
    {
        await RunAsync(new DiagnoseInstallationResponse(), "diagnose", BeforeFile, "--step", step, "--output", "json");
        Assert.Equal(stepN, ((DiagnoseInstallationRequest)_answers.Asked!).WeightStepN);

        await RunAsync(new PlanWeightTestResponse(), "plan", Boat, "--step", step, "--output", "json");
        Assert.Equal(stepN, ((PlanWeightTestRequest)_answers.Asked!).WeightStepN);
    }

    [Theory]
    // The path that the service names, then the file and the place there, counted by hand.
    [InlineData("diagnose before.yaml", "test.installation.arm.efficiency", "boat.yaml:32:60: efficiency: 0.92: odd")]
    [InlineData("diagnose before.yaml", "test.series[0].readings[1].moved_n", "before.yaml:7:33: moved: 60 lbf: odd")]
    [InlineData("diagnose before.yaml", "test.series[0].readings[1]", "before.yaml:7:9: readings 2: odd")]
    [InlineData("diagnose before.yaml", "test.series[0].load_case", "before.yaml:4:11: load: raise: odd")]
    [InlineData("diagnose before.yaml", "test.series[0]", "before.yaml:3:5: series 1: odd")]
    [InlineData("diagnose before.yaml", "test.fitted_grade", "before.yaml:1:1: odd")]
    [InlineData("diagnose before.yaml --step 45lbf", "weight_step_n", "command line: --step: 45lbf: odd")]
    [InlineData("diagnose before.yaml", "other", "other odd")]
    [InlineData("plan boat.yaml --step 45lbf", "weight_step_n", "command line: --step: 45lbf: odd")]
    [InlineData("plan boat.yaml", "installation.helm.grip_radius_m", "boat.yaml:6:16: grip radius: 14 in: odd")]
    [InlineData("verify before.yaml after.yaml", "before.series[0].readings[0].added_n", "before.yaml:6:18: added: 0 lbf: odd")]
    [InlineData("verify before.yaml after.yaml", "after.series[0].readings[0].added_n", "after.yaml:7:18: added: 0 lbf: odd")]
    [InlineData("verify before.yaml after.yaml", "after.fitted_grade", "after.yaml:1:15: fitted cable: marble: odd")]
    [InlineData("verify before.yaml after.yaml", "after.installation.helm.grip_radius_m", "boat.yaml:6:16: grip radius: 14 in: odd")]
    [InlineData("compare boat.yaml --tests before.yaml", "test_series[0].readings[0].held_n", "before.yaml:6:31: held: 35 lbf: odd")]
    [InlineData("compare boat.yaml --tests before.yaml", "test_series", "before.yaml:3:3: series: odd")]
    [InlineData("compare boat.yaml --tests before.yaml", "installation.helm.grip_radius_m", "boat.yaml:6:16: grip radius: 14 in: odd")]
    public async Task What_the_service_refuses_is_shown_where_it_was_written(string command, string field, string message)
    {
        bool isInFile = message.Contains(".yaml:", StringComparison.Ordinal);

        Ran ran = await RunAsync(Refusal(field), Words(command));

        ran.MustFail(2, isInFile ? _workplace.At(message) : message);
    }

    [Fact]
    public async Task What_is_wrong_in_the_installation_of_both_tests_is_said_once()
    {
        Ran ran = await RunAsync(
            Refusal("before.installation.helm", "after.installation.helm"), "verify", BeforeFile, AfterFile);

        ran.MustFail(2, $"{Boat}:6:3: helm: odd");
    }

    [Theory]
    [InlineData("diagnose {0}")]
    [InlineData("verify {0} after.yaml")]
    [InlineData("verify before.yaml {0}")]
    [InlineData("compare boat.yaml --tests {0}")]
    public async Task A_slip_in_a_test_file_is_reported_by_every_command_that_reads_one(string command)
    {
        string bad = _workplace.Write("bad.yaml", Before.Replace("60 lbf", "60 N", StringComparison.Ordinal));

        Ran ran = await _workplace.RunAsync(Words(command.Replace("{0}", "bad.yaml", StringComparison.Ordinal)));

        ran.MustFail(
            2,
            $"{bad}:7:33: moved: 60 N is in N, others of this series are in lbf; "
                + "write all held and moved of a series in one unit");
    }

    [Fact]
    public async Task Verify_takes_two_tests_of_one_installation_only()
    {
        string foreign = _workplace.Write(
            "foreign.yaml", File.ReadAllText(AfterFile).Replace("boat.yaml", "other.yaml", StringComparison.Ordinal));

        (await _workplace.RunAsync("verify", BeforeFile, foreign)).MustFail(
            2,
            $"{BeforeFile} is a test of {Boat}, {foreign} one of {_workplace.At("other.yaml")}; "
                + "both must name the same installation file.");
    }

    [Fact]
    public async Task Verify_asks_which_cable_is_fitted_now() =>
        (await _workplace.RunAsync("verify", BeforeFile, BeforeFile)).MustFail(
            2,
            $"{BeforeFile}:1:1: \"fitted cable\" is missing (the grade of the new cable); "
                + "add for example \"fitted cable: marble\"");

    [Fact]
    public async Task Verify_cannot_read_both_tests_from_standard_input() =>
        (await _workplace.RunAsync("verify", "-", "-")).MustFail(
            2, "BEFORE and AFTER cannot both be read from standard input; name a file.");

    [Fact]
    public async Task Compare_takes_a_test_of_the_same_installation_only()
    {
        string other = _workplace.At("other.yaml");

        (await _workplace.RunAsync("compare", other, "--tests", BeforeFile)).MustFail(
            2, $"{BeforeFile} is a test of {Boat} and not of {other}; name that installation, or another test.");
        (await _workplace.RunAsync("compare", "-", "--tests", BeforeFile)).MustFail(
            2, "--tests: name the file of the installation that was tested, instead of standard input.");
    }

    [Fact]
    public async Task Compare_knows_the_same_installation_by_another_way_to_it()
    {
        string around = Path.Combine(Path.GetDirectoryName(Boat)!, "..", Path.GetFileName(Path.GetDirectoryName(Boat)!), "boat.yaml");
        var answer = new ScoreGradesResponse { PresentCable = new PresentCableScore { Basis = BaselineBasis.Unexplained } };

        Assert.Equal(0, (await RunAsync(answer, "compare", around, "--tests", BeforeFile, "--output", "json")).Code);
    }

    [Fact]
    public async Task Compare_takes_no_test_of_another_cable_than_the_present_one()
    {
        (await _workplace.RunAsync("compare", Boat, "--tests", AfterFile)).MustFail(
            2,
            $"{AfterFile}:1:15: fitted cable: marble: savings are counted from the present cable; "
                + "name a test of that one, or change the present cable of the installation");

        // A test may name the present cable itself.
        _workplace.Write("boat.yaml", File.ReadAllText(Boat).Replace("friction: 0.17", "grade: marble", StringComparison.Ordinal));
        var answer = new ScoreGradesResponse { PresentCable = new PresentCableScore { Basis = BaselineBasis.Diagnosed } };
        Assert.Equal(0, (await RunAsync(answer, "compare", Boat, "--tests", AfterFile, "--output", "json")).Code);
    }

    [Theory]
    [InlineData("diagnose before.yaml")]
    [InlineData("verify before.yaml after.yaml")]
    public async Task A_report_replaces_no_file_unasked(string command)
    {
        string page = _workplace.Write("page.html", "mine");

        (await _workplace.RunAsync([.. Words(command), "--report", page])).MustFail(
            4, $"{page} exists; choose another name, or add --overwrite.");
        (await _workplace.RunAsync([.. Words(command), "--report", BeforeFile, "--overwrite"])).MustFail(
            2, $"--report {BeforeFile}: a name that ends in .html is expected.");

        Assert.Equal("mine", await File.ReadAllTextAsync(page));
        Assert.Equal(Before, await File.ReadAllTextAsync(BeforeFile));
    }

    [Theory]
    [InlineData("diagnose before.yaml")]
    [InlineData("verify before.yaml after.yaml")]
    public async Task A_report_needs_a_folder_that_is_there(string command)
    {
        string folder = _workplace.At("nodir");

        (await _workplace.RunAsync([.. Words(command), "--report", Path.Combine(folder, "x.html")])).MustFail(
            4, $"there is no folder {folder}: make it first or name another.");
    }

    [Theory]
    [InlineData("diagnose before.yaml")]
    [InlineData("plan boat.yaml")]
    public async Task A_step_that_nobody_should_go_up_by_is_refused(string command)
    {
        // 50 lbf = 222.411 N (NIST SP 811, appendix B.8).
        foreach (string step in new[] { "50.1 lbf", "222.5 N", "1kN" })
        {
            Ran ran = await _workplace.RunAsync([.. Words(command), "--step", step]);

            Assert.Equal(2, ran.Code);
            Assert.StartsWith(
                $"--step {step}: going up by more than 50 lbf (222 N) at a time is not safe; 5 lbf or less is usual.",
                ran.Error,
                StringComparison.Ordinal);
        }

        Assert.Equal(0, (await RunAsync(command[0] == 'p' ? new PlanWeightTestResponse() : new DiagnoseInstallationResponse(),
            [.. Words(command), "--step", "50 lbf", "--output", "json"])).Code);
    }

    [Fact]
    public async Task Readings_that_are_left_out_are_noted_beside_the_result()
    {
        string file = _workplace.Write(
            "blank.yaml", Before.Replace("moved: 60 lbf", "held: , moved:", StringComparison.Ordinal));

        Ran ran = await RunAsync(new DiagnoseInstallationResponse(), "diagnose", file, "--output", "json");

        Assert.Equal($"{file}:7:9: left out: neither held nor moved is filled in\n", ran.Error);
        Assert.Single(((DiagnoseInstallationRequest)_answers.Asked!).Test.Series[0].Readings);
    }

    [Fact]
    public async Task The_form_that_a_plan_prints_is_one_that_diagnose_reads()
    {
        Ran plan = await _workplace.RunAsync("plan", Boat);
        string[] form = [.. plan.Result.Split('\n').SkipWhile(line => !line.StartsWith("installation:", StringComparison.Ordinal))
            .TakeWhile(line => line.Length > 0)];
        string filled = string.Join('\n', form).Replace("held: ,", "held: 1 lbf,", StringComparison.Ordinal);
        string file = _workplace.Write("filled.yaml", filled);

        Assert.Equal(Boat, WeightTestFile.Read(file).Value!.InstallationPath);
        Assert.Empty(WeightTestFile.Read(file).Value!.Notes);
    }

    [Fact]
    public void A_file_of_output_is_whole_or_as_it_was()
    {
        string file = _workplace.Write("page.html", "old");

        Assert.Throws<InvalidOperationException>(() => OutputFile.Write(file, _ => throw new InvalidOperationException()));
        Assert.Equal("old", File.ReadAllText(file));

        OutputFile.Write(file, writer => writer.Write("new"));
        Assert.Equal("new", File.ReadAllText(file));
    }

    [Fact]
    public async Task A_test_may_come_from_standard_input()
    {
        string piped = Before.Replace("boat.yaml", "none.yaml", StringComparison.Ordinal);

        Ran ran = await ChildProcess.RunAsync(
            new Dictionary<string, string>(), piped, "diagnose", "-", "--catalog", _workplace.Catalog);

        ran.MustFail(
            2,
            "-:1:15: installation: none.yaml (seen from the current folder): "
                + "there is no such file; check the name and the folder");
    }

    private static WeightTest Test(string file) => WeightTestFile.Read(file).Value!.Message;

    private string[] Words(string command) =>
        [.. command.Split(' ').Select(w => w.EndsWith(".yaml", StringComparison.Ordinal) ? _workplace.At(w) : w)];

    private static RpcException Refusal(params string[] fields) => new Google.Rpc.Status
    {
        Code = (int)Code.InvalidArgument,
        Details =
        {
            Any.Pack(new BadRequest
            {
                FieldViolations =
                {
                    fields.Select(f => new BadRequest.Types.FieldViolation { Field = f, Description = "odd" }),
                },
            }),
        },
    }.ToRpcException();

    private async Task<Ran> RunAsync(object answer, params string[] args)
    {
        _answers.Answer = answer;
        await using WebApplication server = await OtherServer.StartAsync(
            services =>
            {
                services.AddGrpc();
                services.AddSingleton(_answers);
            },
            app =>
            {
                app.MapGrpcService<AnsweringTesting>();
                app.MapGrpcService<AnsweringScoring>();
            });
        return await Workplace.RunBareAsync([.. args, "--server", OtherServer.AddressOf(server)]);
    }

    private sealed class Answers
    {
        public object? Asked { get; private set; }

        public object? Answer { get; set; }

        public Task<T> To<T>(object request)
        {
            Asked = request;
            return Answer is RpcException refusal ? throw refusal : Task.FromResult((T)Answer!);
        }
    }

    private sealed class AnsweringTesting(Answers answers) : WeightTesting.WeightTestingBase
    {
        public override Task<PlanWeightTestResponse> PlanWeightTest(
            PlanWeightTestRequest request, ServerCallContext context) => answers.To<PlanWeightTestResponse>(request);

        public override Task<DiagnoseInstallationResponse> DiagnoseInstallation(
            DiagnoseInstallationRequest request, ServerCallContext context) =>
            answers.To<DiagnoseInstallationResponse>(request);

        public override Task<VerifyCableResponse> VerifyCable(VerifyCableRequest request, ServerCallContext context) =>
            answers.To<VerifyCableResponse>(request);
    }

    private sealed class AnsweringScoring(Answers answers) : GradeScoring.GradeScoringBase
    {
        public override Task<ScoreGradesResponse> ScoreGrades(ScoreGradesRequest request, ServerCallContext context) =>
            answers.To<ScoreGradesResponse>(request);
    }
}
