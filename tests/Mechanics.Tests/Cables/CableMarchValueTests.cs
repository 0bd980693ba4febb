using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;

namespace CableCatalog.Mechanics.Tests.Cables;

/// <summary>The march against figures worked out elsewhere. Route and grade are invented.</summary>
public class CableMarchValueTests
{
    private static readonly CableRoute Route = InventedCable.Route;

    // Computed by an independent implementation by numerical integration, relative tolerance 1e-11.
    [Theory]
    [InlineData(0, 19.56314497)]
    [InlineData(20, 47.52556453)]
    [InlineData(100, 159.37524277)]
    [InlineData(300, 438.99943837)]
    [InlineData(600, 858.43573176)]
    public void Pull(double outputN, double inputN) =>
        Near.Relative(inputN, CableMarch.InputForceN(Route, InventedCable.Coefficients, Direction.Pull, outputN), 1e-9);

    // Computed by an independent implementation by numerical integration; seven or eight digits given.
    [Theory]
    [InlineData(0, 19.59107)]
    [InlineData(20, 47.79309)]
    [InlineData(100, 163.66718)]
    [InlineData(300, 475.75247)]
    [InlineData(600, 1014.5538)]
    public void Push(double outputN, double inputN) =>
        Near.Relative(inputN, CableMarch.InputForceN(Route, InventedCable.Coefficients, Direction.Push, outputN), 5e-7);

    // Computed by an independent implementation by numerical integration; wobble, drags and stiffness all zero.
    [Theory]
    [InlineData(100, 136.91077706)]
    [InlineData(300, 410.73233119)]
    public void Plain_capstan_in_pull(double outputN, double inputN)
    {
        var plain = new CableCoefficients(InventedCable.Coefficients.Friction, 0, 0, 0, null);
        Near.Relative(inputN, CableMarch.InputForceN(Route, plain, Direction.Pull, outputN), 1e-10);
    }

    [Theory]
    [InlineData(-double.Epsilon)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Output_must_be_finite_and_not_negative(double outputN) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => CableMarch.InputForceN(Route, InventedCable.Coefficients, Direction.Pull, outputN));
}
