using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>An installation as it was read from a file.</summary>
/// <param name="Message">What the file says; what it leaves out is absent.</param>
/// <param name="Sources">Where each field was written, by its path in the installation.</param>
internal sealed record InstallationDocument(Installation Message, SourceMap Sources);

/// <summary>Files that describe one installation for people. Only the form is checked here: ranges are the service's.</summary>
internal static class InstallationFile
{
    private const int MostBytes = 1 << 20;

    /// <summary>What the core carries.</summary>
    internal static readonly Form PullOrPush = Form.Word(("pull", Direction.Pull), ("push", Direction.Push));

    private static readonly Schema Stop = new(V1.Stop.Descriptor,
    [
        SchemaField.Optional("clearance", "clearance_m", Form.Quantity(QuantityKind.ShortLength)),
        SchemaField.Optional("stiffness", "stiffness_n_per_m", Form.Quantity(QuantityKind.Stiffness)),
        SchemaField.Optional("thread pitch", "thread_pitch_m", Form.Quantity(QuantityKind.ShortLength)),
        SchemaField.Optional("most gap", "most_gap_m", Form.Quantity(QuantityKind.ShortLength)),
        SchemaField.Optional("most added effort", "most_added_effort_n", Form.Quantity(QuantityKind.Force)),
    ]);

    /// <summary>How an installation is written.</summary>
    internal static readonly Schema Schema = MakeSchema();

