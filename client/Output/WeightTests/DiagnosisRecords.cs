using System.Globalization;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>A diagnosis as records.</summary>
internal static class DiagnosisRecords
{
    private static readonly string[] Heading =
    [
        "record", "number", "kind", "inline_device", "load_case", "direction", "verdict",
        "prior_probability", "probability",
        .. Records.IntervalColumns("effort", "_n"),
        .. SeriesRecords.Columns,
        "tested_alone",
        .. Records.IntervalColumns("excess", "_n"),
        "needed_quantity", "needed_least", "needed_most", "needed_force_least_n", "needed_force_most_n", "reasons",
        .. CableRecord.Columns,
        "coil_radius_m", "coil_angle_rad", "hang_n", "start_with_n", "stop_at_n",
        "suspects_in_question_now", "suspects_in_question_after", "excess_spread_now_n", "excess_spread_after_n",
        "next_test_number", "from_n", "to_n", "leading_probability",
        "severity_quantity", "severity_from", "severity_to", "force_from_n", "force_to_n",
        "considered_chain_count", "possible_chain_count", "weight_step_n",
    ];

    /// <summary>The records, in the order in which a person is shown them.</summary>
    public static Records Of(DiagnoseInstallationResponse diagnosis)
    {
        var records = new Records(Heading);
        records.Add(
            ("record", "diagnosis"),
            ("verdict", Records.Word(diagnosis.Verdict)),
            ("considered_chain_count", diagnosis.ConsideredChainCount),
            ("possible_chain_count", diagnosis.PossibleChainCount),
            ("weight_step_n", diagnosis.WeightStepN));
        SeriesRecords.Add(records, "series", diagnosis.SeriesEstimates);
        AddShares(records, diagnosis);
        CableRecord.Add(records, diagnosis.CableBehaviour);
        AddSuspects(records, diagnosis);
        AddNextTests(records, diagnosis);
        AddPriors(records, diagnosis);
        AddTolerance(records, diagnosis.SoundTolerance);
        return records;
    }

    private static void AddShares(Records records, DiagnoseInstallationResponse diagnosis)
    {
        foreach ((int index, PartShare share) in diagnosis.PartShares.Index())
        {
            records.Add(
            [
                ("record", "share"),
                ("number", index + 1),
                ("kind", Records.Word(share.Part)),
                ("inline_device", share.InlineDevice),
                ("load_case", diagnosis.EffortLoadCase),
                .. Records.Interval("effort", "_n", share.BaselineN),
                .. Records.Interval("slope", "", share.Slope),
                ("tested_alone", share.TestedAlone),
            ]);
        }

        if (diagnosis.EffortN is { } effortN)
        {
            records.Add(
            [
                ("record", "effort"),
                ("load_case", diagnosis.EffortLoadCase),
                .. Records.Interval("effort", "_n", effortN),
            ]);
        }
    }

    private static void AddSuspects(Records records, DiagnoseInstallationResponse diagnosis)
    {
        foreach ((int index, Suspect suspect) in diagnosis.Suspects.Index())
        {
            records.Add(
            [
                ("record", "suspect"),
                ("number", index + 1),
                ("kind", Records.Word(suspect.Kind)),
                ("inline_device", suspect.InlineDevice),
                ("load_case", diagnosis.EffortLoadCase),
                ("prior_probability", suspect.PriorProbability),
                ("probability", suspect.HasProbability ? suspect.Probability : null),
                .. Records.Interval("excess", "_n", suspect.ExcessN),
                ("needed_quantity", suspect.Needed is null ? "" : NeededQuantity(suspect.Kind)),
                ("needed_least", suspect.Needed?.Least),
                ("needed_most", suspect.Needed is { HasMost: true } ? suspect.Needed.Most : null),
                ("needed_force_least_n", suspect.NeededForceN?.Least),
                ("needed_force_most_n", suspect.NeededForceN is { HasMost: true } ? suspect.NeededForceN.Most : null),
                ("reasons", Records.Words(suspect.Reasons.Select(reason => reason.Kind))),
            ]);
        }

        records.Add(
            ("record", "nothing_at_fault"),
            ("prior_probability", diagnosis.PriorStatements.FirstOrDefault(p => p.Kind == FaultKind.Unspecified)?.Probability),
            ("probability", diagnosis.HasNothingAtFaultProbability ? diagnosis.NothingAtFaultProbability : null));
    }

