using System.Text.RegularExpressions;

namespace CableCatalog.Client.Units;

/// <summary>Every unit that can be written, alone or in a product such as "N m2" or "lbf/ft".</summary>
/// <remarks>Factors: NIST Special Publication 811 (2008), appendix B.8; all are exact. The pound-force is
/// 0.45359237 kg * 9.80665 m/s2, the ounce-force a sixteenth of it.</remarks>
internal static partial class UnitTable
{
    private const decimal PoundForceN = 4.4482216152605m;

    private static readonly Unit[] Base =
    [
        new("m", new(0, 1, 0), 1),
        new("cm", new(0, 1, 0), 1, 100),
        new("mm", new(0, 1, 0), 1, 1000),
        new("in", new(0, 1, 0), 0.0254m),
        new("ft", new(0, 1, 0), 0.3048m),
        new("N", new(1, 0, 0), 1),
        new("kN", new(1, 0, 0), 1000),
        new("lbf", new(1, 0, 0), PoundForceN),
        new("ozf", new(1, 0, 0), PoundForceN, 16),
        new("kgf", new(1, 0, 0), 9.80665m),
        new("rad", new(0, 0, 1), 1),
        new("deg", new(0, 0, 1), 1, 180, 1),
        new("turn", new(0, 0, 1), 2, 1, 1),
    ];

    private static readonly Dictionary<string, string> OtherSpellings = new(StringComparer.Ordinal)
    {
        ["inch"] = "in",
        ["inches"] = "in",
        ["foot"] = "ft",
        ["feet"] = "ft",
        ["\u00B0"] = "deg",
        ["degree"] = "deg",
        ["degrees"] = "deg",
        ["turns"] = "turn",
        ["\""] = "in",
        ["\u201D"] = "in",
        ["\u2033"] = "in",
        ["'"] = "ft",
        ["\u2019"] = "ft",
        ["\u2032"] = "ft",
    };

    private static readonly Dictionary<string, string> Slips = new(StringComparer.OrdinalIgnoreCase)
    {
        ["lb"] = "lbf",
        ["lbs"] = "lbf",
        ["#"] = "lbf",
        ["oz"] = "ozf",
        ["kg"] = "kgf",
    };

    /// <summary>The unit that is probably meant by one that is not in the table: "lbf" for "lb"; else null.</summary>
    public static string? ProbablyMeant(string unit) =>
        Slips.GetValueOrDefault(unit) ?? Base.FirstOrDefault(u => u.Name.Equals(unit, StringComparison.OrdinalIgnoreCase))?.Name;

    /// <summary>Reads a unit: up to three factors, each with a power of 2 at most, with at most one "/".</summary>
    /// <returns>Null where it is not a unit.</returns>
    public static Unit? Find(string text)
    {
        string[] halves = text.Split('/');
        if (halves.Length > 2)
        {
            return null;
        }

        List<(Unit Unit, int Power)> factors = [];
        for (int i = 0; i < halves.Length; i++)
        {
            // After the slash stands one factor: what "N/m m" means, people do not agree on.
            string[] names = Separators().Split(halves[i].Trim());
            if (i == 1 && names.Length > 1)
            {
                return null;
            }

            foreach (string name in names)
            {
                if (Factor(name) is not { } factor)
                {
                    return null;
                }

                factors.Add((factor.Unit, i == 0 ? factor.Power : -factor.Power));
            }
        }

        return factors.Count > 3
            ? null
            : factors.Aggregate(new Unit(text, Dimension.None, 1), (product, f) => product.Times(f.Unit, f.Power));
    }

    private static (Unit Unit, int Power)? Factor(string text)
    {
        Match match = NameAndPower().Match(text);
        if (!match.Success)
        {
            return null;
        }

        string name = match.Groups["name"].Value;
        Unit? unit = Base.FirstOrDefault(u => u.Name == OtherSpellings.GetValueOrDefault(name, name));
        return unit is null ? null : (unit, match.Groups["power"].Success ? 2 : 1);
    }

    [GeneratedRegex(@"\s*[*\u00B7\u22C5]\s*|\s+", RegexOptions.CultureInvariant)]
    private static partial Regex Separators();

    [GeneratedRegex(
        @"^(?<name>[A-Za-z]+|[\u00B0""'\u2019\u2032\u201D\u2033])(?<power>\^?2|\u00B2)?\z", RegexOptions.CultureInvariant)]
    private static partial Regex NameAndPower();
}
