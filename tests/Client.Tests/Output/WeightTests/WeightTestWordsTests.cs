using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Output;

/// <summary>Words for everything that the contract can say of a weight test.</summary>
public sealed class WeightTestWordsTests
{
    private const string NoWords = "no words";

    [Fact]
    public void Whatever_was_connected_has_words_of_its_own() =>
        HaveWords<Connected>(c => WeightTestWords.Connected(c, "", Direction.Unspecified, "", null, null, Invented.Us));

    [Fact]
    public void Either_end_of_whatever_was_connected_has_words() => Assert.All(
        Stated<Connected>(),
        c => Assert.DoesNotContain(NoWords, WeightTestWords.NearEnd(c) + WeightTestWords.FarEnd(c), StringComparison.Ordinal));

    [Fact]
    public void Every_shape_has_words_of_its_own() =>
        HaveWords<SeriesShape>(shape => WeightTestWords.Shape(new SeriesEstimate { Shape = shape }));

    [Fact]
    public void Every_weakness_has_words_of_its_own() =>
        HaveWords<SeriesWeakness>(w => WeightTestWords.Weaknesses(new SeriesEstimate { Weaknesses = { w } }).Single());

    [Fact]
    public void Every_verdict_of_a_diagnosis_has_words_of_its_own() =>
        HaveWords<DiagnosisVerdict>(verdict =>
        {
            DiagnoseInstallationResponse diagnosis = Invented.Diagnosis();
            diagnosis.Verdict = verdict;
            return Verdict(diagnosis);
        });

    [Fact]
    public void Every_verdict_of_a_proof_has_words_of_its_own() => HaveWords<PromiseVerdict>(
        verdict => WeightTestWords.Verdict(new VerifyCableResponse { Verdict = verdict, Grade = "grades/onyx" }));

    [Fact]
    public void Every_promise_has_words_of_its_own() => HaveWords<PromiseVerdict>(WeightTestWords.Promise);

    [Fact]
    public void Every_fault_has_words_of_its_own() => HaveWords<FaultKind>(kind => WeightTestWords.Fault(kind, ""));

    [Fact]
    public void Every_part_has_words_of_its_own() => HaveWords<ChainPart>(part => WeightTestWords.Part(part, ""));

    [Fact]
    public void Every_reason_of_a_plan_to_stop_has_words_of_its_own() =>
        HaveWords<HeaviestReason>(reason => WeightTestWords.Heaviest(reason, Invented.Us));

    [Fact]
    public void Every_verdict_on_friction_has_words_of_its_own() => HaveWords<FrictionVerdict>(
        verdict => WeightTestWords.Friction(new CableBehaviour
        {
            Verdict = verdict,
            BehavingFriction = verdict == FrictionVerdict.NoFrictionExplains ? null : Invented.Between(0.1, 0.2),
        }));

    [Fact]
    public void Every_basis_of_a_sound_friction_has_words_of_its_own() => HaveWords<SoundFrictionBasis>(
        basis => WeightTestWords.Friction(new CableBehaviour
        {
            Verdict = FrictionVerdict.InBand,
            BehavingFriction = Invented.Between(0.1, 0.2),
            SoundFriction = new Band { Low = 0.1, Likely = 0.15, High = 0.2 },
            SoundFrictionBasis = basis,
        }));

    [Fact]
    public void Every_reason_to_suspect_has_words_of_its_own() => HaveWords<SuspectReasonKind>(Reason);

    [Fact]
    public void What_every_fault_would_take_has_words_of_its_own_but_where_it_is_an_efficiency() => Assert.Equal(
        [
            "a friction of 0.3 to 0.5",
            "a hidden bend of 17 to 29 deg",
            "an efficiency of 0.3 to 0.5, or a constant friction of 2.0 to 4.0 lbf",
            "an efficiency of 0.3 to 0.5, or a constant friction of 2.0 to 4.0 lbf",
            "an efficiency of 0.3 to 0.5, or a constant friction of 2.0 to 4.0 lbf",
            "2.0 to 4.0 lbf at the arm's hole",
            "a load of 0.1 lbf",
        ],
        // 0.3 rad = 17.19 deg, 0.5 rad = 28.65 deg; 0.3 N = 0.067 lbf, 0.5 N = 0.112 lbf, by hand.
        Stated<FaultKind>().Select(kind => WeightTestWords.Needed(
            new Suspect { Kind = kind, Needed = Invented.Between(0.3, 0.5), NeededForceN = Invented.Forces(2, 4) },
            Invented.Us)));

