using CableCatalog.Catalog.Rigging;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads what an installation says of its rigging beside the levers themselves.</summary>
/// <param name="violations">Where to report.</param>
/// <param name="root">The field path of the installation.</param>
internal sealed class RiggingReader(Violations violations, string root)
{
    /// <summary>What it says; of no use where there are violations.</summary>
    public ControlRigging Read(V1.Installation installation)
    {
        (LeverKind levers, double? shiftRad) = ReadLevers(installation.Helm, $"{root}.helm");
        return new ControlRigging(
            levers,
            shiftRad,
            ReadStop(installation.Stop, $"{root}.stop"),
            violations.Number(
                $"{root}.fittings_play_m", installation.HasFittingsPlayM, installation.FittingsPlayM, Limits.FittingsPlayM))
        {
            // Their ranges are checked with the levers.
            Swing = new ArmSwing(
                installation.Arm is { HasAtRestRad: true } resting ? resting.AtRestRad : null,
                installation.Arm is { HasNeededSweepRad: true } asked ? asked.NeededSweepRad : null),
            CrankHolesM = [.. installation.Helm?.HoleRadiiM ?? []],
            ArmHolesM = [.. installation.Arm?.HoleRadiiM ?? []],
            ArmLengthM = installation.Arm is { HasLengthM: true } measured ? measured.LengthM : null,
            DevicesWithLever = [.. installation.InlineDevices.Index().Where(d => d.Item.Lever is not null).Select(d => d.Index)],
        };
    }

    private (LeverKind Levers, double? ShiftRad) ReadLevers(V1.Helm? helm, string field)
    {
        if (helm is null)
        {
            return (LeverKind.NotStated, null);
        }

        string kindField = $"{field}.lever_kind";
        LeverKind? kind = helm.LeverKind switch
        {
            V1.LeverKind.Unspecified => LeverKind.NotStated,
            V1.LeverKind.Single => LeverKind.OneLever,
            V1.LeverKind.Dual => LeverKind.TwoLevers,
            _ => null,
        };
        if (kind is null)
        {
            violations.Add(kindField, "UNKNOWN", "must be single or dual");
        }

        string shiftField = $"{field}.shift_sweep_rad";
        double? shiftRad = violations.Number(shiftField, helm.HasShiftSweepRad, helm.ShiftSweepRad, Limits.SweepRad);
        if (shiftRad is not { } read || !Limits.SweepRad.Contains(read))
        {
            return (kind ?? LeverKind.NotStated, null);
        }

        if (kind is LeverKind.NotStated or LeverKind.TwoLevers)
        {
            violations.Add(kindField, "REQUIRED", "must be single where a part of the sweep shifts: the rest of it is throttle");
        }

        if (!helm.HasSweepRad)
        {
            violations.Missing($"{field}.sweep_rad", "the part that shifts means nothing without the sweep of the lever");
        }
        else if (Limits.SweepRad.Contains(helm.SweepRad) && read >= helm.SweepRad)
        {
            violations.Add(
                shiftField,
                "OUT_OF_RANGE",
                $"must be less than the whole sweep, {Degrees(helm.SweepRad)}: the rest is throttle; found {Degrees(read)}");
        }

        return (kind ?? LeverKind.NotStated, read);
    }

    private DescribedStop? ReadStop(V1.Stop? stop, string field) => stop is null
        ? null
        : new DescribedStop(
            violations.Number($"{field}.clearance_m", stop.HasClearanceM, stop.ClearanceM, Limits.StopClearanceM),
            violations.Number(
                $"{field}.stiffness_n_per_m", stop.HasStiffnessNPerM, stop.StiffnessNPerM, Limits.StopStiffnessNPerM),
            violations.Number($"{field}.thread_pitch_m", stop.HasThreadPitchM, stop.ThreadPitchM, Limits.ThreadPitchM),
            violations.Number($"{field}.most_gap_m", stop.HasMostGapM, stop.MostGapM, Limits.StopGapM),
            violations.Number(
                $"{field}.most_added_effort_n", stop.HasMostAddedEffortN, stop.MostAddedEffortN, Limits.AddedEffortN) ?? 0);

    private static string Degrees(double rad) => FormattableString.Invariant($"{rad * 180 / Math.PI:0.#} deg");
}
