using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>The readings, by the piece of the chain that each was made on.</summary>
internal sealed class PieceTests
{
    private readonly Test[] _tests;
    private readonly CancellationToken _cancellation;

    /// <summary>Sorts series by piece.</summary>
    /// <param name="chain">The chain as described.</param>
    /// <param name="series">The readings.</param>
    /// <param name="cancellation">Gives up before the next piece is held against them.</param>
    public PieceTests(Chain chain, IEnumerable<TestedSeries> series, CancellationToken cancellation)
    {
        _tests = [.. series.Select(one => new Test(chain, one))];
        _cancellation = cancellation;
    }

    /// <summary>Whether a chain gives every reading made on just this piece of it.</summary>
    public bool Gives(in PossibleChain chain, ChainPiece piece, int device = -1)
    {
        _cancellation.ThrowIfCancellationRequested();
        foreach (Test test in _tests)
        {
            if (test.Piece == piece && test.Device == device && !test.Gives(chain))
            {
                return false;
            }
        }

        return true;
    }

    private sealed class Test
    {
        private readonly SetUpForce _force;
        private readonly (double HungN, double MostN)[] _moved;
        private readonly (double HungN, double LeastN)[] _held;

        public Test(Chain chain, TestedSeries tested)
        {
            WeightSeries series = tested.Series;
            _force = new SetUpForce(chain, tested.SetUp);
            Piece = _force.Piece;
            Device = (tested.SetUp as SetUp.DeviceAlone)?.Index ?? -1;
            _moved = [.. series.Readings.Where(r => r.MovedN is not null).Select(r =>
                (series.LeastAddedN(r), series.MostN(r) * (1 + Prior.ModelError)))];
            _held = [.. series.Readings.Where(r => r.HeldN is not null).Select(r =>
                (series.MostAddedN(r), series.LeastN(r) * (1 - Prior.ModelError)))];
        }

        public ChainPiece Piece { get; }

        public int Device { get; }

        public bool Gives(in PossibleChain chain)
        {
            foreach ((double hungN, double mostN) in _moved)
            {
                if (_force.N(chain, hungN) > mostN)
                {
                    return false;
                }
            }

            foreach ((double hungN, double leastN) in _held)
            {
                if (_force.N(chain, hungN) < leastN)
                {
                    return false;
                }
            }

            return true;
        }
    }
}

/// <summary>Every part in every state, without those that contradict a reading made on the part alone.</summary>
/// <param name="Helms">The helm.</param>
/// <param name="Devices">The inline devices.</param>
/// <param name="Cables">The cable.</param>
/// <param name="Arms">The arm and what is on it.</param>
internal sealed record PartBanks(
    PartStates<MechanismSample> Helms,
    IReadOnlyList<PartStates<MechanismSample>> Devices,
    PartStates<CableSample> Cables,
    PartStates<ArmSample> Arms)
{
    private const int Enough = 500;
    private const int Most = 32768;

    /// <summary>Draws the parts.</summary>
    /// <param name="described">The chain as described.</param>
    /// <param name="directions">The directions that are tested.</param>
    /// <param name="tests">The readings.</param>
    /// <param name="typical">A chain to put one part in at a time.</param>
    public static PartBanks Of(
        DescribedChain described, IReadOnlyList<Direction> directions, PieceTests tests, PossibleChain typical)
    {
        var samples = new PartSamples(described);
        (HelmSide near, ArmSide far) = (typical.HelmSide, typical.ArmSide);
        return new PartBanks(
            States(
                samples.Helms(),
                helm => tests.Gives(typical with { HelmSide = near with { Helm = helm } }, ChainPiece.Helm)),
            [.. described.Chain.InlineDevices.Select((_, i) => States(samples.Devices(i), device =>
            {
                MechanismSample[] devices = [.. near.Devices];
                devices[i] = device;
                PossibleChain chain = typical with
                {
                    HelmSide = near with { Devices = devices },
                    ArmSide = far with { Devices = devices },
                };
                return tests.Gives(chain, ChainPiece.Device, i);
            }))],
            States(
                samples.Cables(),
                cable => tests.Gives(typical with { HelmSide = near with { Cable = cable } }, ChainPiece.Cable)),
            States(
                samples.Arms(directions),
                arm => tests.Gives(typical with { ArmSide = far with { Arm = arm } }, ChainPiece.Arm)));
    }

    private static PartStates<T> States<T>(IReadOnlyList<PartDraw<T>> draws, Predicate<T> gives) =>
        new([.. draws.Select(draw => PartState<T>.Of(draw, gives, Enough, Most))]);
}

