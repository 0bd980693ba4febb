using System.Runtime.CompilerServices;
using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Chains;

/// <summary>Force in the core of a cable under every load of a setting, marched once, and what it takes at the grip.</summary>
public sealed class CoreForces
{
    private readonly double[] _coreN;
    private readonly double[] _gripN;

    private CoreForces(Setting setting, in CableCoefficients cable)
    {
        (Setting, Cable) = (setting, cable);
        _coreN = new double[setting.Loads.Count];
        _gripN = new double[setting.Loads.Count];
    }

    /// <summary>What it is set in.</summary>
    public Setting Setting { get; }

    /// <summary>Its coefficients there.</summary>
    public CableCoefficients Cable { get; }

    /// <summary>Effort in the worst load case that governs, N; infinite where the cable locks.</summary>
    public double WorstN { get; private set; } = double.NegativeInfinity;

    /// <summary>The load from which it locks in push, N; see <see cref="Effort.LockUpLoadN"/>. Infinite where nothing is pushed.</summary>
    public double LockUpLoadN => Setting.Pushes ? Effort.LockUpLoadN(Setting.Chain, Cable) : double.PositiveInfinity;

    /// <summary>Marches a cable.</summary>
    /// <param name="setting">What it is set in.</param>
    /// <param name="cable">Its coefficients there.</param>
    public static CoreForces Of(Setting setting, CableCoefficients cable) => OfAll([(setting, cable)])[0];

    /// <summary>Marches cables, side by side where they run along one route under loads in the same directions.</summary>
    /// <param name="cables">The cables, each with what it is set in.</param>
    public static CoreForces[] OfAll(ReadOnlySpan<(Setting Setting, CableCoefficients Cable)> cables)
    {
        var all = new CoreForces[cables.Length];
        for (int first = 0; first < cables.Length;)
        {
            int count = 1;
            while (count < SideBySide.Most && first + count < cables.Length
                && cables[first].Setting.RunsLike(cables[first + count].Setting))
            {
                count++;
            }

            March(cables.Slice(first, count), all.AsSpan(first, count));
            first += count;
        }

        return all;
    }

    /// <summary>Force at its helm end under a load, counted from 0, N; infinite where it locks.</summary>
    public double CoreN(int load) => _coreN[load];

    /// <summary>The same at the most that the load may be, but for its last digits.</summary>
    public double HeaviestCoreN(int load) => Setting.Loads[load].Heaviest is { } heaviest
        ? Effort.CoreForceN(Setting.Chain, Cable, heaviest)
        : _coreN[load];

    /// <summary>Effort under a load where the sweep makes it worst, N; infinite where it locks.</summary>
    public double AtGripN(int load) => _gripN[load];

    private static void March(ReadOnlySpan<(Setting Setting, CableCoefficients Cable)> cables, Span<CoreForces> all)
    {
        Coefficients room = default;
        Span<CableCoefficients> coefficients = ((Span<CableCoefficients>)room)[..cables.Length];
        Span<double> outputN = stackalloc double[cables.Length];
        Span<double> inputN = stackalloc double[cables.Length];
        for (int i = 0; i < cables.Length; i++)
        {
            all[i] = new CoreForces(cables[i].Setting, cables[i].Cable);
            coefficients[i] = cables[i].Cable;
        }

        Setting first = cables[0].Setting;
        Span<Stage> helm = stackalloc Stage[cables.Length];
        for (int i = 0; i < cables.Length; i++)
        {
            helm[i] = i > 0 && ReferenceEquals(cables[i].Setting.Chain.Helm, first.Chain.Helm) ? helm[0] : Stage.Of(cables[i].Setting.Chain.Helm);
        }

        for (int load = 0; load < first.Loads.Count; load++)
        {
            for (int i = 0; i < cables.Length; i++)
            {
                outputN[i] = i > 0 && cables[i].Setting.IsButForWobble(first) ? outputN[0] : cables[i].Setting.CableOutputN(load);
            }

            SideBySide.InputForcesN(first.Chain.Route, coefficients, first.Loads[load].Direction, outputN, inputN);
            for (int i = 0; i < cables.Length; i++)
            {
                all[i].Take(load, inputN[i], helm[i]);
            }
        }
    }

    private void Take(int load, double coreN, Stage helm)
    {
        _coreN[load] = coreN;
        _gripN[load] = Effort.AtGripN(Setting.Chain, coreN, helm);
        WorstN = Setting.Loads[load].Governs ? Math.Max(WorstN, _gripN[load]) : WorstN;
    }

    [InlineArray(SideBySide.Most)]
    private struct Coefficients
    {
        private CableCoefficients _first;
    }
}
