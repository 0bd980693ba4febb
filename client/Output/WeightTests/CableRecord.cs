using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>What a cable itself does, as a record.</summary>
internal static class CableRecord
{
    /// <summary>The columns beside those that every record has.</summary>
    public static IEnumerable<string> Columns =>
    [
        .. Records.IntervalColumns("behaving_friction", ""),
        "sound_friction_low", "sound_friction_likely", "sound_friction_high", "sound_friction_basis",
        .. Records.IntervalColumns("extra_bend", "_rad"),
        .. Records.IntervalColumns("possible_friction", ""),
    ];

    /// <summary>Adds it; nothing where nothing is said of the cable.</summary>
    public static void Add(Records records, CableBehaviour? cable)
    {
        if (cable is null)
        {
            return;
        }

        records.Add(
        [
            ("record", "cable"),
            ("verdict", Records.Word(cable.Verdict)),
            .. Records.Interval("behaving_friction", "", cable.BehavingFriction),
            ("sound_friction_low", cable.SoundFriction?.Low),
            ("sound_friction_likely", cable.SoundFriction?.Likely),
            ("sound_friction_high", cable.SoundFriction?.High),
            ("sound_friction_basis", Records.Word(cable.SoundFrictionBasis)),
            .. Records.Interval("extra_bend", "_rad", cable.ExtraBendRad),
            .. Records.Interval("possible_friction", "", cable.FrictionOfPossibleChains),
        ]);
    }
}
