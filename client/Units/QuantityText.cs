using System.Globalization;
using System.Text.RegularExpressions;

namespace CableCatalog.Client.Units;

/// <summary>What a text turned out to be: an SI value, or what is wrong with it.</summary>
/// <param name="Si">The value in SI units; 0 where there is a problem.</param>
/// <param name="Problem">For people, without the text itself; null where there is none.</param>
internal readonly record struct ParsedQuantity(double Si, string? Problem);

/// <summary>Quantities as people write them: a decimal number, and a unit unless it is a ratio.</summary>
internal static partial class QuantityText
{
    /// <summary>Reads a quantity of a kind. The value is finite; its range is not checked.</summary>
    public static ParsedQuantity Parse(string text, QuantityKind kind)
    {
        if (kind.Dimension == QuantityKind.Length.Dimension && FeetAndInches().Match(text) is { Success: true } both)
        {
            return WithUnit(InInches(both), "in", kind);
        }

        Match match = NumberAndRest().Match(text);
        if (!match.Success)
        {
            return Wrong(NotANumber(text, kind));
        }

        string number = match.Groups["number"].Value;
        string rest = match.Groups["rest"].Value.Trim();
        if (NumberProblem(number, rest) is { } problem)
        {
            return Wrong(problem);
        }

        return kind.Dimension == Dimension.None ? Bare(number, rest) : WithUnit(number, rest, kind);
    }

    /// <summary>The one unit that a quantity of a kind is written in; null where it cannot be read, or has none.</summary>
    public static Unit? UnitOf(string text, QuantityKind kind) =>
        Parse(text, kind).Problem is null && NumberAndRest().Match(text) is { Success: true } match
            ? UnitTable.Find(match.Groups["rest"].Value.Trim())
            : null;

    /// <summary>A quantity for people: "12 in", rounded to a number of significant digits.</summary>
    /// <param name="si">Finite.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="system">Whose units.</param>
    /// <param name="digits">1 to 15.</param>
    public static string Format(double si, QuantityKind kind, UnitSystem system, int digits = 3)
    {
        Unit unit = kind.UnitFor(system);
        return Joined(Rounded(unit.FromSi(si), digits), unit);
    }

    /// <summary>A quantity for files: reading it gives the same double. In the unit that says it shortest ("8 in" and not
    /// "0.2032 m"), which is as a rule the one it was written in; where it is round in none, in SI units.</summary>
    public static string Exact(double si, QuantityKind kind)
    {
        const int MostDigits = 6;
        return new[] { kind.UsUnit, kind.SiUnit, kind.StoredUnit }
            .Where(unit => unit.ToSi(Rounded(unit.FromSi(si), MostDigits)).Equals(si))
            .Select(unit => Joined(Rounded(unit.FromSi(si), MostDigits), unit))
            .Append(Joined(si.ToString("R", CultureInfo.InvariantCulture), kind.StoredUnit))
            .MinBy(text => text.Length)!;
    }

    private static string InInches(Match feetAndInches) =>
        ((decimal.Parse(feetAndInches.Groups["feet"].Value, CultureInfo.InvariantCulture) * 12)
            + decimal.Parse(feetAndInches.Groups["inches"].Value, CultureInfo.InvariantCulture))
        .ToString(CultureInfo.InvariantCulture);

    private static string Joined(string number, Unit unit) => unit.Name.Length == 0 ? number : $"{number} {unit.Name}";

    private static ParsedQuantity Wrong(string problem) => new(0, problem);

