using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <content>What to hang next, and what it would tell.</content>
internal static partial class WeightTestWords
{
    // 50 lbf, as the contract says.
    private const double MostByHandN = 222.411;

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
            (true, true) => $"holds at {figures.Force(outcome.FromN)}, moves at {figures.Force(outcome.ToN)} or below",
            (false, true) => $"moves at {figures.Force(outcome.ToN)} or below",
            (true, false) => $"still holds at {figures.Force(outcome.FromN)}",
            _ => "whatever it does",
        };
        string then = outcome.NothingAtFault ? "nothing at fault" : Fault(outcome.LeadingFault, outcome.InlineDevice);
        return $"{seen} ({Probability(outcome.Probability)}): then most likely {then} "
            + $"({Probability(outcome.LeadingProbability)})";
    }

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

    private static string Hang(NextTest next, Figures figures)
    {
        IEnumerable<string> weights = next.HangN.DefaultIfEmpty(0).Select(n => Weight(n, figures));
        return $"hang {string.Join(", then ", weights)} {FarEnd(next.Connected)}";
    }
}
