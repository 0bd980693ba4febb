using CableCatalog.Client.Units;

namespace CableCatalog.Client.Tests.Units;

public class QuantityTextTests
{
    private static readonly Dictionary<string, QuantityKind> Kinds = new()
    {
        ["length"] = QuantityKind.Length,
        ["short length"] = QuantityKind.ShortLength,
        ["force"] = QuantityKind.Force,
        ["large force"] = QuantityKind.LargeForce,
        ["angle"] = QuantityKind.Angle,
        ["wobble"] = QuantityKind.AnglePerLength,
        ["drag"] = QuantityKind.ForcePerLength,
        ["stiffness"] = QuantityKind.BendingStiffness,
        ["ratio"] = QuantityKind.Ratio,
    };

    [Theory]
    // Expected: the exact factors of NIST SP 811, appendix B.8, multiplied out by hand; each is the double nearest to it.
    [InlineData("12 in", "length", 0.3048)]
    [InlineData("4 ft 6 in", "length", 1.3716)]
    [InlineData("4'6\"", "length", 1.3716)]
    [InlineData("4\u2032 6.5\u2033", "length", 1.3843)]
    [InlineData("10\"", "short length", 0.254)]
    [InlineData("5'", "length", 1.524)]
    [InlineData("4 ft", "length", 1.2192)]
    [InlineData("0.3 m", "length", 0.3)]
    [InlineData("300 mm", "length", 0.3)]
    [InlineData("25 cm", "length", 0.25)]
    [InlineData("0.6 mm", "short length", 0.0006)]
    [InlineData("18 lbf", "force", 80.067989074689)]
    [InlineData("80 N", "force", 80)]
    [InlineData("2 kN", "force", 2000)]
    [InlineData("16 ozf", "force", 4.4482216152605)]
    [InlineData("3 kgf", "force", 29.41995)]
    [InlineData("250 kN", "large force", 250000)]
    [InlineData("90 deg", "angle", Math.PI / 2)]
    [InlineData("180deg", "angle", Math.PI)]
    [InlineData("1.57 rad", "angle", 1.57)]
    [InlineData("2 turn", "angle", 4 * Math.PI)]
    [InlineData("-40 deg", "angle", -40 * Math.PI / 180)]
    [InlineData("0.05 rad/m", "wobble", 0.05)]
    [InlineData("0.8 N/m", "drag", 0.8)]
    [InlineData("0.12 N m2", "stiffness", 0.12)]
    [InlineData("0.95", "ratio", 0.95)]
    [InlineData(" .5 ", "ratio", 0.5)]
    [InlineData("1e-3 m", "length", 0.001)]
    [InlineData("+7. m", "length", 7)]
    public void A_quantity_is_the_double_nearest_to_it(string text, string kind, double expected) =>
        Assert.Equal(new ParsedQuantity(expected, null), QuantityText.Parse(text, Kinds[kind]));

    [Theory]
    // Expected: the exact factors of NIST SP 811, computed by an independent implementation in exact fractions:
    // 1 deg/ft = pi/180/0.3048 rad/m, 0.05 lbf/ft = 0.05 * 4.4482216152605/0.3048 N/m,
    // 40 lbf in2 = 40 * 4.4482216152605 * 0.00064516 N m2.
    [InlineData("1 deg/ft", "wobble", 0.05726145839876409)]
    [InlineData("0.05 lbf/ft", "drag", 0.7296951468603182)]
    [InlineData("40 lbf in2", "stiffness", 0.11479258629205857)]
    public void A_product_of_units_is_computed_from_its_factors(string text, string kind, double expected) =>
        Assert.Equal(1, QuantityText.Parse(text, Kinds[kind]).Si / expected, 1e-12);

