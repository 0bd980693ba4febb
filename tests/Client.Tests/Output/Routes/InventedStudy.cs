using CableCatalog.Client.Output;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Tests.Output.Routes;

/// <summary>A study with invented figures, in newtons and degrees that are easy to follow.</summary>
internal static class InventedStudy
{
    /// <summary>Three routes, one of them proposed, one grade that fits and one that does not, and a floor.</summary>
    public static RouteStudy Make(Action<StudyRoutesResponse>? change = null, double? limitN = null)
    {
        var answer = new StudyRoutesResponse
        {
            Routes =
            {
                Route(RouteSource.Present, "", 180, 100),
                Route(RouteSource.Other, "under the cockpit sole and aft", 90, 70),
                Route(RouteSource.Proposed, "", 75, 62),
            },
            Floor = new RouteFloor { LeastBend = new LeastBend { AngleRad = Degrees(60), DistanceM = 3 }, PresentCableEffortN = Band(50) },
            Grades =
            {
                new GradeOnRoutes
                {
                    Grade = "grades/opal",
                    DisplayName = "Opal",
                    Scores = { Fitting(60, 40), Fitting(52, 48), Fitting(48, 52) },
                    FloorEffortN = Band(44),
                    BestRoute = 2,
                },
                new GradeOnRoutes
                {
                    Grade = "grades/chert",
                    DisplayName = "Chert",
                    Scores = { Tight(), Tight(), Fitting(65, 35) },
                    FloorEffortN = Band(47),
                    BestRoute = 2,
                },
            },
            TotalSize = 2,
            Money = new RouteMoney
            {
                Verdict = BuyVerdict.LeastCostPerForceSaved,
                Best = 0,
                Options = { Option(RouteMoneyKind.Reroute, 1, "", 120, 70, 30), Option(RouteMoneyKind.Upgrade, 0, "grades/opal", 300, 60, 40) },
            },
            Cautions = new Cautions { OneLine = "Invented: mind the invention." },
        };
        change?.Invoke(answer);
        var installation = new Installation { DisplayName = "Invented control" };
        if (limitN is { } limit)
        {
            installation.EffortLimitN = limit;
        }

        return new RouteStudy(answer, installation);
    }

    /// <summary>A force without doubt.</summary>
    public static ForceBand Band(double forceN) => new() { Low = forceN, Likely = forceN, High = forceN };

    private static double Degrees(double angle) => angle * Math.PI / 180;

    private static StudiedRoute Route(RouteSource source, string name, double bendDeg, double presentN) => new()
    {
        Source = source,
        DisplayName = name,
        Shape = new RouteShape
        {
            Figures = new RouteFigures { LengthM = 5, TotalBendRad = Degrees(bendDeg), TightestRadiusM = 0.3, NeededLengthM = 5.2 },
            Bends = { new BendFigures { AngleRad = Degrees(bendDeg), RadiusM = 0.3, BeginsAtM = 1 } },
            LeastBend = new LeastBend { AngleRad = Degrees(60), DistanceM = 3 },
        },
        Labour = Usd(120),
        PresentCable = new PresentCableScore
        {
            CaseEfforts = { new CaseEffort { LoadCase = "raise", EffortN = Band(presentN) } },
            WorstEffortN = Band(presentN),
            Basis = BaselineBasis.Predicted,
        },
        MinBendRadiusM = 0.25,
        Corners = { new Corner { At = new Point() }, new Corner { At = new Point { XM = 1.5, YM = -0.25 }, RadiusM = 0.3 } },
    };

    private static GradeScore Fitting(double effortN, double savedN) => new()
    {
        Fits = true,
        WorstEffortN = Band(effortN),
        SavedN = new SavedBand { Low = savedN, Likely = savedN, High = savedN },
    };

    private static GradeScore Tight() => new()
    {
        WorstEffortN = Band(1),
        FitProblems = { new FitProblem { TightBend = new TightBend { BendNumber = 1, RadiusM = 0.3, MinBendRadiusM = 0.4 } } },
    };

    private static RouteMoneyOption Option(RouteMoneyKind kind, int route, string grade, long cost, double effortN, double savedN) => new()
    {
        Kind = kind,
        Route = route,
        Grade = grade,
        Cost = Usd(cost),
        EffortN = Band(effortN),
        SavedN = new SavedBand { Low = savedN, Likely = savedN, High = savedN },
        CostPerNewtonSaved = Usd(cost / (long)savedN),
        SavingVerdict = SavingVerdict.Saves,
    };

    private static Money Usd(long units) => new() { Units = units, CurrencyCode = "USD" };
}
