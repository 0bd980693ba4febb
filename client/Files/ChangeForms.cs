using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>How a change of an installation is written.</summary>
internal static class ChangeForms
{
    private static readonly string[] Effects = ["take out", "service", "holes", "grip radius"];

    /// <summary>A change: one effect and what it costs.</summary>
    internal static readonly Form Change = MakeChange();

    private static Form MakeChange()
    {
        Form radius = Form.Quantity(QuantityKind.ShortLength);
        Form ratio = Form.Quantity(QuantityKind.Ratio);
        var service = new Schema(ServicedPart.Descriptor,
        [
            SchemaField.Optional(
                "mechanism", "mechanism", Form.Word(("helm", Mechanism.Helm), ("arm", Mechanism.Arm))),
            SchemaField.Optional("device", "device", Form.Text),
            SchemaField.Optional("efficiency", "efficiency", ratio),
            SchemaField.Optional("friction", "friction_n", Form.Quantity(QuantityKind.Force)),
        ]);
        var holes = new Schema(MovedHoles.Descriptor,
        [
            SchemaField.Optional("crank", "crank_hole_m", radius),
            SchemaField.Optional("arm", "arm_hole_m", radius),
        ]);
        var change = new Schema(V1.Change.Descriptor,
        [
            SchemaField.Required("name", "display_name", Form.Text, "what you call it", "name: service the helm"),
            SchemaField.Optional("take out", "take_out", TakeOut(radius)),
            SchemaField.Optional("service", "service", Form.Section(service)),
            SchemaField.Optional("holes", "holes", Form.Section(holes)),
            SchemaField.Optional("grip radius", "grip_radius_m", radius),
            SchemaField.Optional("parts", "parts", MoneyText.Amount),
            SchemaField.Optional("labour", "labour", MoneyText.Amount),
            SchemaField.Optional("labour hours", "labour_hours", ratio),
        ]);
        return new Form(
            field => HasOneEffect(field) ? change.Read(field) : null,
            value => change.Write((Change)value),
            MarksOwnPaths: true);
    }

    // In a message the last of several would stand alone.
    private static bool HasOneEffect(FieldValue field)
    {
        if (field.Node is not MappingNode mapping
            || mapping.Entries.Where(entry => Effects.Contains(Keys.Normal(entry.Key))).ToArray() is not [_, FileEntry second, ..])
        {
            return true;
        }

        field.FailAt(
            second.KeyPlace, $"\"{Wording.Shown(second.Key)}\" is a second effect of one change; make it a change of its own");
        return false;
    }

    // "equaliser", or with where the cable is then attached: "{ device: equaliser, arm hole: 3.6 in }".
    private static Form TakeOut(Form radius)
    {
        var schema = new Schema(DeviceTakenOut.Descriptor,
        [
            SchemaField.Required("device", "device", Form.Text, "the inline device, by its name", "device: equaliser"),
            SchemaField.Optional("arm hole", "arm_hole_m", radius),
        ]);
        return new Form(
            field => field.Node is MappingNode ? schema.Read(field)
                : Form.Text.Read(field.Inner(field.Node, field.Key, "device")) is string device
                    ? new DeviceTakenOut { Device = device }
                : null,
            value => schema.Write((DeviceTakenOut)value));
    }
}
