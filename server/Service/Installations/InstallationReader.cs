using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads an installation of the contract. The only place where installations are validated, and where what they
/// leave out is filled with assumed defaults, each of them listed.</summary>
internal sealed class InstallationReader
{
    private const int MostDevices = 10;
    private const int MostLoads = 10;

    private readonly Violations _violations = new();
    private readonly List<Assumption> _assumptions = [];
    private readonly string _root;

    private InstallationReader(string root) => _root = root;

    /// <summary>Reads an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="root">The field path of the installation in the request.</param>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported, by field path.</exception>
    public static Installation Read(V1.Installation? installation, string root = "installation")
    {
        if (installation is null)
        {
            throw InvalidRequestException.For(root, "REQUIRED", "must be given");
        }

        return new InstallationReader(root).ReadAll(installation);
    }

    private Installation ReadAll(V1.Installation installation)
    {
        _violations.Text($"{_root}.display_name", installation.DisplayName, 1, 200);
        Band wobble = ReadWobble(installation.RouteWobbleRadPerM);
        double allowanceM = _violations.Number($"{_root}.end_allowance_m", installation.EndAllowanceM, Limits.EndAllowanceM);
        Helm? helm = ReadHelm(installation.Helm);
        CableRoute? route = ReadRoute(installation.Route);
        Arm? arm = ReadArm(installation.Arm);
        InlineDevice[] devices = ReadEach(
            $"{_root}.inline_devices", installation.InlineDevices, 0, MostDevices, $"at most {MostDevices} devices", ReadDevice);
        LoadCase[] loads = ReadEach(
            $"{_root}.load_cases", installation.LoadCases, 1, MostLoads, $"1 to {MostLoads} loads to move", ReadLoad);
        CheckDistinctNames(installation.LoadCases);
        PresentCable? present = ReadPresent(installation, loads);
        double? limitN = _violations.Number(
            $"{_root}.effort_limit_n", installation.HasEffortLimitN, installation.EffortLimitN, Limits.EffortN);
        _violations.ThrowIfAny();
        return new Installation(
            new Chain(helm!, route!, devices, arm!), wobble, allowanceM, loads, present!, limitN, _assumptions);
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

    private Helm? ReadHelm(V1.Helm? helm)
    {
        string field = $"{_root}.helm";
        if (helm is null)
        {
            _violations.Missing(field, "the lever that the hand moves");
            return null;
        }

        int before = _violations.Count;
        double gripM = _violations.Number($"{field}.grip_radius_m", helm.GripRadiusM, Limits.LeverRadiusM);
        double crankM = _violations.Number($"{field}.crank_radius_m", helm.CrankRadiusM, Limits.LeverRadiusM);
        double efficiency = ReadEfficiency(
            $"{field}.efficiency", helm.HasEfficiency, helm.Efficiency, AssumptionKind.HelmEfficiency);
        double frictionN = ReadFriction($"{field}.friction_n", helm.HasFrictionN, helm.FrictionN, AssumptionKind.HelmFriction);
        CrankSweep? sweep = ReadSweep(helm, field);
        return _violations.Count > before ? null : new Helm(gripM, crankM, efficiency, frictionN, sweep);
    }

    private CrankSweep? ReadSweep(V1.Helm helm, string field)
    {
        int before = _violations.Count;
        double? sweepRad = _violations.Number($"{field}.sweep_rad", helm.HasSweepRad, helm.SweepRad, Limits.SweepRad);
        double? atRestRad = _violations.Number(
            $"{field}.crank_at_rest_rad", helm.HasCrankAtRestRad, helm.CrankAtRestRad, Limits.CrankAngleRad);
        if (_violations.Count > before)
        {
            return null;
        }

        switch (sweepRad, atRestRad)
        {
            case (null, null):
                _assumptions.Add(new Assumption(AssumptionKind.CrankPerpendicular));
                return null;
            case (null, _):
                _violations.Missing($"{field}.sweep_rad", "the angle at rest means nothing without the sweep of the lever");
                return null;
            case ({ } sweep, null):
                _assumptions.Add(new Assumption(AssumptionKind.CrankCentred));
                return CrankSweep.Centred(sweep);
            case ({ } sweep, { } atRest) when !CrankSweep.EndsInRange(atRest, sweep):
                _violations.Add(
                    $"{field}.sweep_rad",
                    "OUT_OF_RANGE",
                    "must end within 90 deg of where the crank is perpendicular to the cable");
                return null;
            case ({ } sweep, { } atRest):
                return new CrankSweep(atRest, sweep);
        }
    }

    private CableRoute? ReadRoute(IReadOnlyCollection<V1.RouteElement> route)
    {
        string field = $"{_root}.route";
        int before = _violations.Count;
        RouteElement[] elements = ReadEach(
            field, route, 1, CableRoute.MostElements, $"1 to {CableRoute.MostElements} straights and bends", ReadElement);
        if (_violations.Count > before)
        {
            return null;
        }

        if (!Limits.LengthM.Contains(elements.Sum(e => e.LengthM)))
        {
            _violations.Add(field, "OUT_OF_RANGE", $"must have a length in all of {Limits.LengthM.InWords}");
        }

        if (!Limits.TotalBendRad.Contains(elements.Sum(e => e.AngleRad)))
        {
            _violations.Add(field, "OUT_OF_RANGE", $"must bend {Limits.TotalBendRad.InWords}");
        }

        if (_violations.Count > before)
        {
            return null;
        }

        var read = new CableRoute(elements);
        if (read.HasUnstatedTurn)
        {
            _assumptions.Add(new Assumption(AssumptionKind.TurnsOppose));
        }

        return read;
    }

    private RouteElement? ReadElement(V1.RouteElement element, string field)
    {
        int before = _violations.Count;
        switch (element.ShapeCase)
        {
            case V1.RouteElement.ShapeOneofCase.Straight:
                double lengthM = _violations.Number($"{field}.straight.length_m", element.Straight.LengthM, Limits.LengthM);
                return _violations.Count > before ? null : new Straight(lengthM);
            case V1.RouteElement.ShapeOneofCase.Bend:
                V1.Bend bend = element.Bend;
                double angleRad = _violations.Number($"{field}.bend.angle_rad", bend.AngleRad, Limits.BendAngleRad);
                double radiusM = _violations.Number($"{field}.bend.radius_m", bend.RadiusM, Limits.BendRadiusM);
                double? turnRad = _violations.Number($"{field}.bend.turn_rad", bend.HasTurnRad, bend.TurnRad, Limits.TurnRad);
                return _violations.Count > before ? null : new Bend(angleRad, radiusM, turnRad);
            default:
                _violations.Missing(field, "a straight or a bend");
                return null;
        }
    }

    private Arm? ReadArm(V1.Arm? arm)
    {
        string field = $"{_root}.arm";
        if (arm is null)
        {
            _violations.Missing(field, "the arm that the cable drives");
            return null;
        }

        int before = _violations.Count;
        double loadM = _violations.Number($"{field}.load_radius_m", arm.LoadRadiusM, Limits.LeverRadiusM);
        double holeM = _violations.Number($"{field}.hole_radius_m", arm.HoleRadiusM, Limits.LeverRadiusM);
        double efficiency = ReadEfficiency(
            $"{field}.efficiency", arm.HasEfficiency, arm.Efficiency, AssumptionKind.ArmEfficiency);
        double frictionN = ReadFriction($"{field}.friction_n", arm.HasFrictionN, arm.FrictionN, AssumptionKind.ArmFriction);
        return _violations.Count > before ? null : new Arm(loadM, holeM, efficiency, frictionN);
    }

    private InlineDevice? ReadDevice(V1.InlineDevice device, string field)
    {
        int before = _violations.Count;
        string name = _violations.Text($"{field}.display_name", device.DisplayName, 1, 100);
        double ratio = _violations.Number($"{field}.force_ratio", device.ForceRatio, Limits.ForceRatio);
        double efficiency = _violations.Number($"{field}.efficiency", device.Efficiency, Limits.Efficiency);
        double dragN = _violations.Number($"{field}.drag_n", device.DragN, Limits.MechanismFrictionN);
        CableEnd at = device.CableEnd == V1.CableEnd.Arm ? CableEnd.Arm : CableEnd.Helm;
        if (device.CableEnd is not (V1.CableEnd.Arm or V1.CableEnd.Helm))
        {
            _violations.Missing($"{field}.cable_end", "at which end of the cable it sits, helm or arm");
        }

        return _violations.Count > before ? null : new InlineDevice(name, at, ratio, efficiency, dragN);
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

        return _violations.Count > before ? null : new LoadCase(name, direction, forceN);
    }

    private void CheckDistinctNames(IReadOnlyCollection<V1.LoadCase> loads)
    {
        foreach ((int index, V1.LoadCase load) in loads.Index())
        {
            if (loads.Take(index).Any(earlier => earlier.DisplayName == load.DisplayName))
            {
                _violations.Add(
                    $"{_root}.load_cases[{index}].display_name", "DUPLICATE", "must differ from the names of the other loads");
            }
        }
    }

    private PresentCable? ReadPresent(V1.Installation installation, LoadCase[] loads)
    {
        V1.PresentCable? present = installation.PresentCable;
        string field = $"{_root}.present_cable";
        const string What = "a grade, or its friction, or an effort measured at the grip";
        if (present is null)
        {
            _violations.Missing(field, What);
            return null;
        }

        int before = _violations.Count;
        string? gradeId = present.Grade.Length == 0 ? null : GradeNames.Id(_violations, $"{field}.grade", present.Grade);
        Band? friction = _violations.Band($"{field}.friction", present.Friction, Limits.Friction);
        Band? sealDragN = _violations.Band($"{field}.seal_drag_n", present.SealDragN, Limits.SealDragN);
        Band? runningDragNPerM = _violations.Band(
            $"{field}.running_drag_n_per_m", present.RunningDragNPerM, Limits.RunningDragNPerM);
        Core? core = GradeReader.ReadCore(
            _violations,
            field,
            present.HasCoreBendingStiffnessNM2,
            present.CoreBendingStiffnessNM2,
            present.HasDiametralClearanceM,
            present.DiametralClearanceM);
        MeasuredEffort? measured = present.MeasuredEffort is { } effort
            ? ReadMeasured(effort, installation.LoadCases, loads, $"{field}.measured_effort")
            : null;
        if (_violations.Count > before)
        {
            return null;
        }

        if (gradeId is not null && ((friction ?? sealDragN ?? runningDragNPerM) is not null || core is not null))
        {
            _violations.Add($"{field}.grade", "EXCLUSIVE", "must stand without coefficients of its own: the grade has them");
            return null;
        }

        if (gradeId is null && friction is null && present.MeasuredEffort is null)
        {
            _violations.Missing(field, What);
            return null;
        }

        AssumeForPresent(
            friction is not null,
            gradeId is null && (sealDragN is null || runningDragNPerM is null),
            gradeId is null && core is null,
            measured is not null);
        return new PresentCable(gradeId, friction, sealDragN ?? default, runningDragNPerM ?? default, core, measured);
    }

    // All that could be assumed; which of it is depends on what is made of a measured effort: see InstallationScore.
    private void AssumeForPresent(bool frictionStated, bool dragsMissing, bool coreMissing, bool measured)
    {
        (AssumptionKind Kind, bool Assumed)[] all =
        [
            (AssumptionKind.ExcessIsTheCables, measured),
            (AssumptionKind.PresentFriction, frictionStated),
            (AssumptionKind.PresentDrags, dragsMissing),
            (AssumptionKind.PresentCoreUnknown, coreMissing),
        ];
        _assumptions.AddRange(all.Where(a => a.Assumed).Select(a => new Assumption(a.Kind)));
    }

    private MeasuredEffort? ReadMeasured(
        V1.MeasuredEffort measured, IReadOnlyList<V1.LoadCase> written, LoadCase[] loads, string field)
    {
        int before = _violations.Count;
        double effortN = _violations.Number($"{field}.effort_n", measured.EffortN, Limits.EffortN);
        string? name = measured.LoadCase.Length == 0 && written.Count == 1 ? written[0].DisplayName : measured.LoadCase;
        if (written.All(load => load.DisplayName != name))
        {
            _violations.Add(
                $"{field}.load_case", "UNKNOWN_LOAD_CASE", "must be the name of one of the loads: the one it was measured in");
        }

        // A load that was itself refused is not among those read.
        return _violations.Count == before && loads.FirstOrDefault(load => load.Name == name) is { } found
            ? new MeasuredEffort(effortN, found)
            : null;
    }

    private double ReadEfficiency(string field, bool isSet, double value, AssumptionKind assumption)
    {
        if (isSet)
        {
            return _violations.Number(field, value, Limits.Efficiency);
        }

        _assumptions.Add(new Assumption(assumption, AssumedDefaults.Efficiency));
        return AssumedDefaults.Efficiency;
    }

    private double ReadFriction(string field, bool isSet, double value, AssumptionKind assumption)
    {
        if (isSet)
        {
            return _violations.Number(field, value, Limits.MechanismFrictionN);
        }

        _assumptions.Add(new Assumption(assumption));
        return 0;
    }

    // Elements that were refused are left out; the caller sees that there are violations before it uses any.
    private TRead[] ReadEach<TWritten, TRead>(
        string field,
        IReadOnlyCollection<TWritten> written,
        int least,
        int most,
        string inWords,
        Func<TWritten, string, TRead?> read)
        where TRead : class
    {
        if (written.Count < least || written.Count > most)
        {
            _violations.Add(field, "BAD_COUNT", $"must be {inWords}");
            return [];
        }

        return [.. written.Select((element, index) => read(element, $"{field}[{index}]")).OfType<TRead>()];
    }
}
