using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.WeightTests;

/// <summary>Reads what was connected in a series.</summary>
/// <param name="violations">Where to report.</param>
/// <param name="installation">The installation; null where it was itself refused: what depends on it is then not checked.</param>
internal sealed class SetUpReader(Violations violations, Installation? installation)
{
    private const int MostShown = 100;

    /// <summary>Reads it; null where it cannot be.</summary>
    public SetUp? Read(V1.TestSeries series, string field)
    {
        int before = violations.Count;
        CheckLeftOut(series, field);
        Direction? direction = ReadDirection(series, field);
        SetUp? setUp = violations.Count > before ? null : series.Connected switch
        {
            V1.Connected.WholeChain => ReadLoad(series, direction, field) is { } load ? new SetUp.WholeChain(load) : null,
            V1.Connected.ArmAlone => ReadLoad(series, direction, field) is { } load ? new SetUp.ArmAlone(load) : null,
            V1.Connected.CableOffAtArm => NeedDirection(direction, field) ? new SetUp.CableOffAtArm(direction!.Value) : null,
            V1.Connected.CableAlone => ReadCableAlone(series, direction, field),
            V1.Connected.HelmAlone => new SetUp.HelmAlone(),
            V1.Connected.InlineDeviceAlone => ReadDevice(series, field) is { } index ? new SetUp.DeviceAlone(index) : null,
            _ => NotConnected(series.Connected, $"{field}.connected"),
        };
        return violations.Count > before ? null : setUp;
    }

    private void CheckLeftOut(V1.TestSeries series, string field)
    {
        V1.Connected connected = series.Connected;
        if (connected is < V1.Connected.WholeChain or > V1.Connected.InlineDeviceAlone)
        {
            return;
        }

        bool hasLoad = connected is V1.Connected.WholeChain or V1.Connected.ArmAlone;
        LeftOut(!hasLoad && series.LoadCase.Length > 0, "load_case", "a load is on the arm only with the whole chain or the arm alone");
        LeftOut(
            connected != V1.Connected.InlineDeviceAlone && series.InlineDevice.Length > 0,
            "inline_device",
            "it says which device was connected alone, and more than that was");
        LeftOut(
            connected != V1.Connected.CableAlone && series.HasCoilRadiusM, "coil_radius_m", "only a cable alone is coiled");
        LeftOut(
            connected != V1.Connected.CableAlone && series.HasCoilAngleRad, "coil_angle_rad", "only a cable alone is coiled");

        void LeftOut(bool isThere, string name, string why)
        {
            if (isThere)
            {
                violations.Add($"{field}.{name}", "NOT_APPLICABLE", $"must be left out with what was connected: {why}");
            }
        }
    }

    private SetUp? NotConnected(V1.Connected connected, string field)
    {
        if (connected == V1.Connected.Unspecified)
        {
            violations.Missing(field, "which parts were connected");
        }
        else
        {
            violations.Add(field, "UNKNOWN_VALUE", "must be one of the set-ups of this version");
        }

        return null;
    }

    private Direction? ReadDirection(V1.TestSeries series, string field)
    {
        switch (series.Direction)
        {
            case V1.Direction.Pull:
                return Direction.Pull;
            case V1.Direction.Push:
                return Direction.Push;
            case V1.Direction.Unspecified:
                return null;
            default:
                violations.Add($"{field}.direction", "UNKNOWN_VALUE", "must be pull or push");
                return null;
        }
    }

    private bool NeedDirection(Direction? direction, string field)
    {
        if (direction is null)
        {
            violations.Missing($"{field}.direction", "pull or push: what the core carried");
        }

        return direction is not null;
    }

    private LoadCase? ReadLoad(V1.TestSeries series, Direction? direction, string field)
    {
        if (installation is null)
        {
            return null;
        }

        return series.LoadCase.Length > 0
            ? ReadNamedLoad(installation.Loads, series.LoadCase, direction, field)
            : ReadOnlyLoad(installation.Loads, direction, field);
    }

    private LoadCase? ReadNamedLoad(IReadOnlyList<LoadCase> loads, string name, Direction? direction, string field)
    {
        if (loads.FirstOrDefault(load => load.Name == name) is not { } load)
        {
            violations.Add(
                $"{field}.load_case",
                "UNKNOWN_LOAD_CASE",
                $"must be the name of one of the loads of the installation{Listed(loads.Select(l => l.Name))}");
            return null;
        }

        if (direction is not null && direction != load.Direction)
        {
            violations.Add(
                $"{field}.direction",
                "OTHER_DIRECTION",
                $"must be {Word(load.Direction)}, as that load is moved in the installation, or left out");
            return null;
        }

        return load;
    }

