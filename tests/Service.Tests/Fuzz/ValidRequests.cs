using CableCatalog.Service.Tests.Doors;
using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.Service.Tests.Routes;
using CableCatalog.Service.Tests.WeightTests;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>Requests that are answered, small ones, to be spoilt.</summary>
internal static class ValidRequests
{
    /// <summary>By the rpc's short name.</summary>
    /// <param name="service">A service whose tokens may be used.</param>
    public static async Task<ILookup<string, IMessage>> OfAsync(ServiceFixture service)
    {
        string grades = (await service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 2 })).NextPageToken;
        var history = new CatalogHistory.CatalogHistoryClient(service.Channel);
        string revisions = (await history.ListRevisionsAsync(new ListRevisionsRequest { PageSize = 1 })).NextPageToken;
        using Grpc.Core.AsyncServerStreamingCall<WatchRevisionsResponse> watch = history.WatchRevisions(new WatchRevisionsRequest());
        await watch.ResponseStream.MoveNext(CancellationToken.None);
        string resume = watch.ResponseStream.Current.ResumeToken;
        return Reads(grades, revisions, resume)
            .Concat(Calculations())
            .Concat(ValidWrites.ByMethod.Select(pair => (pair.Key, pair.Value)))
            .Concat(MoreWrites())
            .ToLookup(pair => pair.Item1, pair => pair.Item2);
    }

    private static IEnumerable<(string, IMessage)> Reads(string grades, string revisions, string resume) =>
    [
        ("GradeCatalog/ListGrades", new ListGradesRequest { PageSize = 2, PageToken = grades }),
        ("GradeCatalog/ListGrades", new ListGradesRequest
        {
            Filter = "price.base > 30 AND NOT friction.likely < 0.1 OR id:g*",
            OrderBy = "friction.likely desc, id",
            ReadMask = FieldMask.FromString("name,price.base"),
        }),
        ("GradeCatalog/GetGrade", new GetGradeRequest { Name = "grades/g1", ReadMask = FieldMask.FromString("friction,price") }),
        ("GradeCatalog/BatchGetGrades", new BatchGetGradesRequest { Names = { "grades/g1", "grades/g5" }, ReadMask = FieldMask.FromString("*") }),
        ("PriceLists/ListPriceLists", new ListPriceListsRequest { PageSize = 3, Filter = "display_name = \"Autumn\"", OrderBy = "id" }),
        ("PriceLists/GetPriceList", new GetPriceListRequest { Name = "priceLists/fuzzed" }),
        ("PriceLists/BatchGetPriceLists", new BatchGetPriceListsRequest { Names = { "priceLists/fuzzed" } }),
        ("AccessKeys/ListAccessKeys", new ListAccessKeysRequest { PageSize = 5 }),
        ("CatalogHistory/ListRevisions", new ListRevisionsRequest { PageSize = 1, PageToken = revisions }),
        ("CatalogHistory/ListRevisions", new ListRevisionsRequest { Resource = "grades/g1" }),
        ("CatalogHistory/WatchRevisions", new WatchRevisionsRequest { ResumeToken = resume }),
    ];

    private static IEnumerable<(string, IMessage)> Calculations()
    {
        var worn = new SimulatedControl(0.3);
        WeightTest before = SimulatedControl.Test(
            SimulatedControl.Read(Connected.WholeChain, worn.WholeChainN, 2, 0, 50, 100), worn.CableAlone());
        WeightTest after = SimulatedControl.Test(
            SimulatedControl.Read(Connected.WholeChain, new SimulatedControl(0.1).WholeChainN, 1, 0, 50, 100));
        (after.FittedGrade, after.AmountPaid) = ("grades/g5", TestGrades.Usd(231));
        yield return ("GradeScoring/ScoreGrades", new ScoreGradesRequest { Installation = TestGrades.Installation(), PageSize = 3 });
        yield return ("GradeScoring/ScoreGrades", new ScoreGradesRequest { Installation = Swept() });
        yield return ("GradeScoring/ScoreGrades", new ScoreGradesRequest
        {
            Installation = TestGrades.Installation(), TestSeries = { worn.WholeChain() },
        });
        yield return ("GradeScoring/ScoreInstallations", new ScoreInstallationsRequest
        {
            Label = "one of many", Request = new ScoreGradesRequest { Installation = TestGrades.Installation() },
        });
        yield return ("GradeScoring/ExplainGrade", new ExplainGradeRequest { Installation = TestRoutes.Installation(), Grade = "grades/g3" });
        yield return ("Rigging/RigControl", new RigControlRequest { Installation = Swept(), Grade = "grades/g3" });
        yield return ("RoutePlanning/MeasureRoute", new MeasureRouteRequest { Path = new CablePath { SpatialRoute = TestRoutes.Survey() } });
        yield return ("RoutePlanning/MeasureRoute", new MeasureRouteRequest { Path = new CablePath { SpatialRoute = TestRoutes.Corners() } });
        yield return ("RoutePlanning/StudyRoutes", new StudyRoutesRequest { Installation = TestRoutes.Installation(), Propose = true });
        yield return ("OptionWeighing/WeighOptions", Weighing());
        yield return ("Quoting/MakeQuote", Quote());
        yield return ("Quoting/MakeQuotes", new MakeQuotesRequest { Requests = { Quote(), Quote() } });
        yield return ("WeightTesting/PlanWeightTest", new PlanWeightTestRequest { Installation = TestGrades.Installation(), WeightStepN = 20 });
        yield return ("WeightTesting/DiagnoseInstallation", new DiagnoseInstallationRequest
        {
            Test = SimulatedControl.Test(worn.WholeChain(), worn.HelmAlone()), WeightStepN = 20,
        });
        yield return ("WeightTesting/VerifyCable", new VerifyCableRequest { Before = before, After = after });
    }

    private static IEnumerable<(string, IMessage)> MoreWrites()
    {
        yield return ("GradeCatalog/UpdateGrade", new UpdateGradeRequest
        {
            Grade = TestGrades.New("g7", 0.1, 70), UpdateMask = FieldMask.FromString("friction,price.base"), AllowMissing = true,
        });
        yield return ("PriceLists/UpdatePriceList", new UpdatePriceListRequest
        {
            PriceList = Fuzzed(), UpdateMask = FieldMask.FromString("display_name,labour.per_hour"), ValidateOnly = true,
        });
        yield return ("PriceLists/DeletePriceList", new DeletePriceListRequest { Name = "priceLists/fuzzed" });
        yield return ("Backups/BackUpCatalog", new BackUpCatalogRequest());
    }

    /// <summary>The price list that there is.</summary>
    public static PriceList Fuzzed() => TestLists.New().With(list => list.Name = "priceLists/fuzzed");

    private static Installation Swept() => TestGrades.Installation().With(installation =>
    {
        installation.Helm.SweepRad = 1.2;
        installation.Helm.HoleRadiiM.Add([0.05, 0.06]);
        installation.Arm.HoleRadiiM.Add([0.12, 0.14]);
        (installation.Helm.LeverKind, installation.Helm.ShiftSweepRad) = (LeverKind.Single, 0.7);
        installation.Stop = new Stop { ClearanceM = 0.027, ThreadPitchM = 0.001 };
        installation.LoadCases.Add(new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 30 });
    });

    private static WeighOptionsRequest Weighing()
    {
        Installation installation = TestRoutes.Installation();
        installation.Changes.Add(new Change
        {
            DisplayName = "reducer out", TakeOut = new DeviceTakenOut { Device = "gear reducer" }, Parts = TestGrades.Usd(14),
        });
        return new WeighOptionsRequest
        {
            Installation = installation, Grades = { "grades/g3", "grades/g9" }, PriceList = "priceLists/fuzzed",
            OnDate = TestLists.Day(2026, 12, 1), Quantity = 2,
        };
    }

    private static MakeQuoteRequest Quote() => new()
    {
        Weighing = Weighing(), Date = TestLists.Day(2026, 12, 1), ValidDays = 14, Customer = "R. Halyard", Boat = "Plover", Remark = "Kept dry.",
    };
}
