using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Scoring;

/// <summary>How the baseline is known.</summary>
public enum BaselineBasis
{
    /// <summary>From a stated friction or an assumed grade.</summary>
    Predicted,

    /// <summary>From the friction that a measured effort calibrates.</summary>
    Measured,

    /// <summary>No plausible friction gives the measured effort, or no chain that was considered the readings.</summary>
    Unexplained,

    /// <summary>From a weight test.</summary>
    Diagnosed,
}

/// <summary>The present cable: what every saving is counted from.</summary>
public sealed class Baseline
{
    // The likely first.
    private static readonly BandEnd[] AllEnds = [BandEnd.Likely, BandEnd.Low, BandEnd.High];

    private readonly Installation _installation;
    private readonly CableBands _bands;
    private readonly HeldCable _present;
    private readonly Lazy<HeldCable> _presentWithoutCore;

    private Baseline(Installation installation, CatalogGrade? grade, Diagnosis? diagnosis)
    {
        PresentCable present = installation.Present;
        _installation = installation;
        _bands = grade?.Grade.Bands
            ?? new CableBands(present.Friction ?? default, present.SealDragN, present.RunningDragNPerM, present.Core);
        HeldChain[] chains = diagnosis is not null ? Diagnosed(diagnosis)
            : present.Measured is { } measured ? Calibrated(measured)
            : Described();
        Grade = grade;
        Diagnosis = diagnosis;
        Basis = chains.Length == 0 ? BaselineBasis.Unexplained
            : diagnosis is not null ? BaselineBasis.Diagnosed
            : present.Measured is not null ? BaselineBasis.Measured
            : BaselineBasis.Predicted;
        Chains = chains.Length == 0 ? Described() : chains;
        _present = HeldCable.In(Chains, setting => setting, (chain, _, own) => chain.PresentAt(own));
        _presentWithoutCore = new Lazy<HeldCable>(() =>
            HeldCable.In(Chains, setting => setting, (chain, _, own) => chain.PresentAt(own) with { Core = null }));
        Cases = Basis == BaselineBasis.Unexplained ? [] : _present.Efforts();
        WorstEffortN = Basis != BaselineBasis.Unexplained ? CaseEffort.Worst(Cases)
            : diagnosis is not null ? UnhungEffort.WorstN(diagnosis)
            : ForceBand.Exactly(present.Measured!.EffortN);
        Fit = grade is null || Basis == BaselineBasis.Unexplained
            ? null
            : FitCheck.Of(installation.Chain, Cases, installation.NeededLengthM, _bands, grade.Grade.Ratings);
    }

    /// <summary>The weight test it comes from; null where it comes from none.</summary>
    public Diagnosis? Diagnosis { get; }

    /// <summary>Its grade, where it is one of the catalogue's.</summary>
    public CatalogGrade? Grade { get; }

    /// <summary>How it is known.</summary>
    public BaselineBasis Basis { get; }

    /// <summary>The chains that may be there, the likely one first; as described where the baseline is unexplained.</summary>
    public IReadOnlyList<HeldChain> Chains { get; }

    /// <summary>Its effort in each load case; empty where it is unexplained.</summary>
    public IReadOnlyList<CaseEffort> Cases { get; }

    /// <summary>What it breaks of the checks made on every grade; null where its grade is not known.</summary>
    public Fit? Fit { get; }

    /// <summary>Whether it is fit to stay: it breaks no check and cannot lock.</summary>
    public bool IsFitToStay => (Fit is null || Fit.Problems.Count == 0) && !Cases.Any(effort => effort.MayLock);

    /// <summary>Effort in the worst load case, N; of an unexplained one, what was measured, infinite where nothing bounds it from
    /// above.</summary>
    public ForceBand WorstEffortN { get; }

    /// <summary>How it stands to the owner's limit.</summary>
    public LimitVerdict Limit =>
        EffortLimit.Judge(WorstEffortN.LowN, WorstEffortN.LikelyN, WorstEffortN.HighN, _installation.EffortLimitN);

    /// <summary>The friction used; null where it is unexplained. More wobble needs less friction for one measured
    /// effort.</summary>
    public Band? Friction => Basis switch
    {
        BaselineBasis.Predicted => _bands.Friction,
        BaselineBasis.Measured or BaselineBasis.Diagnosed => new Band(
            Chains.Min(chain => chain.Likely.FrictionOnRoute),
            Chains[0].Likely.FrictionOnRoute,
            Chains.Max(chain => chain.Likely.FrictionOnRoute)),
        _ => null,
    };

    /// <summary>The present cable's coefficients as bands; not used where it was measured.</summary>
    public CableBands PresentBands => _bands;

    /// <summary>Where an effort was measured: the efforts that a friction from 0 to the most plausible gives in that load
    /// case, at the likely wobble, N; else null.</summary>
    public (double LeastN, double MostN)? Explainable => Diagnosis is null && _installation.Present.Measured is { } measured
        ? (MeasuredCaseN(measured, 0), MeasuredCaseN(measured, Calibration.MostPlausibleFriction))
        : null;

    /// <summary>Coefficients at the likely value of everything; null where the baseline is unexplained.</summary>
    public CableCoefficients? Likely => Basis == BaselineBasis.Unexplained ? null : Chains[0].Likely;

    /// <summary>The present cable of an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="grade">The grade that it names for its present cable; null where it names none.</param>
    /// <param name="diagnosis">What weight tests say of it; null where there are none.</param>
    public static Baseline Of(Installation installation, CatalogGrade? grade, Diagnosis? diagnosis = null) =>
        new(installation, grade, diagnosis);

