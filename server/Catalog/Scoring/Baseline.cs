using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Scoring;

/// <summary>How the baseline is known.</summary>
public enum BaselineBasis
{
    /// <summary>From a stated friction or an assumed grade.</summary>
    Predicted,

    /// <summary>From the friction that a measured effort calibrates.</summary>
    Measured,

    /// <summary>No plausible friction gives the measured effort.</summary>
    Unexplained,
}

/// <summary>The present cable: what every saving is counted from. For one thread at a time.</summary>
public sealed class Baseline
{
    private static readonly BandEnd[] AllEnds = Enum.GetValues<BandEnd>();

    private readonly Installation _installation;
    private readonly CableBands _bands;

    // Where an effort was measured: the friction that gives it, by the wobble that is held on both sides of a saving. A wobble
    // with which no plausible friction gives it is ruled out by the measurement.
    private readonly IReadOnlyDictionary<BandEnd, double>? _calibrated;

    // Every grade is held against the same efforts: they are computed once.
    private readonly Dictionary<(BandEnd Own, BandEnd Wobble, bool WithCore), double> _worstN = [];

    private Baseline(Installation installation, CatalogGrade? grade)
    {
        PresentCable present = installation.Present;
        _installation = installation;
        _bands = grade?.Grade.Bands
            ?? new CableBands(present.Friction ?? default, present.SealDragN, present.RunningDragNPerM, present.Core);
        _calibrated = present.Measured is { } measured ? Calibrate(measured) : null;
        Grade = grade;
        Basis = _calibrated is null ? BaselineBasis.Predicted
            : _calibrated.ContainsKey(BandEnd.Likely) ? BaselineBasis.Measured
            : BaselineBasis.Unexplained;
        Cases = Basis == BaselineBasis.Unexplained
            ? []
            : CaseEffort.OfAll(installation.Chain, installation.Loads, end => CoefficientsAt(end, end));
        Fit = grade is null || Basis == BaselineBasis.Unexplained
            ? null
            : FitCheck.Of(installation.Chain, Cases, installation.NeededLengthM, _bands, grade.Grade.Ratings);
    }

    /// <summary>Its grade, where it is one of the catalogue's.</summary>
    public CatalogGrade? Grade { get; }

    /// <summary>How it is known.</summary>
    public BaselineBasis Basis { get; }

    /// <summary>Its effort in each load case; empty where it is unexplained.</summary>
    public IReadOnlyList<CaseEffort> Cases { get; }

    /// <summary>What it breaks of the checks made on every grade; null where its grade is not known.</summary>
    public Fit? Fit { get; }

    /// <summary>Whether it is fit to stay: it breaks no check and cannot lock.</summary>
    public bool IsFitToStay => (Fit is null || Fit.Problems.Count == 0) && !Cases.Any(effort => effort.MayLock);

    /// <summary>Effort in the worst load case, N; of an unexplained one, what was measured.</summary>
    public ForceBand WorstEffortN => Basis == BaselineBasis.Unexplained
        ? ForceBand.Spanning(_ => _installation.Present.Measured!.EffortN)
        : CaseEffort.Worst(Cases);

    /// <summary>How it stands to the owner's limit.</summary>
    public LimitVerdict Limit =>
        EffortLimit.Judge(WorstEffortN.LowN, WorstEffortN.LikelyN, WorstEffortN.HighN, _installation.EffortLimitN);

    /// <summary>The friction used; null where it is unexplained. More wobble needs less friction for one measured
    /// effort.</summary>
    public Band? Friction => Basis switch
    {
        BaselineBasis.Predicted => _bands.Friction,
        BaselineBasis.Measured => new Band(_calibrated!.Values.Min(), _calibrated[BandEnd.Likely], _calibrated.Values.Max()),
        _ => null,
    };

    /// <summary>The wobbles to hold equal on both sides of a saving.</summary>
    public IEnumerable<BandEnd> Wobbles =>
        _calibrated?.Keys ?? (_installation.WobbleRadPerM is var w && w.Low == w.High ? [BandEnd.Likely] : AllEnds);

    /// <summary>Where an effort was measured: the efforts that a friction from 0 to the most plausible gives in that load
    /// case, at the likely wobble, N; else null.</summary>
    public (double LeastN, double MostN)? Explainable => _installation.Present.Measured is { } measured
        ? (MeasuredCaseN(measured, 0), MeasuredCaseN(measured, Calibration.MostPlausibleFriction))
        : null;

    /// <summary>Coefficients at the likely value of everything; null where the baseline is unexplained.</summary>
    public CableCoefficients? Likely =>
        Basis == BaselineBasis.Unexplained ? null : CoefficientsAt(BandEnd.Likely, BandEnd.Likely);

    /// <summary>The present cable of an installation.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="grade">The grade that it names for its present cable; null where it names none.</param>
    public static Baseline Of(Installation installation, CatalogGrade? grade) => new(installation, grade);

    /// <summary>Effort in the worst load case with the cable at one end of its own band and the route at one end of its,
    /// N.</summary>
    /// <param name="own">The end of the cable's own bands.</param>
    /// <param name="wobble">The end of the route's.</param>
    /// <param name="withCore">Whether the core is counted: not where that of the grade it is held against is unknown, or the
    /// grade would seem to save what nobody counted.</param>
    public double WorstN(BandEnd own, BandEnd wobble, bool withCore)
    {
        if (!_worstN.TryGetValue((own, wobble, withCore), out double worstN))
        {
            // A calibrated cable's effort is what was measured, whatever it is made up of.
            CableCoefficients cable = CoefficientsAt(own, wobble);
            cable = cable with { Core = withCore || _calibrated is not null ? cable.Core : null };
            worstN = CaseEffort.WorstN(_installation.Chain, _installation.Loads, cable);
            _worstN[(own, wobble, withCore)] = worstN;
        }

        return worstN;
    }

    private double MeasuredCaseN(MeasuredEffort measured, double friction) => Effort.AtGripN(
        _installation.Chain,
        _bands.At(BandEnd.Likely, _installation.WobbleRadPerM.Likely) with { Friction = friction },
        measured.Load);

    private Dictionary<BandEnd, double> Calibrate(MeasuredEffort measured)
    {
        var friction = new Dictionary<BandEnd, double>();
        foreach (BandEnd wobble in AllEnds)
        {
            CableCoefficients cable = _bands.At(BandEnd.Likely, _installation.WobbleRadPerM.At(wobble));
            if (Calibration.FrictionFor(_installation.Chain, cable, measured.Load, measured.EffortN) is { } found)
            {
                friction[wobble] = found;
            }
        }

        return friction;
    }

    private CableCoefficients CoefficientsAt(BandEnd own, BandEnd wobble)
    {
        if (_calibrated is null)
        {
            return _bands.At(own, _installation.WobbleRadPerM.At(wobble));
        }

        BandEnd possible = _calibrated.ContainsKey(wobble) ? wobble : BandEnd.Likely;
        return _bands.At(BandEnd.Likely, _installation.WobbleRadPerM.At(possible)) with { Friction = _calibrated[possible] };
    }
}
