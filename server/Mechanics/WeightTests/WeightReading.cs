namespace CableCatalog.Mechanics.WeightTests;

/// <summary>One step of a weight test: with a weight hung at the load, the control held at one force and moved at another.
/// </summary>
/// <remarks>The effort at which it breaks away lies between the two: an interval, never a point. Either end may be missing.
/// </remarks>
public sealed record WeightReading
{
    /// <summary>Makes a reading.</summary>
    /// <param name="addedN">Weight hung at the load, N, >= 0.</param>
    /// <param name="heldN">The most that did not move it, N, >= 0; null where none was tried.</param>
    /// <param name="movedN">The least that moved it, N; null where none was tried.</param>
    /// <exception cref="ArgumentException">A force out of range, moved below held, or neither given.</exception>
    public WeightReading(double addedN, double? heldN, double? movedN)
    {
        AddedN = Limits.LoadN.Require(addedN, nameof(addedN));
        HeldN = heldN is { } held ? Limits.LoadN.Require(held, nameof(heldN)) : null;
        MovedN = movedN is { } moved ? Limits.LoadN.Require(moved, nameof(movedN)) : null;
        if (HeldN is null && MovedN is null)
        {
            throw new ArgumentException("a force that held or one that moved is expected, found neither");
        }

        if (MovedN < HeldN)
        {
            throw new ArgumentException(
                $"a force that moved of at least the one that held is expected, found {MovedN} below {HeldN}");
        }
    }

    /// <summary>Weight hung at the load, N.</summary>
    public double AddedN { get; }

    /// <summary>The most that did not move it, N.</summary>
    public double? HeldN { get; }

    /// <summary>The least that moved it, N.</summary>
    public double? MovedN { get; }
}

/// <summary>A series of readings of one set-up in one direction.</summary>
/// <remarks>Effort does not fall with load, so a reading (x, h, m) says two things and no more: at the least that may have hung,
/// x- = max(0, x - v), the effort is at most m + u, and at the most that may have hung, x+ = x + v, at least h - u. Nothing hung
/// is exactly nothing: there x- = x+ = 0. Each reading may be off by itself; where one error is common to all of them the truth
/// still lies within what is allowed here.</remarks>
public sealed record WeightSeries
{
    /// <summary>The most readings in a series.</summary>
    public const int MostReadings = 100;

    // What rounding leaves of x - v where the two are alike is no load: the slope is bounded by dividing by it.
    private const double NothingN = 1e-9;

    /// <summary>Makes a series of 1 to <see cref="MostReadings"/> readings.</summary>
    /// <param name="readings">The readings, in whatever order.</param>
    /// <param name="uncertaintyN">u: how far each force may be from what was read, N, >= 0.</param>
    /// <param name="weightUncertaintyN">v: how far each weight that was hung may be from what was read, N, >= 0.</param>
    /// <exception cref="ArgumentException">No readings, too many, or an uncertainty out of range.</exception>
    public WeightSeries(IEnumerable<WeightReading> readings, double uncertaintyN, double weightUncertaintyN = 0)
    {
        Readings = [.. readings];
        UncertaintyN = Limits.LoadN.Require(uncertaintyN, nameof(uncertaintyN));
        WeightUncertaintyN = Limits.LoadN.Require(weightUncertaintyN, nameof(weightUncertaintyN));
        if (Readings.Count is 0 or > MostReadings)
        {
            throw new ArgumentException($"1 to {MostReadings} readings are expected, found {Readings.Count}");
        }
    }

    /// <summary>The readings.</summary>
    public IReadOnlyList<WeightReading> Readings { get; }

    /// <summary>u: how far each force may be from what was read, N.</summary>
    public double UncertaintyN { get; }

    /// <summary>v: how far each weight that was hung may be from what was read, N.</summary>
    public double WeightUncertaintyN { get; }

    /// <summary>x-: the least that may have hung, N: there the effort is at most <see cref="MostN"/>.</summary>
    public double LeastAddedN(WeightReading reading) =>
        reading.AddedN - WeightUncertaintyN is > NothingN and var leastN ? leastN : 0;

    /// <summary>x+: the most that may have hung, N: there the effort is at least <see cref="LeastN"/>.</summary>
    public double MostAddedN(WeightReading reading) => reading.AddedN > NothingN ? reading.AddedN + WeightUncertaintyN : 0;

    /// <summary>The series without one of its readings.</summary>
    internal WeightSeries Without(int index) =>
        new(Readings.Where((_, i) => i != index), UncertaintyN, WeightUncertaintyN);

    /// <summary>The least effort that a reading allows, N: what held, less the uncertainty; 0 where nothing held.</summary>
    public double LeastN(WeightReading reading) => Math.Max(0, (reading.HeldN ?? 0) - UncertaintyN);

    /// <summary>The most effort that a reading allows, N: what moved it, and the uncertainty; infinite where nothing did.
    /// </summary>
    public double MostN(WeightReading reading) => (reading.MovedN ?? double.PositiveInfinity) + UncertaintyN;
}
