using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Tests.Files;

/// <summary>Grades of every shape, from a seeded source, for properties that must hold for all.</summary>
internal static class AnyGrade
{
    private static readonly string[] Awkward =
    [
        "", "null", "~", "yes", "012", "1.50", "a: b", "# c", "- d", "'e'", "\"f\"", " g ", "h\ni", "j\tk", "l\r\nm", "{n}",
        "[o]", "&p", "*q", "!r", "|", ">", "%s", "@t", "`u", "\u00E9", "\U0001F6A4", "\u0085v", "\u2028w", "\uFEFFx", "y\\z",
        "a #b", "a:", ":", "?", "-", "---", "...", "\u0001", "\u007F", "a\n\n b\n", "a  b", "c:\\d",
    ];

    public static string Text(Random random) => Awkward[random.Next(Awkward.Length)];

    public static Grade Make(Random random, string id)
    {
        var grade = new Grade
        {
            Name = $"grades/{id}",
            // A grade without a name is none: the contract asks for a character at least.
            DisplayName = Text(random) is { Length: > 0 } name ? name : "x",
            Core = Text(random),
            Liner = Text(random),
            CoreConstruction = (CoreConstruction)random.Next(3),
            CoefficientBasis = (CoefficientBasis)random.Next(1, 3),
            Friction = Band(random),
            MinBendRadiusM = Number(random),
            LengthsMade = new LengthsMade
            {
                ShortestLengthM = Number(random),
                LongestLengthM = Number(random),
                LengthStepM = Number(random),
            },
            Price = new Price
            {
                Base = Money(random),
                PerMetre = Money(random),
                Fittings = Money(random),
                PriceDate = new Date { Year = random.Next(1, 9999), Month = random.Next(1, 13), Day = random.Next(1, 29) },
            },
        };
        if (random.Next(2) == 0)
        {
            (grade.SealDragN, grade.CoreBendingStiffnessNM2, grade.AxialStiffnessN) =
                (Band(random), Number(random), Number(random));
        }

        if (random.Next(2) == 0)
        {
            (grade.RunningDragNPerM, grade.DiametralClearanceM, grade.RatedPullN) =
                (Band(random), Number(random), Number(random));
        }

        if (random.Next(2) == 0)
        {
            (grade.RatedPushN, grade.LongestTravelM) = (Number(random), Number(random));
        }

        return grade;
    }

    private static double Number(Random random) => random.NextDouble() * Math.Pow(10, random.Next(-12, 12));

    private static Band Band(Random random)
    {
        double value = Number(random);
        return random.Next(2) == 0
            ? new Band { Low = value, Likely = value, High = value }
            : new Band { Low = Number(random), Likely = Number(random), High = Number(random) };
    }

    private static Money Money(Random random) =>
        MoneyText.FromDecimal(random.NextInt64(999_999_999_999_999_999) / 1_000_000_000m, "USD");
}
