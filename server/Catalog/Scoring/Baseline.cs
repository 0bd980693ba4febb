using CableCatalog.Catalog.Grades;
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

/// <summary>The present cable: what every saving is counted from. For one thread at a time.</summary>
public sealed class Baseline
{
    private static readonly BandEnd[] AllEnds = Enum.GetValues<BandEnd>();

    private readonly Installation _installation;
    private readonly CableBands _bands;

    // What stays when the cable is changed, at each end of what is possible, and where the present cable was measured, its
    // coefficients there. An end that the measurement rules out is left out.
    private readonly IReadOnlyDictionary<BandEnd, (Setting Setting, CableCoefficients? Cable)> _settings;

    // Every grade is held against the same efforts: they are computed once.
    private readonly Dictionary<(BandEnd Own, BandEnd Setting, bool WithCore), double> _worstN = [];

    private readonly ForceBand _readN;

    private Baseline(Installation installation, CatalogGrade? grade, Diagnosis? diagnosis)
    {
        PresentCable present = installation.Present;
        _installation = installation;
        _bands = grade?.Grade.Bands
            ?? new CableBands(present.Friction ?? default, present.SealDragN, present.RunningDragNPerM, present.Core);
        _settings = diagnosis is not null ? Diagnosed(diagnosis)
            : present.Measured is { } measured ? Calibrated(measured)
            : AllEnds.ToDictionary(end => end, end => (AsDescribed(end), (CableCoefficients?)null));
        Grade = grade;
        Diagnosis = diagnosis;
        Basis = !_settings.ContainsKey(BandEnd.Likely) ? BaselineBasis.Unexplained
            : diagnosis is not null ? BaselineBasis.Diagnosed
            : present.Measured is not null ? BaselineBasis.Measured
            : BaselineBasis.Predicted;
        _readN = diagnosis?.ReadN ?? ForceBand.Spanning(_ => present.Measured?.EffortN ?? 0);
        Extremes = diagnosis?.ExtremeSettings() ?? [];
        Cases = Basis == BaselineBasis.Unexplained
            ? []
            : Extremes.Aggregate(
                CaseEffort.OfAll(SettingAt, end => CoefficientsAt(end, end)),
                (cases, one) => CaseEffort.Including(cases, one.Setting, one.Cable));
        Fit = grade is null || Basis == BaselineBasis.Unexplained
            ? null
            : FitCheck.Of(installation.Chain, Cases, installation.NeededLengthM, _bands, grade.Grade.Ratings);
    }

    /// <summary>The weight test it comes from; null where it comes from none.</summary>
    public Diagnosis? Diagnosis { get; }

    /// <summary>Its grade, where it is one of the catalogue's.</summary>
    public CatalogGrade? Grade { get; }

    /// <summary>From a weight test: settings, with the present cable, at the ends of the whole effort; they widen every effort.</summary>
    public IReadOnlyList<SetCable> Extremes { get; }

    /// <summary>How it is known.</summary>
    public BaselineBasis Basis { get; }

    /// <summary>Its effort in each load case; empty where it is unexplained.</summary>
    public IReadOnlyList<CaseEffort> Cases { get; }

    /// <summary>What it breaks of the checks made on every grade; null where its grade is not known.</summary>
    public Fit? Fit { get; }

    /// <summary>Whether it is fit to stay: it breaks no check and cannot lock.</summary>
    public bool IsFitToStay => (Fit is null || Fit.Problems.Count == 0) && !Cases.Any(effort => effort.MayLock);

    /// <summary>Effort in the worst load case, N; of an unexplained one, what was measured.</summary>
    public ForceBand WorstEffortN => Basis == BaselineBasis.Unexplained ? _readN : CaseEffort.Worst(Cases);

    /// <summary>How it stands to the owner's limit.</summary>
    public LimitVerdict Limit =>
        EffortLimit.Judge(WorstEffortN.LowN, WorstEffortN.LikelyN, WorstEffortN.HighN, _installation.EffortLimitN);

    /// <summary>The friction used; null where it is unexplained. More wobble needs less friction for one measured
    /// effort.</summary>
    public Band? Friction => Basis switch
    {
        BaselineBasis.Predicted => _bands.Friction,
        BaselineBasis.Measured or BaselineBasis.Diagnosed => new Band(
            _settings.Values.Min(s => s.Cable!.Value.Friction),
            _settings[BandEnd.Likely].Cable!.Value.Friction,
            _settings.Values.Max(s => s.Cable!.Value.Friction)),
        _ => null,
    };

