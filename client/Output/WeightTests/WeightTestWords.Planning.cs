using System.Globalization;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <content>What to hang next, and what it would tell.</content>
internal static partial class WeightTestWords
{
    /// <summary>What one person moves safely at the grip, N: 50 lbf, common practice, no source.</summary>
    public const double MostByHandN = 222.4111;

    // 10 lbf; steps over it are rough whatever the control takes: common practice, no source.
    private const double RoughStepN = 44.483;

    /// <summary>The heading over the next test; says so where it would not tell much more.</summary>
    public static string NextTestHeading(DiagnoseInstallationResponse diagnosis, Figures figures) =>
        TellsLittle(diagnosis.NextTests.FirstOrDefault())
            ? "No further test would tell much more. Of low value, in the order of what they would tell:"
            : $"Next test, with weights in steps of {Weight(diagnosis.WeightStepN, figures)}:";

    /// <summary>Whether a test would hardly narrow the question, or there is none.</summary>
    public static bool TellsLittle(NextTest? next) => next is null
        || (next.SuspectsInQuestionAfter > 0.9 * next.SuspectsInQuestionNow
            && next.ExcessSpreadAfterN > 0.8 * next.ExcessSpreadNowN);

    /// <summary>How to make a next test: what to take off, what to hang, how to read, where to stop.</summary>
    public static string NextTest(NextTest next, WeightTest test, double stepN, Figures figures)
    {
        string near = NearEnd(next.Connected);
        string stop = next.StopAtN > 0 ? $", and stop at {figures.Force(next.StopAtN)} whatever it does" : "";
        string steps = stepN > 0 ? $"by {Weight(stepN, figures)} at a time" : "in small steps";
        return $"{Sentence(Connected(next, figures))}: {Preparation(next, test)}. Hang each weight {FarEnd(next.Connected)} in "
            + $"the order given, put what to start with {near} (it should hold), and go up {steps} until it moves{stop}. Write "
            + $"down the most that held and the least that moved it. {HowToHang(next.Connected)}";
    }

    /// <summary>How to pull and how to hang, so that the readings mean something and nobody is hurt.</summary>
    public static string HowToHang(Connected connected)
    {
        string pull = connected switch
        {
            V1.Connected.ArmAlone => "Pull square to the arm, in line with where the cable ran.",
            V1.Connected.CableAlone or V1.Connected.InlineDeviceAlone => "Pull in line with it.",
            _ => "Pull square to the lever at the grip, at the part of the sweep where it is hardest.",
        };
        return $"{pull} Hang weights straight down or over a pulley, and keep clear of a falling weight.";
    }

    /// <summary>The weights of a next test, each with what to start with at the near end; empty where that is not told.</summary>
    public static IEnumerable<(string Hang, string StartWith)> Hangings(NextTest next, Figures figures) =>
        next.HangN.DefaultIfEmpty(0).Select((hungN, index) => (
            Weight(hungN, figures),
            index < next.StartWithN.Count ? Weight(next.StartWithN[index], figures) : ""));

    /// <summary>How far a test is expected to narrow the question.</summary>
    public static string Narrowing(NextTest next, Figures figures) =>
        $"Suspects still in question: about {Count(next.SuspectsInQuestionNow)}, after this test about "
            + $"{Count(next.SuspectsInQuestionAfter)}, as expected. What they add at the grip is uncertain by about "
            + $"{figures.Force(next.ExcessSpreadNowN)} now, by about {figures.Force(next.ExcessSpreadAfterN)} then.";

    /// <summary>Which weight the outcomes of a next test are told for.</summary>
    public static string WithLastWeight(NextTest next, Figures figures) =>
        $"What it would mean, with {Hung(next.HangN.LastOrDefault(), figures)}";

    /// <summary>A test that would tell less than the first, in a line.</summary>
    public static string OtherTest(NextTest next, Figures figures)
    {
        string hung = string.Join(", ", next.HangN.DefaultIfEmpty(0).Select(n => Weight(n, figures)));
        return $"{Connected(next, figures)}, hang {hung}: suspects still in question about {Count(next.SuspectsInQuestionNow)}"
            + $", then about {Count(next.SuspectsInQuestionAfter)}";
    }