    /// <summary>Another cable where the rest is changed too, over every chain that may be there.</summary>
    /// <param name="cable">The other cable.</param>
    /// <param name="changed">What becomes of everything but the cable.</param>
    public HeldCable With(CableBands cable, Func<Setting, Setting> changed) =>
        HeldCable.In(Chains, changed, (_, setting, own) => setting.Of(cable, own));

    /// <summary>Effort of the present cable, or of one just like it, in each load case where the rest is changed, over every chain
    /// that may be there.</summary>
    public CaseEffort[] EffortsOfPresent(Func<Setting, Setting> changed) =>
        HeldCable.In(Chains, changed, (chain, setting, own) => chain.PresentIn(setting, own)).Efforts();

    /// <summary>What another cable saves against the present one as it is now, each in its worst load case.</summary>
    public Saving SavingOf(HeldCable other) => other.Against(PresentAgainst(other.HasCore), forces => forces.WorstN);

    /// <summary>What another cable saves where the present one runs in one load case, counted from 0 in the order of the
    /// installation.</summary>
    public Saving SavingOf(HeldCable other, int loadIndex) =>
        other.Against(PresentAgainst(other.HasCore), forces => forces.AtGripN(loadIndex));

    /// <summary>Likely effort of the present cable in its worst load case, N, as a likely saving is counted from it.</summary>
    /// <param name="otherHasCore">Whether the core of the other cable is known.</param>
    internal double LikelyWorstN(bool otherHasCore) => PresentAgainst(otherHasCore).LikelyWorstN;

    /// <summary>What is saved where the present cable stays and the rest is changed, in its worst load case. It is the same cable on both
    /// sides: its own bands are held equal too. Only where it cannot lock when that is changed.</summary>
    public Saving SavingOfPresent(Func<Setting, Setting> changed)
    {
        return new Saving(
            Chains.Min(chain => AllEnds.Min(own => SavedN(chain, own))),
            SavedN(Chains[0], BandEnd.Likely),
            Chains.Max(chain => AllEnds.Max(own => SavedN(chain, own))));

        double SavedN(HeldChain chain, BandEnd own)
        {
            Setting setting = changed(chain.Setting);
            return chain.Setting.WorstN(chain.PresentAt(own)) - setting.WorstN(chain.PresentIn(setting, own));
        }
    }

    /// <summary>The effort of another cable in the worst load case that no route can beat, over every chain that may be
    /// there.</summary>
    public ForceBand LeastOf(CableBands cable, RouteFloor floor) =>
        LeastOf(floor, (chain, own) => chain.Setting.Of(cable, own));

    /// <summary>The same of the present cable, or of one just like it.</summary>
    public ForceBand LeastOfPresent(RouteFloor floor) => LeastOf(floor, (chain, own) => chain.PresentAt(own));

    private ForceBand LeastOf(RouteFloor floor, Func<HeldChain, BandEnd, CableCoefficients> cableIn)
    {
        return Chains
            .SelectMany(chain => AllEnds.Select(own => LeastN(chain, own)))
            .Aggregate(ForceBand.Exactly(LeastN(Chains[0], BandEnd.Likely)), (band, forceN) => band.Including(forceN));

        double LeastN(HeldChain chain, BandEnd own) =>
            chain.Setting.LeastWorstN(cableIn(chain, own), floor.BendRad, floor.LengthM);
    }

    // Where the core of the other cable is unknown, it would seem to save what nobody counted. But a measured cable's effort is what was
    // measured, whatever it is made up of.
    private HeldCable PresentAgainst(bool otherHasCore) =>
        otherHasCore || Basis != BaselineBasis.Predicted ? _present : _presentWithoutCore.Value;

    private HeldChain[] Described() => [.. AllEnds.Select(end => HeldChain.Of(AsDescribed(end), _bands)).Distinct()];

    private static HeldChain[] Diagnosed(Diagnosis diagnosis)
    {
        IReadOnlyDictionary<BandEnd, SetCable> settings = diagnosis.Settings();
        return
        [
            .. AllEnds.Where(settings.ContainsKey).Select(end => settings[end])
                .Concat(diagnosis.ExtremeSettings())
                .Select(set => HeldChain.Of(set.Setting, set.Cable))
                .Distinct(),
        ];
    }

    // A wobble with which no friction gives what was measured is ruled out; where that is the likely one, nothing explains it.
    private HeldChain[] Calibrated(MeasuredEffort measured)
    {
        var chains = new List<HeldChain>();
        foreach (BandEnd wobble in AllEnds)
        {
            CableCoefficients cable = _bands.At(BandEnd.Likely, _installation.WobbleRadPerM.At(wobble));
            if (Calibration.FrictionFor(_installation.Chain, cable, measured.Load, measured.EffortN) is { } found)
            {
                chains.Add(HeldChain.Of(AsDescribed(wobble), cable with { Friction = found }));
            }
            else if (wobble == BandEnd.Likely)
            {
                return [];
            }
        }

        return [.. chains.Distinct()];
    }

    private Setting AsDescribed(BandEnd wobble) =>
        new(_installation.Chain, _installation.Loads, _installation.WobbleRadPerM.At(wobble));

    private double MeasuredCaseN(MeasuredEffort measured, double friction) => Effort.AtGripN(
        _installation.Chain,
        _bands.At(BandEnd.Likely, _installation.WobbleRadPerM.Likely) with { Friction = friction },
        measured.Load);
}
