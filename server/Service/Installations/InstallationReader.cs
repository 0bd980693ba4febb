using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Rigging;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads an installation of the contract. With the readers of its parts, the only place where installations are
/// validated, and where what they leave out is filled with assumed defaults, each of them listed.</summary>
internal sealed class InstallationReader
{
    private const int MostDevices = 10;
    private const int MostLoads = 10;

    private readonly Violations _violations = new();
    private readonly List<Assumption> _assumptions = [];
    private readonly string _root;

    private readonly CancellationToken _cancellation;

    private InstallationReader(string root, CancellationToken cancellation) => (_root, _cancellation) = (root, cancellation);

    /// <summary>Reads the installation of a request.</summary>
    public static Installation Read(V1.Installation? installation, CancellationToken cancellation) =>
        Read(installation, "installation", cancellation);

    /// <summary>Reads an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="root">The field path of the installation in the request.</param>
    /// <param name="cancellation">Gives up between two routes, and while measured points are smoothed.</param>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported, by field path.</exception>
    public static Installation Read(V1.Installation? installation, string root, CancellationToken cancellation)
    {
        if (installation is null)
        {
            throw InvalidRequestException.For(root, "REQUIRED", "must be given");
        }

        return new InstallationReader(root, cancellation).ReadAll(installation);
    }

    private Installation ReadAll(V1.Installation installation)
    {
        var levers = new LeverReader(_violations, _assumptions);
        _violations.Text($"{_root}.display_name", installation.DisplayName, 1, 200);
        Band wobble = ReadWobble(installation.RouteWobbleRadPerM);
        double allowanceM = _violations.Number($"{_root}.end_allowance_m", installation.EndAllowanceM, Limits.EndAllowanceM);
        Helm? helm = levers.ReadHelm(installation.Helm, $"{_root}.helm");
        KnownRoute? route = RouteReader.Read(_violations, WrittenRoute.Of(installation, _root), _cancellation);
        if (route is { Route.HasUnstatedTurn: true })
        {
            _assumptions.Add(new Assumption(AssumptionKind.TurnsOppose));
        }

        Arm? arm = levers.ReadArm(installation.Arm, $"{_root}.arm");
        InlineDevice[] devices = _violations.Each(
            $"{_root}.inline_devices",
            installation.InlineDevices,
            0,
            MostDevices,
            $"at most {MostDevices} devices",
            levers.ReadDevice);
        LoadCase[] loads = _violations.Each(
            $"{_root}.load_cases", installation.LoadCases, 1, MostLoads, $"1 to {MostLoads} loads to move", ReadLoad);
        _violations.DistinctNames(
            $"{_root}.load_cases", installation.LoadCases.Select(load => load.DisplayName), "other loads");
        if (installation.LoadCases.Count > 0 && installation.LoadCases.All(load => load.ShownOnly))
        {
            _violations.Add(
                $"{_root}.load_cases[0].shown_only", "NONE_GOVERNS", "must not be said of every load: one at least has to decide");
        }

        PresentCable? present = new PresentCableReader(_violations, _assumptions).Read(
            installation, loads, $"{_root}.present_cable");
        double? limitN = _violations.Number(
            $"{_root}.effort_limit_n", installation.HasEffortLimitN, installation.EffortLimitN, Limits.EffortN);
        InstallationRoutes routes = new InstallationRoutesReader(_violations, _root, _cancellation).Read(installation, route);
        ControlRigging rigging = new RiggingReader(_violations, _root).Read(installation);
        Change[] changes = new ChangeReader(_violations, _assumptions, installation).Read($"{_root}.changes");
        _violations.ThrowIfAny();
        return new Installation(
            new Chain(helm!, route!.Route, devices, arm!), wobble, allowanceM, loads, present!, limitN, _assumptions)
        {
            Routes = routes,
            Rigging = rigging,
            Changes = changes,
        };
    }

    private Band ReadWobble(V1.Band? wobble)
    {
        if (wobble is not null)
        {
            return _violations.Band($"{_root}.route_wobble_rad_per_m", wobble, Limits.WobbleRadPerM) ?? default;
        }

        _assumptions.Add(new Assumption(AssumptionKind.RouteWobble, AssumedDefaults.WobbleRadPerM));
        return Band.Exactly(AssumedDefaults.WobbleRadPerM);
    }

    private LoadCase? ReadLoad(V1.LoadCase load, string field)
    {
        int before = _violations.Count;
        string name = _violations.Text($"{field}.display_name", load.DisplayName, 1, 100);
        double forceN = _violations.RequiredNumber($"{field}.force_n", load.HasForceN, load.ForceN, Limits.LoadN);
        Direction direction = load.Direction == V1.Direction.Push ? Direction.Push : Direction.Pull;
        if (load.Direction is not (V1.Direction.Push or V1.Direction.Pull))
        {
            _violations.Missing($"{field}.direction", "pull or push: what the core carries while the load is moved");
        }

        Band? rangeN = _violations.Band($"{field}.force_range_n", load.ForceRangeN, Limits.LoadN);
        if (rangeN is { } range && range.Likely != forceN)
        {
            _violations.Add($"{field}.force_range_n.likely", "OUT_OF_ORDER", "must be the same as force_n, which is the likely load");
        }

        return _violations.Count > before
            ? null
            : new LoadCase(name, direction, forceN) { RangeN = rangeN, Governs = !load.ShownOnly };
    }
}
