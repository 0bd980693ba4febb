using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Service.Requests;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.Grades;

/// <summary>Writes a grade of the catalogue as one of the contract.</summary>
internal static class GradeWriter
{
    /// <summary>Writes a grade as the catalogue holds it.</summary>
    public static V1.Grade Write(CatalogGrade held)
    {
        V1.Grade written = Write(held.Grade);
        written.Etag = held.ETag;
        written.Revision = held.Revision;
        written.CreateTime = Timestamp.FromDateTimeOffset(held.Created);
        written.UpdateTime = Timestamp.FromDateTimeOffset(held.Updated);
        return written;
    }

    /// <summary>Writes what a caller may set of a grade, and its name.</summary>
    public static V1.Grade Write(Grade grade)
    {
        var written = new V1.Grade
        {
            Name = ResourceNames.Grades.Of(grade.Id),
            DisplayName = grade.DisplayName,
            Core = grade.CoreText,
            Liner = grade.LinerText,
            CoreConstruction = Write(grade.Ratings.CoreConstruction),
            CoefficientBasis = Write(grade.CoefficientBasis),
            Friction = Write(grade.Bands.Friction),
            MinBendRadiusM = grade.Ratings.MinBendRadiusM,
            SealDragN = Write(grade.Bands.SealDragN),
            RunningDragNPerM = Write(grade.Bands.RunningDragNPerM),
            LengthsMade = new V1.LengthsMade
            {
                ShortestLengthM = grade.Ratings.LengthsMade.ShortestM,
                LongestLengthM = grade.Ratings.LengthsMade.LongestM,
                LengthStepM = grade.Ratings.LengthsMade.StepM,
            },
            Price = Write(grade.Price),
        };
        if (grade.Bands.Core is { } core)
        {
            written.CoreBendingStiffnessNM2 = core.BendingStiffnessNm2;
            written.DiametralClearanceM = core.DiametralClearanceM;
        }

        if (grade.AxialStiffnessN is { } axialN)
        {
            written.AxialStiffnessN = axialN;
        }

        if (grade.Ratings.RatedPullN is { } pullN)
        {
            written.RatedPullN = pullN;
        }

        if (grade.Ratings.RatedPushN is { } pushN)
        {
            written.RatedPushN = pushN;
        }

        if (grade.Ratings.LongestTravelM is { } travelM)
        {
            written.LongestTravelM = travelM;
        }

        return written;
    }

    /// <summary>Writes a band.</summary>
    public static V1.Band Write(Band band) => new() { Low = band.Low, Likely = band.Likely, High = band.High };

    /// <summary>Writes how coefficients are known.</summary>
    public static V1.CoefficientBasis Write(CoefficientBasis basis) =>
        basis == CoefficientBasis.Measured ? V1.CoefficientBasis.Measured : V1.CoefficientBasis.Assumed;

    private static V1.CoreConstruction Write(CoreConstruction construction) => construction switch
    {
        CoreConstruction.Stranded => V1.CoreConstruction.Stranded,
        CoreConstruction.Solid => V1.CoreConstruction.Solid,
        _ => V1.CoreConstruction.Unspecified,
    };

    private static V1.Price Write(PriceRule price) => new()
    {
        Base = MoneyMapping.Write(price.Base),
        PerMetre = MoneyMapping.Write(price.PerMetre),
        Fittings = MoneyMapping.Write(price.Fittings),
        PriceDate = new Google.Type.Date
        {
            Year = price.PriceDate.Year,
            Month = price.PriceDate.Month,
            Day = price.PriceDate.Day,
        },
    };
}
