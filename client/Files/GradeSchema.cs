using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>How a grade is written in files.</summary>
internal static class GradeSchema
{
    /// <summary>The keys of a grade.</summary>
    public static readonly Schema Grade = Make();

    private static Schema Make()
    {
        Form force = Form.Quantity(QuantityKind.Force);
        Form length = Form.Quantity(QuantityKind.Length);
        Form shortLength = Form.Quantity(QuantityKind.ShortLength);
        Form construction = Form.Word(("stranded", CoreConstruction.Stranded), ("solid", CoreConstruction.Solid));
        Form basis = Form.Word(("assumed", CoefficientBasis.Assumed), ("measured", CoefficientBasis.Measured));

        var lengthsMade = new Schema(LengthsMade.Descriptor,
        [
            SchemaField.Required("shortest", "shortest_length_m", length, "the shortest length made", "shortest: 4 ft"),
            SchemaField.Required("longest", "longest_length_m", length, "the longest length made", "longest: 40 ft"),
            SchemaField.Required("step", "length_step_m", length, "between the lengths made", "step: 6 in"),
        ]);
        var price = new Schema(Price.Descriptor,
        [
            SchemaField.Required("base", "base", MoneyText.Amount, "for the cable whatever its length", "base: 21.00 USD"),
            SchemaField.Required(
                "per length", "per_metre", MoneyText.AmountPerLength, "for each metre or foot", "per length: 6.50 USD/m"),
            SchemaField.Required("fittings", "fittings", MoneyText.Amount, "for the end fittings", "fittings: 4.00 USD"),
            SchemaField.Required("date", "price_date", DateText.Day, "the day the price was set", "date: 2026-10-01"),
        ]);
        return new Schema(V1.Grade.Descriptor,
        [
            SchemaField.Required("id", "name", GradeName.Id, "a short name without spaces", "id: plain-wire"),
            SchemaField.Required("name", "display_name", Form.Text, "what people call it", "name: Plain wire"),
            SchemaField.Optional("core", "core", Form.Text),
            SchemaField.Optional("core construction", "core_construction", construction),
            SchemaField.Optional("liner", "liner", Form.Text),
            SchemaField.Required(
                "coefficients", "coefficient_basis", basis, "how friction and drags are known", "coefficients: assumed"),
            SchemaField.Required(
                "friction",
                "friction",
                Form.Band(QuantityKind.Ratio),
                "between core and liner",
                "friction: { low: 0.16, likely: 0.22, high: 0.30 }"),
            SchemaField.Required(
                "minimum bend radius",
                "min_bend_radius_m",
                shortLength,
                "the tightest bend allowed",
                "minimum bend radius: 8 in"),
            SchemaField.Optional("seal drag", "seal_drag_n", Form.Band(QuantityKind.Force)),
            SchemaField.Optional("running drag", "running_drag_n_per_m", Form.Band(QuantityKind.ForcePerLength)),
            SchemaField.Optional(
                "core bending stiffness", "core_bending_stiffness_n_m2", Form.Quantity(QuantityKind.BendingStiffness)),
            SchemaField.Optional("diametral clearance", "diametral_clearance_m", shortLength),
            SchemaField.Optional("axial stiffness", "axial_stiffness_n", Form.Quantity(QuantityKind.LargeForce)),
            SchemaField.Optional("rated pull", "rated_pull_n", force),
            SchemaField.Optional("rated push", "rated_push_n", force),
            SchemaField.Optional("longest travel", "longest_travel_m", shortLength),
            SchemaField.Required(
                "lengths made",
                "lengths_made",
                Form.Section(lengthsMade),
                "from the shortest in steps to the longest",
                "lengths made: { shortest: 4 ft, longest: 40 ft, step: 6 in }"),
            SchemaField.Required(
                "price",
                "price",
                Form.Section(price),
                "what a cable costs",
                "price: { base: 21.00 USD, per length: 6.50 USD/m, fittings: 4.00 USD, date: 2026-10-01 }"),
        ]);
    }
}
