using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Weight tests for a spreadsheet or a script. Units are SI and stand in the name of the column; numbers keep every
/// digit.</summary>
internal static class WeightTestCsv
{
    /// <summary>A diagnosis: a record for its verdict, and for each series, share, suspect, next test, outcome and prior.
    /// </summary>
    public static void Write(TextWriter writer, DiagnoseInstallationResponse diagnosis) =>
        DiagnosisRecords.Of(diagnosis).Write(writer);

    /// <summary>A proof: a record for its verdict, and for each load case and series.</summary>
    public static void Write(TextWriter writer, VerifyCableResponse proof) => ProofRecords.Of(proof).Write(writer);

    /// <summary>A plan: a row a step.</summary>
    public static void Write(TextWriter writer, PlanWeightTestResponse plan)
    {
        var records = new Records(
        [
            "load_case", "direction", "step", "added_n", "start_with_n", "go_up_by_n",
            "predicted_low_n", "predicted_likely_n", "predicted_high_n",
            "predicted_slope_low", "predicted_slope_likely", "predicted_slope_high",
            "frictionless_slope", "expected_slope_width", "heaviest_reason",
        ]);
        foreach (PlannedSeries series in plan.PlannedSeries)
        {
            foreach ((int index, PlannedStep step) in series.Steps.Index())
            {
                records.Add(
                [
                    ("load_case", series.LoadCase),
                    ("direction", Records.Word(series.Direction)),
                    ("step", index + 1),
                    ("added_n", step.AddedN),
                    ("start_with_n", step.StartWithN),
                    ("go_up_by_n", plan.WeightStepN),
                    .. Records.Band("predicted", "_n", step.PredictedEffortN),
                    .. Records.Band("predicted_slope", "", series.PredictedSlope),
                    ("frictionless_slope", series.FrictionlessSlope),
                    ("expected_slope_width", series.HasExpectedSlopeWidth ? series.ExpectedSlopeWidth : null),
                    ("heaviest_reason", Records.Word(series.HeaviestReason)),
                ]);
            }
        }

        records.Write(writer);
    }
}
