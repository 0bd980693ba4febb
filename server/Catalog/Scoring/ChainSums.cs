using System.Buffers;
using System.Runtime.Intrinsics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Scoring;

/// <summary>What an installation is to any number of grades, summed once: the force in the core of each at its likely values, and whether
/// it may lock.</summary>
internal sealed class ChainSums
{
    private static readonly double AllBits = BitConverter.Int64BitsToDouble(-1);

    private readonly Setting[] _settings;
    private readonly RouteSums _route;

    // The settings in which a cable that locks in any of them does, with the most that any load may push with.
    private readonly (Setting Setting, RouteSums Route, LoadCase Heaviest, double OutputN)[] _worstPushes;

    // Force at the output end of the cable, N, under the largest load of a kind; minus infinity where there is none.
    private readonly double _pullN;
    private readonly double _pushN;
    private readonly double _governingPullN;
    private readonly double _governingN;
    private readonly LoadCase? _push;
    private readonly LoadCase? _governingPush;

    /// <summary>Sums an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="baseline">Its present cable, with the chains that may be there.</param>
    /// <param name="mostFriction">The largest friction of any grade that it will be asked for.</param>
    public ChainSums(Installation installation, Baseline baseline, double mostFriction)
    {
        _settings = [.. baseline.Chains.Select(chain => chain.Setting.Along(installation.Chain.Route))];
        Setting likely = _settings[0];
        _route = new RouteSums(likely.Chain.Route, likely.WobbleRadPerM, likely.HiddenShare, mostFriction);
        _push = Largest(likely, load => load.Direction == Direction.Push);
        _governingPush = Largest(likely, load => load.Governs && load.Direction == Direction.Push);
        _worstPushes = _push is null ? [] : [.. WorstOf(_settings).Select(setting => (
            setting,
            new RouteSums(setting.Chain.Route, setting.WobbleRadPerM, setting.HiddenShare, mostFriction),
            HeaviestPush(setting),
            OutputN(setting, HeaviestPush(setting))))];
        _pullN = OutputN(likely, Largest(likely, load => load.Direction == Direction.Pull));
        _pushN = OutputN(likely, _push);
        _governingPullN = OutputN(likely, Largest(likely, load => load.Governs && load.Direction == Direction.Pull));
        _governingN = Math.Max(_governingPullN, OutputN(likely, _governingPush));
        ToGrip = Effort.FromCore(likely.Chain);
    }

    /// <summary>From the force in the core to the effort where the sweep makes it worst.</summary>
    public Stage ToGrip { get; }

    /// <summary>Whether anything is pushed.</summary>
    public bool Pushes => _push is not null;

    /// <summary>Writes the forces in the cores of a block of grades.</summary>
    /// <param name="block">The grades.</param>
    /// <param name="governingN">Where to write the largest under the loads that decide, N.</param>
    /// <param name="pullN">Where to write the largest under any that is pulled, N; minus infinity where none is.</param>
    /// <param name="pushN">The same where one is pushed.</param>
    /// <param name="locks">Where to write whether it may lock in push: all bits set, or none.</param>
    public void WriteForces(GradeBlock block, Span<double> governingN, Span<double> pullN, Span<double> pushN, Span<double> locks)
    {
        bool snakes = _push is not null && block.Cables.HasCores;
        _route.WriteStages(block.Cables, governingN, pullN);
        for (int row = 0; row < block.Cables.Rows; row += Vector256<double>.Count)
        {
            Vector256<double> gain = Vector256.Create<double>(governingN[row..]);
            Vector256<double> dragN = Vector256.Create<double>(pullN[row..]);
            Vector256<double> governing = snakes
                ? Vector256.ConditionalSelect(
                    Vector256.Equals(Vector256.Create(block.CoreIsKnown, row), Vector256<double>.One),
                    Vector256.Create(_governingPullN),
                    Vector256.Create(_governingN))
                : Vector256.Create(_governingN);
            ((gain * governing) + dragN).CopyTo(governingN[row..]);
            ((gain * _pullN) + dragN).CopyTo(pullN[row..]);
            ((gain * _pushN) + dragN).CopyTo(pushN[row..]);
        }

        locks[..block.Cables.Rows].Clear();
        if (snakes)
        {
            WriteSnaking(block, governingN, pushN, locks);
        }
    }

