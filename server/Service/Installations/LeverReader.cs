using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads the levers at both ends of a cable and the devices beside it.</summary>
/// <param name="violations">Where to report.</param>
/// <param name="assumptions">Where to list what was filled in.</param>
internal sealed class LeverReader(Violations violations, ICollection<Assumption> assumptions)
{
    private const int MostHoles = 20;

    // Files give a ratio to three figures beside the lengths it comes from.
    private const double RatioSlack = 0.005;

    // "3 in" in two places must be the same hole, whatever the last bit says.
    private const double Slack = 1e-9;

    /// <summary>The helm; null where it is refused, with violations.</summary>
    public Helm? ReadHelm(V1.Helm? helm, string field)
    {
        if (helm is null)
        {
            violations.Missing(field, "the lever that the hand moves");
            return null;
        }

        int before = violations.Count;
        double gripM = violations.Number($"{field}.grip_radius_m", helm.GripRadiusM, Limits.LeverRadiusM);
        double crankM = violations.Number($"{field}.crank_radius_m", helm.CrankRadiusM, Limits.LeverRadiusM);
        double efficiency = ReadEfficiency(
            $"{field}.efficiency", helm.HasEfficiency, helm.Efficiency, AssumptionKind.HelmEfficiency);
        double frictionN = ReadFriction($"{field}.friction_n", helm.HasFrictionN, helm.FrictionN, AssumptionKind.HelmFriction);
        CrankSweep? sweep = ReadSweep(helm, field);
        ReadHoles(
            field, "crank", helm.HoleRadiiM, "crank_radius_m", crankM, "crank_length_m", helm.HasCrankLengthM, helm.CrankLengthM);
        return violations.Count > before ? null : new Helm(gripM, crankM, efficiency, frictionN, sweep);
    }

    /// <summary>The arm; null where it is refused, with violations.</summary>
    public Arm? ReadArm(V1.Arm? arm, string field)
    {
        if (arm is null)
        {
            violations.Missing(field, "the arm that the cable drives");
            return null;
        }

        int before = violations.Count;
        double loadM = violations.Number($"{field}.load_radius_m", arm.LoadRadiusM, Limits.LeverRadiusM);
        double holeM = violations.Number($"{field}.hole_radius_m", arm.HoleRadiusM, Limits.LeverRadiusM);
        double efficiency = ReadEfficiency(
            $"{field}.efficiency", arm.HasEfficiency, arm.Efficiency, AssumptionKind.ArmEfficiency);
        double frictionN = ReadFriction($"{field}.friction_n", arm.HasFrictionN, arm.FrictionN, AssumptionKind.ArmFriction);
        ReadSwing(arm, field);
        ReadHoles(field, "arm", arm.HoleRadiiM, "hole_radius_m", holeM, "length_m", arm.HasLengthM, arm.LengthM);
        return violations.Count > before ? null : new Arm(loadM, holeM, efficiency, frictionN);
    }

    /// <summary>A device; null where it is refused, with violations.</summary>
    public InlineDevice? ReadDevice(V1.InlineDevice device, string field)
    {
        int before = violations.Count;
        string name = violations.Text($"{field}.display_name", device.DisplayName, 1, 100);
        double ratio = violations.Number($"{field}.force_ratio", device.ForceRatio, Limits.ForceRatio);
        double efficiency = violations.Number($"{field}.efficiency", device.Efficiency, Limits.Efficiency);
        double dragN = violations.Number($"{field}.drag_n", device.DragN, Limits.MechanismFrictionN);
        CableEnd at = device.CableEnd == V1.CableEnd.Arm ? CableEnd.Arm : CableEnd.Helm;
        if (device.CableEnd is not (V1.CableEnd.Arm or V1.CableEnd.Helm))
        {
            violations.Missing($"{field}.cable_end", "at which end of the cable it sits, helm or arm");
        }

        ReadDeviceLever(device, field);
        return violations.Count > before ? null : new InlineDevice(name, at, ratio, efficiency, dragN);
    }

    private void ReadDeviceLever(V1.InlineDevice device, string field)
    {
        if (device.Lever is not { } lever)
        {
            return;
        }

        int before = violations.Count;
        double helmM = violations.Number($"{field}.lever.helm_side_m", lever.HelmSideM, Limits.LeverRadiusM);
        double armM = violations.Number($"{field}.lever.arm_side_m", lever.ArmSideM, Limits.LeverRadiusM);
        if (violations.Count == before && Math.Abs((device.ForceRatio * helmM / armM) - 1) > RatioSlack)
        {
            violations.Add(
                $"{field}.force_ratio",
                "CONTRADICTION",
                FormattableString.Invariant(
                    $"must be what its lever makes it, {armM / helmM:0.####} (arm side {LengthWords.Of(armM)} over helm side ")
                    + FormattableString.Invariant($"{LengthWords.Of(helmM)}); found {device.ForceRatio:0.####}"));
        }
    }

