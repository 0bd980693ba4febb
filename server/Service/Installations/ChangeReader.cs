using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics;
using CableCatalog.Service.Grades;
using CableCatalog.Service.PriceLists;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads what an installation says could be changed beside the cable and its route.</summary>
/// <param name="violations">Where to report.</param>
/// <param name="assumptions">Where to list what was assumed.</param>
/// <param name="installation">The installation.</param>
internal sealed class ChangeReader(Violations violations, List<Assumption> assumptions, V1.Installation installation)
{
    private const int Most = 6;

    /// <summary>The changes; of no use where there are violations.</summary>
    /// <param name="field">The field path of the list.</param>
    public Change[] Read(string field)
    {
        Change[] changes = violations.Each(field, installation.Changes, 0, Most, $"at most {Most} changes", Read);
        violations.DistinctNames(field, installation.Changes.Select(change => change.DisplayName), "other changes");
        return changes;
    }

    private Change? Read(V1.Change change, string field)
    {
        int before = violations.Count;
        string name = violations.Text($"{field}.display_name", change.DisplayName, 1, 100);
        ChangeEffect? effect = change.EffectCase switch
        {
            V1.Change.EffectOneofCase.TakeOut => ReadTakeOut(change.TakeOut, $"{field}.take_out"),
            V1.Change.EffectOneofCase.Service => ReadService(change.Service, $"{field}.service"),
            V1.Change.EffectOneofCase.Holes => ReadHoles(change.Holes, $"{field}.holes"),
            V1.Change.EffectOneofCase.GripRadiusM => new ChangeEffect.Grip(
                violations.Number($"{field}.grip_radius_m", change.GripRadiusM, Limits.LeverRadiusM)),
            _ => null,
        };
        if (change.EffectCase == V1.Change.EffectOneofCase.None)
        {
            violations.Missing(field, "what it does: a device taken out, a part serviced, other holes, or another grip radius");
        }

        Money? parts = ReadMoney($"{field}.parts", change.Parts);
        Money? labour = ReadMoney($"{field}.labour", change.Labour);
        double? hours = violations.Number($"{field}.labour_hours", change.HasLabourHours, change.LabourHours, PriceListReader.Hours);
        if (change.Labour is not null && change.HasLabourHours)
        {
            violations.Add($"{field}.labour_hours", "EXCLUSIVE", "must not stand beside labour: give it in money or in hours");
        }

        return violations.Count > before
            ? null
            : new Change(name, effect!, parts, labour, hours is { } h ? PriceListReader.Exactly(h) : null);
    }

    private ChangeEffect.TakeOut? ReadTakeOut(V1.DeviceTakenOut takenOut, string field)
    {
        int? device = FindDevice($"{field}.device", takenOut.Device);
        double? holeM = ReadHole($"{field}.arm_hole_m", takenOut.HasArmHoleM, takenOut.ArmHoleM, ArmLengthM, "arm");
        return device is { } at ? new ChangeEffect.TakeOut(at, holeM) : null;
    }

    private ChangeEffect.Service? ReadService(V1.ServicedPart serviced, string field)
    {
        double? efficiency = violations.Number(
            $"{field}.efficiency", serviced.HasEfficiency, serviced.Efficiency, Limits.Efficiency);
        double? frictionN = violations.Number(
            $"{field}.friction_n", serviced.HasFrictionN, serviced.FrictionN, Limits.MechanismFrictionN);
        bool named = serviced.Device.Length > 0;
        TouchedPart? part = serviced.Mechanism switch
        {
            V1.Mechanism.Helm => new TouchedPart(ChainPart.HelmBearing),
            V1.Mechanism.Arm => new TouchedPart(ChainPart.ArmBearing),
            _ => named && FindDevice($"{field}.device", serviced.Device) is { } device
                ? new TouchedPart(ChainPart.Device, device)
                : null,
        };
        if (named && serviced.Mechanism != V1.Mechanism.Unspecified)
        {
            violations.Add($"{field}.device", "EXCLUSIVE", "must not stand beside a mechanism: one thing is serviced by a change");
        }
        else if (part is null && !named)
        {
            violations.Missing($"{field}.mechanism", "what is serviced: the helm, the arm, or an inline device by its name");
        }

        if ((efficiency is null || frictionN is null) && !assumptions.Any(a => a.Kind == AssumptionKind.ServicedSound))
        {
            assumptions.Add(new Assumption(AssumptionKind.ServicedSound, AssumedDefaults.Efficiency));
        }

        return part is { } touched
            ? new ChangeEffect.Service(touched, efficiency ?? Math.Max(AssumedDefaults.Efficiency, EfficiencyNow(touched)), frictionN ?? 0)
            : null;
    }

    // Nobody services a mechanism to make it worse.
    private double EfficiencyNow(TouchedPart part) => part.Part switch
    {
        ChainPart.HelmBearing => installation.Helm is { HasEfficiency: true } helm ? helm.Efficiency : 0,
        ChainPart.ArmBearing => installation.Arm is { HasEfficiency: true } arm ? arm.Efficiency : 0,
        _ => installation.InlineDevices[part.Device].Efficiency,
    };

    private ChangeEffect.Holes? ReadHoles(V1.MovedHoles holes, string field)
    {
        double? crankM = ReadHole(
            $"{field}.crank_hole_m",
            holes.HasCrankHoleM,
            holes.CrankHoleM,
            installation.Helm is { HasCrankLengthM: true } helm ? helm.CrankLengthM : null,
            "crank");
        double? armM = ReadHole($"{field}.arm_hole_m", holes.HasArmHoleM, holes.ArmHoleM, ArmLengthM, "arm");
        if (!holes.HasCrankHoleM && !holes.HasArmHoleM)
        {
            violations.Missing(field, "which hole of the crank or of the arm the cable is moved to");
            return null;
        }

        return new ChangeEffect.Holes(crankM, armM);
    }

    private double? ArmLengthM => installation.Arm is { HasLengthM: true } arm ? arm.LengthM : null;

    private double? ReadHole(string field, bool has, double holeM, double? lengthM, string lever)
    {
        if (has && holeM > lengthM * (1 + 1e-9))
        {
            violations.Add(
                field,
                "BEYOND_LEVER",
                $"must lie on the {lever}, which ends {LengthWords.Of(lengthM!.Value)} from its pivot; found {LengthWords.Of(holeM)}");
        }

        return violations.Number(field, has, holeM, Limits.LeverRadiusM);
    }

    private int? FindDevice(string field, string name)
    {
        int found = installation.InlineDevices.Index().Where(d => d.Item.DisplayName == name).Select(d => d.Index).FirstOrDefault(-1);
        if (found >= 0)
        {
            return found;
        }

        violations.Add(
            field,
            "UNKNOWN_DEVICE",
            installation.InlineDevices.Count == 0
                ? "must be one of the inline devices, of which the installation names none"
                : $"must be one of the inline devices: {string.Join(", ", installation.InlineDevices.Select(d => $"\"{d.DisplayName}\""))}");
        return null;
    }

    private Money? ReadMoney(string field, Google.Type.Money? money) =>
        money is null ? null : MoneyMapping.Read(violations, field, money);
}
