using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>Why something is or is not suspected.</summary>
public abstract record SuspectReason
{
    private SuspectReason()
    {
    }

    /// <summary>A bend is under the least radius of the cable.</summary>
    /// <param name="Index">Which bend, counted from the helm from 0.</param>
    /// <param name="Bend">The bend.</param>
    public sealed record TightBend(int Index, Bend Bend) : SuspectReason;

    /// <summary>The cable behaves with more friction than a sound one has.</summary>
    public sealed record FrictionAboveBand : SuspectReason;

    /// <summary>The cable behaves, or may behave, with the friction of a sound one.</summary>
    public sealed record FrictionMayBeInBand : SuspectReason;

    /// <summary>With only what it belongs to connected, it takes more than a sound one would.</summary>
    /// <param name="Apart">What was read.</param>
    public sealed record TakesMoreAlone(TestedApart Apart) : SuspectReason;

    /// <summary>With only what it belongs to connected, it may take what a sound one would.</summary>
    /// <param name="Apart">What was read.</param>
    public sealed record AsSoundAlone(TestedApart Apart) : SuspectReason;

    /// <summary>The excess grows with the weight hung.</summary>
    /// <param name="Series">In which series, counted from 0.</param>
    public sealed record ExcessGrows(int Series) : SuspectReason;

    /// <summary>There is an excess, and it does not grow with the weight hung.</summary>
    /// <param name="Series">In which series, counted from 0.</param>
    public sealed record ExcessIsConstant(int Series) : SuspectReason;

    /// <summary>The readings bend upward.</summary>
    /// <param name="Series">In which series, counted from 0.</param>
    public sealed record BendsUpward(int Series) : SuspectReason;

    /// <summary>It has not been tested apart from the others.</summary>
    public sealed record NotTestedApart : SuspectReason;

    /// <summary>No possible chain has it at fault.</summary>
    public sealed record RuledOut : SuspectReason;
}

/// <summary>What a series without the whole chain read, at its heaviest weight.</summary>
/// <param name="Series">Which series, counted from 0.</param>
/// <param name="WeightN">The weight, N.</param>
/// <param name="MeasuredN">The force that the readings allow, N.</param>
/// <param name="SoundN">What sound parts would take, N.</param>
public sealed record TestedApart(int Series, double WeightN, Spread MeasuredN, ForceBand SoundN)
{
    /// <summary>Whether it surely takes more than sound parts would.</summary>
    public bool TakesMore => MeasuredN.Least > SoundN.HighN;

    /// <summary>Whether it may take what sound parts would; not where nothing moved it, which says little.</summary>
    public bool MayBeSound => !TakesMore && MeasuredN.Most is { } mostN && mostN >= SoundN.LowN;
}
