using CableCatalog.Mechanics.WeightTests;
using Google.OrTools.LinearSolver;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>What lines and curves a series allows, asked of a linear-programming library (GLOP of Google.OrTools).</summary>
/// <remarks>What really hung is an unknown here: z_i = b x_i is a variable of its own, between b times the least and b times the
/// most that may have hung, so nothing of what the product derives from that is used.</remarks>
internal static class LineProgramme
{
    /// <summary>Extreme of slope * slopeWeight + baseline * baselineWeight over the possible lines; null where unbounded. With
    /// both weights 0: the least widening.</summary>
    public static double? Solve(WeightSeries series, double slopeWeight, double baselineWeight, bool most, out double widening)
    {
        using Solver solver = Solver.CreateSolver("GLOP");
        Variable a = solver.MakeNumVar(0, double.PositiveInfinity, "a");
        Variable b = solver.MakeNumVar(0, double.PositiveInfinity, "b");
        bool widens = slopeWeight == 0 && baselineWeight == 0;
        Variable e = solver.MakeNumVar(0, widens ? double.PositiveInfinity : 0, "e");
        foreach (WeightReading r in series.Readings)
        {
            Variable z = solver.MakeNumVar(0, double.PositiveInfinity, "z");
            solver.Add(z >= b * (r.AddedN > 0 ? Math.Max(0, r.AddedN - series.WeightUncertaintyN) : 0));
            solver.Add(z <= b * (r.AddedN > 0 ? r.AddedN + series.WeightUncertaintyN : 0));
            solver.Add(a + z + e >= (r.HeldN ?? 0) - series.UncertaintyN);
            if (r.MovedN is { } moved)
            {
                solver.Add(a + z - e <= moved + series.UncertaintyN);
            }
        }

        LinearExpr goal = widens ? e * 1.0 : (b * slopeWeight) + (a * baselineWeight);
        if (most)
        {
            solver.Maximize(goal);
        }
        else
        {
            solver.Minimize(goal);
        }

        Solver.ResultStatus status = solver.Solve();
        widening = widens ? e.SolutionValue() : 0;
        return status == Solver.ResultStatus.OPTIMAL ? solver.Objective().Value() : null;
    }

    /// <summary>Whether a rising curve that bends one way only, and is nowhere negative, passes through every bracket.</summary>
    /// <remarks>A baseline, a slope, and a bend at each end of a load's range are the unknowns, none negative: upward
    /// bend * max(0, x - p), downward bend * min(x, p). A rising continuous curve is within a bracket somewhere in a range
    /// exactly when it is not above it at the range's start and not below it at the end.</remarks>
    public static bool CurveFits(WeightSeries series, bool upward)
    {
        double[] knots = [.. series.Readings.SelectMany(r => new[] { Start(r), End(r) }).Distinct()];
        using Solver solver = Solver.CreateSolver("GLOP");
        Variable a = solver.MakeNumVar(0, double.PositiveInfinity, "a");
        Variable b = solver.MakeNumVar(0, double.PositiveInfinity, "b");
        Variable[] bends = [.. knots.Select(_ => solver.MakeNumVar(0, double.PositiveInfinity, "bend"))];
        Variable e = solver.MakeNumVar(0, double.PositiveInfinity, "e");
        foreach (WeightReading r in series.Readings)
        {
            solver.Add(At(End(r)) + e >= (r.HeldN ?? 0) - series.UncertaintyN);
            if (r.MovedN is { } moved)
            {
                solver.Add(At(Start(r)) <= moved + series.UncertaintyN);
            }
        }

        solver.Minimize(e * 1.0);
        Assert.Equal(Solver.ResultStatus.OPTIMAL, solver.Solve());
        return e.SolutionValue() < 1e-6;

        LinearExpr At(double x) => knots
            .Select((knot, i) => bends[i] * (upward ? Math.Max(0, x - knot) : Math.Min(x, knot)))
            .Aggregate(a + (b * x), (sum, bend) => sum + bend);
        double Start(WeightReading r) => r.AddedN > 0 ? Math.Max(0, r.AddedN - series.WeightUncertaintyN) : 0;
        double End(WeightReading r) => r.AddedN > 0 ? r.AddedN + series.WeightUncertaintyN : 0;
    }
}
