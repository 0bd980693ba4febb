using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>A device between cable and arm taken out: where the cable must then attach to keep the same motion.</summary>
/// <remarks>A lever inside it moves its arm side by rho = r_arm/r_helm times its helm side, so the arm turns as before where the cable
/// attaches at a_hole/rho: a sine of the arm's angle is a travel over a radius, and both are divided by rho.</remarks>
/// <param name="Device">The device.</param>
/// <param name="HoleM">Where on the arm the cable must attach, m from the pivot.</param>
/// <param name="NearestHoleM">The nearest of the arm's holes, m; null where none is known.</param>
/// <param name="WithN">Worst effort over the sweep and the load cases with the device, N; null where the arm over-runs or the cable
/// locks.</param>
/// <param name="WithoutN">The same without it.</param>
public sealed record DeviceRemoval(
    InlineDevice Device, double HoleM, double? NearestHoleM, ForceBand? WithN, ForceBand? WithoutN)
{
    /// <summary>Every device given, taken out by itself. They sit at the arm end of the cable.</summary>
    public static IReadOnlyList<DeviceRemoval> All(
        Chain chain,
        ArmSwing swing,
        RiggedCable cable,
        IReadOnlyList<LoadCase> loads,
        IReadOnlyList<double> armHolesM,
        IEnumerable<InlineDevice> devices)
    {
        return [.. devices.Select(device =>
        {
            double holeM = chain.Arm.HoleRadiusM / device.ForceRatio;
            return new DeviceRemoval(
                device,
                holeM,
                armHolesM.Count == 0 ? null : armHolesM.MinBy(other => Math.Abs(other - holeM)),
                WorstN(chain),
                WorstN(chain.Without(device).Through(chain.Helm.CrankRadiusM, holeM)));
        })];

        ForceBand? WorstN(Chain rigged)
        {
            SweepCurve?[] curves = [.. loads.Select(load => SweepCurve.Of(rigged, swing, cable, load, points: 31))];
            return curves.Any(curve => curve is null) ? null : SweepCurve.WorstN([.. curves.Select(curve => curve!)]);
        }
    }
}
