using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Tests.Support;

/// <summary>The invented route and grade that the independently computed figures are for.</summary>
internal static class InventedCable
{
    public static readonly CableRoute Route = new(
    [
        new Straight(1.2),
        new Bend(Math.PI / 2, 0.25),
        new Straight(1.0),
        new Bend(Math.PI / 2, 0.2),
        new Straight(1.5),
        new Bend(Math.PI / 4, 0.3),
        new Straight(0.6),
    ]);

    public static readonly CableCoefficients Coefficients = new(
        Friction: 0.08, WobbleRadPerM: 0.05, SealDragN: 2, RunningDragNPerM: 0.8, new Core(0.12, 0.0006));
}
