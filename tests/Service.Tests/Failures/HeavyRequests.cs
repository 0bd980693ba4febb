using CableCatalog.Service.Tests.Routes;
using CableCatalog.Service.Tests.WeightTests;
using CableCatalog.V1;
using Google.Protobuf;

namespace CableCatalog.Service.Tests.Failures;

/// <summary>The heaviest requests that are taken, or nearly; watching goes on for ever.</summary>
internal static class HeavyRequests
{
    public static IReadOnlyDictionary<string, Func<IMessage>> ByMethod { get; } = new Dictionary<string, Func<IMessage>>
    {
        ["RoutePlanning/MeasureRoute"] = () => new MeasureRouteRequest { Path = new CablePath { SpatialRoute = Measured(0) } },
        ["RoutePlanning/StudyRoutes"] = () => new StudyRoutesRequest { Installation = ManyRoutes(), Propose = true },
        ["OptionWeighing/WeighOptions"] = () => new WeighOptionsRequest { Installation = ManyRoutes() },
        ["Quoting/MakeQuote"] = () => Quote(ManyRoutes()),
        ["Quoting/MakeQuotes"] = () => new MakeQuotesRequest { Requests = { Enumerable.Repeat(Quote(TestRoutes.Installation()), 1000) } },
        ["GradeScoring/ScoreGrades"] = () => new ScoreGradesRequest
        {
            Installation = TestGrades.Installation(), TestSeries = { ManyReadings() },
        },
        ["GradeScoring/ScoreInstallations"] = () => new ScoreInstallationsRequest
        {
            Request = new ScoreGradesRequest { Installation = TestGrades.Installation(), TestSeries = { ManyReadings() } },
        },
        ["GradeScoring/ExplainGrade"] = () => new ExplainGradeRequest { Installation = OfMeasuredRoute(), Grade = "grades/g1" },
        ["Rigging/RigControl"] = () => new RigControlRequest { Installation = ManyHoles(), Grade = "grades/g1" },
        ["WeightTesting/PlanWeightTest"] = () => new PlanWeightTestRequest { Installation = OfMeasuredRoute(), WeightStepN = 1 },
        ["WeightTesting/DiagnoseInstallation"] = () => new DiagnoseInstallationRequest
        {
            Test = SimulatedControl.Test(ManyReadings()), WeightStepN = 1,
        },
        ["CatalogHistory/WatchRevisions"] = () => new WatchRevisionsRequest(),
        ["WeightTesting/VerifyCable"] = () => new VerifyCableRequest
        {
            Before = SimulatedControl.Test(ManyReadings()),
            After = SimulatedControl.Test(ManyReadings()).With(test => test.FittedGrade = "grades/g1"),
        },
    };

    private static MakeQuoteRequest Quote(Installation installation) => new()
    {
        Date = new Google.Type.Date { Year = 2026, Month = 11, Day = 28 },
        Weighing = new WeighOptionsRequest { Installation = installation },
    };

    // 200 points along a snake, off by a millimetre or two.
    private static SpatialRoute Measured(int seed)
    {
        var random = new Random(seed);
        return new SpatialRoute
        {
            Survey = new SurveyedPath
            {
                MeasuringErrorM = 0.002,
                Points =
                {
                    Enumerable.Range(0, 200).Select(i => TestRoutes.Point(
                        0.05 * i, 0.3 * Math.Sin(0.05 * i * 2), 0.002 * ((2 * random.NextDouble()) - 1))),
                },
            },
        };
    }

    private static Installation OfMeasuredRoute()
    {
        Installation installation = TestGrades.Installation();
        installation.Route.Clear();
        installation.SpatialRoute = Measured(0);
        return installation;
    }

    private static Installation ManyRoutes()
    {
        Installation installation = OfMeasuredRoute();
        installation.Labour = new Labour { Reroute = TestGrades.Usd(120), Replace = TestGrades.Usd(45) };
        installation.OtherRoutes.Add(Enumerable.Range(1, 20).Select(n => new OtherRoute
        {
            DisplayName = $"way {n}", Path = new CablePath { SpatialRoute = Measured(n) },
        }));
        return installation;
    }

    private static Installation ManyHoles()
    {
        Installation installation = TestGrades.Installation();
        installation.Helm.SweepRad = 1.2;
        installation.Helm.HoleRadiiM.Add(Enumerable.Range(0, 20).Select(n => 0.04 + (0.005 * n)));
        installation.Arm.HoleRadiiM.Add(Enumerable.Range(0, 20).Select(n => 0.1 + (0.005 * n)));
        installation.LoadCases.Add(Enumerable.Range(2, 9).Select(n => new LoadCase
        {
            DisplayName = $"load {n}", Direction = n % 2 == 0 ? Direction.Push : Direction.Pull, ForceN = 10 * n,
        }));
        return installation;
    }

    private static IEnumerable<TestSeries> ManyReadings()
    {
        var control = new SimulatedControl(0.2);
        for (int n = 0; n < 16; n++)
        {
            yield return SimulatedControl.Read(
                Connected.WholeChain, control.WholeChainN, (1 + n) * SimulatedControl.PoundN, Enumerable.Range(0, 40).Select(i => 2.5 * i));
        }

        yield return control.CableAlone();
    }
}
