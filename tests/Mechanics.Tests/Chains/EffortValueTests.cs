using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Tests.Support;

namespace CableCatalog.Mechanics.Tests.Chains;

/// <summary>Effort against figures worked out elsewhere. The installation is invented.</summary>
public class EffortValueTests
{
    private static readonly Chain Chain = new(
        new Helm(0.3, 0.06, 0.95, 4, null),
        InventedCable.Route,
        [new InlineDevice("gearbox", CableEnd.Helm, 1, 0.8, 3)],
        new Arm(0.22, 0.14, 0.92, 5));

    // Computed by an independent implementation by numerical integration, relative tolerance 1e-11.
    [Theory]
    [InlineData(0, 11.61940786)]
    [InlineData(50, 43.04170836)]
    [InlineData(150, 105.88630936)]
    public void Pull(double loadN, double effortN) => Near.Relative(effortN, EffortN(Direction.Pull, loadN), 1e-9);

    // Computed by an independent implementation by numerical integration; seven or eight digits given.
    [Theory]
    [InlineData(0, 11.63623)]
    [InlineData(50, 43.97742)]
    [InlineData(150, 113.19804)]
    public void Push(double loadN, double effortN) => Near.Relative(effortN, EffortN(Direction.Push, loadN), 5e-7);

    // Statics of levers, by hand: no friction anywhere. 90 N at 0.2 m, hole at 0.1 m: 180 N; device at the arm, ratio 1.5:
    // 270 N; device at the helm, ratio 0.5: 135 N; grip 0.3 m, crank 0.1 m: 45 N.
    [Fact]
    public void Without_friction_the_lever_ratios_decide()
    {
        var chain = new Chain(
            new Helm(0.3, 0.1, 1, 0, null),
            InventedCable.Route,
            [new InlineDevice("halver", CableEnd.Helm, 0.5, 1, 0), new InlineDevice("multiplier", CableEnd.Arm, 1.5, 1, 0)],
            new Arm(0.2, 0.1, 1, 0));
        Near.Relative(45, Effort.AtGripN(chain, default, new LoadCase("any", Direction.Pull, 90)), 1e-15);
    }

    // By hand: 10 N at the cable; the device nearest the arm first: 10 * 2/0.5 + 1 = 41, then 41 * 3/0.6 + 2 = 207. The other
    // order would give 10 * 3/0.6 + 2 = 52, 52 * 2/0.5 + 1 = 209.
    [Theory]
    [InlineData(CableEnd.Arm)]
    [InlineData(CableEnd.Helm)]
    public void Devices_work_from_the_arm_to_the_helm(CableEnd end)
    {
        var chain = new Chain(
            new Helm(0.1, 0.1, 1, 0, null),
            InventedCable.Route,
            [new InlineDevice("near the hand", end, 3, 0.6, 2), new InlineDevice("near the arm", end, 2, 0.5, 1)],
            new Arm(0.1, 0.1, 1, 0));
        Near.Relative(207, Effort.AtGripN(chain, default, new LoadCase("any", Direction.Pull, 10)), 1e-15);
    }

    private static double EffortN(Direction direction, double loadN) =>
        Effort.AtGripN(Chain, InventedCable.Coefficients, new LoadCase("any", direction, loadN));
}
