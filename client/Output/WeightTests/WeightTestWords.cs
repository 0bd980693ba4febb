using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Weight tests and what is told from them, in words that tables and reports share.</summary>
internal static class WeightTestWords
{
    private const string Unknown = "something this client has no words for: it is older than the server";

    /// <summary>"72 %", "under 1 %", "over 99 %".</summary>
    /// <param name="probability">0 to 1.</param>
    public static string Probability(double probability) => probability switch
    {
        < 0.01 => "under 1 %",
        > 0.99 => "over 99 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{probability * 100:0} %"),
    };

    /// <summary>From the least to the most: "14.2 to 15.9", "at least 14.2, no upper bound"; empty where it is absent.</summary>
    public static string Interval(Interval? interval, Func<double, string> number)
    {
        if (interval is null)
        {
            return "";
        }

        string least = number(interval.Least);
        if (!interval.HasMost)
        {
            return $"at least {least}, no upper bound";
        }

        string most = number(interval.Most);
        return least == most ? least : $"{least} to {most}";
    }

    /// <summary>What nine in ten of everything possible lie within: "14.5 to 15.4"; empty where it is absent.</summary>
    public static string NineInTen(Interval? interval, Func<double, string> number) =>
        interval is { HasQuantile05: true, HasQuantile95: true }
            ? Interval(new Interval { Least = interval.Quantile05, Most = interval.Quantile95 }, number)
            : "";

    /// <summary>Newtons at the near end for each at the far end, a bare number.</summary>
    public static string Slope(double slope) => slope.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>What was connected: "whole chain, raise (pull)", "cable alone, coiled one turn at 10 in (pull)".</summary>
    /// <param name="connected">What.</param>
    /// <param name="loadCase">The load on the arm, or empty.</param>
    /// <param name="direction">What the core carried, or unspecified.</param>
    /// <param name="device">The inline device tested alone, or empty.</param>
    /// <param name="coilRadiusM">The radius it was coiled at, m; null: straight.</param>
    /// <param name="coilAngleRad">The angle it was coiled through, rad; null with a radius: one turn.</param>
    /// <param name="figures">The units.</param>
    public static string Connected(
        Connected connected,
        string loadCase,
        Direction direction,
        string device,
        double? coilRadiusM,
        double? coilAngleRad,
        Figures figures)
    {
        string what = connected switch
        {
            V1.Connected.WholeChain => "whole chain",
            V1.Connected.CableOffAtArm => "cable off at the arm",
            V1.Connected.HelmAlone => "helm alone",
            V1.Connected.CableAlone => coilRadiusM is { } radiusM
                ? $"cable alone, coiled {Turns(coilAngleRad ?? Math.Tau)} at {figures.ShortLength(radiusM)}"
                : "cable alone, laid straight",
            V1.Connected.ArmAlone => "arm alone",
            V1.Connected.InlineDeviceAlone => device.Length > 0 ? $"{device} alone" : "inline device alone",
            _ => Unknown,
        };
        string load = loadCase.Length > 0 ? $", {loadCase}" : "";
        string way = direction switch
        {
            Direction.Pull => " (pull)",
            Direction.Push => " (push)",
            _ => "",
        };
        return what + load + way;
    }

    /// <summary>What was connected in one series of a test.</summary>
    public static string Connected(SeriesEstimate estimate, TestSeries series, Figures figures) => Connected(
        estimate.Connected,
        estimate.LoadCase,
        estimate.Direction,
        estimate.InlineDevice,
        series.HasCoilRadiusM ? series.CoilRadiusM : null,
        series.HasCoilAngleRad ? series.CoilAngleRad : null,
        figures);

    /// <summary>What to connect in a next test.</summary>
    public static string Connected(NextTest next, Figures figures) => Connected(
        next.Connected,
        next.LoadCase,
        next.Direction,
        next.InlineDevice,
        next.HasCoilRadiusM ? next.CoilRadiusM : null,
        next.HasCoilAngleRad ? next.CoilAngleRad : null,
        figures);

    /// <summary>Where the force is read: "at the grip".</summary>
    public static string NearEnd(Connected connected) => connected switch
    {
        V1.Connected.WholeChain or V1.Connected.CableOffAtArm or V1.Connected.HelmAlone => "at the grip",
        V1.Connected.CableAlone => "at the cable's helm end",
        V1.Connected.ArmAlone => "where the cable attaches",
        V1.Connected.InlineDeviceAlone => "at its helm side",
        _ => Unknown,
    };

    /// <summary>Where the weight hangs: "at the arm's load radius".</summary>
    public static string FarEnd(Connected connected) => connected switch
    {
        V1.Connected.WholeChain or V1.Connected.ArmAlone => "at the arm's load radius",
        V1.Connected.CableOffAtArm => "on the free end of the cable",
        V1.Connected.HelmAlone => "where the cable attaches to the helm",
        V1.Connected.CableAlone => "on the cable's output end",
        V1.Connected.InlineDeviceAlone => "at its arm side",
        _ => Unknown,
    };

    /// <summary>How effort rises with weight in a series, in a word or two.</summary>
    public static string Shape(SeriesEstimate estimate) => estimate.Shape switch
    {
        SeriesShape.CannotTell => "cannot tell",
        SeriesShape.Straight => "straight",
        SeriesShape.BendsUpward => "bends upward",
        SeriesShape.BendsDownward => "bends downward",
        SeriesShape.Scattered => "scattered",
        _ => Unknown,
    };

    /// <summary>How little a series says.</summary>
    public static IEnumerable<string> Weaknesses(SeriesEstimate estimate) => estimate.Weaknesses.Select(w => w switch
    {
        SeriesWeakness.SingleReading => "one reading only",
        SeriesWeakness.OneWeight => "all readings at one weight: they say nothing of how effort rises with weight",
        SeriesWeakness.HeldOnly => "nothing moved it: there is no upper bound",
        SeriesWeakness.MovedOnly => "nothing was seen to hold: there are only upper bounds",
        SeriesWeakness.TwoWeights => "two weights only: a rising line always fits two, so the shape is not tested",
        _ => Unknown,
    });

    /// <summary>Everything to be said of one series beside its figures: how little it says, and where no line fits.</summary>
    public static IEnumerable<string> SeriesNotes(SeriesEstimate estimate, Figures figures)
    {
        foreach (string weakness in Weaknesses(estimate))
        {
            yield return weakness;
        }

        if (!estimate.EffortIsLinear)
        {
            yield return estimate.LinePossible
                ? "effort in push is no straight line by nature: the lines only sum the readings up, and the diagnosis goes "
                    + "by the model"
                : "effort in push is no straight line by nature, so it tells nothing that no line fits: the diagnosis goes "
                    + "by the model";
        }
        else if (!estimate.LinePossible)
        {
            yield return NoLine(estimate, figures);
        }

        if (estimate.Shape == SeriesShape.BendsUpward)
        {
            yield return "the readings bend upward: binding, a stop met early, or snaking in push";
        }
        else if (estimate.Shape == SeriesShape.Scattered)
        {
            yield return "no rising curve passes through every reading: a reading is off, or the control changed between readings";
        }
    }

    /// <summary>A fault, as what is the matter: "liner worn or dirty".</summary>
    /// <param name="kind">The fault.</param>
    /// <param name="device">The inline device, or empty.</param>
    public static string Fault(FaultKind kind, string device) => kind switch
    {
        FaultKind.Liner => "liner worn or dirty",
        FaultKind.Bends => "bends too tight or too many",
        FaultKind.InlineDevice => $"{Device(device)} stiff",
        FaultKind.Arm => "driven arm stiff",
        FaultKind.Helm => "helm stiff",
        FaultKind.Stop => "stop met early",
        FaultKind.Load => "load larger than thought",
        _ => Unknown,
    };

    /// <summary>A part of the chain.</summary>
    /// <param name="part">The part.</param>
    /// <param name="device">The inline device, or empty.</param>
    public static string Part(ChainPart part, string device) => part switch
    {
        ChainPart.UsefulLoad => "useful load",
        ChainPart.Arm => "driven arm",
        ChainPart.InlineDevice => Device(device),
        ChainPart.Cable => "cable on its route",
        ChainPart.Helm => "helm",
        _ => Unknown,
    };

    /// <summary>What it amounts to, in one sentence that a boat owner understands.</summary>
    public static string Verdict(DiagnoseInstallationResponse diagnosis)
    {
        string next = diagnosis.NextTests.Count > 0
            ? "make the next test below before paying for anything"
            : "no further test that was considered would tell";
        switch (diagnosis.Verdict)
        {
            case DiagnosisVerdict.NothingStandsOut:
                return $"Nothing stands out: these are the readings that sound parts would give{AllSound(diagnosis)}.";
            case DiagnosisVerdict.OnePart:
                Suspect? first = diagnosis.Suspects.FirstOrDefault();
                return $"Something is at fault, and it is most likely one thing: {Likely(first)}; {FirstStep(first)}.";
            case DiagnosisVerdict.BetweenParts:
                return "Something is at fault, and the readings do not yet say what: "
                    + $"{Wording.OneOf([.. Leading(diagnosis).Select(Likely)])}; {next}.";
            case DiagnosisVerdict.CannotTell:
                return $"The readings do not yet say whether anything is at fault{AllSound(diagnosis)}; {next}.";
            case DiagnosisVerdict.NotExplained:
                return "Nothing that was considered gives these readings: look at the odd readings and at what the file says, "
                    + "then for something that is not considered here.";
            default:
                return "This client is older than the server and has no words for its verdict.";
        }
    }

    /// <summary>Why a part is or is not suspected.</summary>
    public static IEnumerable<string> Reasons(
        Suspect suspect, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
        suspect.Reasons.Select(reason => Reason(reason, diagnosis, test, figures));

    /// <summary>What a part would have to be, where it is at fault; empty where that is not known.</summary>
    public static string Needed(Suspect suspect, Figures figures)
    {
        string needed = Interval(suspect.Needed, suspect.Kind switch
        {
            FaultKind.Bends => Figures.Angle,
            FaultKind.Load => figures.ForceNumber,
            _ => Figures.Ratio,
        });
        string force = Interval(suspect.NeededForceN, figures.ForceNumber);
        string constant = force.Length > 0 ? $"a constant friction of {force} {figures.ForceUnit}" : "";
        return suspect.Kind switch
        {
            FaultKind.Liner when needed.Length > 0 => $"a friction of {needed}",
            FaultKind.Bends when needed.Length > 0 => $"a hidden bend of {needed}",
            FaultKind.Load when needed.Length > 0 => $"a load of {needed} {figures.ForceUnit}",
            FaultKind.Stop when force.Length > 0 => $"{force} {figures.ForceUnit} at the arm's hole",
            FaultKind.InlineDevice or FaultKind.Arm or FaultKind.Helm => (needed.Length > 0, force.Length > 0) switch
            {
                (true, true) => $"an efficiency of {needed}, or {constant}",
                (true, false) => $"an efficiency of {needed}",
                _ => constant,
            },
            _ => "",
        };
    }

    /// <summary>The friction that the cable behaves with against that of a sound one, in a sentence.</summary>
    public static string Friction(CableBehaviour cable)
    {
        if (cable.BehavingFriction is null)
        {
            return "No friction from 0 to 1 in the cable gives every reading with the other parts as described: "
                + $"something else is at fault, or more than one thing.{Sound(cable, " A sound cable has ")}";
        }

        string compared = cable.Verdict switch
        {
            FrictionVerdict.InBand => "as a sound cable does",
            FrictionVerdict.MayBeInBand => "which may be that of a sound cable: the readings do not settle it",
            FrictionVerdict.AboveBand => "more than a sound cable has",
            FrictionVerdict.BelowBand => "less than a sound cable has: look at what the file says of loads, radii and route",
            FrictionVerdict.NoFrictionExplains => "which does not give every reading",
            _ => Unknown,
        };
        return "If every other part is as described, the cable behaves with a friction of "
            + $"{Interval(cable.BehavingFriction, Figures.Ratio)}, {compared}{Sound(cable, "; a sound one has ", ".")}";
    }

    /// <summary>The bend that would have to be hidden for a sound cable to behave so, in a sentence; empty where it is not known.
    /// </summary>
    public static string ExtraBend(CableBehaviour cable) => cable.ExtraBendRad is { } bend
        ? $"A sound cable would behave so with {Interval(bend, Figures.Angle)} of bend hidden in the route, spread as its bends are."
        : "";

    /// <summary>Whether a promise was kept.</summary>
    public static string Promise(PromiseVerdict verdict) => verdict switch
    {
        PromiseVerdict.Better => "better than promised",
        PromiseVerdict.Kept => "kept",
        PromiseVerdict.MayBeKept => "kept, as far as the readings tell",
        PromiseVerdict.Worse => "not kept",
        PromiseVerdict.CannotTell => "cannot tell",
        _ => Unknown,
    };

    /// <summary>How to make a next test: what to take off, what to hang, how to read.</summary>
    public static string NextTest(NextTest next, WeightTest test, Figures figures)
    {
        string each = next.HangN.Count > 1 ? "each time " : "";
        return $"{Sentence(Connected(next, figures))}: {Preparation(next, test)}; {Hang(next, figures)}, and {each}"
            + $"add weight {NearEnd(next.Connected)} in small steps until it moves; write down the most that held and the least "
            + "that moved it.";
    }

    /// <summary>What an outcome of a next test would mean.</summary>
    public static string Outcome(TestOutcome outcome, Figures figures)
    {
        string seen = (outcome.FromN > 0, outcome.HasToN) switch
        {
            (true, true) => $"holds at {figures.Force(outcome.FromN)} and moves by {figures.Force(outcome.ToN)}",
            (false, true) => $"moves by {figures.Force(outcome.ToN)}",
            (true, false) => $"still holds at {figures.Force(outcome.FromN)}",
            _ => "whatever it does",
        };
        string then = outcome.NothingAtFault ? "nothing at fault" : Fault(outcome.LeadingFault, outcome.InlineDevice);
        return $"{seen} ({Probability(outcome.Probability)}): then most likely {then} ({Probability(outcome.LeadingProbability)})";
    }

    /// <summary>What was taken as likely before any reading.</summary>
    public static string Prior(PriorStatement prior, Figures figures)
    {
        string likely = Probability(prior.Probability);
        if (prior.Kind == FaultKind.Unspecified)
        {
            return $"every part sound: {likely}";
        }

        string ratio = FromTo(Figures.Ratio, prior.SeverityFrom, prior.SeverityTo);
        string severity = prior.Kind switch
        {
            FaultKind.Liner => $"{ratio} times the likely friction of a sound cable",
            FaultKind.Bends => $"{FromTo(Figures.Angle, prior.SeverityFrom, prior.SeverityTo)} of hidden bend",
            FaultKind.InlineDevice or FaultKind.Arm or FaultKind.Helm => $"an efficiency of {ratio}"
                + (prior.ForceToN > 0
                    ? $", or a constant friction of {FromTo(figures.ForceNumber, prior.ForceFromN, prior.ForceToN)} "
                        + figures.ForceUnit
                    : ""),
            FaultKind.Stop => $"{FromTo(figures.ForceNumber, prior.SeverityFrom, prior.SeverityTo)} {figures.ForceUnit} "
                + "at the arm's hole",
            FaultKind.Load => $"{ratio} times the load described",
            _ => Unknown,
        };
        return $"{Fault(prior.Kind, prior.InlineDevice)}: {likely}, then {severity}";
    }

    private static string Device(string device) => device.Length > 0 ? device : "inline device";

    private static string Turns(double angleRad)
    {
        double turns = angleRad / Math.Tau;
        return Math.Abs(turns - Math.Round(turns)) > 1e-6
            ? Figures.Angle(angleRad)
            : Math.Round(turns) switch
            {
                1 => "one turn",
                2 => "two turns",
                _ => "three turns",
            };
    }

    private static string FromTo(Func<double, string> number, double from, double to) =>
        Interval(new Interval { Least = from, Most = to }, number);

    private static string Sentence(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string NoLine(SeriesEstimate estimate, Figures figures)
    {
        string[] odd = [.. estimate.OddReadings.Select(number => number > 0 && number <= estimate.Brackets.Count
            ? $"reading {number} ({Hung(estimate.Brackets[number - 1].AddedN, figures)})"
            : $"reading {number}")];
        string who = odd.Length switch
        {
            0 => "",
            1 => $"; {odd[0]} is the odd one out",
            _ => $"; {Wording.OneOf(odd)} is the odd one out: leaving out any one of them helps as much",
        };
        return "no straight line passes through every reading: every bracket would have to be widened by "
            + $"{figures.Force(estimate.LeastWideningN)} at both ends{who}";
    }

    private static string Hung(double addedN, Figures figures) =>
        addedN > 0 ? $"{figures.Force(addedN)} hung" : "nothing hung";

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
                return "the cable behaves with more friction than a sound one has";
            case SuspectReasonKind.FrictionMayBeInBand:
                return "the cable may behave with the friction of a sound one";
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

    private static string Series(int number, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
        number < 1 ? ""
        : number <= diagnosis.SeriesEstimates.Count && number <= test.Series.Count
            ? $" in series {number} ({Connected(diagnosis.SeriesEstimates[number - 1], test.Series[number - 1], figures)})"
            : $" in series {number}";

    private static string Compared(SuspectReason reason, Figures figures)
    {
        string measured = Interval(reason.MeasuredN, figures.ForceNumber);
        return $"with {Hung(reason.WeightN, figures)} {measured} {figures.ForceUnit}"
            + (reason.SoundN is { } sound ? $", a sound one {Band(sound, figures)} {figures.ForceUnit}" : "");
    }

    private static string Sound(CableBehaviour cable, string before, string otherwise = "") => cable.SoundFriction is { } sound
        ? before + FrictionWords.Of(sound) + cable.SoundFrictionBasis switch
        {
            SoundFrictionBasis.Grade => ", from its grade.",
            SoundFrictionBasis.Stated => ", as stated for the present cable.",
            SoundFrictionBasis.Assumed => ", assumed for any sound cable.",
            _ => $", from {Unknown}.",
        }
        : otherwise;

    private static string Preparation(NextTest next, WeightTest test) => next.Connected switch
    {
        V1.Connected.WholeChain => "leave everything connected",
        V1.Connected.CableOffAtArm => "take the cable off the driven arm and leave the rest connected",
        V1.Connected.HelmAlone => $"take the cable off the helm{Staying(test, CableEnd.Helm)}",
        V1.Connected.CableAlone => "take the cable off at both ends and out of its route, and lay it on the floor",
        V1.Connected.ArmAlone => $"take the cable off the driven arm and leave its load on it{Staying(test, CableEnd.Arm)}",
        V1.Connected.InlineDeviceAlone => $"take {Device(next.InlineDevice)} off at both sides",
        _ => Unknown,
    };

    private static string Staying(WeightTest test, CableEnd end)
    {
        string[] devices = [.. test.Installation.InlineDevices.Where(d => d.CableEnd == end).Select(d => d.DisplayName)];
        return devices.Length > 0 ? $" ({string.Join(", ", devices)} stays on it)" : "";
    }

    private static string Hang(NextTest next, Figures figures)
    {
        IEnumerable<string> weights = next.HangN.DefaultIfEmpty(0).Select(n => n > 0 ? figures.Force(n) : "nothing");
        return $"hang {string.Join(", then ", weights)} {FarEnd(next.Connected)}";
    }

    private static string Band(ForceBand band, Figures figures)
    {
        string likely = band.HasLikely ? figures.ForceNumber(band.Likely) : "locks";
        string low = band.HasLow ? figures.ForceNumber(band.Low) : "locks";
        string high = band.HasHigh ? figures.ForceNumber(band.High) : "locks";
        return low == high ? likely : $"{likely} ({low} to {high})";
    }
}