    private static ParsedQuantity Bare(string number, string rest) => rest.Length == 0
        ? new(double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture), null)
        : rest == "%"
            ? Wrong($"is a percentage; write the ratio: {Percent(number)}")
            : Wrong($"has a unit; a ratio is a bare number: write {number}");

    private static ParsedQuantity WithUnit(string number, string rest, QuantityKind kind)
    {
        if (rest.Length == 0)
        {
            return Wrong($"has no unit; write for example {Example(number, kind)}");
        }

        if (UnitTable.Find(rest) is not { } unit)
        {
            string meant = UnitTable.ProbablyMeant(rest) is { } name ? $" (did you mean {name}?)" : "";
            return Wrong(
                $"is not {WithArticle(kind)} with a known unit{meant}; expected one number and one of {kind.UnitsInWords}");
        }

        if (unit.Dimension != kind.Dimension)
        {
            return Wrong($"is not {WithArticle(kind)}; expected one of {kind.UnitsInWords}");
        }

        double si = unit.ToSi(number);
        return double.IsFinite(si) ? new(si, null) : Wrong("is too large a number");
    }

    private static string WithArticle(QuantityKind kind) => $"{(kind.Name[0] is 'a' ? "an" : "a")} {kind.Name}";

    // The first unit people would think of, and much the same in SI.
    private static string Example(string number, QuantityKind kind)
    {
        double si = kind.UsUnit.ToSi(number);
        return kind.SiUnit == kind.UsUnit
            ? $"{number} {kind.UsUnit.Name} or {Rounded(si, 2)} {kind.StoredUnit.Name}"
            : $"{number} {kind.UsUnit.Name} or {Rounded(kind.SiUnit.FromSi(si), 2)} {kind.SiUnit.Name}";
    }

    private static string Percent(string number) =>
        Rounded(double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture) / 100, 15);

    private static string NotANumber(string text, QuantityKind kind)
    {
        if (NotFinite().IsMatch(text))
        {
            return "is not a finite number";
        }

        return kind.Dimension == Dimension.None
            ? "is not a number; expected a ratio such as 0.95, without unit"
            : $"is not a number; expected a number and a unit, for example {Example("18", kind)}";
    }

    private static string? NumberProblem(string number, string rest)
    {
        if (!double.IsFinite(double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture)))
        {
            return "is too large a number";
        }

        if (Fraction().IsMatch(rest))
        {
            return "is a fraction; write it as a decimal, such as 0.5";
        }

        if (Commas().Match(rest) is { Success: true } commas)
        {
            return CommaProblem(number, commas.Groups["groups"].Value, commas.Groups["point"].Value);
        }

        // What two numbers mean together is the writer's to say: 4'6 is not 46.
        return MoreDigits().IsMatch(rest) ? "has two numbers; write one number and its unit, such as 54 in or 1200 N" : null;
    }

    // "0,3" and "1,2" are decimal commas, "1,200,000" and "1,200.5" are thousands, "1,200" may be either.
    private static string CommaProblem(string number, string groups, string point)
    {
        if (number.Contains('.', StringComparison.Ordinal))
        {
            return "has a comma; write the number with a decimal point and nothing else, such as 1200.5";
        }

        string[] parts = groups[1..].Split(',');
        string withoutCommas = $"{number}{string.Concat(parts)}{point}";
        string withPoint = $"{number}.{parts[0]}";
        bool surelyThousands = parts.Length > 1 || point.Length > 0;
        bool mayBeThousands = parts[0].Length == 3 && number.TrimStart('+', '-', '0').Length > 0;
        return (surelyThousands, mayBeThousands) switch
        {
            (true, _) => $"has a comma; write {withoutCommas} without commas",
            (_, true) => $"has a comma; write {withoutCommas} or, where a decimal comma was meant, {withPoint}",
            _ => $"has a comma; write {withPoint} with a decimal point",
        };
    }

    /// <summary>A number rounded to significant digits, without exponent and without trailing zeros.</summary>
    private static string Rounded(double value, int digits)
    {
        if (value == 0)
        {
            return "0";
        }

        int decimals = Math.Clamp(digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 20);
        string text = value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
        string trimmed = decimals > 0 ? text.TrimEnd('0').TrimEnd('.') : text;
        return trimmed == "-0" ? "0" : trimmed;
    }

    [GeneratedRegex(
        @"^\s*(?<number>[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)(?<rest>.*)\z",
        RegexOptions.CultureInvariant | RegexOptions.Singleline)]
    private static partial Regex NumberAndRest();

    [GeneratedRegex(@"^\s*[+-]?\.?(nan|inf|infinity|\u221E)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex NotFinite();

    [GeneratedRegex(@"^[0-9]*\s*/\s*[0-9]", RegexOptions.CultureInvariant)]
    private static partial Regex Fraction();

    [GeneratedRegex(@"^(?<groups>(?:,[0-9]+)+)(?<point>\.[0-9]+)?", RegexOptions.CultureInvariant)]
    private static partial Regex Commas();

    [GeneratedRegex(@"^['_]?[0-9]", RegexOptions.CultureInvariant)]
    private static partial Regex MoreDigits();

    [GeneratedRegex(
        "^\\s*(?<feet>[0-9]{1,4})\\s*(?:ft|foot|feet|['\u2019\u2032])"
            + "\\s*(?<inches>[0-9]{1,4}(?:\\.[0-9]{1,6})?)\\s*(?:in|inch|inches|[\"\u201D\u2033])\\s*\\z",
        RegexOptions.CultureInvariant)]
    private static partial Regex FeetAndInches();
}