    // A core that may snake is marched only where it may matter.
    private void WriteSnaking(GradeBlock block, Span<double> governingN, Span<double> pushN, Span<double> locks)
    {
        Setting likely = _settings[0];
        WriteLocks(block, locks);
        double[] fadingM = ArrayPool<double>.Shared.Rent(GradeBlock.Most);
        _route.WriteFadingLengths(block.Cables, fadingM);
        for (int i = 0; i < block.Grades.Length; i++)
        {
            CableBands bands = block.Grades[i].Grade.Bands;
            if (bands.Core is null)
            {
                continue;
            }

            // What the governing push takes is no more than what the largest does.
            double mostN = SnakingBound.MostInputN(pushN[i], block.Cables.SnakingRate[i], fadingM[i]);
            if (mostN <= block.RatedPushN[i] && mostN <= governingN[i])
            {
                pushN[i] = mostN;
                continue;
            }

            CableCoefficients cable = likely.Of(bands, BandEnd.Likely);
            pushN[i] = Effort.CoreForceN(likely.Chain, cable, _push!);
            double governingPushN =
                ReferenceEquals(_governingPush, _push) ? pushN[i]
                : _governingPush is { } load ? Effort.CoreForceN(likely.Chain, cable, load)
                : double.NegativeInfinity;
            governingN[i] = Math.Max(governingN[i], governingPushN);
        }

        ArrayPool<double>.Shared.Return(fadingM);
    }

    // Every force rises with each band, so that a cable that locks at all does at the high ends.
    private void WriteLocks(GradeBlock block, Span<double> locks)
    {
        double[] room = ArrayPool<double>.Shared.Rent(3 * GradeBlock.Most);
        Span<double> gain = room.AsSpan(0, GradeBlock.Most);
        Span<double> dragN = room.AsSpan(GradeBlock.Most, GradeBlock.Most);
        Span<double> fadingM = room.AsSpan(2 * GradeBlock.Most, GradeBlock.Most);
        foreach ((Setting setting, RouteSums route, LoadCase heaviest, double outputN) in _worstPushes)
        {
            route.WriteStages(block.AtHighEnd, gain, dragN);
            route.WriteFadingLengths(block.AtHighEnd, fadingM);
            for (int i = 0; i < block.Grades.Length; i++)
            {
                double mostN = SnakingBound.MostInputN(
                    (gain[i] * outputN) + dragN[i], block.AtHighEnd.SnakingRate[i], fadingM[i]);
                if (double.IsInfinity(mostN) && double.IsInfinity(
                    Effort.CoreForceN(setting.Chain, setting.Of(block.Grades[i].Grade.Bands, BandEnd.High), heaviest)))
                {
                    locks[i] = AllBits;
                }
            }
        }

        ArrayPool<double>.Shared.Return(room);
    }

    // Of settings that differ in nothing but the wobble, the one with the most.
    private static IEnumerable<Setting> WorstOf(Setting[] settings) => settings
        .GroupBy(setting => (setting.Chain, setting.Loads, setting.HiddenShare))
        .Select(alike => alike.MaxBy(setting => setting.WobbleRadPerM)!);

    private static LoadCase HeaviestPush(Setting setting) =>
        setting.Loads.Where(load => load.Direction == Direction.Push).Select(load => load.Heaviest ?? load).MaxBy(load => load.ForceN)!;

    private static LoadCase? Largest(Setting setting, Func<LoadCase, bool> of) =>
        setting.Loads.Where(of).MaxBy(load => load.ForceN);

    private static double OutputN(Setting setting, LoadCase? load) =>
        load is null ? double.NegativeInfinity : Effort.CableOutputN(setting.Chain, load.ForceN);
}
