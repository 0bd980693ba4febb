using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Space;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;
using MathNet.Numerics.Random;

namespace CableCatalog.Routing.Tests.Surveys;

/// <summary>A curve whose bend and radius are known, to be measured with a seeded normal error.</summary>
/// <param name="Name">What it is.</param>
/// <param name="LengthM">Its length, m.</param>
/// <param name="BendRad">How much it bends in all, rad.</param>
/// <param name="RadiusM">Its tightest radius, m; null where it is straight.</param>
/// <param name="At">Where it is by the length along it, m.</param>
public sealed record MeasuredCurve(string Name, double LengthM, double BendRad, double? RadiusM, Func<double, Vec> At)
{
    public static MeasuredCurve Straight { get; } = new("straight", 4, 0, null, s => new Vec(s * 0.6, s * 0.8, 0));

    /// <summary>A circle bends by its arc's angle.</summary>
    public static MeasuredCurve Circle { get; } = new(
        "circle", 0.5 * 2.6, 2.6, 0.5, s => new Vec(0.5 * Math.Sin(s / 0.5), 0, 0.5 * (1 - Math.Cos(s / 0.5))));

    public static MeasuredCurve Helix { get; } = HelixOf(0.4, 0.25, 3);

    public static MeasuredCurve SBend { get; } = Of(
        "S-bend",
        new Straight(0.8),
        new Bend(1.2, 0.3, 0),
        new Straight(0.6),
        new Bend(1.2, 0.3, Math.PI),
        new Straight(0.8));

    public static MeasuredCurve DeckRun { get; } = Of(
        "run along a deck",
        new Straight(0.5),
        new Bend(Math.PI / 2, 0.2, 0.3),
        new Straight(2),
        new Bend(1, 0.25, 2),
        new Straight(1.2));

    /// <summary>y = A sin(kx), whose length and total curvature are integrated by MathNet.Numerics' Gauss-Legendre rule.</summary>
    public static MeasuredCurve Sine { get; } = SineOf(0.35, Math.PI / 1.2, 2.4);

    public static IReadOnlyList<MeasuredCurve> All => [Straight, Circle, Helix, SBend, DeckRun, Sine];

    /// <summary>A helix of radius a that rises by 2 pi b a turn has curvature a / (a^2 + b^2): M. P. do Carmo, Differential Geometry
    /// of Curves and Surfaces, 1976, section 1-5 (from memory).</summary>
    public static MeasuredCurve HelixOf(double aM, double bM, double turnedRad)
    {
        double c = double.Hypot(aM, bM);
        double curvature = aM / (c * c);
        return new MeasuredCurve(
            "helix",
            c * turnedRad,
            curvature * c * turnedRad,
            1 / curvature,
            s => new Vec(aM * Math.Cos(s / c), aM * Math.Sin(s / c), bM * s / c));
    }

    private static MeasuredCurve SineOf(double heightM, double perM, double lengthM)
    {
        double Slope(double x) => heightM * perM * Math.Cos(perM * x);
        double BendPerM(double x) => heightM * perM * perM * Math.Abs(Math.Sin(perM * x)) / (1 + (Slope(x) * Slope(x)));
        double Integral(Func<double, double> of) => Enumerable.Range(0, 24).Sum(
            i => GaussLegendreRule.Integrate(of, lengthM * i / 24, lengthM * (i + 1) / 24, 12));
        double alongM = Integral(x => Math.Sqrt(1 + (Slope(x) * Slope(x))));
        return new MeasuredCurve(
            "sine",
            alongM,
            Integral(BendPerM),
            1 / (heightM * perM * perM),
            s => new Vec(lengthM * s / alongM, heightM * Math.Sin(perM * lengthM * s / alongM), 0));
    }

    /// <summary>Straights and bends, laid out as <see cref="RouteInSpace"/> does, which has tests of its own.</summary>
    public static MeasuredCurve Of(string name, params RouteElement[] elements)
    {
        var route = new CableRoute(elements);
        IReadOnlyList<Vec> trace = new RouteInSpace(route, RouteEnd.Origin).Trace(0.0005);
        var at = new double[trace.Count];
        for (int i = 1; i < at.Length; i++)
        {
            at[i] = at[i - 1] + (trace[i] - trace[i - 1]).Length;
        }

        return new MeasuredCurve(name, at[^1], route.TotalBendRad, route.Bends.Min(b => (double?)b.RadiusM), s =>
        {
            int found = Array.BinarySearch(at, s);
            int i = Math.Clamp(found < 0 ? ~found - 1 : found, 0, at.Length - 2);
            return trace[i] + ((trace[i + 1] - trace[i]) * ((s - at[i]) / (at[i + 1] - at[i])));
        });
    }

    /// <summary>Points along it, about a gap apart, each off by a normal error along every axis.</summary>
    public Vec[] Points(double gapM, double errorM, int seed)
    {
        var random = new MersenneTwister(seed);
        int gaps = Math.Max(3, (int)Math.Round(LengthM / gapM));
        double Off() => errorM > 0 ? Normal.Sample(random, 0, errorM) : 0;
        return [.. Enumerable.Range(0, gaps + 1).Select(i => At(LengthM * i / gaps) + new Vec(Off(), Off(), Off()))];
    }

    public override string ToString() => Name;
}
