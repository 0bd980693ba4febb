using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Cables;

/// <summary>Up to eight cables marched side by side along one route: each gets the force of <see cref="CableMarch"/> but for its last digits
/// (to 1e-13). A core that snakes, or of which that cannot be told, is marched by itself.</summary>
public static class SideBySide
{
    /// <summary>The most cables.</summary>
    public const int Most = 8;

    // 1/(n + 1)!
    private static readonly double[] PerFactorial =
        [.. Enumerable.Range(0, 16).Select(n => 1 / Enumerable.Range(1, n + 1).Aggregate(1.0, (product, k) => product * k))];

    /// <summary>Force at the helm end of the core of each cable, N; infinite where it locks in push.</summary>
    /// <param name="route">The route.</param>
    /// <param name="cables">The coefficients of each, 1 to <see cref="Most"/> of them.</param>
    /// <param name="direction">Pull or push.</param>
    /// <param name="outputN">Force at the output end of each, N, finite, >= 0.</param>
    /// <param name="inputN">Where to write the force of each, N.</param>
    /// <exception cref="ArgumentException">There are more cables, or not as many forces.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A force at an output end is negative, NaN or infinite.</exception>
    public static void InputForcesN(
        CableRoute route, ReadOnlySpan<CableCoefficients> cables, Direction direction, ReadOnlySpan<double> outputN, Span<double> inputN)
    {
        ArgumentNullException.ThrowIfNull(route);
        if (cables.Length > Most || outputN.Length != cables.Length || inputN.Length != cables.Length)
        {
            throw new ArgumentException($"there are to be up to {Most} cables, and two forces for each");
        }

        var eight = Eight.Of(cables, outputN);
        uint snaking = March(route, eight, direction == Direction.Push && eight.HasCores, inputN);
        for (int i = 0; i < cables.Length; i++)
        {
            if ((snaking >> i & 1) != 0)
            {
                inputN[i] = CableMarch.InputForceN(route, cables[i], direction, outputN[i]);
            }
        }
    }

    // The forces of those whose cores do not snake, and which do: a bit for each.
    private static uint March(CableRoute route, in Eight cables, bool maySnake, Span<double> inputN)
    {
        Vector512<double> snaking = Vector512<double>.Zero;
        Vector512<double> forceN = cables.OutputN + cables.SealDragN + cables.ElasticDragN(route.Joints[^1]);
        for (int i = route.Sections.Count - 1; i >= 0; i--)
        {
            RouteElement section = route.Sections[i];
            Vector512<double> frictionAngle =
                cables.FrictionOnRoute * (Vector512.Create(section.AngleRad) + (cables.WobbleRadPerM * section.LengthM));
            (Vector512<double> gain, Vector512<double> perAngle) = Gain(frictionAngle);
            Vector512<double> beforeN = forceN;
            forceN = (forceN * gain) + (cables.RunningDragNPerM * section.LengthM * perAngle);
            if (maySnake)
            {
                Vector512<double> onsetN = cables.OnsetN(section);
                snaking |= ~(Vector512.LessThanOrEqual(forceN, onsetN) & Vector512.LessThan(beforeN, onsetN));
            }

            forceN += cables.ElasticDragN(route.Joints[i]);
        }

        Span<double> all = stackalloc double[Most];
        (forceN + cables.SealDragN).CopyTo(all);
        all[..inputN.Length].CopyTo(inputN);
        return (uint)snaking.ExtractMostSignificantBits();
    }

    // e^x and (e^x - 1)/x. Up to 1/2 the sum of sixteen x^n/(n + 1)!, which leaves out less than 1e-19, the even and the odd ones apart; the
    // logarithm of many at once is not near enough to that of numbers near 1 for the way of Capstan. Products and sums are rounded one by
    // one, and a large power is taken by itself: every machine, and a program compiled ahead of time, gets the same bits.
    private static (Vector512<double> Gain, Vector512<double> PerAngle) Gain(Vector512<double> x)
    {
        Vector512<double> squared = x * x;
        (Vector512<double> even, Vector512<double> odd) = (Vector512<double>.Zero, Vector512<double>.Zero);
        for (int n = PerFactorial.Length - 2; n >= 0; n -= 2)
        {
            even = (even * squared) + Vector512.Create(PerFactorial[n]);
            odd = (odd * squared) + Vector512.Create(PerFactorial[n + 1]);
        }

        Vector512<double> perAngle = (odd * x) + even;
        Vector512<double> gain = (x * perAngle) + Vector512<double>.One;
        if (Vector512.LessThanOrEqualAll(x, Vector512.Create(0.5)))
        {
            return (gain, perAngle);
        }

        for (int i = 0; i < Most; i++)
        {
            if (x[i] > 0.5)
            {
                double power = Math.Exp(x[i]);
                gain = gain.WithElement(i, power);
                perAngle = perAngle.WithElement(i, (power - 1) / x[i]);
            }
        }

        return (gain, perAngle);
    }

