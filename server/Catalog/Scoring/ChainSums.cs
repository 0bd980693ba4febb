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

    private readonly Setting _likely;
    private readonly RouteSums _route;

    // The settings in which a cable that locks in any of them does, with the most that any load may push with.
    private readonly (Setting Setting, RouteSums Route, LoadCase Heaviest, double OutputN)[] _worstPushes;

    // Force at the output end of the cable, N, under the largest load of a kind; minus infinity where there is none.
    private readonly double _pullN;
    private readonly double _pushN;
    private readonly double _governingN;
    private readonly LoadCase? _push;
    private readonly LoadCase? _governingPush;

    /// <summary>Sums an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="baseline">Its present cable, with the chains that may be there.</param>
    /// <param name="mostFriction">The largest friction of any grade that it will be asked for.</param>
    public ChainSums(Installation installation, Baseline baseline, double mostFriction)
    {
        Setting[] settings = [.. baseline.Chains.Select(chain => chain.Setting.Along(installation.Chain.Route))];
        Setting likely = _likely = settings[0];
        _route = new RouteSums(likely.Chain.Route, likely.WobbleRadPerM, likely.HiddenShare, mostFriction);
        _push = Largest(likely, load => load.Direction == Direction.Push);
        _governingPush = Largest(likely, load => load.Governs && load.Direction == Direction.Push);
        _worstPushes = _push is null ? [] : [.. WorstOf(settings).Select(setting => (
            setting,
            new RouteSums(setting.Chain.Route, setting.WobbleRadPerM, setting.HiddenShare, mostFriction),
            HeaviestPush(setting),
            OutputN(setting, HeaviestPush(setting))))];
        _pullN = OutputN(likely, Largest(likely, load => load.Direction == Direction.Pull));
        _pushN = OutputN(likely, _push);
        _governingN = OutputN(likely, Largest(likely, load => load.Governs));
        ToGrip = Effort.FromCore(likely.Chain);
    }

    /// <summary>Whether an installation can be summed for cables of up to some friction: see <see cref="RouteSums.MostExponent"/>.</summary>
    public static bool CanSum(Installation installation, Baseline baseline, double mostFriction) => baseline.Chains.All(chain =>
        RouteSums.Exponent(
            installation.Chain.Route, chain.Setting.WobbleRadPerM, chain.Setting.HiddenShare, mostFriction) <= RouteSums.MostExponent);

    /// <summary>From the force in the core to the effort where the sweep makes it worst.</summary>
    public Stage ToGrip { get; }

    /// <summary>Whether anything is pushed.</summary>
    public bool Pushes => _push is not null;

    /// <summary>Writes the forces in the cores of a block of grades; of a core that may snake, the least that they can be.</summary>
    /// <param name="block">The grades.</param>
    /// <param name="forces">Where to write them.</param>
    public void WriteForces(GradeBlock block, BlockForces forces)
    {
        _route.WriteStages(block.Cables, forces.GoverningN, forces.PullN);
        for (int row = 0; row < block.Cables.Rows; row += Vector512<double>.Count)
        {
            Vector512<double> gain = Vector512.Create<double>(forces.GoverningN.AsSpan(row));
            Vector512<double> dragN = Vector512.Create<double>(forces.PullN.AsSpan(row));
            ((gain * _governingN) + dragN).CopyTo(forces.GoverningN, row);
            ((gain * _pullN) + dragN).CopyTo(forces.PullN, row);
            ((gain * _pushN) + dragN).CopyTo(forces.PushN, row);
        }

        forces.Locks.AsSpan(0, block.Cables.Rows).Clear();
        forces.Untold.AsSpan(0, block.Cables.Rows).Clear();
        if (_push is not null && block.Cables.HasCores)
        {
            FindUntold(block, forces);
        }
    }

    /// <summary>Marches a grade whose core may snake, and writes what it finds.</summary>
    public void Tell(GradeBlock block, int row, BlockForces forces)
    {
        CableBands bands = block.Grades[row].Grade.Bands;
        CableCoefficients cable = _likely.Of(bands, BandEnd.Likely);
        forces.PushN[row] = Effort.CoreForceN(_likely.Chain, cable, _push!);
        if (_governingPush is { } load)
        {
            forces.GoverningN[row] = Math.Max(
                forces.GoverningN[row],
                ReferenceEquals(load, _push) ? forces.PushN[row] : Effort.CoreForceN(_likely.Chain, cable, load));
        }

        // Every force rises with each band, so that a cable that locks at all does at the high ends.
        bool locks = _worstPushes.Any(worst => double.IsInfinity(
            Effort.CoreForceN(worst.Setting.Chain, worst.Setting.Of(bands, BandEnd.High), worst.Heaviest)));
        forces.Locks[row] = locks ? AllBits : 0;
        forces.Untold[row] = 0;
    }

    // A core that snakes takes no less than in pull. Where it can take no more than what decides in any case, and not lock, nothing is untold.
    private void FindUntold(GradeBlock block, BlockForces forces)
    {
        int rows = block.Cables.Rows;
        double[] room = ArrayPool<double>.Shared.Rent(3 * GradeBlock.Most);
        Span<double> fadingM = room.AsSpan(0, GradeBlock.Most);
        Span<double> gain = room.AsSpan(GradeBlock.Most, GradeBlock.Most);
        Span<double> dragN = room.AsSpan(2 * GradeBlock.Most, GradeBlock.Most);
        _route.WriteFadingLengths(block.Cables, fadingM);
        Vector512<double> noneGoverns = _governingPush is null ? Vector512<double>.AllBitsSet : Vector512<double>.Zero;
        for (int row = 0; row < rows; row += Vector512<double>.Count)
        {
            Vector512<double> leastN = Vector512.Create(forces.PushN, row);
            Vector512<double> rate = Vector512.Create(block.Cables.SnakingRate, row);
            Vector512<double> ratedN = Vector512.Create(block.RatedPushN, row);
            Vector512<double> governingN = Vector512.Create(forces.GoverningN, row);
            Vector512<double> mostN = SnakingBound.MostInputN(leastN, rate, Vector512.Create<double>(fadingM[row..]));
            Vector512<double> isToldRating = Vector512.GreaterThan(leastN, ratedN) | Vector512.LessThanOrEqual(mostN, ratedN);
            Vector512<double> isToldEffort = noneGoverns | Vector512.LessThanOrEqual(mostN, governingN)
                | Vector512.Equals(rate, Vector512<double>.Zero);
            (~(isToldRating & isToldEffort)).CopyTo(forces.Untold, row);
        }

        foreach ((Setting _, RouteSums route, LoadCase _, double outputN) in _worstPushes)
        {
            route.WriteStages(block.AtHighEnd, gain, dragN);
            route.WriteFadingLengths(block.AtHighEnd, fadingM);
            for (int row = 0; row < rows; row += Vector512<double>.Count)
            {
                Vector512<double> pulledN =
                    (Vector512.Create<double>(gain[row..]) * outputN) + Vector512.Create<double>(dragN[row..]);
                Vector512<double> isTold = SnakingBound.DoNotLock(
                    pulledN, Vector512.Create(block.AtHighEnd.SnakingRate, row), Vector512.Create<double>(fadingM[row..]));
                (Vector512.Create(forces.Untold, row) | ~isTold).CopyTo(forces.Untold, row);
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
