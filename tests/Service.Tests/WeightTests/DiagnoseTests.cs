using CableCatalog.V1;
using Google.Protobuf;
using static CableCatalog.Service.Tests.WeightTests.SimulatedControl;

namespace CableCatalog.Service.Tests.WeightTests;

public sealed class DiagnoseTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    // As they might be read off a fish scale: 0, 5 and 10 lbf hung.
    private static readonly (double, double?, double?)[] Checked = [(0, 14, 16), (5, 24, 26), (10, 33, 36)];

    [Fact]
    public async Task The_possible_lines_are_those_of_an_independent_implementation()
    {
        SeriesEstimate estimate = await EstimateAsync(InPounds(Checked));

        // Computed by an independent implementation (vertex enumeration and a linear programme), in lbf.
        Assert.True(estimate.LinePossible);
        Assert.Equal(14, estimate.BaselineN.Least / PoundN, 1e-6);
        Assert.Equal(16, estimate.BaselineN.Most / PoundN, 1e-6);
        Assert.Equal(1.7, estimate.Slope.Least, 1e-9);
        Assert.Equal(2.2, estimate.Slope.Most, 1e-9);
        Assert.Equal(15.060606, estimate.CentreBaselineN / PoundN, 1e-6);
        Assert.Equal(1.954545, estimate.CentreSlope, 1e-6);
        Assert.Equal(1.7742, estimate.Slope.Quantile05, 1e-4);
        Assert.Equal(1.9606, estimate.Slope.Median, 1e-4);
        Assert.Equal(2.1258, estimate.Slope.Quantile95, 1e-4);

        // By hand: (0.22/0.14) / (0.3/0.06).
        Assert.Equal(0.314286, estimate.FrictionlessSlope, 1e-6);
        Assert.Equal((SeriesShape.Straight, true), (estimate.Shape, estimate.EffortIsLinear));
        Assert.Empty(estimate.Weaknesses);
        Assert.Equal("raise", estimate.LoadCase);
        Assert.Equal(Direction.Pull, estimate.Direction);
    }

    [Fact]
    public async Task The_uncertainty_of_the_forces_widens_the_lines()
    {
        SeriesEstimate estimate = await EstimateAsync(
            InPounds(Checked).With(series => series.ForceUncertaintyN = 0.5 * PoundN));

        // Computed by an independent implementation, in lbf.
        Assert.Equal(13.5, estimate.BaselineN.Least / PoundN, 1e-6);
        Assert.Equal(16.5, estimate.BaselineN.Most / PoundN, 1e-6);
        Assert.Equal(1.6, estimate.Slope.Least, 1e-9);
        Assert.Equal(2.3, estimate.Slope.Most, 1e-9);
        Assert.Equal(23.5 * PoundN, estimate.Brackets[1].LeastN, 1e-9);
        Assert.Equal(26.5 * PoundN, estimate.Brackets[1].MostN, 1e-9);
    }

    [Fact]
    public async Task Where_no_line_fits_the_widening_and_the_odd_readings_are_told_and_no_line()
    {
        SeriesEstimate estimate = await EstimateAsync(InPounds((0, 9, 10), (4, 11, 12), (8, 20, 21)));

        // Computed by an independent implementation (a linear programme). Any two of three brackets let a line through.
        Assert.False(estimate.LinePossible);
        Assert.Equal(1.25, estimate.LeastWideningN / PoundN, 1e-6);
        Assert.Equal([1, 2, 3], estimate.OddReadings);
        Assert.Equal(SeriesShape.BendsUpward, estimate.Shape);
        Assert.Null(estimate.BaselineN);
        Assert.Null(estimate.Slope);
        Assert.False(estimate.HasCentreSlope);
        Assert.Empty(estimate.Band);
        Assert.NotEmpty(estimate.Predicted);
    }

    [Fact]
    public async Task What_has_no_upper_bound_has_no_most_no_middle_and_no_quantiles()
    {
        SeriesEstimate single = await EstimateAsync(InPounds((0, 14, 16)));
        Assert.Equal([SeriesWeakness.SingleReading], single.Weaknesses);
        Assert.Equal((14, 16), (Math.Round(single.BaselineN.Least / PoundN, 6), Math.Round(single.BaselineN.Most / PoundN, 6)));
        AssertUnbounded(single, single.Slope);
        Assert.False(single.BaselineN.HasMedian);

        SeriesEstimate heldOnly = await EstimateAsync(InPounds((0, 14, null), (5, 16, null)));
        Assert.Equal([SeriesWeakness.TwoWeights, SeriesWeakness.HeldOnly], heldOnly.Weaknesses);
        AssertUnbounded(heldOnly, heldOnly.BaselineN);
        AssertUnbounded(heldOnly, heldOnly.Slope);
        Assert.All(heldOnly.Band, at => Assert.False(at.EffortN.HasMost));
        Assert.All(heldOnly.Brackets, bracket => Assert.False(bracket.HasMostN));

        SeriesEstimate movedOnly = await EstimateAsync(InPounds((5, null, 16), (5, null, 17)));
        Assert.Equal([SeriesWeakness.OneWeight, SeriesWeakness.MovedOnly], movedOnly.Weaknesses);
        Assert.Equal(0, movedOnly.BaselineN.Least);
        Assert.True(movedOnly.BaselineN.HasMost);
    }

    [Fact]
    public async Task A_band_reaches_from_nothing_to_beyond_the_heaviest_weight_and_holds_the_readings()
    {
        SeriesEstimate estimate = await EstimateAsync(InPounds(Checked));
        Assert.InRange(estimate.Band.Count, 9, 13);
        Assert.Equal(0, estimate.Band[0].AddedN);
        Assert.Equal(12.5 * PoundN, estimate.Band[^1].AddedN, 1e-9);
        Assert.Equal(estimate.Band.Select(b => b.AddedN), estimate.Predicted.Select(p => p.AddedN));
        Assert.Equal(estimate.BaselineN, estimate.Band[0].EffortN);
        Assert.All(estimate.Band, at =>
        {
            Assert.True(at.EffortN.Least <= at.EffortN.Quantile05);
            Assert.True(at.EffortN.Quantile05 <= at.EffortN.Median);
            Assert.True(at.EffortN.Median <= at.EffortN.Quantile95);
            Assert.True(at.EffortN.Quantile95 <= at.EffortN.Most);
        });

        // With 5 lbf hung, of 12.5: the fifth of eleven. No line can leave the bracket.
        Assert.Equal(5 * PoundN, estimate.Band[4].AddedN, 1e-9);
        Assert.True(estimate.Band[4].EffortN.Least >= 24 * PoundN - 1e-9);
        Assert.True(estimate.Band[4].EffortN.Most <= 26 * PoundN + 1e-9);
    }

    [Fact]
    public async Task What_sound_parts_would_take_is_told_beside_it()
    {
        var described = new SimulatedControl(0.17);
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(described.WholeChain(), described.HelmAlone());
        Assert.All(diagnosis.SeriesEstimates[0].Predicted, at =>
        {
            // By the formulas of levers and the capstan law, with everything as described.
            Assert.Equal(described.WholeChainN(at.AddedN), at.EffortN.Likely, 1e-6);
            Assert.True(at.EffortN.Low < at.EffortN.Likely && at.EffortN.Likely < at.EffortN.High);
        });
        Assert.All(
            diagnosis.SeriesEstimates[1].Predicted,
            at => Assert.Equal(described.HelmN(at.AddedN), at.EffortN.Likely, 1e-6));
    }

    [Fact]
    public async Task A_helm_that_drags_is_the_first_suspect_once_it_is_tested_alone()
    {
        var dragging = new SimulatedControl(0.17, HelmFrictionN: 44);
        DiagnoseInstallationResponse whole = await DiagnoseAsync(dragging.WholeChain());
        DiagnoseInstallationResponse apart = await DiagnoseAsync(dragging.WholeChain(), dragging.HelmAlone());

        Suspect helm = apart.Suspects[0];
        Assert.Equal(FaultKind.Helm, helm.Kind);
        Assert.True(helm.Probability > whole.Suspects.Single(s => s.Kind == FaultKind.Helm).Probability);
        Assert.Equal(DiagnosisVerdict.OnePart, apart.Verdict);

        // 40 N more than described, in a sound helm 2 to 6 N: what is needed holds what is there.
        Assert.InRange(44, helm.NeededForceN.Least, helm.NeededForceN.Most);
        SuspectReason alone = helm.Reasons.Single(r => r.Kind == SuspectReasonKind.TakesMoreAlone);
        Assert.Equal((2, 200), (alone.SeriesNumber, alone.WeightN));
        Assert.InRange(dragging.HelmN(200), alone.MeasuredN.Least, alone.MeasuredN.Most);
        Assert.Equal(new SimulatedControl(0.17).HelmN(200), alone.SoundN.Likely, 1e-6);
        Assert.True(alone.MeasuredN.Least > alone.SoundN.High);

        Assert.Contains(
            apart.Suspects.Single(s => s.Kind == FaultKind.Arm).Reasons, r => r.Kind == SuspectReasonKind.NotTestedApart);
        Assert.DoesNotContain(helm.Reasons, r => r.Kind == SuspectReasonKind.NotTestedApart);
        Assert.Contains(
            whole.Suspects.Single(s => s.Kind == FaultKind.Helm).Reasons, r => r.Kind == SuspectReasonKind.NotTestedApart);
    }

    [Fact]
    public async Task A_helm_that_is_sound_alone_is_said_to_be()
    {
        var worn = new SimulatedControl(0.4);
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(worn.WholeChain(), worn.HelmAlone(), worn.CableAlone());
        Suspect helm = diagnosis.Suspects.Single(s => s.Kind == FaultKind.Helm);
        SuspectReason reason = helm.Reasons.Single(r => r.Kind == SuspectReasonKind.AsSoundAlone);
        Assert.Equal(2, reason.SeriesNumber);
        Suspect liner = diagnosis.Suspects[0];
        Assert.Equal(FaultKind.Liner, liner.Kind);
        Assert.Contains(liner.Reasons, r => r is { Kind: SuspectReasonKind.TakesMoreAlone, SeriesNumber: 3 });
        Assert.Contains(liner.Reasons, r => r is { Kind: SuspectReasonKind.ExcessGrows, SeriesNumber: 1 });
        Assert.Contains(liner.Reasons, r => r.Kind == SuspectReasonKind.FrictionAboveBand);
        Assert.InRange(0.4, liner.Needed.Least, liner.Needed.Most);
    }

    [Fact]
    public async Task An_excess_that_does_not_grow_speaks_for_what_is_constant()
    {
        // In steps of 1 N the slope is known to within what sound parts have.
        var dragging = new SimulatedControl(0.17, HelmFrictionN: 84);
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(
            Read(Connected.WholeChain, dragging.WholeChainN, 1, 0, 100, 200));
        FaultKind[] constant = [.. diagnosis.Suspects
            .Where(s => s.Reasons.Any(r => r is { Kind: SuspectReasonKind.ExcessIsConstant, SeriesNumber: 1 }))
            .Select(s => s.Kind).Order()];
        Assert.Equal([FaultKind.InlineDevice, FaultKind.Arm, FaultKind.Helm, FaultKind.Stop, FaultKind.Load], constant);
        Assert.DoesNotContain(diagnosis.Suspects.SelectMany(s => s.Reasons), r => r.Kind == SuspectReasonKind.ExcessGrows);
    }

    [Fact]
    public async Task Readings_that_bend_upward_speak_for_a_stop_and_for_bends()
    {
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(InPounds((0, 9, 10), (4, 11, 12), (8, 20, 21)));
        FaultKind[] bending = [.. diagnosis.Suspects
            .Where(s => s.Reasons.Any(r => r is { Kind: SuspectReasonKind.BendsUpward, SeriesNumber: 1 }))
            .Select(s => s.Kind).Order()];
        Assert.Equal([FaultKind.Bends, FaultKind.Stop], bending);
    }

    [Fact]
    public async Task A_bend_under_the_least_radius_is_named_by_its_number()
    {
        WeightTest test = Test(new SimulatedControl(0.17).WholeChain());
        test.FittedGrade = "grades/g4";
        test.Installation.Route[3].Bend.RadiusM = 0.19;
        Suspect bends = (await DiagnoseAsync(test)).Suspects.Single(s => s.Kind == FaultKind.Bends);
        TightBend tight = bends.Reasons.Single(r => r.Kind == SuspectReasonKind.TightBend).TightBend;
        Assert.Equal((2, 0.19, 0.2), (tight.BendNumber, tight.RadiusM, tight.MinBendRadiusM));
    }

    [Fact]
    public async Task Sound_readings_make_it_more_likely_that_nothing_is_at_fault()
    {
        var sound = new SimulatedControl(0.17);
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(
            sound.WholeChain(), sound.HelmAlone(), sound.CableAlone(), Read(Connected.ArmAlone, ArmN, PoundN, 0, 50, 100));
        double before = diagnosis.PriorStatements.Single(p => p.Kind == FaultKind.Unspecified).Probability;
        Assert.True(diagnosis.NothingAtFaultProbability > before);
        Assert.Equal(DiagnosisVerdict.NothingStandsOut, diagnosis.Verdict);
        Assert.True(diagnosis.Suspects[0].Probability < diagnosis.NothingAtFaultProbability);
    }

    [Fact]
    public async Task Where_no_chain_gives_the_readings_nothing_is_said_of_parts_and_the_series_are_still_read()
    {
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(InPounds((0, 9000, 9005), (5, 9000, 9010)));
        Assert.Equal(DiagnosisVerdict.NotExplained, diagnosis.Verdict);
        Assert.Equal(0, diagnosis.PossibleChainCount);
        Assert.True(diagnosis.ConsideredChainCount > 0);
        Assert.False(diagnosis.HasNothingAtFaultProbability);
        Assert.Empty(diagnosis.PartShares);
        Assert.Null(diagnosis.EffortN);
        Assert.Empty(diagnosis.NextTests);
        Assert.All(diagnosis.Suspects, suspect =>
        {
            Assert.False(suspect.HasProbability);
            Assert.Null(suspect.ExcessN);
            Assert.DoesNotContain(suspect.Reasons, r => r.Kind == SuspectReasonKind.RuledOut);
        });
        Assert.True(diagnosis.SeriesEstimates[0].LinePossible);
    }

    [Fact]
    public async Task A_part_that_is_in_no_possible_chain_is_ruled_out()
    {
        var dragging = new SimulatedControl(0.17, HelmFrictionN: 44);
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(
            dragging.WholeChain(), dragging.HelmAlone(), dragging.CableAlone());
        Assert.All(diagnosis.Suspects, suspect => Assert.Equal(
            suspect.Probability == 0, suspect.Reasons.Any(r => r.Kind == SuspectReasonKind.RuledOut)));
        Assert.Contains(diagnosis.Suspects, suspect => suspect.Probability == 0);
    }

    [Fact]
    public async Task The_shares_go_from_the_load_to_the_hand_and_say_what_was_tested_alone()
    {
        var sound = new SimulatedControl(0.17);
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(sound.WholeChain(), sound.HelmAlone(), sound.CableAlone());
        Assert.Equal(
            [ChainPart.UsefulLoad, ChainPart.Arm, ChainPart.Cable, ChainPart.InlineDevice, ChainPart.Helm],
            diagnosis.PartShares.Select(share => share.Part));
        Assert.Equal("gear reducer", diagnosis.PartShares[3].InlineDevice);

        // The reducer stays on the helm when that is tested alone.
        Assert.Equal([false, false, true, false, false], diagnosis.PartShares.Select(share => share.TestedAlone));
        Assert.Equal("raise", diagnosis.EffortLoadCase);
        Assert.InRange(sound.WholeChainN(0), diagnosis.EffortN.Least, diagnosis.EffortN.Most);

        // By hand: 150 N * (0.22/0.14) / (0.3/0.06) = 47.142857 N, and the slope 0.314286 without friction.
        Assert.InRange(47.142857, diagnosis.PartShares[0].BaselineN.Least, diagnosis.PartShares[0].BaselineN.Most);
        Assert.Equal(0.314286, diagnosis.PartShares[0].Slope.Median, 1e-6);
        Assert.True(diagnosis.PartShares.Sum(share => share.BaselineN.Least) <= diagnosis.EffortN.Most);
    }

    [Fact]
    public async Task The_friction_that_the_cable_behaves_with_holds_the_real_one_and_is_held_against_a_sound_one()
    {
        var worn = new SimulatedControl(0.4);
        CableBehaviour cable = (await DiagnoseAsync(worn.WholeChain(), worn.CableAlone())).CableBehaviour;
        Assert.InRange(0.4, cable.BehavingFriction.Least, cable.BehavingFriction.Most);
        Assert.InRange(cable.BehavingFriction.Median, cable.BehavingFriction.Least, cable.BehavingFriction.Most);
        Assert.Equal(FrictionVerdict.AboveBand, cable.Verdict);
        Assert.Equal(SoundFrictionBasis.Stated, cable.SoundFrictionBasis);
        Assert.Equal(0.17, cable.SoundFriction.Likely);

        // Friction times angle is what is felt: (0.4/0.17 - 1) of the route is as much bend again.
        double bendRad = ((0.4 / 0.17) - 1) * RouteRad;
        Assert.InRange(bendRad, cable.ExtraBendRad.Least, cable.ExtraBendRad.Most);
        Assert.Equal(
            ((cable.BehavingFriction.Median / 0.17) - 1) * RouteRad, cable.ExtraBendRad.Median, 1e-6);
        Assert.InRange(0.4, cable.FrictionOfPossibleChains.Least, cable.FrictionOfPossibleChains.Most);
    }

    [Fact]
    public async Task Without_an_upper_bound_the_behaving_friction_has_no_most()
    {
        CableBehaviour cable = (await DiagnoseAsync(InPounds((0, 20, null)))).CableBehaviour;
        Assert.False(cable.BehavingFriction.HasMost);
        Assert.False(cable.BehavingFriction.HasMedian);
        Assert.False(cable.ExtraBendRad.HasMost);
    }

    [Fact]
    public async Task What_no_friction_explains_has_no_behaving_friction()
    {
        // By hand: without any friction in the cable the chain takes 0.2/0.95/0.8 of (150 * 0.22/0.14/0.92 + 5), about 73 N.
        CableBehaviour cable = (await DiagnoseAsync(InPounds((0, 4, 5)))).CableBehaviour;
        Assert.Null(cable.BehavingFriction);
        Assert.Null(cable.ExtraBendRad);
        Assert.Equal(FrictionVerdict.NoFrictionExplains, cable.Verdict);
    }

    [Fact]
    public async Task The_fitted_grade_is_what_a_sound_cable_is_held_against()
    {
        WeightTest test = Test(new SimulatedControl(0.17).WholeChain());
        test.FittedGrade = "grades/g4";
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(test);
        Assert.Equal(SoundFrictionBasis.Grade, diagnosis.CableBehaviour.SoundFrictionBasis);
        Assert.Equal(TestGrades.All().ElementAt(3).Friction, diagnosis.CableBehaviour.SoundFriction);
        Assert.Contains(diagnosis.Assumptions, a => a is { Kind: AssumptionKind.GradeCoefficients, GradeCount: 1 });
        Assert.DoesNotContain(diagnosis.Assumptions, a => a.Kind == AssumptionKind.PresentDrags);
        Assert.DoesNotContain(diagnosis.Assumptions, a => a.Kind == AssumptionKind.PresentFriction);
    }

    [Fact]
    public async Task A_stated_friction_that_a_sound_cable_is_held_against_is_an_assumption()
    {
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(new SimulatedControl(0.17).WholeChain());
        Assert.Contains(diagnosis.Assumptions, a => a.Kind == AssumptionKind.PresentFriction);
    }

    [Fact]
    public async Task A_present_cable_of_which_only_an_effort_is_known_can_be_diagnosed()
    {
        WeightTest test = Test(new SimulatedControl(0.17).WholeChain());
        test.Installation.PresentCable = new PresentCable { MeasuredEffort = new MeasuredEffort { EffortN = 150 } };
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(test);
        Assert.Equal(SoundFrictionBasis.Assumed, diagnosis.CableBehaviour.SoundFrictionBasis);
        AssumptionKind[] kinds = [.. diagnosis.Assumptions.Select(a => a.Kind)];
        Assert.Contains(AssumptionKind.LikelyFaults, kinds);
        Assert.Contains(AssumptionKind.PresentDrags, kinds);
        Assert.Contains(AssumptionKind.PresentCoreUnknown, kinds);
        Assert.DoesNotContain(AssumptionKind.ExcessIsTheCables, kinds);
    }

    [Fact]
    public async Task Each_next_test_is_expected_to_narrow_the_question_and_is_named_once()
    {
        WeightTest test = Test(new SimulatedControl(0.17, HelmFrictionN: 44).WholeChain());
        DiagnoseInstallationResponse diagnosis = await service.Testing.DiagnoseInstallationAsync(
            new DiagnoseInstallationRequest { Test = test, WeightStepN = 10 });
        Assert.Equal(10, diagnosis.WeightStepN);
        Assert.NotEmpty(diagnosis.NextTests);
        Assert.Distinct(diagnosis.NextTests.Select(
            next => (next.Connected, next.LoadCase, next.Direction, next.InlineDevice, next.HasCoilRadiusM)));
        Assert.All(diagnosis.NextTests, next =>
        {
            Assert.True(next.SuspectsInQuestionAfter < next.SuspectsInQuestionNow);
            Assert.True(next.SuspectsInQuestionAfter >= 1 - 1e-9);
            Assert.True(next.ExcessSpreadAfterN <= next.ExcessSpreadNowN + 1e-9);
            Assert.All(next.HangN, n => Assert.Equal(Math.Round(n / 10), n / 10, 9));
            Assert.Equal(1, next.Outcomes.Sum(o => o.Probability), 9);
            Assert.All(next.Outcomes, o => Assert.Equal(o.NothingAtFault, o.LeadingFault == FaultKind.Unspecified));
            Assert.Equal(next.HangN.Count, next.StartWithN.Count);
            Assert.Equal(next.StartWithN.Order(), next.StartWithN);
            Assert.All(next.StartWithN, n => Assert.True(n >= 0));
            Assert.True(next.StartWithN[^1] <= next.Outcomes[0].FromN);

            // At the grip 50 lbf, at a part that is apart 100 lbf (common practice, no source).
            bool atGrip = next.Connected is Connected.WholeChain or Connected.CableOffAtArm or Connected.HelmAlone;
            Assert.Equal((atGrip ? 50 : 100) * PoundN, next.StopAtN, 0.2);
            Assert.True(next.StartWithN[^1] <= next.StopAtN);

            Assert.Equal(next.Connected is Connected.WholeChain or Connected.ArmAlone, next.LoadCase == "raise");
            Assert.Equal(next.Connected == Connected.InlineDeviceAlone, next.InlineDevice == "gear reducer");
        });
    }

    [Fact]
    public async Task What_was_likely_before_any_reading_is_all_stated()
    {
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(InPounds(Checked));
        Assert.Equal(
            diagnosis.Suspects.Select(s => s.Kind).Append(FaultKind.Unspecified).Order(),
            diagnosis.PriorStatements.Select(p => p.Kind).Order());
        Assert.All(diagnosis.Suspects, suspect =>
        {
            PriorStatement prior = diagnosis.PriorStatements.Single(p => p.Kind == suspect.Kind);
            Assert.Equal(prior.InlineDevice, suspect.InlineDevice);
            Assert.True(prior.SeverityFrom < prior.SeverityTo);
        });

        // As a share of the efficiency described, 0.95.
        PriorStatement helm = diagnosis.PriorStatements.Single(p => p.Kind == FaultKind.Helm);
        Assert.InRange(helm.SeverityTo, 0.01, 0.9499);
        Assert.True(helm.ForceFromN > 0);

        // Nothing, one thing or two: one of them is so.
        SoundTolerance sound = diagnosis.SoundTolerance;
        Assert.Equal(1, diagnosis.PriorStatements.Sum(p => p.Probability) + sound.TwoFaultsProbability, 9);
        Assert.InRange(sound.ModelError, 1e-9, 0.1);
    }

    // Described: efficiency 0.95 with 4 N, behind a reducer of 0.8 with 3 N. With nothing hung such a helm is within what is told
    // of a sound one from (3 * 0.2/0.95 + 4) times the least loss to the same times the most (by hand), and half as much again is
    // not.
    [Fact]
    public async Task How_far_a_sound_part_may_be_from_its_description_is_stated_and_holds()
    {
        SoundTolerance sound = (await DiagnoseAsync(InPounds(Checked))).SoundTolerance;
        Assert.Equal((0.5, 1.5), (sound.LossFrom, sound.LossTo));
        Assert.Equal((0.9, 1.1), (sound.LoadFrom, sound.LoadTo));
        Assert.Equal((0.8, 1.25), (sound.StatedFrictionFrom, sound.StatedFrictionTo));
        double mostN = new SimulatedControl(0.17, 4 * sound.LossTo).HelmN(0) * (1 + sound.ModelError);
        Assert.True(await NothingAtFaultAsync(mostN - 0.2) > 0.1);
        Assert.True(await NothingAtFaultAsync(mostN * 1.5) < 1e-9);

        async Task<double> NothingAtFaultAsync(double forceN) => (await DiagnoseAsync(
            Read(Connected.HelmAlone, _ => forceN, 0.1, 0))).NothingAtFaultProbability;
    }

    [Fact]
    public async Task The_same_test_gives_the_same_bytes()
    {
        var worn = new SimulatedControl(0.3);
        DiagnoseInstallationResponse once = await DiagnoseAsync(worn.WholeChain(), worn.CableAlone());
        DiagnoseInstallationResponse again = await DiagnoseAsync(worn.WholeChain(), worn.CableAlone());
        Assert.Equal(once.ToByteArray(), again.ToByteArray());
    }

    [Fact]
    public async Task A_diagnosis_survives_json()
    {
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(InPounds(Checked), new SimulatedControl(0.3).CableAlone());
        string json = JsonFormatter.Default.Format(diagnosis);
        Assert.Equal(diagnosis, JsonParser.Default.Parse<DiagnoseInstallationResponse>(json));
        Assert.DoesNotContain("NaN", json, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", json, StringComparison.Ordinal);
    }

    private static void AssertUnbounded(SeriesEstimate estimate, Interval interval)
    {
        Assert.True(estimate.LinePossible);
        Assert.False(interval.HasMost);
        Assert.False(interval.HasQuantile05 || interval.HasMedian || interval.HasQuantile95);
        Assert.False(estimate.HasCentreBaselineN || estimate.HasCentreSlope);
    }

    private async Task<SeriesEstimate> EstimateAsync(TestSeries series) => (await DiagnoseAsync(series)).SeriesEstimates.Single();

    private Task<DiagnoseInstallationResponse> DiagnoseAsync(params IEnumerable<TestSeries> series) => DiagnoseAsync(Test(series));

    private async Task<DiagnoseInstallationResponse> DiagnoseAsync(WeightTest test) =>
        await service.Testing.DiagnoseInstallationAsync(new DiagnoseInstallationRequest { Test = test });
}