    [Fact]
    public void What_was_taken_as_likely_has_words_for_every_fault() => HaveWords<FaultKind>(
        kind => WeightTestWords.Prior(
            new PriorStatement { Kind = kind, Probability = 0.1, SeverityFrom = 0.3, SeverityTo = 0.5, ForceToN = 1 },
            Invented.Us));

    [Fact]
    public void What_was_taken_as_likely_without_a_fault_is_that_all_is_sound() => Assert.Equal(
        "every part sound: 45 %", WeightTestWords.Prior(new PriorStatement { Probability = 0.45 }, Invented.Us));

    [Fact]
    public void How_to_connect_a_next_test_has_words_for_everything() =>
        HaveWords<Connected>(c => HowToTest(c));

    [Theory]
    [InlineData(0, "under 1 %")]
    [InlineData(0.0099, "under 1 %")]
    [InlineData(0.01, "1 %")]
    [InlineData(0.724, "72 %")]
    [InlineData(0.99, "99 %")]
    [InlineData(0.9901, "over 99 %")]
    [InlineData(1, "over 99 %")]
    public void A_probability_never_looks_certain(double probability, string expected) =>
        Assert.Equal(expected, WeightTestWords.Probability(probability));

    [Fact]
    public void An_interval_says_both_ends_or_that_there_is_no_upper_bound()
    {
        Assert.Equal("14.2 to 15.9", WeightTestWords.Interval(Invented.Forces(14.2, 15.9), Invented.Us.ForceNumber));
        Assert.Equal("14.2", WeightTestWords.Interval(Invented.Forces(14.2, 14.2), Invented.Us.ForceNumber));
        Assert.Equal(
            "at least 14.2, no upper bound", WeightTestWords.Interval(Invented.Forces(14.2, null), Invented.Us.ForceNumber));
        Assert.Equal(
            "at least 14.2 lbf, no upper bound",
            WeightTestWords.Interval(Invented.Forces(14.2, null), Invented.Us.ForceNumber, "lbf"));
        Assert.Equal("", WeightTestWords.Interval(null, Invented.Us.ForceNumber));
        Assert.Equal("", WeightTestWords.NineInTen(Invented.Forces(14.2, null), Invented.Us.ForceNumber));
    }

    [Theory]
    [InlineData(null, null, "cable alone, laid straight (pull)")]
    [InlineData(0.254, null, "cable alone, coiled one turn at 10 in (pull)")]
    [InlineData(0.254, 2 * Math.PI, "cable alone, coiled one turn at 10 in (pull)")]
    [InlineData(0.254, 4 * Math.PI, "cable alone, coiled two turns at 10 in (pull)")]
    [InlineData(0.254, 6 * Math.PI, "cable alone, coiled three turns at 10 in (pull)")]
    [InlineData(0.254, Math.PI / 2, "cable alone, coiled 90 deg at 10 in (pull)")]
    [InlineData(0.254, 0.001, "cable alone, coiled 0 deg at 10 in (pull)")]
    public void A_coil_is_told_by_its_turns_and_radius(double? radiusM, double? angleRad, string expected) => Assert.Equal(
        expected,
        WeightTestWords.Connected(Connected.CableAlone, "", Direction.Pull, "", radiusM, angleRad, Invented.Us));

    [Fact]
    public void A_load_and_a_device_are_named()
    {
        Assert.Equal(
            "whole chain, raise (pull)",
            WeightTestWords.Connected(Connected.WholeChain, "raise", Direction.Pull, "", null, null, Invented.Us));
        Assert.Equal(
            "reducer alone",
            WeightTestWords.Connected(
                Connected.InlineDeviceAlone, "", Direction.Unspecified, "reducer", null, null, Invented.Us));
    }

