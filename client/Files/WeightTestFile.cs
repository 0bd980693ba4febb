using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>A weight test as it was read from a file.</summary>
/// <param name="Message">What the file and the installation file that it names say; what they leave out is absent.</param>
/// <param name="Sources">Where each field was written, by its path in the test: of "installation" in that other file.</param>
/// <param name="InstallationPath">The full path of the installation file.</param>
/// <param name="Notes">What was left out of it, and where.</param>
internal sealed record WeightTestDocument(
    WeightTest Message, SourceMap Sources, string InstallationPath, IReadOnlyList<FileProblem> Notes);

/// <summary>Files with the readings of one weight test. Only the form is checked here, and that a series keeps to its units;
/// ranges, and what contradicts what, are the service's.</summary>
internal static class WeightTestFile
{
    private const int MostBytes = 1 << 20;

    private static readonly Schema Schema = MakeSchema();

    /// <summary>Reads a file and the installation file that it names; "-" is standard input.</summary>
    public static FileResult<WeightTestDocument> Read(string file)
    {
        var problems = new ProblemList(file);
        return TextFile.Read(file, MostBytes, problems) is { } text
            ? Parse(text, problems)
            : problems.Result<WeightTestDocument>(null);
    }

    /// <summary>Reads a text and the installation file that it names.</summary>
    /// <param name="file">What to call it in problems; the name of the installation file counts from its folder.</param>
    /// <param name="text">The text.</param>
    public static FileResult<WeightTestDocument> Parse(string file, string text) => Parse(text, new ProblemList(file));

    private static FileResult<WeightTestDocument> Parse(string text, ProblemList problems)
    {
        if (YamlTree.Read(text, problems) is not { } root)
        {
            return problems.Result<WeightTestDocument>(null);
        }

        var sources = new SourceMap(new SourceMark(problems.File, root.Place, "", ""));
        var reading = new Reading(problems, sources);
        object? read = Schema.Read(new FieldValue(root, "", "", reading));
        return problems.Result(problems.IsEmpty && read is WeightTest message
            ? new WeightTestDocument(message, sources, Path.GetFullPath(sources.Find("installation").File), reading.Notes)
            : null);
    }

    private static Schema MakeSchema()
    {
        const string Reading = "{ added: 0 lbf, held: 35 lbf, moved: 40 lbf }";
        Form force = Form.Quantity(QuantityKind.Force);
        Form connected = Form.Word(
            ("whole chain", Connected.WholeChain),
            ("cable off at the arm", Connected.CableOffAtArm),
            ("helm alone", Connected.HelmAlone),
            ("cable alone", Connected.CableAlone),
            ("arm alone", Connected.ArmAlone),
            ("inline device alone", Connected.InlineDeviceAlone));

        // A blank is how a form that was not filled in says "not seen".
        Form seen = force with { Read = field => field.Node is ScalarNode { IsNothing: true } ? null : force.Read(field) };
        var reading = new Schema(WeightReading.Descriptor,
        [
            SchemaField.Required("added", "added_n", force, "the weight hung, also where it is none", "added: 0 lbf"),
            SchemaField.Optional("held", "held_n", seen),
            SchemaField.Optional("moved", "moved_n", seen),
        ]);
        var series = new Schema(TestSeries.Descriptor,
        [
            SchemaField.Optional("name", "display_name", Form.Text),
            SchemaField.Required("connected", "connected", connected, "which parts were connected", "connected: whole chain"),
            SchemaField.Optional("load", "load_case", Form.Text),
            SchemaField.Optional("direction", "direction", InstallationFile.PullOrPush),
            SchemaField.Optional("device", "inline_device", Form.Text),
            SchemaField.Optional("coil radius", "coil_radius_m", Form.Quantity(QuantityKind.ShortLength)),
            SchemaField.Optional("coil", "coil_angle_rad", Form.Quantity(QuantityKind.Angle)),
            SchemaField.Optional("force uncertainty", "force_uncertainty_n", force),
            SchemaField.Optional("weight uncertainty", "weight_uncertainty_n", force),
            SchemaField.Required(
                "readings",
                "readings",
                ReadingsForm(Form.List(Form.Section(reading), BlankReadings.IsBlank), Reading),
                "what held and what moved it at each weight",
                $"readings: [ {Reading} ]"),
        ]);
        return new Schema(WeightTest.Descriptor,
        [
            SchemaField.Required(
                "installation",
                "installation",
                InstallationReference.Form,
                "the file that describes the installation",
                "installation: my-boat.yaml"),
            SchemaField.Optional("fitted cable", "fitted_grade", GradeName.Id),
            SchemaField.Optional("paid", "amount_paid", MoneyText.Amount),
            SchemaField.Required(
                "series",
                "series",
                Form.List(Form.Section(series)),
                "readings with the same parts connected",
                $"series: [ {{ connected: whole chain, readings: [ {Reading} ] }} ]"),
        ]);
    }

    private static Form ReadingsForm(Form list, string example) => list with
    {
        Read = field =>
        {
            if (field.Node is not SequenceNode readings)
            {
                return list.Read(field);
            }

            if (readings.Items.Count == 0)
            {
                return field.Fail($"expected at least one reading such as {example}; found none");
            }

            SeriesUnits.Check(readings, field.Reading.Problems);
            BlankReadings.Check(readings, field);
            return list.Read(field);
        },
    };
}
