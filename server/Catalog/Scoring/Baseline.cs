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

/// <summary>The present cable: what every saving is counted from.</summary>
public sealed class Baseline
{
    private readonly Installation _installation;
    private readonly CableBands _bands;

    // Where an effort was measured: the friction that gives it, by the wobble that is held on both sides of a saving.
    private readonly IReadOnlyDictionary<BandEnd, double>? _calibrated;

    private Baseline(Installation installation, CatalogGrade? grade, CableBands bands, IReadOnlyDictionary<BandEnd, double>? calibrated)
    {
        _installation = installation;
        _bands = bands;
        _calibrated = calibrated;
        Grade = grade;
        Basis = installation.Present.Measured is null ? BaselineBasis.Predicted
            : calibrated is null ? BaselineBasis.Unexplained
            : BaselineBasis.Measured;
        Cases = Basis == BaselineBasis.Unexplained ? [] : [.. installation.Loads.Select(CaseOf)];
        Fit = grade is null || Basis == BaselineBasis.Unexplained ? null : FitCheck.Of(
            installation.Chain, installation.Loads, installation.NeededLengthM, installation.WobbleRadPerM, bands, grade.Grade.Ratings);
    }

    /// <summary>Its grade, where it is one of the catalogue's.</summary>
    public CatalogGrade? Grade { get; }

    /// <summary>How it is known.</summary>
    public BaselineBasis Basis { get; }

    /// <summary>Its effort in each load case; empty where it is unexplained.</summary>
    public IReadOnlyList<CaseEffort> Cases { get; }

    /// <summary>What it breaks of the checks made on every grade; null where its grade is not known.</summary>
    public Fit? Fit { get; }

    /// <summary>The friction used; null where it is unexplained. More wobble needs less friction for one measured effort.</summary>
    public Band? Friction => Basis switch
    {
        BaselineBasis.Predicted => _bands.Friction,
        BaselineBasis.Measured => new Band(_calibrated![BandEnd.High], _calibrated[BandEnd.Likely], _calibrated[BandEnd.Low]),
        _ => null,
    };

    /// <summary>How it stands to the owner's limit. A measured effort is judged as measured, explained or not.</summary>
    public LimitVerdict Limit =>
        Basis == BaselineBasis.Unexplained
            ? Judge(_installation.Present.Measured!.EffortN, _installation.Present.Measured.EffortN, _installation.Present.Measured.EffortN)
            : Judge(WorstEffortN.LowN, WorstEffortN.LikelyN, WorstEffortN.HighN);

    /// <summary>Effort in the worst load case, N.</summary>
    public ForceBand WorstEffortN => CaseEffort.Worst(Cases);

    /// <summary>The present cable of an installation.</summary>
    /// <exception cref="CatalogRefusedException">It names a grade that the catalogue lacks.</exception>
    public static Baseline Of(Installation installation, CatalogSnapshot catalog)
    {
        PresentCable present = installation.Present;
        CatalogGrade? grade = present.GradeId is { } id
            ? catalog.Find(id) ?? throw CatalogRefusedException.NotFound(id)
            : null;
        CableBands bands = grade?.Grade.Bands
            ?? new CableBands(present.Friction ?? default, present.SealDragN, present.RunningDragNPerM, present.Core);
        return new Baseline(installation, grade, bands, Calibrate(installation, bands));
    }

    /// <summary>Coefficients at the likely value of everything; null where the baseline is unexplained.</summary>
    public CableCoefficients? Likely =>
        Basis == BaselineBasis.Unexplained ? null : CoefficientsAt(BandEnd.Likely, BandEnd.Likely);

    /// <summary>Effort in the worst load case with the cable at one end of its own band and the route at one end of its, N.</summary>
    public double WorstN(BandEnd own, BandEnd wobble)
    {
        CableCoefficients cable = CoefficientsAt(own, wobble);
        return _installation.Loads.Max(load => Effort.AtGripN(_installation.Chain, cable, load));
    }

    private static Dictionary<BandEnd, double>? Calibrate(Installation installation, CableBands bands)
    {
        if (installation.Present.Measured is not { } measured)
        {
            return null;
        }

        var friction = new Dictionary<BandEnd, double>();
        foreach (BandEnd wobble in Enum.GetValues<BandEnd>())
        {
            CableCoefficients cable = bands.At(BandEnd.Likely, installation.WobbleRadPerM.At(wobble));
            if (Calibration.FrictionFor(installation.Chain, cable, measured.Load, measured.EffortN) is not { } found)
            {
                return null;
            }

            friction[wobble] = found;
        }

        return friction;
    }

    private CableCoefficients CoefficientsAt(BandEnd own, BandEnd wobble)
    {
        double wobbleRadPerM = _installation.WobbleRadPerM.At(wobble);
        return _calibrated is null
            ? _bands.At(own, wobbleRadPerM)
            : _bands.At(BandEnd.Likely, wobbleRadPerM) with { Friction = _calibrated[wobble] };
    }

    private CaseEffort CaseOf(LoadCase load)
    {
        CaseEffort effort = CaseEffort.Of(_installation.Chain, load, end => CoefficientsAt(end, end));

        // Calibrated friction falls as wobble rises, so the ends need not be in order.
        return _calibrated is null ? effort : effort with { EffortN = Ordered(effort.EffortN), CoreForceN = Ordered(effort.CoreForceN) };
    }

    private static ForceBand Ordered(ForceBand band) => new(
        Math.Min(Math.Min(band.LowN, band.HighN), band.LikelyN), band.LikelyN, Math.Max(Math.Max(band.LowN, band.HighN), band.LikelyN));

    private LimitVerdict Judge(double lowN, double likelyN, double highN) =>
        EffortLimit.Judge(lowN, likelyN, highN, _installation.EffortLimitN);
}