    [Fact]
    public void Devices_at_the_end_that_is_tested_stay_on_it()
    {
        Assert.Contains(
            "take the cable off the helm (equaliser stays on it)", HowToTest(Connected.HelmAlone), StringComparison.Ordinal);
        Assert.Contains("(reducer at the tab stays on it)", HowToTest(Connected.ArmAlone), StringComparison.Ordinal);
    }

    [Fact]
    public void Outcomes_are_told_from_below_between_and_above()
    {
        string[] outcomes =
            [.. Invented.Diagnosis().NextTests[0].Outcomes.Select(o => WeightTestWords.Outcome(o, Invented.Us))];

        Assert.StartsWith("moves at 15.0 lbf or below (60 %)", outcomes[0], StringComparison.Ordinal);
        Assert.StartsWith("holds at 15.0 lbf, moves at 20.0 lbf or below (10 %)", outcomes[1], StringComparison.Ordinal);
        Assert.EndsWith("then most likely nothing at fault (40 %)", outcomes[1], StringComparison.Ordinal);
        Assert.StartsWith("still holds at 20.0 lbf: stop there (30 %)", outcomes[2], StringComparison.Ordinal);
    }

    [Fact]
    public void One_odd_reading_is_named_and_a_tie_names_all()
    {
        SeriesEstimate estimate = Invented.Diagnosis().SeriesEstimates[1];

        Assert.Contains("reading 1 (5 lbf hung) is the odd one out", NoLine(estimate), StringComparison.Ordinal);

        estimate.Brackets.Add(new Bracket());
        estimate.OddReadings.Add(2);
        Assert.Contains(
            "reading 1 (5 lbf hung) or reading 2 (nothing hung) is the odd one out: leaving out any one of them helps as much",
            NoLine(estimate),
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_pushed_core_that_snakes_gives_no_line_and_that_is_no_fault()
    {
        SeriesEstimate estimate = Invented.Diagnosis().SeriesEstimates[1];
        estimate.EffortIsLinear = false;

        Assert.Contains("no straight line by nature", NoLine(estimate), StringComparison.Ordinal);
        Assert.DoesNotContain("odd one out", NoLine(estimate), StringComparison.Ordinal);
    }

    [Fact]
    public void Only_series_without_a_stated_uncertainty_are_taken_as_exact()
    {
        // Series 3 hangs nothing, and nothing hung is exactly nothing.
        Assert.Equal(
            [
                "no error in the forces read in series 2, 3 (force uncertainty not stated)",
                "no error in the weights hung in series 1 (weight uncertainty not stated)",
            ],
            WeightTestWords.ExactReadings(Invented.Test()));
    }

    [Fact]
    public void Without_a_probability_no_number_is_given()
    {
        DiagnoseInstallationResponse diagnosis = Invented.Diagnosis();
        diagnosis.ClearNothingAtFaultProbability();
        diagnosis.Verdict = DiagnosisVerdict.CannotTell;

        Assert.DoesNotContain('%', Verdict(diagnosis));
    }

    [Fact]
    public void A_verdict_between_parts_names_those_that_are_near_each_other()
    {
        // 31 of 52 is more than a third, and nothing is left of the third.
        string verdict = Verdict(Invented.Diagnosis());

        Assert.Contains(
            "worn or dirty liner (52 %) or stiff reducer at the tab (31 %)", verdict, StringComparison.Ordinal);
        Assert.DoesNotContain("stop", verdict, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.49, "Something is at fault, and it is most likely one thing: worn or dirty liner (over 99 %); a new cable should help.")]
    [InlineData(0.5, "Something is at fault: worn or dirty liner (over 99 %), and with it stiff reducer at the tab (50 %); see to both, for one alone may not do.")]
    public void One_thing_is_at_fault_only_where_a_second_is_unlikely(double second, string expected)
    {
        DiagnoseInstallationResponse diagnosis = Invented.Diagnosis();
        diagnosis.Verdict = DiagnosisVerdict.OnePart;
        (diagnosis.Suspects[0].Probability, diagnosis.Suspects[1].Probability) = (0.995, second);

        Assert.Equal(expected, Verdict(diagnosis));
    }

    [Fact]
    public void What_nothing_explains_starts_at_what_takes_too_much_apart()
    {
        DiagnoseInstallationResponse diagnosis = Invented.Diagnosis();
        diagnosis.Verdict = DiagnosisVerdict.NotExplained;
        Assert.Contains("look at the odd readings and at what the file says", Verdict(diagnosis), StringComparison.Ordinal);
        Assert.StartsWith("Read the odd readings again.", WeightTestWords.NoNextTest(diagnosis), StringComparison.Ordinal);

        diagnosis.Suspects[1].Reasons.Add(
            new SuspectReason { Kind = SuspectReasonKind.TakesMoreAlone, SeriesNumber = 3, MeasuredN = Invented.Forces(4, 5) });

        Assert.Equal(
            "Nothing that was considered gives these readings; what was connected in series 3 (cable alone, coiled one turn at 10 in) "
                + "takes more than a sound one would, tested apart: start there.",
            Verdict(diagnosis));
        Assert.Equal("See to what series 3 tested, then repeat the test.", WeightTestWords.NoNextTest(diagnosis));
    }

    [Fact]
    public void Where_no_reading_is_odd_nobody_is_sent_to_look_for_one()
    {
        DiagnoseInstallationResponse diagnosis = Invented.Diagnosis();
        diagnosis.Verdict = DiagnosisVerdict.NotExplained;
        diagnosis.SeriesEstimates[1].OddReadings.Clear();

        Assert.DoesNotContain("odd", Verdict(diagnosis) + WeightTestWords.NoNextTest(diagnosis), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(5000, 140, "Of 5000 chains considered (ways in which the parts may be), 140 give every reading.")]
    [InlineData(5000, 0, "Of 5000 chains considered (ways in which the parts may be), none gives every reading")]
    [InlineData(0, 0, "No part that was considered gives the readings made on it alone")]
    public void How_many_chains_were_tried_is_told_where_any_were(int considered, int possible, string expected) =>
        Assert.StartsWith(
            expected,
            WeightTestWords.Considered(new DiagnoseInstallationResponse
            {
                ConsideredChainCount = considered,
                PossibleChainCount = possible,
            }),
            StringComparison.Ordinal);

    [Fact]
    public void A_line_that_rises_too_little_is_not_laid_on_a_reading()
    {
        SeriesEstimate estimate = Invented.Diagnosis().SeriesEstimates[1];
        estimate.Shape = SeriesShape.Straight;

        Assert.Equal(
            "a line passes, but rises less than the levers alone would (0.49): check the radii, the load point and the weights",
            NoLine(estimate));
    }

    [Theory]
    // 50 lbf = 222.411 N (NIST SP 811, appendix B.8); the limit is common practice, no source.
    [InlineData(0, 49.9, null, false)]
    [InlineData(0, 50.0, null, true)]
    [InlineData(0, 50.0, 55.0, false)]
    [InlineData(0, 51.0, 55.0, true)]
    [InlineData(10, 51.0, 55.0, false)]
    [InlineData(10, 50.0, null, true)]
    public void A_grip_that_holds_all_that_a_person_moves_safely_may_be_jammed(
        double addedLbf, double heldLbf, double? movedLbf, bool isJammed)
    {
        WeightTest test = Invented.Test();
        var reading = new WeightReading { AddedN = Invented.N(addedLbf), HeldN = Invented.N(heldLbf) };
        if (movedLbf is { } moved)
        {
            reading.MovedN = Invented.N(moved);
        }

        test.Series[2].Connected = Connected.ArmAlone;
        test.Series[2].Readings.Add(reading);
        Assert.Equal("", WeightTestWords.Jammed(test, Invented.Us));

        test.Series[1].Readings.Add(reading);
        Assert.Equal(
            isJammed
                ? $"In series 2 the grip held {heldLbf:0.0} lbf, and one person moves no more than 50.0 lbf safely: the control may be jammed. "
                    + "Do not force it, do not run the boat, and have it seen to."
                : "",
            WeightTestWords.Jammed(test, Invented.Us));
    }

    [Theory]
    [InlineData(5, 20.0, false)]
    [InlineData(10, 20.0, false)]
    [InlineData(10, 19.9, true)]
    [InlineData(10.1, 100.0, true)]
    [InlineData(10, null, false)]
    [InlineData(10.1, null, true)]
    public void Steps_over_half_of_the_effort_or_over_10_lbf_are_rough(double stepLbf, double? likelyLbf, bool isRough) =>
        Assert.Equal(
            isRough,
            WeightTestWords.CoarseStep(
                Invented.N(stepLbf), likelyLbf is { } lbf ? Invented.N(lbf) : null, Invented.Us).Length > 0);

    [Theory]
    [InlineData(2.6, 1.6, true)]
    [InlineData(2.8, 4.7, true)]
    [InlineData(2.6, 4.9, true)]
    [InlineData(2.8, 4.9, false)]
    public void A_test_is_worth_making_where_it_narrows_the_question_or_the_excess(
        double suspectsAfter, double spreadAfter, bool isWorthIt) =>
        Assert.NotEqual(isWorthIt, WeightTestWords.TellsLittle(new NextTest
        {
            SuspectsInQuestionNow = 3,
            SuspectsInQuestionAfter = suspectsAfter,
            ExcessSpreadNowN = 6,
            ExcessSpreadAfterN = spreadAfter,
        }));

    [Fact]
    public void How_to_make_a_test_says_where_to_stop_and_how_to_pull()
    {
        string whole = HowToTest(Connected.WholeChain);

        Assert.Contains("go up by 5 lbf at a time until it moves, and stop at 50.0 lbf whatever it does.", whole, StringComparison.Ordinal);
        Assert.Contains("Pull square to the lever at the grip", whole, StringComparison.Ordinal);
        Assert.Contains("keep clear of a falling weight", whole, StringComparison.Ordinal);
        Assert.DoesNotContain("lever", HowToTest(Connected.CableAlone), StringComparison.Ordinal);
    }

    [Fact]
    public void Behaving_friction_is_told_as_bounds()
    {
        CableBehaviour cable = Invented.Diagnosis().CableBehaviour;
        Assert.StartsWith(
            "With every other part within what a sound one may be, the cable behaves with a friction of at least 0.25 and at most 0.4,",
            WeightTestWords.Friction(cable),
            StringComparison.Ordinal);

        cable.BehavingFriction.ClearMost();
        Assert.Contains("at least 0.25 and no upper bound,", WeightTestWords.Friction(cable), StringComparison.Ordinal);
    }

    [Fact]
    public void Friction_above_the_band_is_told_with_that_of_a_sound_cable() => Assert.EndsWith(
        ": 0.25 to 0.4, where a sound one has 0.17 (0.12 to 0.25)",
        Reason(SuspectReasonKind.FrictionAboveBand),
        StringComparison.Ordinal);

    [Theory]
    [InlineData(FrictionVerdict.MayBeInBand, "no series had the cable in it")]
    [InlineData(FrictionVerdict.NoFrictionExplains, "No friction from 0 to 1 in the cable gives every reading")]
    public void Where_no_friction_is_told_the_reason_is(FrictionVerdict verdict, string expected)
    {
        var cable = new CableBehaviour { Verdict = verdict };
        Assert.Contains(expected, WeightTestWords.Friction(cable), StringComparison.Ordinal);

        // From 0 up without bound says no more than nothing.
        cable.BehavingFriction = new Interval { Least = 0 };
        Assert.Contains(expected, WeightTestWords.Friction(cable), StringComparison.Ordinal);
    }

    [Fact]
    public void Hidden_bend_is_told_only_of_a_cable_above_its_band()
    {
        CableBehaviour cable = Invented.Diagnosis().CableBehaviour;

        // 1 rad = 57.3 deg, 3 rad = 171.9 deg.
        Assert.Contains("with 57 to 172 deg of bend hidden in the route,", WeightTestWords.ExtraBend(cable), StringComparison.Ordinal);
        cable.ExtraBendRad.ClearMost();
        Assert.Equal(
            "A sound cable would behave so with at least 57 deg of bend hidden in the route, spread as its bends are; "
                + "there is no upper bound.",
            WeightTestWords.ExtraBend(cable));
        foreach (FrictionVerdict other in Stated<FrictionVerdict>().Where(v => v != FrictionVerdict.AboveBand))
        {
            cable.Verdict = other;
            Assert.Equal("", WeightTestWords.ExtraBend(cable));
        }
    }

    [Fact]
    public void What_is_taken_of_sound_parts_is_told_beside_the_faults() => Assert.Equal(
        [
            "every part sound: 45 %",
            "worn or dirty liner, alone: 20 %, then 1.5 to 4.0 times the likely friction of a sound cable",
            "stiff reducer at the tab, alone: 15 %, then an efficiency of 0.3 to 0.8, or a constant friction of 2.0 to 20.0 lbf",
            "two things at fault: 10 %",
            "a sound mechanism loses 0.5 to 1.5 times what it is described to lose",
            "a load as described is 0.9 to 1.1 times what is described",
            "a friction stated without a band is 0.8 to 1.25 times what is stated",
            "the model of a chain is trusted to be within 2 % of each force",
        ],
        WeightTestWords.Priors(Invented.Diagnosis(), Invented.Us));

    [Fact]
    public void A_suspect_that_adds_less_than_nothing_is_explained()
    {
        DiagnoseInstallationResponse diagnosis = Invented.Diagnosis();
        Assert.Equal("", WeightTestWords.BelowNothing(diagnosis.Suspects));

        diagnosis.Suspects[1].ExcessN.Least = -1;

        Assert.NotEqual("", WeightTestWords.BelowNothing(diagnosis.Suspects));
    }

    [Fact]
    public void Every_finding_has_words_of_its_own() =>
        HaveWords<DiagnosisVerdict>(verdict => WeightTestWords.Finding(new DiagnosisFinding { Verdict = verdict, LeadingFault = FaultKind.Helm }));

    [Fact]
    public void Every_faulty_part_has_words_of_its_own() => HaveWords<FaultKind>(kind => WeightTestWords.FaultyPart(kind, ""));

    private static string Reason(SuspectReasonKind kind) => WeightTestWords.Reasons(
        new Suspect
        {
            Reasons =
            {
                new SuspectReason
                {
                    Kind = kind,
                    SeriesNumber = 1,
                    TightBend = new TightBend { BendNumber = 2, RadiusM = 0.1, MinBendRadiusM = 0.2 },
                    MeasuredN = Invented.Forces(4, 5),
                    SoundN = Invented.Band(1, 2, 3),
                },
            },
        },
        Invented.Diagnosis(),
        Invented.Test(),
        Invented.Us).Single();

    private static string HowToTest(Connected connected) =>
        WeightTestWords.NextTest(
        new NextTest { Connected = connected, StopAtN = Invented.N(50) }, Invented.Test(), Invented.N(5), Invented.Us);

    private static string Verdict(DiagnoseInstallationResponse diagnosis) =>
        WeightTestWords.Verdict(diagnosis, Invented.Test(), Invented.Us);

    private static string NoLine(SeriesEstimate estimate) =>
        string.Join('\n', WeightTestWords.SeriesNotes(estimate, Invented.Us));

    private static T[] Stated<T>()
        where T : struct, Enum =>
        [.. Enum.GetValues<T>().Where(value => !value.Equals(default(T)))];

    private static void HaveWords<T>(Func<T, string> words)
        where T : struct, Enum
    {
        string[] all = [.. Stated<T>().Select(words)];

        Assert.All(all, text => Assert.NotEqual("", text.Trim()));
        Assert.All(all, text => Assert.DoesNotContain(NoWords, text, StringComparison.Ordinal));
        Assert.Equal(all.Length, all.Distinct().Count());
    }
}
