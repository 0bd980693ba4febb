using CableCatalog.Client.Units;
using UnitsNet;
using Unit = CableCatalog.Client.Units.Unit;

namespace CableCatalog.Client.Tests.Units;

public class UnitTableTests
{
    // Expected: UnitsNet 5.75.1, an independent implementation, one of each unit in the SI unit.
    public static TheoryData<string, double> Factors => new()
    {
        { "m", Length.FromMeters(1).Meters },
        { "cm", Length.FromCentimeters(1).Meters },
        { "mm", Length.FromMillimeters(1).Meters },
        { "in", Length.FromInches(1).Meters },
        { "ft", Length.FromFeet(1).Meters },
        { "N", Force.FromNewtons(1).Newtons },
        { "kN", Force.FromKilonewtons(1).Newtons },
        { "lbf", Force.FromPoundsForce(1).Newtons },
        { "ozf", Force.FromOunceForce(1).Newtons },
        { "kgf", Force.FromKilogramsForce(1).Newtons },
        { "rad", Angle.FromRadians(1).Radians },
        { "deg", Angle.FromDegrees(1).Radians },
        { "turn", Angle.FromRevolutions(1).Radians },
        // Its own pound-force per foot is rounded to ten digits.
        { "lbf/ft", Force.FromPoundsForce(1).Newtons / Length.FromFeet(1).Meters },
        { "N/m", ForcePerLength.FromNewtonsPerMeter(1).NewtonsPerMeter },
        { "deg/ft", Angle.FromDegrees(1).Radians / Length.FromFeet(1).Meters },
        { "rad/m", 1 },
        { "N m2", 1 },
        { "lbf in2", Force.FromPoundsForce(1).Newtons * Area.FromSquareInches(1).SquareMeters },
        { "lbf ft2", Force.FromPoundsForce(1).Newtons * Area.FromSquareFeet(1).SquareMeters },
    };

    [Theory]
    [MemberData(nameof(Factors))]
    public void Factors_agree_with_an_independent_table(string unit, double expected) =>
        Assert.Equal(1, Find(unit).ToSi("1") / expected, 1e-12);

    [Theory]
    // Expected: NIST Special Publication 811 (2008), appendix B.8, exact factors.
    [InlineData("in", 0.0254)]
    [InlineData("ft", 0.3048)]
    [InlineData("lbf", 4.4482216152605)]
    [InlineData("kgf", 9.80665)]
    public void Exact_factors_are_those_of_the_standard_to_the_last_bit(string unit, double expected) =>
        Assert.Equal(expected, Find(unit).ToSi("1"));

    [Theory]
    [InlineData("N m2")]
    [InlineData("N m^2")]
    [InlineData("N*m^2")]
    [InlineData("N * m2")]
    [InlineData("N\u00B7m\u00B2")]
    [InlineData("N\u22C5m2")]
    public void A_product_is_read_in_every_common_spelling(string text) =>
        Assert.Equal((1.0, QuantityKind.BendingStiffness.Dimension), (Find(text).ToSi("1"), Find(text).Dimension));

    [Theory]
    [InlineData("feet", "ft")]
    [InlineData("inches", "in")]
    [InlineData("\u00B0", "deg")]
    [InlineData("degrees/foot", "deg/ft")]
    public void A_spelt_out_unit_is_the_same_unit(string text, string unit) =>
        Assert.Equal(Find(unit).ToSi("7"), Find(text).ToSi("7"));

    [Theory]
    [InlineData("")]
    [InlineData("/m")]
    [InlineData("N/")]
    [InlineData("N/m/m")]
    [InlineData("N/m m")]
    [InlineData("m3")]
    [InlineData("KN")]
    [InlineData("N m m m")]
    [InlineData("in in in in")]
    public void What_is_not_a_unit_is_not_found(string text) => Assert.Null(UnitTable.Find(text));

    private static Unit Find(string text) => UnitTable.Find(text)!;
}