    [Theory]
    [InlineData("18", "force", "has no unit; write for example 18 lbf or 80 N")]
    [InlineData("12", "short length", "has no unit; write for example 12 in or 305 mm")]
    [InlineData("90", "angle", "has no unit; write for example 90 deg or 1.6 rad")]
    [InlineData("1", "wobble", "has no unit; write for example 1 deg/ft or 0.057 rad/m")]
    [InlineData("18 lb", "force", "is not a force with a known unit (did you mean lbf?); expected one number and one of lbf, ozf, kgf, N or kN")]
    [InlineData("2 kn", "force", "is not a force with a known unit (did you mean kN?); expected one number and one of lbf, ozf, kgf, N or kN")]
    [InlineData("3 furlong", "length", "is not a length with a known unit; expected one number and one of in, ft, mm, cm or m")]
    [InlineData("4 ft 6", "length", "is not a length with a known unit; expected one number and one of in, ft, mm, cm or m")]
    [InlineData("18 in", "force", "is not a force; expected one of lbf, ozf, kgf, N or kN")]
    [InlineData("18 N m2", "force", "is not a force; expected one of lbf, ozf, kgf, N or kN")]
    [InlineData("0,3 m", "length", "has a comma; write 0.3 with a decimal point")]
    [InlineData("1,25 m", "length", "has a comma; write 1.25 with a decimal point")]
    [InlineData("0,300 m", "length", "has a comma; write 0.300 with a decimal point")]
    [InlineData("1,200 N", "force", "has a comma; write 1200 or, where a decimal comma was meant, 1.200")]
    [InlineData("1,200,000 N", "force", "has a comma; write 1200000 without commas")]
    [InlineData("1,200.5 N", "force", "has a comma; write 1200.5 without commas")]
    [InlineData("1.200,5 N", "force", "has a comma; write the number with a decimal point and nothing else, such as 1200.5")]
    [InlineData("1 200 N", "force", "has two numbers; write one number and its unit, such as 54 in or 1200 N")]
    [InlineData("1'200 N", "force", "has two numbers; write one number and its unit, such as 54 in or 1200 N")]
    [InlineData("1_200 N", "force", "has two numbers; write one number and its unit, such as 54 in or 1200 N")]
    [InlineData("1/2 in", "length", "is a fraction; write it as a decimal, such as 0.5")]
    [InlineData("3 1/2 in", "length", "is a fraction; write it as a decimal, such as 0.5")]
    [InlineData("nan N", "force", "is not a finite number")]
    [InlineData(".inf", "ratio", "is not a finite number")]
    [InlineData("-Infinity N", "force", "is not a finite number")]
    [InlineData("1e999 N", "force", "is too large a number")]
    [InlineData("1e308 ft/m", "ratio", "has a unit; a ratio is a bare number: write 1e308")]
    [InlineData("1e308 kN", "force", "is too large a number")]
    [InlineData("much", "ratio", "is not a number; expected a ratio such as 0.95, without unit")]
    [InlineData("much lbf", "force", "is not a number; expected a number and a unit, for example 18 lbf or 80 N")]
    [InlineData("", "force", "is not a number; expected a number and a unit, for example 18 lbf or 80 N")]
    [InlineData("0.95 in", "ratio", "has a unit; a ratio is a bare number: write 0.95")]
    [InlineData("95 %", "ratio", "is a percentage; write the ratio: 0.95")]
    public void A_problem_says_what_to_write(string text, string kind, string problem) =>
        Assert.Equal(new ParsedQuantity(0, problem), QuantityText.Parse(text, Kinds[kind]));

    [Theory]
    // Expected: the factors of NIST SP 811 and rounding by hand; 18 lbf = 80.068 N, 0.3048 m = 1 ft = 304.8 mm.
    [InlineData(0.3048, "length", "1 ft", "0.305 m")]
    [InlineData(0.3048, "short length", "12 in", "305 mm")]
    [InlineData(80.067989074689, "force", "18 lbf", "80.1 N")]
    [InlineData(5500, "force", "1236 lbf", "5500 N")]
    [InlineData(250000, "large force", "56202 lbf", "250 kN")]
    [InlineData(Math.PI / 2, "angle", "90 deg", "90 deg")]
    [InlineData(0.05, "wobble", "0.873 deg/ft", "0.05 rad/m")]
    [InlineData(0, "force", "0 lbf", "0 N")]
    [InlineData(-0.000123456, "ratio", "-0.000123", "-0.000123")]
    [InlineData(0.17, "ratio", "0.17", "0.17")]
    [InlineData(9.9996, "ratio", "10", "10")]
    public void Tables_show_three_digits_in_the_units_asked_for(double si, string kind, string us, string inSi) =>
        Assert.Equal(
            (us, inSi),
            (QuantityText.Format(si, Kinds[kind], UnitSystem.Us), QuantityText.Format(si, Kinds[kind], UnitSystem.Si)));

    [Fact]
    public void What_is_exported_reads_back_to_the_same_double()
    {
        var random = new Random(811);
        foreach (QuantityKind kind in Kinds.Values)
        {
            for (int i = 0; i < 2000; i++)
            {
                double value = random.NextDouble() * Math.Pow(10, random.Next(-9, 9));
                Assert.Equal(new ParsedQuantity(value, null), QuantityText.Parse(QuantityText.Exact(value, kind), kind));
            }
        }
    }

    [Fact]
    public void What_is_shown_with_all_its_digits_reads_back_within_rounding()
    {
        var random = new Random(812);
        foreach (QuantityKind kind in Kinds.Values)
        {
            double value = 0.001 + random.NextDouble();
            foreach (UnitSystem system in Enum.GetValues<UnitSystem>())
            {
                double back = QuantityText.Parse(QuantityText.Format(value, kind, system, 15), kind).Si;
                Assert.Equal(1, back / value, 1e-13);
            }
        }
    }
}