    /// <summary>The settings to hold equal on both sides of a saving; one where all of them are alike.</summary>
    public IEnumerable<BandEnd> SettingEnds =>
        _settings.Values.Distinct().Count() == 1 ? [BandEnd.Likely] : _settings.Keys;

    /// <summary>Where an effort was measured: the efforts that a friction from 0 to the most plausible gives in that load
    /// case, at the likely wobble, N; else null.</summary>
    public (double LeastN, double MostN)? Explainable => Diagnosis is null && _installation.Present.Measured is { } measured
        ? (MeasuredCaseN(measured, 0), MeasuredCaseN(measured, Calibration.MostPlausibleFriction))
        : null;

    /// <summary>Coefficients at the likely value of everything; null where the baseline is unexplained.</summary>
    public CableCoefficients? Likely =>
        Basis == BaselineBasis.Unexplained ? null : CoefficientsAt(BandEnd.Likely, BandEnd.Likely);

    /// <summary>The present cable of an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="grade">The grade that it names for its present cable; null where it names none.</param>
    /// <param name="diagnosis">What weight tests say of it; null where there are none.</param>
    public static Baseline Of(Installation installation, CatalogGrade? grade, Diagnosis? diagnosis = null) =>
        new(installation, grade, diagnosis);

    /// <summary>What stays when the cable is changed, at one end of what is possible; as described where that end is ruled out.
    /// </summary>
    public Setting SettingAt(BandEnd end) =>
        _settings.TryGetValue(end, out (Setting Setting, CableCoefficients? Cable) at) ? at.Setting : AsDescribed(end);

    /// <summary>The present cable in one setting, at the same end of its own bands.</summary>
    public CableCoefficients CableAt(BandEnd end) => CoefficientsAt(end, end);

    /// <summary>Effort in the worst load case with the cable at one end of its own band in one setting, N.</summary>
    /// <param name="own">The end of the cable's own bands.</param>
    /// <param name="setting">The setting.</param>
    /// <param name="withCore">Whether the core is counted: not where that of the grade it is held against is unknown, or the
    /// grade would seem to save what nobody counted.</param>
    public double WorstN(BandEnd own, BandEnd setting, bool withCore)
    {
        if (!_worstN.TryGetValue((own, setting, withCore), out double worstN))
        {
            // A measured cable's effort is what was measured, whatever it is made up of.
            CableCoefficients cable = CoefficientsAt(own, setting);
            cable = cable with { Core = withCore || _settings[BandEnd.Likely].Cable is not null ? cable.Core : null };
            worstN = SettingAt(setting).WorstN(cable);
            _worstN[(own, setting, withCore)] = worstN;
        }

        return worstN;
    }

    private static Dictionary<BandEnd, (Setting Setting, CableCoefficients? Cable)> Diagnosed(Diagnosis diagnosis) =>
        diagnosis.Settings().ToDictionary(s => s.Key, s => (s.Value.Setting, (CableCoefficients?)s.Value.Cable));

    private Setting AsDescribed(BandEnd end) =>
        new(_installation.Chain, _installation.Loads, _installation.WobbleRadPerM.At(end));

    private double MeasuredCaseN(MeasuredEffort measured, double friction) => Effort.AtGripN(
        _installation.Chain,
        _bands.At(BandEnd.Likely, _installation.WobbleRadPerM.Likely) with { Friction = friction },
        measured.Load);

    private Dictionary<BandEnd, (Setting Setting, CableCoefficients? Cable)> Calibrated(MeasuredEffort measured)
    {
        var settings = new Dictionary<BandEnd, (Setting, CableCoefficients?)>();
        foreach (BandEnd wobble in AllEnds)
        {
            CableCoefficients cable = _bands.At(BandEnd.Likely, _installation.WobbleRadPerM.At(wobble));
            if (Calibration.FrictionFor(_installation.Chain, cable, measured.Load, measured.EffortN) is { } found)
            {
                settings[wobble] = (AsDescribed(wobble), cable with { Friction = found });
            }
        }

        return settings;
    }

    private CableCoefficients CoefficientsAt(BandEnd own, BandEnd setting)
    {
        if (!_settings.TryGetValue(setting, out (Setting Setting, CableCoefficients? Cable) at)
            && !_settings.TryGetValue(BandEnd.Likely, out at))
        {
            at = (AsDescribed(setting), null);
        }

        return at.Cable ?? at.Setting.Of(_bands, own);
    }
}
