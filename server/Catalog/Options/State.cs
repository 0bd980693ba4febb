using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Odds;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Options;

/// <summary>Something that could be measured before buying.</summary>
public enum Unknown
{
    /// <summary>What the present cable and its route do: weights hung and read with the whole chain.</summary>
    PresentCable,

    /// <summary>The load on the arm.</summary>
    Load,

    /// <summary>Both of them.</summary>
    Both,

    /// <summary>What is at fault, after weight tests that do not settle it.</summary>
    WhatIsAtFault,
}

/// <summary>One state that things may be in before anything is bought.</summary>
/// <param name="Setting">Everything but the cable.</param>
/// <param name="Present">The present cable in it.</param>
/// <param name="Chance">How likely it is.</param>
/// <param name="SettingNumber">The same for states of one setting.</param>
/// <param name="Cable">What a test of the present cable and its route would tell; a number that other such answers do not have.</param>
/// <param name="Load">What weighing the load would tell.</param>
public sealed record State(
    Setting Setting, CableCoefficients Present, double Chance, int SettingNumber, int Cable, int Load);

/// <summary>Every state that things may be in, by an even sequence and no chance: the possible chains of a weight test; else every
/// combination of the route's wobble, the loads and the present cable, each at even ranks of its triangular distribution.</summary>
/// <remarks>The loads of an installation are heavy or light together, and the friction and the drags of one cable high or low together:
/// both assumed. A measured effort is taken as exact and gives the present cable's friction in each of those states; a state in which none
/// gives it is ruled out. After a weight test how well the loads are known is not used: what the test leaves open is.</remarks>
public static class States
{
    private const int ChainsOfTest = 64;

    // For one unknown, two, or three.
    private static readonly int[] RanksEach = [64, 16, 8];

    /// <summary>The states of an installation; its baseline is not unexplained.</summary>
    public static IReadOnlyList<State> Of(Installation installation, Baseline baseline)
    {
        if (baseline.Diagnosis is { } diagnosis)
        {
            IReadOnlyList<Mechanics.Diagnoses.SetCable> sets = diagnosis.EvenSettings(ChainsOfTest);
            return [.. sets.Select((set, i) => new State(set.Setting, set.Cable, 1.0 / sets.Count, i, i, 0))];
        }

        MeasuredEffort? measured = installation.Present.Measured;
        bool wobbles = HasSpread(installation.WobbleRadPerM);
        bool loads = installation.Loads.Any(load => load.RangeN is { } range && HasSpread(range));
        bool cables = measured is null && HasSpread(baseline.PresentBands);
        int unknowns = (wobbles ? 1 : 0) + (loads ? 1 : 0) + (cables ? 1 : 0);
        double[] ranks = EvenRanks.Of(RanksEach[Math.Max(0, unknowns - 1)]);
        double[] one = [0.5];
        var states = new List<State>();
        foreach ((int w, double wobble) in (wobbles ? ranks : one).Index())
        {
            foreach ((int l, double load) in (loads ? ranks : one).Index())
            {
                var setting = new Setting(
                    installation.Chain,
                    [.. installation.Loads.Select(given => given with { ForceN = ForceAt(given, load) })],
                    AtRank(installation.WobbleRadPerM, wobble));
                foreach ((int c, double cable) in (cables ? ranks : one).Index())
                {
                    if (PresentIn(setting, cable, measured, baseline.PresentBands, load) is { } present)
                    {
                        states.Add(new State(
                            setting, present, 1, (w * ranks.Length) + l, (w * ranks.Length) + c, l));
                    }
                }
            }
        }

        HeldChain likely = baseline.Chains[0];
        return states.Count == 0
            ? [new State(likely.Setting, likely.Likely, 1, 0, 0, 0)]
            : [.. states.Select(state => state with { Chance = 1.0 / states.Count })];
    }

    /// <summary>What could be measured in some states, and what each of them would answer.</summary>
    public static IReadOnlyList<(Unknown What, int[] Answers)> Questions(IReadOnlyList<State> states, bool isDiagnosed)
    {
        int[] cables = [.. states.Select(state => state.Cable)];
        int[] loads = [.. states.Select(state => state.Load)];
        bool cable = cables.Distinct().Count() > 1;
        bool load = loads.Distinct().Count() > 1;
        return isDiagnosed ? cable ? [(Unknown.WhatIsAtFault, cables)] : []
            : (cable, load) switch
            {
                (true, true) =>
                [
                    (Unknown.PresentCable, cables), (Unknown.Load, loads), (Unknown.Both, [.. Enumerable.Range(0, states.Count)]),
                ],
                (true, false) => [(Unknown.PresentCable, cables)],
                (false, true) => [(Unknown.Load, loads)],
                _ => [],
            };
    }

    /// <summary>Coefficients of a cable in a setting with its friction and its drags at one rank.</summary>
    public static CableCoefficients AtRank(Setting setting, CableBands cable, double rank) => new(
        AtRank(cable.Friction, rank),
        setting.WobbleRadPerM,
        AtRank(cable.SealDragN, rank),
        AtRank(cable.RunningDragNPerM, rank),
        cable.Core,
        setting.HiddenShare);

    /// <summary>Whether anything of a cable is uncertain.</summary>
    public static bool HasSpread(CableBands cable) =>
        HasSpread(cable.Friction) || HasSpread(cable.SealDragN) || HasSpread(cable.RunningDragNPerM);

    private static bool HasSpread(Band band) => band.High > band.Low;

    private static double AtRank(Band band, double rank) =>
        HasSpread(band) ? new Triangular(band.Low, band.Likely, band.High).AtRank(rank) : band.Likely;

    private static double ForceAt(LoadCase load, double rank) => load.RangeN is { } range ? AtRank(range, rank) : load.ForceN;

    private static CableCoefficients? PresentIn(
        Setting setting, double rank, MeasuredEffort? measured, CableBands present, double loadRank)
    {
        if (measured is null)
        {
            return AtRank(setting, present, rank);
        }

        CableCoefficients cable = present.At(BandEnd.Likely, setting.WobbleRadPerM);
        LoadCase load = measured.Load with { ForceN = ForceAt(measured.Load, loadRank) };
        return Calibration.FrictionFor(setting.Chain, cable, load, measured.EffortN) is { } friction
            ? cable with { Friction = friction }
            : null;
    }
}