    private static void AddNextTests(Records records, DiagnoseInstallationResponse diagnosis)
    {
        foreach ((int index, NextTest next) in diagnosis.NextTests.Index())
        {
            records.Add(
                ("record", "next_test"),
                ("number", index + 1),
                ("connected", Records.Word(next.Connected)),
                ("inline_device", next.InlineDevice),
                ("load_case", next.LoadCase),
                ("direction", Records.Word(next.Direction)),
                ("coil_radius_m", next.HasCoilRadiusM ? next.CoilRadiusM : null),
                ("coil_angle_rad", next.HasCoilAngleRad ? next.CoilAngleRad : null),
                ("hang_n", Numbers(next.HangN)),
                ("start_with_n", Numbers(next.StartWithN)),
                ("stop_at_n", next.StopAtN > 0 ? next.StopAtN : null),
                ("suspects_in_question_now", next.SuspectsInQuestionNow),
                ("suspects_in_question_after", next.SuspectsInQuestionAfter),
                ("excess_spread_now_n", next.ExcessSpreadNowN),
                ("excess_spread_after_n", next.ExcessSpreadAfterN));
            foreach ((int place, TestOutcome outcome) in next.Outcomes.Index())
            {
                records.Add(
                    ("record", "outcome"),
                    ("number", place + 1),
                    ("next_test_number", index + 1),
                    ("from_n", outcome.FromN),
                    ("to_n", outcome.HasToN ? outcome.ToN : null),
                    ("probability", outcome.Probability),
                    ("kind", outcome.NothingAtFault ? "nothing_at_fault" : Records.Word(outcome.LeadingFault)),
                    ("inline_device", outcome.InlineDevice),
                    ("leading_probability", outcome.LeadingProbability));
            }
        }
    }

    private static void AddPriors(Records records, DiagnoseInstallationResponse diagnosis)
    {
        foreach ((int index, PriorStatement prior) in diagnosis.PriorStatements.Index())
        {
            bool isFault = prior.Kind != FaultKind.Unspecified;
            bool hasForce = prior.Kind is FaultKind.InlineDevice or FaultKind.Arm or FaultKind.Helm;
            records.Add(
                ("record", "prior"),
                ("number", index + 1),
                ("kind", isFault ? Records.Word(prior.Kind) : "nothing_at_fault"),
                ("inline_device", prior.InlineDevice),
                ("prior_probability", prior.Probability),
                ("severity_quantity", SeverityQuantity(prior.Kind)),
                ("severity_from", isFault ? prior.SeverityFrom : null),
                ("severity_to", isFault ? prior.SeverityTo : null),
                ("force_from_n", hasForce ? prior.ForceFromN : null),
                ("force_to_n", hasForce ? prior.ForceToN : null));
        }
    }

    // Further columns for what few records have would be mostly empty.
    private static void AddTolerance(Records records, SoundTolerance? tolerance)
    {
        if (tolerance is null)
        {
            return;
        }

        Add("times_described_loss", tolerance.LossFrom, tolerance.LossTo);
        Add("times_described_load", tolerance.LoadFrom, tolerance.LoadTo);
        Add("times_stated_friction", tolerance.StatedFrictionFrom, tolerance.StatedFrictionTo);
        Add("times_model_force", 1 - tolerance.ModelError, 1 + tolerance.ModelError);
        records.Add(("record", "prior_two_faults"), ("prior_probability", tolerance.TwoFaultsProbability));

        void Add(string quantity, double from, double to) => records.Add(
            ("record", "sound_tolerance"), ("severity_quantity", quantity), ("severity_from", from), ("severity_to", to));
    }

    private static string Numbers(IEnumerable<double> numbers) =>
        string.Join("; ", numbers.Select(n => n.ToString("R", CultureInfo.InvariantCulture)));

    private static string NeededQuantity(FaultKind kind) => kind switch
    {
        FaultKind.Liner => "friction",
        FaultKind.Bends => "hidden_bend_rad",
        FaultKind.InlineDevice or FaultKind.Arm or FaultKind.Helm => "efficiency",
        FaultKind.Load => "load_n",
        _ => "",
    };

    private static string SeverityQuantity(FaultKind kind) => kind switch
    {
        FaultKind.Liner => "times_sound_friction",
        FaultKind.Bends => "hidden_bend_rad",
        FaultKind.InlineDevice or FaultKind.Arm or FaultKind.Helm => "efficiency",
        FaultKind.Stop => "force_at_hole_n",
        FaultKind.Load => "times_load",
        _ => "",
    };
}