    /// <summary>A warning of steps that are coarse against what is to be measured; empty where they are not.</summary>
    /// <param name="stepN">The step between weights, N.</param>
    /// <param name="likelyN">What likely moves the grip with nothing hung, N; null where that is not known.</param>
    /// <param name="figures">The units.</param>
    public static string CoarseStep(double stepN, double? likelyN, Figures figures)
    {
        string step = $"Going up by {Weight(stepN, figures)} at a time is rough and unsafe";
        return likelyN is { } n && stepN > n / 2
            ? $"{step} where about {figures.Force(n)} should move the grip: use smaller weights (--step)."
            : stepN > RoughStepN
                ? $"{step}, more than {figures.Force(RoughStepN)}: use smaller weights (--step)."
                : "";
    }

    /// <summary>The same for a plan, against the least of what should move the grip with nothing hung.</summary>
    public static string CoarseStep(PlanWeightTestResponse plan, Figures figures)
    {
        double[] likelyN =
        [
            .. plan.PlannedSeries.SelectMany(series => series.Steps)
                .Where(step => step is { AddedN: <= 0, PredictedEffortN.HasLikely: true })
                .Select(step => step.PredictedEffortN.Likely),
        ];
        return CoarseStep(plan.WeightStepN, likelyN.Length > 0 ? likelyN.Min() : null, figures);
    }

    /// <summary>The same for a next test, against the effort that the readings leave.</summary>
    public static string CoarseStep(DiagnoseInstallationResponse diagnosis, Figures figures) => CoarseStep(
        diagnosis.WeightStepN, diagnosis.EffortN is { HasMedian: true } effort ? effort.Median : null, figures);

    /// <summary>What an outcome of a next test would mean.</summary>
    public static string Outcome(TestOutcome outcome, Figures figures)
    {
        string seen = (outcome.FromN > 0, outcome.HasToN) switch
        {
            (true, true) => $"holds at {figures.Force(outcome.FromN)}, moves at {figures.Force(outcome.ToN)} or below",
            (false, true) => $"moves at {figures.Force(outcome.ToN)} or below",
            (true, false) => $"still holds at {figures.Force(outcome.FromN)}: stop there",
            _ => "whatever it does",
        };
        string then = outcome.NothingAtFault ? "nothing at fault" : Fault(outcome.LeadingFault, outcome.InlineDevice);
        return $"{seen} ({Probability(outcome.Probability)}); then most likely {then} "
            + $"({Probability(outcome.LeadingProbability)})";
    }

    /// <summary>What one person moves safely at the grip.</summary>
    public static string MostByHand(Figures figures) => figures.Force(MostByHandN);

    /// <summary>Why a plan stops at its heaviest weight, to follow "because".</summary>
    public static string Heaviest(HeaviestReason reason, Figures figures) => reason switch
    {
        HeaviestReason.ShowsTheSlope => "that much about doubles the effort, so the slope shows",
        HeaviestReason.Effort => $"more might pass {figures.Force(MostByHandN)} at the grip, about what one person moves safely "
            + "(common practice, no source)",
        HeaviestReason.RatedLoad => "more might pass what the core is rated for",
        HeaviestReason.LockUp => "more might lock the cable",
        _ => $"of {Unknown}",
    };

    private static string Sentence(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Preparation(NextTest next, WeightTest test) => next.Connected switch
    {
        V1.Connected.WholeChain => "leave everything connected",
        V1.Connected.CableOffAtArm => "take the cable off the driven arm and leave the rest connected",
        V1.Connected.HelmAlone => $"take the cable off the helm{Staying(test, CableEnd.Helm)}",
        V1.Connected.CableAlone => "take the cable off at both ends and out of its route, and lay it on the floor",
        V1.Connected.ArmAlone => $"take the cable off the driven arm and leave its load on it{Staying(test, CableEnd.Arm)}",
        V1.Connected.InlineDeviceAlone => "disconnect it on both sides",
        _ => Unknown,
    };

    private static string Staying(WeightTest test, CableEnd end)
    {
        string[] devices = [.. test.Installation.InlineDevices.Where(d => d.CableEnd == end).Select(d => d.DisplayName)];
        return devices.Length > 0 ? $" ({string.Join(", ", devices)} {(devices.Length > 1 ? "stay" : "stays")} on it)" : "";
    }

    private static string Count(double count) => count.ToString("0.0", CultureInfo.InvariantCulture);
}