    /// <summary>The coefficients, a lane for each; those left over take no force.</summary>
    private readonly struct Eight
    {
        private readonly Vector512<double> _elasticFactor;
        private readonly Vector512<double> _perRootClearance;
        private readonly Vector512<double> _onsetInStraight;
        private readonly Vector512<double> _onsetInBend;

        private Eight(in Lanes outputN, in Lanes friction, in Lanes wobble, in Lanes seal, in Lanes running, in Cores cores)
        {
            OutputN = outputN.Vector;
            FrictionOnRoute = friction.Vector;
            WobbleRadPerM = wobble.Vector;
            SealDragN = seal.Vector;
            RunningDragNPerM = running.Vector;
            HasCores = cores.Any;
            _elasticFactor = cores.ElasticFactor.Vector;
            _perRootClearance = cores.PerRootClearance.Vector;
            _onsetInStraight = cores.OnsetInStraight.Vector;
            _onsetInBend = cores.OnsetInBend.Vector;
        }

        public Vector512<double> OutputN { get; }

        public Vector512<double> FrictionOnRoute { get; }

        public Vector512<double> WobbleRadPerM { get; }

        public Vector512<double> SealDragN { get; }

        public Vector512<double> RunningDragNPerM { get; }

        public bool HasCores { get; }

        public static Eight Of(ReadOnlySpan<CableCoefficients> cables, ReadOnlySpan<double> outputN)
        {
            Lanes force = default, friction = default, wobble = default, seal = default, running = default;
            Cores cores = Cores.Unknown();
            for (int i = 0; i < cables.Length; i++)
            {
                if (!(outputN[i] >= 0 && double.IsFinite(outputN[i])))
                {
                    throw new ArgumentOutOfRangeException(nameof(outputN), outputN[i], "must be finite and not negative");
                }

                ref readonly CableCoefficients cable = ref cables[i];
                force[i] = outputN[i];
                friction[i] = cable.FrictionOnRoute;
                wobble[i] = cable.WobbleRadPerM;
                seal[i] = cable.SealDragN;
                running[i] = cable.RunningDragNPerM;
                if (cable.Core is { } core)
                {
                    cores.Set(i, core, cable.Friction);
                }
            }

            return new Eight(force, friction, wobble, seal, running, cores);
        }

        /// <summary>As that of <see cref="ElasticBend"/>, N.</summary>
        public Vector512<double> ElasticDragN(CurvatureChange joint)
        {
            if (joint.ChangePerM == 0 || !HasCores)
            {
                return Vector512<double>.Zero;
            }

            (double factor, double shortness) = ElasticBend.OnRoute(joint);
            return _elasticFactor * factor * (double.IsPositiveInfinity(shortness)
                ? Vector512<double>.One
                : Vector512.Min(Vector512<double>.One, _perRootClearance * shortness));
        }

        /// <summary>The force from which each snakes in a section, N; infinite where it cannot.</summary>
        public Vector512<double> OnsetN(RouteElement section) => section is Bend bend
            ? _onsetInBend * (1 / bend.RadiusM)
            : _onsetInStraight * (1 / (section.LengthM * section.LengthM));
    }

    private struct Cores
    {
        public Lanes ElasticFactor;
        public Lanes PerRootClearance;
        public Lanes OnsetInStraight;
        public Lanes OnsetInBend;
        public bool Any;

        public static Cores Unknown()
        {
            Cores cores = default;
            ((Span<double>)cores.OnsetInStraight).Fill(double.PositiveInfinity);
            ((Span<double>)cores.OnsetInBend).Fill(double.PositiveInfinity);
            return cores;
        }

        public void Set(int i, Core core, double friction)
        {
            Any = true;
            double root = Math.Sqrt(core.DiametralClearanceM);
            ElasticFactor[i] = friction * core.BendingStiffnessNm2 / root;
            PerRootClearance[i] = 1 / root;
            OnsetInStraight[i] = Snaking.OnsetInStraightN(core, 1);
            OnsetInBend[i] = Snaking.OnsetInBendN(core, 1);
        }
    }

    [InlineArray(Most)]
    private struct Lanes
    {
        private double _first;

        public readonly Vector512<double> Vector => Vector512.Create<double>(MemoryMarshal.CreateReadOnlySpan(in _first, Most));
    }
}
