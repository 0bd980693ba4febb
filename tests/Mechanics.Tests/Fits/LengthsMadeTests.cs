using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Fits;

public class LengthsMadeTests
{
    // Made 4, 5 ... 20 m. By hand.
    [Theory]
    [InlineData(0.1, 4.0)]
    [InlineData(4, 4.0)]
    [InlineData(4.001, 5.0)]
    [InlineData(4.999, 5.0)]
    [InlineData(5, 5.0)]
    [InlineData(19.001, 20.0)]
    [InlineData(20, 20.0)]
    [InlineData(20.0000000005, 20.0)] // half a nanometre is rounding, not length
    [InlineData(20.00000001, null)]
    [InlineData(double.NaN, null)]
    [InlineData(double.PositiveInfinity, null)]
    public void The_shortest_made_that_is_long_enough_is_ordered(double neededM, double? orderM) =>
        Assert.Equal(orderM, new LengthsMade(4, 20, 1).OrderLengthM(neededM));

    // From 3 to 40 ft in steps of 6 in: every length that is made is ordered as it is, however its metres were reached.
    [Fact]
    public void A_length_that_is_made_is_never_rounded_up_a_step()
    {
        var made = new LengthsMade(3 * Units.MetresPerFoot, 40 * Units.MetresPerFoot, 6 * Units.MetresPerInch);
        for (int halfFeet = 6; halfFeet <= 80; halfFeet++)
        {
            double expectedM = halfFeet * 0.1524;
            double[] sums =
            [
                halfFeet * 6 * Units.MetresPerInch,
                halfFeet / 2.0 * Units.MetresPerFoot,
                Enumerable.Repeat(6 * Units.MetresPerInch, halfFeet).Sum(),
                Enumerable.Repeat(Units.MetresPerInch, halfFeet * 6).Sum(),
            ];
            Assert.All(sums, neededM => Near.Relative(expectedM, made.OrderLengthM(neededM) ?? double.NaN, 1e-12));
        }
    }

    // 12 ft needed, made in steps of 6 in from 5 ft: 12 ft, not 12.5 ft.
    [Fact]
    public void Twelve_feet_in_steps_of_six_inches_is_twelve_feet()
    {
        var made = new LengthsMade(5 * Units.MetresPerFoot, 30 * Units.MetresPerFoot, 6 * Units.MetresPerInch);
        Near.Relative(12 * 0.3048, made.OrderLengthM(12 * Units.MetresPerFoot)!.Value, 1e-12);
        Near.Relative(12.5 * 0.3048, made.OrderLengthM(12.001 * Units.MetresPerFoot)!.Value, 1e-12);
    }

    // The steps start at the shortest, and a longest that no step reaches is not made: 4, 5.5, 7 of "4 to 8 m by 1.5 m".
    [Theory]
    [InlineData(6.9, 7.0)]
    [InlineData(7.0, 7.0)]
    [InlineData(7.1, null)]
    [InlineData(8.0, null)]
    public void Steps_are_counted_from_the_shortest(double neededM, double? orderM) =>
        Assert.Equal(orderM, new LengthsMade(4, 8, 1.5).OrderLengthM(neededM));

    // Against a walk through every length made. 1000 cases, seed 901.
    [Fact]
    public void The_order_is_the_first_of_all_lengths_that_is_long_enough() =>
        Law.Holds(Gen.Select(Gen.Double[1, 5], Gen.Double[0, 20], Gen.Double[0.1, 3], Gen.Double[0.1, 26]), 901, 1000, one =>
        {
            (double shortestM, double moreM, double stepM, double neededM) = one;
            double longestM = shortestM + moreM;
            double? expected = null;
            for (int i = 0; expected is null && shortestM + (i * stepM) <= longestM; i++)
            {
                double madeM = shortestM + (i * stepM);
                expected = madeM >= neededM ? madeM : null;
            }

            Assert.Equal(expected, new LengthsMade(shortestM, longestM, stepM).OrderLengthM(neededM));
        });

    [Theory]
    [InlineData(4, 4, 1, true)]
    [InlineData(4, 4.001, 1, true)]
    [InlineData(4, 3.999, 1, false)]
    [InlineData(0, 4, 1, false)]
    [InlineData(4, 100, 10, true)]
    [InlineData(4, 100.001, 10, false)]
    [InlineData(4, 100, 10.001, false)]
    [InlineData(4, 100, 0, false)]
    public void Lengths_are_in_order_and_in_range(double shortestM, double longestM, double stepM, bool allowed)
    {
        if (allowed)
        {
            Assert.Equal(shortestM, new LengthsMade(shortestM, longestM, stepM).OrderLengthM(0.001));
        }
        else
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new LengthsMade(shortestM, longestM, stepM));
        }
    }
}
