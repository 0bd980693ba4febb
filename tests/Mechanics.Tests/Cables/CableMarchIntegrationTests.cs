using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Cables;

/// <summary>The march against numerical integration of its differential equation by MathNet.Numerics over random routes and
/// grades: see <see cref="ReferenceMarch"/>.</summary>
public class CableMarchIntegrationTests
{
    // 1500 cases, seed 201.
    [Fact]
    public void Pull_is_the_integral() =>
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.AnyCable, Cases.OutputN), 201, 1500, one =>
        {
            (RouteElement[] elements, CableCoefficients cable, double outputN) = one;
            double expected = ReferenceMarch.InputForceN(elements, cable, Direction.Pull, outputN);
            Near.Relative(expected, CableMarch.InputForceN(new CableRoute(elements), cable, Direction.Pull, outputN), 1e-10);
        });

    // 1500 cases, seed 202. Push without core data is the plain law.
    [Fact]
    public void Push_is_the_integral_or_both_run_away()
    {
        (int locked, int snaked) = (0, 0);
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.CableWithCore, Gen.Double[0, 20000]), 202, 1500, one =>
        {
            (RouteElement[] elements, CableCoefficients cable, double outputN) = one;
            double expected = ReferenceMarch.InputForceN(elements, cable, Direction.Push, outputN);
            double found = CableMarch.InputForceN(new CableRoute(elements), cable, Direction.Push, outputN);
            if (double.IsInfinity(expected))
            {
                locked++;
                Assert.Equal(double.PositiveInfinity, found);
                return;
            }

            Near.Relative(expected, found, 1e-8);
            snaked += found > ReferenceMarch.InputForceN(elements, cable, Direction.Pull, outputN) * (1 + 1e-6) ? 1 : 0;
        });

        // The cases are worth something only where many snake and many lock.
        Assert.True(locked > 200 && snaked > 200, $"{locked} locked, {snaked} snaked");
    }

    // 400 cases, seed 203: a hair below the lock-up load the integral is finite, a hair above it runs away.
    [Fact]
    public void The_lock_up_load_is_where_the_integral_runs_away()
    {
        int found = 0;
        Law.Holds(Gen.Select(Cases.AnyElements, Cases.CableWithCore), 203, 400, one =>
        {
            (RouteElement[] elements, CableCoefficients cable) = one;
            double lockUpN = CableMarch.LockUpOutputN(new CableRoute(elements), cable);
            if (lockUpN == 0)
            {
                Assert.Equal(double.PositiveInfinity, ReferenceMarch.InputForceN(elements, cable, Direction.Push, 1e-9));
            }
            else if (double.IsInfinity(lockUpN))
            {
                Assert.Equal(0, cable.Friction);
            }
            else
            {
                found++;
                double belowN = ReferenceMarch.InputForceN(elements, cable, Direction.Push, lockUpN * (1 - 1e-6));
                double aboveN = ReferenceMarch.InputForceN(elements, cable, Direction.Push, lockUpN * (1 + 1e-6));
                Assert.True(double.IsFinite(belowN), $"locks below {lockUpN}");
                Assert.True(double.IsInfinity(aboveN), $"moves above {lockUpN}");
            }
        });
        Assert.True(found > 200, $"{found} lock-up loads");
    }
}