    private LoadCase? ReadOnlyLoad(IReadOnlyList<LoadCase> loads, Direction? direction, string field)
    {
        LoadCase[] fitting = [.. loads.Where(load => direction is null || load.Direction == direction)];
        switch (fitting.Length)
        {
            case 1:
                return fitting[0];
            case 0:
                violations.Add(
                    $"{field}.direction",
                    "OTHER_DIRECTION",
                    $"must be {Word(loads[0].Direction)}: the installation has no load that is moved in {Word(direction!.Value)}");
                return null;
            default:
                violations.Missing(
                    $"{field}.load_case", $"which of the loads was on the arm{Listed(fitting.Select(l => l.Name))}");
                return null;
        }
    }

    private SetUp.CableAlone? ReadCableAlone(V1.TestSeries series, Direction? direction, string field)
    {
        int before = violations.Count;
        NeedDirection(direction, field);
        double? radiusM = violations.Number(
            $"{field}.coil_radius_m", series.HasCoilRadiusM, series.CoilRadiusM, Limits.BendRadiusM);
        double? angleRad = violations.Number(
            $"{field}.coil_angle_rad", series.HasCoilAngleRad, series.CoilAngleRad, Limits.BendAngleRad);
        if (angleRad is not null && radiusM is null)
        {
            violations.Add(
                $"{field}.coil_angle_rad",
                "INCOMPLETE",
                "must come with the radius of the coil; leave out both where the cable lay straight");
        }

        Coil? coil = radiusM is { } radius ? new Coil(radius, angleRad ?? Math.Tau) : null;
        if (violations.Count == before && coil is { } coiled && installation is not null)
        {
            CheckCoil(coiled, installation.Chain.Route.LengthM, field);
        }

        return violations.Count > before ? null : new SetUp.CableAlone(direction!.Value, coil);
    }

    private void CheckCoil(Coil coil, double cableM, string field)
    {
        double coiledM = coil.RadiusM * coil.AngleRad;
        if (coiledM > cableM * (1 + 1e-9))
        {
            violations.Add(
                $"{field}.coil_radius_m",
                "OUT_OF_RANGE",
                FormattableString.Invariant(
                    $"must leave the coil, {coiledM:0.###} m of it, no longer than the cable on its route, {cableM:0.###} m"));
        }
        else if (coiledM < Limits.LengthM.Least)
        {
            violations.Add($"{field}.coil_radius_m", "OUT_OF_RANGE", "must make a coil of 0.001 m or more of cable");
        }
    }

    private int? ReadDevice(V1.TestSeries series, string field)
    {
        if (installation is null)
        {
            return null;
        }

        IReadOnlyList<InlineDevice> devices = installation.Chain.InlineDevices;
        int[] fitting = [.. devices.Index()
            .Where(d => series.InlineDevice.Length == 0 || d.Item.Name == series.InlineDevice)
            .Select(d => d.Index)];
        switch (devices.Count, fitting.Length)
        {
            case (0, _):
                violations.Add($"{field}.connected", "NO_DEVICE", "must be something else: the installation has no inline device");
                return null;
            case (_, 1):
                return fitting[0];
            case (_, 0):
                violations.Add(
                    $"{field}.inline_device",
                    "UNKNOWN_DEVICE",
                    $"must be the name of one of the inline devices of the installation{Listed(devices.Select(d => d.Name))}");
                return null;
            case (_, _) when series.InlineDevice.Length > 0:
                violations.Add(
                    $"{field}.inline_device",
                    "AMBIGUOUS",
                    "must name one inline device only: the installation has several of that name; give them different names");
                return null;
            default:
                violations.Missing(
                    $"{field}.inline_device", $"which of the inline devices was connected{Listed(devices.Select(d => d.Name))}");
                return null;
        }
    }

    private static string Word(Direction direction) => direction == Direction.Pull ? "pull" : "push";

    // Details travel in trailers, which clients cap: long lists are not for them.
    private static string Listed(IEnumerable<string> names)
    {
        string listed = string.Join(", ", names);
        return listed.Length <= MostShown ? $": {listed}" : "";
    }
}