    private CrankSweep? ReadSweep(V1.Helm helm, string field)
    {
        int before = violations.Count;
        double? sweepRad = violations.Number($"{field}.sweep_rad", helm.HasSweepRad, helm.SweepRad, Limits.SweepRad);
        double? atRestRad = violations.Number(
            $"{field}.crank_at_rest_rad", helm.HasCrankAtRestRad, helm.CrankAtRestRad, Limits.CrankAngleRad);
        if (violations.Count > before)
        {
            return null;
        }

        switch (sweepRad, atRestRad)
        {
            case (null, null):
                assumptions.Add(new Assumption(AssumptionKind.CrankPerpendicular));
                return null;
            case (null, _):
                violations.Missing($"{field}.sweep_rad", "the angle at rest means nothing without the sweep of the lever");
                return null;
            case ({ } sweep, null):
                assumptions.Add(new Assumption(AssumptionKind.CrankCentred));
                return CrankSweep.Centred(sweep);
            case ({ } sweep, { } atRest) when !CrankSweep.EndsInRange(atRest, sweep):
                violations.Add(
                    $"{field}.sweep_rad",
                    "OUT_OF_RANGE",
                    "must end within 90 deg of where the crank is perpendicular to the cable");
                return null;
            case ({ } sweep, { } atRest):
                return new CrankSweep(atRest, sweep);
        }
    }

    private void ReadSwing(V1.Arm arm, string field)
    {
        double? atRestRad = violations.Number($"{field}.at_rest_rad", arm.HasAtRestRad, arm.AtRestRad, Limits.CrankAngleRad);
        double? neededRad = violations.Number(
            $"{field}.needed_sweep_rad", arm.HasNeededSweepRad, arm.NeededSweepRad, Limits.SweepRad);
        if (atRestRad is { } from && neededRad is { } sweep && Limits.CrankAngleRad.Contains(from)
            && Limits.SweepRad.Contains(sweep) && !CrankSweep.EndsInRange(from, sweep))
        {
            violations.Add(
                $"{field}.needed_sweep_rad",
                "OUT_OF_RANGE",
                "must end within 90 deg of where the arm is perpendicular to the cable: a cable moves it no further");
        }
    }

    private void ReadHoles(
        string field,
        string lever,
        IReadOnlyList<double> holesM,
        string inUseName,
        double inUseM,
        string lengthName,
        bool hasLength,
        double lengthM)
    {
        string holesField = $"{field}.hole_radii_m";
        int before = violations.Count;
        double? endM = violations.Number($"{field}.{lengthName}", hasLength, lengthM, Limits.LeverRadiusM);
        if (holesM.Count > MostHoles)
        {
            violations.Add(holesField, "BAD_COUNT", $"must be at most {MostHoles} holes");
        }

        foreach ((int i, double holeM) in holesM.Take(MostHoles).Index())
        {
            string holeField = $"{holesField}[{i}]";
            violations.Number(holeField, holeM, Limits.LeverRadiusM);
            RequireOnLever(holeField, holeM, endM, lever);
            if (holesM.Take(i).Any(earlierM => HoleChoice.IsSameHole(earlierM, holeM)))
            {
                violations.Add(holeField, "DUPLICATE", "must differ from the other holes");
            }
        }

        if (violations.Count > before)
        {
            return;
        }

        RequireOnLever($"{field}.{inUseName}", inUseM, endM, lever);
        if (holesM.Count > 0 && !holesM.Any(holeM => HoleChoice.IsSameHole(holeM, inUseM)))
        {
            violations.Add(
                $"{field}.{inUseName}",
                "NOT_A_HOLE",
                $"must be one of the {lever}'s holes, {string.Join(", ", holesM.Select(LengthWords.Of))}; found "
                    + LengthWords.Of(inUseM));
        }
    }

    private void RequireOnLever(string field, double holeM, double? endM, string lever)
    {
        if (endM is { } lengthM && holeM > lengthM * (1 + Slack))
        {
            violations.Add(
                field,
                "OFF_THE_LEVER",
                $"must lie on the {lever}, which ends {LengthWords.Of(lengthM)} from its pivot; found {LengthWords.Of(holeM)}");
        }
    }

    private double ReadEfficiency(string field, bool isSet, double value, AssumptionKind assumption)
    {
        if (isSet)
        {
            return violations.Number(field, value, Limits.Efficiency);
        }

        assumptions.Add(new Assumption(assumption, AssumedDefaults.Efficiency));
        return AssumedDefaults.Efficiency;
    }

    private double ReadFriction(string field, bool isSet, double value, AssumptionKind assumption)
    {
        if (isSet)
        {
            return violations.Number(field, value, Limits.MechanismFrictionN);
        }

        assumptions.Add(new Assumption(assumption));
        return 0;
    }
}