/// <summary>Puts parts together on each side of the cable's output end, and strikes out what contradicts a reading made on that
/// side.</summary>
internal sealed class Assembly(Chain chain, PartBanks banks, PieceTests tests, PossibleChain typical, int mostDrawn)
{
    private const int EnoughOfASide = 1000;

    private readonly Dictionary<string, PartState<HelmSide>> _helmSides = [];
    private readonly Dictionary<string, PartState<ArmSide>> _armSides = [];

    /// <summary>What is left of both sides where some things are at fault.</summary>
    public (PartState<HelmSide> Near, PartState<ArmSide> Far) Sides(IReadOnlyList<Fault> faults) =>
        (HelmSides([.. faults.Where(IsNear)]), ArmSides([.. faults.Where(fault => !IsNear(fault))]));

    private PartState<HelmSide> HelmSides(IReadOnlyList<Fault> faults)
    {
        string key = string.Join(' ', faults);
        if (!_helmSides.TryGetValue(key, out PartState<HelmSide>? sides))
        {
            PartState<MechanismSample> helms = banks.Helms.With(faults);
            PartState<CableSample> cables = banks.Cables.With(faults);
            PartState<MechanismSample>?[] devices = DevicesAt(CableEnd.Helm, faults);
            var points = new EvenPoints(2 + devices.Length);
            sides = _helmSides[key] = Draw(
                helms.Share * cables.Share * Share(devices),
                i => new HelmSide(
                    Pick(helms.Left, points.At(i, 0)), Pick(devices, i, 2, points), Pick(cables.Left, points.At(i, 1))),
                side => tests.Gives(typical with { HelmSide = side }, ChainPiece.HelmSide));
        }

        return sides;
    }

    private PartState<ArmSide> ArmSides(IReadOnlyList<Fault> faults)
    {
        string key = string.Join(' ', faults);
        if (!_armSides.TryGetValue(key, out PartState<ArmSide>? sides))
        {
            PartState<ArmSample> arms = banks.Arms.With(faults);
            PartState<MechanismSample>?[] devices = DevicesAt(CableEnd.Arm, faults);
            var points = new EvenPoints(1 + devices.Length);
            sides = _armSides[key] = Draw(
                arms.Share * Share(devices),
                i => new ArmSide(Pick(devices, i, 1, points), Pick(arms.Left, points.At(i, 0))),
                side => tests.Gives(typical with { ArmSide = side }, ChainPiece.ArmSide));
        }

        return sides;
    }

    private bool IsNear(Fault fault) => fault.Kind is FaultKind.Helm or FaultKind.Liner or FaultKind.Bends
        || (fault.Kind == FaultKind.Device && chain.InlineDevices[fault.DeviceIndex].At == CableEnd.Helm);

    // Null for a device at the other end.
    private PartState<MechanismSample>?[] DevicesAt(CableEnd end, IReadOnlyList<Fault> faults) =>
        [.. banks.Devices.Select((states, i) => chain.InlineDevices[i].At == end ? states.With(faults) : null)];

    private static double Share(PartState<MechanismSample>?[] devices) =>
        devices.Aggregate(1.0, (product, device) => product * (device?.Share ?? 1));

    private MechanismSample[] Pick(PartState<MechanismSample>?[] devices, int point, int coordinate, EvenPoints points)
    {
        var picked = new MechanismSample[devices.Length];
        for (int i = 0; i < devices.Length; i++)
        {
            picked[i] = devices[i] is { } states
                ? Pick(states.Left, points.At(point, coordinate + i))
                : typical.HelmSide.Devices[i];
        }

        return picked;
    }

    /// <summary>The one at a share, 0 to 1, of the way along.</summary>
    internal static T Pick<T>(IReadOnlyList<T> from, double at) => from[Math.Min(from.Count - 1, (int)(at * from.Count))];

    private PartState<T> Draw<T>(double shareOfParts, Func<int, T> put, Predicate<T> gives)
    {
        if (shareOfParts == 0)
        {
            return new PartState<T>(null, [], 0);
        }

        PartState<T> sides = PartState<T>.Of(new PartDraw<T>(null, put), gives, EnoughOfASide, mostDrawn);
        return sides with { Share = sides.Share * shareOfParts };
    }
}
