using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>The readings, by the piece of the chain that each was made on.</summary>
internal sealed class PieceTests
{
    private readonly (ChainPiece Piece, int Device, SetUpForce Force, WeightSeries Series)[] _tests;

    /// <summary>Sorts series by piece.</summary>
    public PieceTests(Chain chain, IEnumerable<TestedSeries> series) => _tests =
    [
        .. series.Select(one =>
        {
            var force = new SetUpForce(chain, one.SetUp);
            return (force.Piece, (one.SetUp as SetUp.DeviceAlone)?.Index ?? -1, force, one.Series);
        }),
    ];

    /// <summary>Whether a chain gives every reading made on just this piece of it.</summary>
    public bool Gives(in PossibleChain chain, ChainPiece piece, int device = -1)
    {
        foreach ((ChainPiece of, int index, SetUpForce force, WeightSeries series) in _tests)
        {
            if (of == piece && index == device && !force.Gives(chain, series))
            {
                return false;
            }
        }

        return true;
    }
}

/// <summary>Every part in every state, as drawn.</summary>
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
    /// <summary>Without parts that contradict a reading made on them alone.</summary>
    public PartBanks Keeping(PieceTests tests, PossibleChain typical)
    {
        (HelmSide near, ArmSide far) = (typical.HelmSide, typical.ArmSide);
        return new PartBanks(
            Helms.Keeping(helm => tests.Gives(typical with { HelmSide = near with { Helm = helm } }, ChainPiece.Helm)),
            [.. Devices.Select((states, i) => states.Keeping(device =>
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
            Cables.Keeping(cable => tests.Gives(typical with { HelmSide = near with { Cable = cable } }, ChainPiece.Cable)),
            Arms.Keeping(arm => tests.Gives(typical with { ArmSide = far with { Arm = arm } }, ChainPiece.Arm)));
    }
}

/// <summary>Puts parts together: first each side of the cable's output end, then both, and strikes out at each step what contradicts
/// a reading made on that piece.</summary>
internal sealed class Assembly(Chain chain, PartBanks banks, PieceTests tests, PossibleChain typical, int mostDrawn)
{
    private const int FirstRound = 2048;
    private const int EnoughOfASide = 1000;
    private const int EnoughLeft = 250;

    private readonly Dictionary<string, PartState<HelmSide>> _helmSides = [];
    private readonly Dictionary<string, PartState<ArmSide>> _armSides = [];

    /// <summary>How many chains were put together so far.</summary>
    public int DrawnCount { get; private set; }

    /// <summary>Chains with some things at fault, as many as are left of those drawn.</summary>
    public PartState<PossibleChain> Chains(IReadOnlyList<Fault> faults)
    {
        PartState<HelmSide> near = HelmSides([.. faults.Where(IsNear)]);
        PartState<ArmSide> far = ArmSides([.. faults.Where(fault => !IsNear(fault))]);
        var points = new EvenPoints(2);
        PartState<PossibleChain> chains = Draw(
            near.Share * far.Share,
            EnoughLeft,
            i => new PossibleChain(faults, Pick(near.Left, points.At(i, 0)), Pick(far.Left, points.At(i, 1))),
            one => tests.Gives(one, ChainPiece.Whole),
            out int drawn);
        DrawnCount += drawn;
        return chains;
    }

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
                EnoughOfASide,
                i => new HelmSide(
                    Pick(helms.Left, points.At(i, 0)), Pick(devices, i, 2, points), Pick(cables.Left, points.At(i, 1))),
                side => tests.Gives(typical with { HelmSide = side }, ChainPiece.HelmSide),
                out _);
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
                EnoughOfASide,
                i => new ArmSide(Pick(devices, i, 1, points), Pick(arms.Left, points.At(i, 0))),
                side => tests.Gives(typical with { ArmSide = side }, ChainPiece.ArmSide),
                out _);
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

    private static T Pick<T>(IReadOnlyList<T> from, double at) => from[Math.Min(from.Count - 1, (int)(at * from.Count))];

    // Rounds that double, until enough are left or the most are drawn.
    private PartState<T> Draw<T>(double shareOfParts, int enough, Func<int, T> put, Predicate<T> gives, out int drawn)
    {
        var left = new List<T>();
        drawn = 0;
        if (shareOfParts > 0)
        {
            for (int end = FirstRound; drawn < mostDrawn && left.Count < enough; end = 2 * drawn)
            {
                for (; drawn < Math.Min(mostDrawn, end); drawn++)
                {
                    T one = put(drawn);
                    if (gives(one))
                    {
                        left.Add(one);
                    }
                }
            }
        }

        return new PartState<T>(null, left, drawn == 0 ? 0 : shareOfParts * left.Count / drawn);
    }
}
