using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Grades;

/// <summary>Some grades in order of id, with what decides their rank laid out in columns: see <see cref="CableColumns"/>. What a grade does
/// not state is without limit.</summary>
internal sealed class GradeBlock
{
    /// <summary>The most grades in one.</summary>
    public const int Most = 1024;

    /// <summary>Lays grades out.</summary>
    /// <param name="grades">The grades, 1 to <see cref="Most"/>, in order of id.</param>
    public GradeBlock(CatalogGrade[] grades)
    {
        Grades = grades;
        CableBands[] bands = [.. grades.Select(grade => grade.Grade.Bands)];
        Cables = new CableColumns(bands, BandEnd.Likely);
        AtHighEnd = new CableColumns(bands, BandEnd.High);
        AssumedCount = grades.Count(grade => grade.Grade.CoefficientBasis == CoefficientBasis.Assumed);
        LeastRadiusM = Column(grade => grade.Ratings.MinBendRadiusM * (1 - FitCheck.Slack));
        ShortestM = Column(grade => grade.Ratings.LengthsMade.ShortestM);
        StepM = Column(grade => grade.Ratings.LengthsMade.StepM);
        LongestM = Column(grade => grade.Ratings.LengthsMade.LongestM * (1 + LengthsMade.Slack));
        LongestTravelM = Column(grade => grade.Ratings.LongestTravelM * (1 + FitCheck.Slack));
        RatedPullN = Column(grade => grade.Ratings.RatedPullN);
        RatedPushN = Column(grade => grade.Ratings.RatedPushN);
        PricePerMetre = Column(grade => (double)grade.Price.PerMetre.Amount);
        PriceAtNoLength = Column(grade => (double)(grade.Price.Base.Amount + grade.Price.Fittings.Amount));
        CoreIsKnown = Column(grade => grade.Bands.Core is null ? 0 : 1);

        double[] Column(Func<Grade, double?> of) =>
            CableColumns.ColumnOf(grades, grade => of(grade.Grade) ?? double.PositiveInfinity, 1);
    }

    /// <summary>The grades.</summary>
    public CatalogGrade[] Grades { get; }

    /// <summary>Their cables, at the likely values of their bands.</summary>
    public CableColumns Cables { get; }

    /// <summary>Their cables, at the high ends of their bands.</summary>
    public CableColumns AtHighEnd { get; }

    /// <summary>How many have coefficients that nobody measured.</summary>
    public int AssumedCount { get; }

    /// <summary>The radius from which a bend is not too tight, m.</summary>
    public double[] LeastRadiusM { get; }

    /// <summary>The shortest length made, m.</summary>
    public double[] ShortestM { get; }

    /// <summary>The step between lengths made, m.</summary>
    public double[] StepM { get; }

    /// <summary>The length beyond which none is made, m.</summary>
    public double[] LongestM { get; }

    /// <summary>The travel beyond which it is too short, m.</summary>
    public double[] LongestTravelM { get; }

    /// <summary>The most that the core may carry in pull, N.</summary>
    public double[] RatedPullN { get; }

    /// <summary>The most that the core may carry in push, N.</summary>
    public double[] RatedPushN { get; }

    /// <summary>Price for each metre, before rounding.</summary>
    public double[] PricePerMetre { get; }

    /// <summary>Price of what does not depend on the length, before rounding.</summary>
    public double[] PriceAtNoLength { get; }

    /// <summary>1 where the core is known, else 0.</summary>
    public double[] CoreIsKnown { get; }

    /// <summary>A grade by its id, or null.</summary>
    public CatalogGrade? Find(string id)
    {
        (int from, int to) = (0, Grades.Length);
        while (from < to)
        {
            int middle = (from + to) / 2;
            int order = string.CompareOrdinal(Grades[middle].Id, id);
            if (order == 0)
            {
                return Grades[middle];
            }

            (from, to) = order < 0 ? (middle + 1, to) : (from, middle);
        }

        return null;
    }
}
