using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <content>What may be at fault, and why.</content>
internal static partial class WeightTestWords
{
    /// <summary>A fault, as what may be there: "worn or dirty liner".</summary>
    /// <param name="kind">The fault.</param>
    /// <param name="device">The inline device, or empty.</param>
    public static string Fault(FaultKind kind, string device) => kind switch
    {
        FaultKind.Liner => "worn or dirty liner",
        FaultKind.Bends => "too tight or too many bends",
        FaultKind.InlineDevice => $"stiff {Device(device)}",
        FaultKind.Arm => "stiff driven arm",
        FaultKind.Helm => "stiff helm",
        FaultKind.Stop => "stop met too early",
        FaultKind.Load => "larger load than thought",
        _ => Unknown,
    };

    /// <summary>What it amounts to, in one sentence that a boat owner understands.</summary>
    public static string Verdict(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
    {
        string next = TellsLittle(diagnosis.NextTests.FirstOrDefault())
            ? "no further test that was considered would tell much more"
            : "make the next test before paying for anything";
        switch (diagnosis.Verdict)
        {
            case DiagnosisVerdict.NothingStandsOut:
                return $"Nothing stands out: these are the readings that sound parts would give{AllSound(diagnosis)}.";
            case DiagnosisVerdict.OnePart:
                return MostLikely(diagnosis.Suspects.FirstOrDefault(), diagnosis.Suspects.ElementAtOrDefault(1));
            case DiagnosisVerdict.BetweenParts:
                return "Something is at fault, and the readings do not yet say what: "
                    + $"{Wording.OneOf([.. Leading(diagnosis).Select(Likely)])}; {next}.";
            case DiagnosisVerdict.CannotTell:
                return $"The readings do not yet say whether anything is at fault{AllSound(diagnosis)}; {next}.";
            case DiagnosisVerdict.NotExplained:
                return TakesMoreApart(diagnosis) is { } reason
                    ? "Nothing that was considered gives these readings; what was connected"
                        + $"{Series(reason.SeriesNumber, diagnosis, test, figures)} takes more than a sound one would, tested "
                        + "apart: start there."
                    : $"Nothing that was considered gives these readings: look {OddReadings(diagnosis)}at what the file says, "
                        + "then for something that is not considered here.";
            default:
                return "This client is older than the server and has no words for its verdict.";
        }
    }

    /// <summary>What a weight test found, in one line beside advice on what to buy.</summary>
    public static string Finding(DiagnosisFinding finding)
    {
        string sound = $"that every part is sound: {Probability(finding.NothingAtFaultProbability)}";
        string leading =
            $"{Fault(finding.LeadingFault, finding.InlineDevice)} ({Probability(finding.LeadingProbability)})";
        return "Weight test: " + finding.Verdict switch
        {
            DiagnosisVerdict.NothingStandsOut => $"nothing stands out ({sound}).",
            DiagnosisVerdict.OnePart => $"something is at fault, most likely this: {leading}.",
            DiagnosisVerdict.BetweenParts =>
                $"something is at fault, and the readings do not yet say what; the first suspect: {leading}.",
            DiagnosisVerdict.CannotTell => $"the readings do not yet say whether anything is at fault ({sound}).",
            DiagnosisVerdict.NotExplained => "nothing that was considered gives the readings; see what diagnose says of them.",
            _ => $"it found {Unknown}.",
        };
    }

    /// <summary>What is at fault, as the subject of a sentence: "the helm".</summary>
    public static string FaultyPart(FaultKind kind, string device) => kind switch
    {
        FaultKind.Liner => "the cable (worn or dirty liner)",
        FaultKind.Bends => "the route (too tight or too many bends)",
        FaultKind.InlineDevice => Device(device),
        FaultKind.Arm => "the driven arm",
        FaultKind.Helm => "the helm",
        FaultKind.Stop => "a stop (met too early)",
        FaultKind.Load => "the load (larger than thought)",
        _ => Unknown,
    };

    /// <summary>How likely it was taken to be that nothing is at fault; empty where that is not told.</summary>
    public static string AllSoundBefore(DiagnoseInstallationResponse diagnosis) =>
        diagnosis.PriorStatements.FirstOrDefault(prior => prior.Kind == FaultKind.Unspecified) is { } sound
            ? Probability(sound.Probability)
            : "";

    /// <summary>How many chains were tried and how many are left, and how to read the chances.</summary>
    public static string Considered(DiagnoseInstallationResponse diagnosis) => diagnosis switch
    {
        { ConsideredChainCount: 0 } =>
            "No part that was considered gives the readings made on it alone, so no chances can be told.",
        { PossibleChainCount: 0 } =>
            $"Of {diagnosis.ConsideredChainCount} chains considered (ways in which the parts may be), none gives every reading, "
                + "so no chances can be told.",
        _ => $"Of {diagnosis.ConsideredChainCount} chains considered (ways in which the parts may be), "
            + $"{diagnosis.PossibleChainCount} give every reading. A fault may be there alone or with one other, so the figures "
            + "may add up to more than 100 %.",
    };

    /// <summary>What a suspect that adds less than nothing means; empty where none does.</summary>
    public static string BelowNothing(IEnumerable<Suspect> suspects) => suspects.Any(suspect => suspect.ExcessN?.Least < 0)
        ? "Below 0 (adds at the grip): it would take less there than a sound one is described to."
        : "";

    /// <summary>Why a part is or is not suspected.</summary>
    public static IEnumerable<string> Reasons(
        Suspect suspect, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
        suspect.Reasons.Select(reason => Reason(reason, diagnosis, test, figures));

    /// <summary>What a part would have to be, where it is at fault; empty where that is not known.</summary>
    public static string Needed(Suspect suspect, Figures figures)
    {
        string needed = suspect.Kind switch
        {
            FaultKind.Bends => Bend(suspect.Needed),
            FaultKind.Load => Interval(suspect.Needed, figures.ForceNumber, figures.ForceUnit),
            _ => Interval(suspect.Needed, Figures.Ratio),
        };
        string force = Interval(suspect.NeededForceN, figures.ForceNumber, figures.ForceUnit);
        string constant = force.Length > 0 ? $"a constant friction of {force}" : "";
        return suspect.Kind switch
        {
            FaultKind.Liner when needed.Length > 0 => $"a friction of {needed}",
            FaultKind.Bends when needed.Length > 0 => $"a hidden bend of {needed}",
            FaultKind.Load when needed.Length > 0 => $"a load of {needed}",
            FaultKind.Stop when force.Length > 0 => $"{force} at the arm's hole",
            FaultKind.InlineDevice or FaultKind.Arm or FaultKind.Helm => (needed.Length > 0, force.Length > 0) switch
            {
                (true, true) => $"an efficiency of {needed}, or {constant}",
                (true, false) => $"an efficiency of {needed}",
                _ => constant,
            },
            _ => "",
        };
    }

    /// <summary>What was taken as likely before any reading.</summary>
    public static string Prior(PriorStatement prior, Figures figures)
    {
        string likely = Probability(prior.Probability);
        if (prior.Kind == FaultKind.Unspecified)
        {
            return $"every part sound: {likely}";
        }

        var severities = new Interval { Least = prior.SeverityFrom, Most = prior.SeverityTo };
        var forces = new Interval { Least = prior.ForceFromN, Most = prior.ForceToN };
        string ratio = Interval(severities, Figures.Ratio);
        string severity = prior.Kind switch
        {
            FaultKind.Liner => $"{ratio} times the likely friction of a sound cable",
            FaultKind.Bends => $"{Bend(severities)} of hidden bend",
            FaultKind.InlineDevice or FaultKind.Arm or FaultKind.Helm => $"an efficiency of {ratio}"
                + (prior.ForceToN > 0
                    ? $", or a constant friction of {Interval(forces, figures.ForceNumber, figures.ForceUnit)}"
                    : ""),
            FaultKind.Stop => $"{Interval(severities, figures.ForceNumber, figures.ForceUnit)} at the arm's hole",
            FaultKind.Load => $"{ratio} times the load described",
            _ => Unknown,
        };
        return $"{Fault(prior.Kind, prior.InlineDevice)}, alone: {likely}, then {severity}";
    }

    /// <summary>Everything that was taken as likely before any reading, a line each.</summary>
    public static IEnumerable<string> Priors(DiagnoseInstallationResponse diagnosis, Figures figures)
    {
        IEnumerable<string> faults = diagnosis.PriorStatements.Select(prior => Prior(prior, figures));
        return diagnosis.SoundTolerance is { } tolerance ? faults.Concat(Tolerance(tolerance)) : faults;
    }

    private static IEnumerable<string> Tolerance(SoundTolerance tolerance) =>
    [
        $"two things at fault: {Probability(tolerance.TwoFaultsProbability)}",
        $"a sound mechanism loses {Times(tolerance.LossFrom, tolerance.LossTo)} what it is described to lose",
        $"a load as described is {Times(tolerance.LoadFrom, tolerance.LoadTo)} what is described",
        $"a friction stated without a band is {Times(tolerance.StatedFrictionFrom, tolerance.StatedFrictionTo)} what is stated",
        $"the model of a chain is trusted to be within {Figures.Ratio(tolerance.ModelError * 100)} % of each force".Replace(
            ".0 %", " %", StringComparison.Ordinal),
    ];

    private static string Times(double from, double to) =>
        $"{Interval(new Interval { Least = from, Most = to }, Figures.Ratio)} times";

    /// <summary>What to do where no test was found that would tell more.</summary>
    public static string NoNextTest(DiagnoseInstallationResponse diagnosis) =>
        diagnosis.Verdict != DiagnosisVerdict.NotExplained
            ? "No further test that was considered would narrow the question."
            : TakesMoreApart(diagnosis) is { SeriesNumber: var number }
                ? $"See to what series {number} tested, then repeat the test."
                : (diagnosis.SeriesEstimates.Any(HasOddReadings)
                    ? "Read the odd readings again. Where they stay as they are, take"
                    : "Take")
                    + " the cable off at the arm and repeat the test: the side on which it shows again is where to look.";

    private static string AllSound(DiagnoseInstallationResponse diagnosis) => diagnosis.HasNothingAtFaultProbability
        ? $" (that every part is sound: {Probability(diagnosis.NothingAtFaultProbability)})"
        : "";

    private static string Likely(Suspect? suspect) => suspect is null
        ? "this client has no words for it"
        : Fault(suspect.Kind, suspect.InlineDevice)
            + (suspect.HasProbability ? $" ({Probability(suspect.Probability)})" : "");

    // Whatever is at least a third as likely as the first, three at most: the rest is in the table.
    private static IEnumerable<Suspect> Leading(DiagnoseInstallationResponse diagnosis) => diagnosis.Suspects
        .Where((suspect, index) => index < 2 || suspect.Probability * 3 >= diagnosis.Suspects[0].Probability)
        .Take(3);

    // Two may be at fault at once; to call the first the one thing would then send its owner away with half of it.
    private static string MostLikely(Suspect? first, Suspect? second) => second is { HasProbability: true, Probability: >= 0.5 }
        ? $"Something is at fault: {Likely(first)}, and with it {Likely(second)}; see to both, for one alone may not do."
        : $"Something is at fault, and it is most likely one thing: {Likely(first)}; {FirstStep(first)}.";

    private static SuspectReason? TakesMoreApart(DiagnoseInstallationResponse diagnosis) => diagnosis.Suspects
        .SelectMany(suspect => suspect.Reasons)
        .FirstOrDefault(reason => reason.Kind == SuspectReasonKind.TakesMoreAlone);

    private static string OddReadings(DiagnoseInstallationResponse diagnosis) =>
        diagnosis.SeriesEstimates.Any(HasOddReadings) ? "at the odd readings and " : "";

    private static string FirstStep(Suspect? suspect) => suspect?.Kind switch
    {
        FaultKind.Liner => "a new cable should help",
        FaultKind.Bends => "look at the route before paying for a cable",
        FaultKind.Stop => "set the stop before paying for a cable",
        FaultKind.Load => "look at what loads the arm before paying for a cable",
        _ => "see to it before paying for a cable",
    };

    private static string Reason(
        SuspectReason reason, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
    {
        string series = Series(reason.SeriesNumber, diagnosis, test, figures);
        switch (reason.Kind)
        {
            case SuspectReasonKind.TightBend:
                return $"bend {reason.TightBend.BendNumber} has a radius of {figures.ShortLength(reason.TightBend.RadiusM)}, "
                    + $"under the cable's least, {figures.ShortLength(reason.TightBend.MinBendRadiusM)}";
            case SuspectReasonKind.FrictionAboveBand:
                return $"the cable behaves with more friction than a sound one has{Frictions(diagnosis.CableBehaviour)}";
            case SuspectReasonKind.FrictionMayBeInBand:
                return $"the cable may behave with the friction of a sound one{Frictions(diagnosis.CableBehaviour)}";
            case SuspectReasonKind.TakesMoreAlone:
                return $"tested apart{series} it takes more than a sound one would: {Compared(reason, figures)}";
            case SuspectReasonKind.AsSoundAlone:
                return $"tested apart{series} it takes what a sound one would: {Compared(reason, figures)}";
            case SuspectReasonKind.ExcessGrows:
                return $"the excess grows with the weight hung{series}: friction or efficiency, not a constant force";
            case SuspectReasonKind.ExcessIsConstant:
                return $"the excess does not grow with the weight hung{series}: a constant force";
            case SuspectReasonKind.BendsUpward:
                return $"the readings bend upward{series}: binding, or a stop";
            case SuspectReasonKind.NotTestedApart:
                return "it has not been tested apart from the others";
            case SuspectReasonKind.RuledOut:
                return "ruled out: with it at fault nothing that was considered gives the readings";
            default:
                return Unknown;
        }
    }

    private static string Frictions(CableBehaviour? cable) =>
        Behaving(cable) is { } behaving && cable?.SoundFriction is { } sound
            ? $": {Interval(behaving, Figures.Ratio)}, where a sound one has {FrictionWords.Of(sound)}"
            : "";

    private static string Series(int number, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
        number < 1 ? ""
        : number <= diagnosis.SeriesEstimates.Count && number <= test.Series.Count
            ? $" in series {number} ({Apart(diagnosis.SeriesEstimates[number - 1], test.Series[number - 1], figures)})"
            : $" in series {number}";

    // Load and direction would only lengthen a sentence that has the series' number.
    private static string Apart(SeriesEstimate estimate, TestSeries series, Figures figures)
    {
        SeriesEstimate bare = estimate.Clone();
        bare.LoadCase = "";
        bare.Direction = Direction.Unspecified;
        return Connected(bare, series, figures);
    }

    private static string Compared(SuspectReason reason, Figures figures)
    {
        string measured = Interval(reason.MeasuredN, figures.ForceNumber, figures.ForceUnit);
        return $"with {Hung(reason.WeightN, figures)} {measured}"
            + (reason.SoundN is { } sound ? $", a sound one {Band(sound, figures.ForceNumber)} {figures.ForceUnit}" : "");
    }
}