    /// <summary>Reads a file; "-" is standard input.</summary>
    public static FileResult<InstallationDocument> Read(string file)
    {
        var problems = new ProblemList(file);
        return TextFile.Read(file, MostBytes, problems) is { } text
            ? Parse(text, problems)
            : problems.Result<InstallationDocument>(null);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="file">What to call it in problems.</param>
    /// <param name="text">The text.</param>
    public static FileResult<InstallationDocument> Parse(string file, string text) => Parse(text, new ProblemList(file));

    private static FileResult<InstallationDocument> Parse(string text, ProblemList problems)
    {
        if (YamlTree.Read(text, problems) is not { } root)
        {
            return problems.Result<InstallationDocument>(null);
        }

        var sources = new SourceMap(new SourceMark(problems.File, root.Place, "", ""));
        object? read = Schema.Read(new FieldValue(root, "", "", new Reading(problems, sources)));
        return problems.Result(read is Installation message ? new InstallationDocument(message, sources) : null);
    }

    private static Schema MakeSchema()
    {
        Form ratio = Form.Quantity(QuantityKind.Ratio);
        Form force = Form.Quantity(QuantityKind.Force);
        Form radius = Form.Quantity(QuantityKind.ShortLength);
        Form angle = Form.Quantity(QuantityKind.Angle);

        var helm = new Schema(Helm.Descriptor,
        [
            SchemaField.Required(
                "grip radius", "grip_radius_m", radius, "from the pivot to the middle of the grip", "grip radius: 12 in"),
            SchemaField.Required(
                "crank radius",
                "crank_radius_m",
                radius,
                "from the pivot to where the cable attaches",
                "crank radius: 4 in"),
            SchemaField.Optional("efficiency", "efficiency", ratio),
            SchemaField.Optional("friction", "friction_n", force),
            SchemaField.Optional("sweep", "sweep_rad", angle),
            SchemaField.Optional("crank at rest", "crank_at_rest_rad", angle),
            SchemaField.Optional("holes", "hole_radii_m", Form.List(radius)),
            SchemaField.Optional("crank length", "crank_length_m", radius),
            SchemaField.Optional("levers", "lever_kind", Form.Word(("single", LeverKind.Single), ("dual", LeverKind.Dual))),
            SchemaField.Optional("shift sweep", "shift_sweep_rad", angle),
        ]);
        var arm = new Schema(Arm.Descriptor,
        [
            SchemaField.Required(
                "load radius", "load_radius_m", radius, "from the pivot to where the load acts", "load radius: 9 in"),
            SchemaField.Required(
                "hole radius",
                "hole_radius_m",
                radius,
                "from the pivot to the hole where the cable attaches",
                "hole radius: 3 in"),
            SchemaField.Optional("efficiency", "efficiency", ratio),
            SchemaField.Optional("friction", "friction_n", force),
            SchemaField.Optional("at rest", "at_rest_rad", angle),
            SchemaField.Optional("needed sweep", "needed_sweep_rad", angle),
            SchemaField.Optional("holes", "hole_radii_m", Form.List(radius)),
            SchemaField.Optional("length", "length_m", radius),
        ]);
        Form at = Form.Word(("helm", CableEnd.Helm), ("arm", CableEnd.Arm));
        var device = new Schema(InlineDevice.Descriptor,
        [
            SchemaField.Required("name", "display_name", Form.Text, "what you call it", "name: gear reducer"),
            SchemaField.Required("at", "cable_end", at, "at which end of the cable it sits", "at: arm"),
            SchemaField.Required(
                "force ratio", "force_ratio", ratio, "force on its helm side over force on its arm side", "force ratio: 1"),
            SchemaField.Required("efficiency", "efficiency", ratio, "work out over work in", "efficiency: 0.8"),
            SchemaField.Optional("drag", "drag_n", force),
            SchemaField.Optional("lever", "lever", Form.Section(new Schema(DeviceLever.Descriptor,
            [
                SchemaField.Required(
                    "helm side", "helm_side_m", radius, "from its pivot to where its helm side attaches", "helm side: 2 in"),
                SchemaField.Required(
                    "arm side", "arm_side_m", radius, "from its pivot to where its arm side attaches", "arm side: 2.5 in"),
            ]))),
        ]);
        var load = new Schema(LoadCase.Descriptor,
        [
            SchemaField.Required("name", "display_name", Form.Text, "what you call it", "name: raise"),
            SchemaField.Required("direction", "direction", PullOrPush, "whether the core pulls or pushes", "direction: pull"),
            SchemaField.Required("force", "force_n", force, "the load at the load radius of the arm", "force: 18 lbf"),
            SchemaField.Optional("force range", "force_range_n", Form.Band(QuantityKind.Force)),
            SchemaField.Optional("shown only", "shown_only", Form.YesOrNo),
        ]);
        var present = new Schema(PresentCable.Descriptor,
        [
            SchemaField.Optional("grade", "grade", GradeName.Id),
            SchemaField.Optional("friction", "friction", Form.Band(QuantityKind.Ratio)),
            SchemaField.Optional("seal drag", "seal_drag_n", Form.Band(QuantityKind.Force)),
            SchemaField.Optional("running drag", "running_drag_n_per_m", Form.Band(QuantityKind.ForcePerLength)),
            SchemaField.Optional(
                "core bending stiffness", "core_bending_stiffness_n_m2", Form.Quantity(QuantityKind.BendingStiffness)),
            SchemaField.Optional("diametral clearance", "diametral_clearance_m", radius),
            SchemaField.Optional("measured effort", "measured_effort", MeasuredEffortForm(force)),
            SchemaField.Optional("axial stiffness", "axial_stiffness_n", Form.Quantity(QuantityKind.LargeForce)),
        ]);
        return new Schema(Installation.Descriptor,
        [
            SchemaField.Required(
                "name",
                "display_name",
                Form.Text,
                "what you call the installation",
                "name: Harbour launch, reversing deflector"),
            SchemaField.Required(
                "helm",
                "helm",
                Form.Section(helm),
                "the lever that the hand moves",
                "helm: { grip radius: 12 in, crank radius: 4 in }"),
            SchemaField.Optional("route wobble", "route_wobble_rad_per_m", Form.Band(QuantityKind.AnglePerLength)),
            .. RouteSchemas.Route("route"),
            SchemaField.Optional("route start", "route_start", PlaceForms.End),
            SchemaField.Optional("end allowance", "end_allowance_m", Form.Quantity(QuantityKind.ShortLength)),
            SchemaField.Required(
                "arm",
                "arm",
                Form.Section(arm),
                "the arm that the cable drives",
                "arm: { load radius: 9 in, hole radius: 3 in }"),
            SchemaField.Optional("inline", "inline_devices", Form.List(Form.Section(device))),
            SchemaField.Required(
                "loads",
                "load_cases",
                Form.List(Form.Section(load)),
                "the loads to move",
                "loads: [ { name: raise, direction: pull, force: 18 lbf } ]"),
            SchemaField.Required(
                "present cable",
                "present_cable",
                Form.Section(present),
                "the cable that is there now",
                "present cable: { friction: 0.17 }"),
            SchemaField.Optional("effort limit", "effort_limit_n", force),
            SchemaField.Optional("fittings play", "fittings_play_m", radius),
            SchemaField.Optional("stop", "stop", Form.Section(Stop)),
            SchemaField.Optional("other routes", "other_routes", Form.List(Form.Section(RouteSchemas.Other))),
            SchemaField.Optional("space", "routing_space", Form.Section(RouteSchemas.Space)),
            SchemaField.Optional("labour", "labour", Form.Section(RouteSchemas.Labour)),
            SchemaField.Optional("changes", "changes", Form.List(ChangeForms.Change)),
        ]);
    }

    // "38 lbf", or with the load it was measured in: "{ effort: 38 lbf, in: raise }".
    private static Form MeasuredEffortForm(Form force)
    {
        var schema = new Schema(MeasuredEffort.Descriptor,
        [
            SchemaField.Required("effort", "effort_n", force, "what the spring scale showed", "effort: 38 lbf"),
            SchemaField.Optional("in", "load_case", Form.Text),
        ]);
        return new Form(
            field => field.Node is MappingNode ? schema.Read(field)
                : force.Read(field.Inner(field.Node, field.Key, "effort_n")) is double effortN
                    ? new MeasuredEffort { EffortN = effortN }
                : null,
            value => schema.Write((MeasuredEffort)value));
    }
}
