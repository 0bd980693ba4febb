using CableCatalog.V1;

namespace CableCatalog.Service.Tests.Lists;

/// <summary>Invented grades with much that is equal and much that is not stated.</summary>
internal static class VariedGrades
{
    private static readonly string[] Names = ["Marble", "marble", "Grey stone", "stone-grey", "Quartz 9", "* star", "\"quoted\"", "Ångström", "-minus"];

    public static IReadOnlyList<Grade> Make(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(n => One($"v{n}", random))];
    }

    public static Grade One(string id, Random random)
    {
        Grade grade = TestGrades.New(id, Step(random, 0.05, 0.05), random.Next(1, 6) * 20);
        grade.DisplayName = Names[random.Next(Names.Length)];
        grade.CoefficientBasis = (CoefficientBasis)random.Next(1, 3);
        grade.CoreConstruction = (CoreConstruction)random.Next(3);
        grade.MinBendRadiusM = Step(random, 0.1, 0.05);
        grade.LengthsMade.LongestLengthM = random.Next(8, 12);
        grade.Price.PerMetre = TestGrades.Usd(random.Next(3), random.Next(2) * 500_000_000);
        grade.Price.PriceDate.Day = random.Next(1, 5);
        grade.ClearRatedPullN();
        Maybe(random, () => grade.RatedPullN = random.Next(1, 5) * 500);
        Maybe(random, () => grade.RatedPushN = random.Next(1, 5) * 250);
        Maybe(random, () => grade.LongestTravelM = Step(random, 0.05, 0.025));
        Maybe(random, () => grade.AxialStiffnessN = random.Next(1, 4) * 1e6);
        return grade;
    }

    /// <summary>A service that has these grades and no others.</summary>
    public static async Task<IReadOnlyList<Grade>> PutAsync(ServiceFixture service, IReadOnlyList<Grade> grades)
    {
        var request = new BatchUpdateGradesRequest
        {
            Requests = { grades.Select(grade => new UpdateGradeRequest { Grade = grade, AllowMissing = true }) },
        };
        return (await service.Catalog.BatchUpdateGradesAsync(request)).Grades;
    }

    private static double Step(Random random, double least, double step) => Math.Round(least + (random.Next(6) * step), 3);

    private static void Maybe(Random random, Action set)
    {
        if (random.Next(3) > 0)
        {
            set();
        }
    }
}
