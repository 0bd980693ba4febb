using System.Text.Json;
using System.Text.Json.Serialization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Storage;

/// <summary>A grade as it is stored: one line of JSON. Its names are those on disk, so that a renamed property of the model
/// does not make old files unreadable.</summary>
/// <remarks>Numbers come back bit for bit: doubles in their shortest form that reads back the same, decimals with all their
/// digits. Times are UTC to 100 ns. All text is ASCII; a line break inside a text is escaped.</remarks>
internal sealed record GradeRecord(
    string Id,
    long Revision,
    DateTimeOffset Created,
    DateTimeOffset Updated,
    string DisplayName,
    string CoreText,
    string LinerText,
    CoefficientBasis Basis,
    BandRecord Friction,
    BandRecord SealDragN,
    BandRecord RunningDragNPerM,
    CoreRecord? Core,
    double? AxialStiffnessN,
    RatingsRecord Ratings,
    PriceRecord Price)
{
    /// <summary>The line that is stored.</summary>
    internal static string LineOf(CatalogGrade stored) =>
        JsonSerializer.Serialize(Of(stored), StorageJson.Default.GradeRecord);

    /// <summary>Writes the line that is stored: the same as <see cref="LineOf"/>.</summary>
    internal static void Write(CatalogGrade stored, Utf8JsonWriter writer) =>
        JsonSerializer.Serialize(writer, Of(stored), StorageJson.Default.GradeRecord);

    /// <summary>The record of a grade.</summary>
    internal static GradeRecord Of(CatalogGrade stored)
    {
        Grade grade = stored.Grade;
        return new GradeRecord(
            grade.Id,
            stored.Revision,
            stored.Created.ToUniversalTime(),
            stored.Updated.ToUniversalTime(),
            grade.DisplayName,
            grade.CoreText,
            grade.LinerText,
            grade.CoefficientBasis,
            BandRecord.Of(grade.Bands.Friction),
            BandRecord.Of(grade.Bands.SealDragN),
            BandRecord.Of(grade.Bands.RunningDragNPerM),
            CoreRecord.Of(grade.Bands.Core),
            grade.AxialStiffnessN,
            RatingsRecord.Of(grade.Ratings),
            PriceRecord.Of(grade.Price));
    }

    /// <summary>The grade of a stored line.</summary>
    /// <exception cref="NotWholeException">It is not such a line.</exception>
    internal static CatalogGrade Parse(string line)
    {
        try
        {
            GradeRecord record = JsonSerializer.Deserialize(line, StorageJson.Default.GradeRecord)
                ?? throw new NotWholeException("a grade in it has no text");
            return record.ToStored();
        }
        catch (Exception cause) when (cause is JsonException or ArgumentException)
        {
            throw new NotWholeException("a grade in it does not read as one", cause);
        }
    }

    /// <summary>The grade of the record.</summary>
    internal CatalogGrade ToStored() => new(
        new Grade(
            Id,
            DisplayName,
            CoreText,
            LinerText,
            Basis,
            new CableBands(Friction.ToBand(), SealDragN.ToBand(), RunningDragNPerM.ToBand(), Core?.ToCore()),
            AxialStiffnessN,
            Ratings.ToRatings(),
            Price.ToRule()),
        Revision,
        Created,
        Updated);
}

/// <summary>A band as it is stored.</summary>
internal readonly record struct BandRecord(double Low, double Likely, double High)
{
    internal static BandRecord Of(Band band) => new(band.Low, band.Likely, band.High);

    internal Band ToBand() => new(Low, Likely, High);
}

/// <summary>A core as it is stored.</summary>
internal sealed record CoreRecord(double BendingStiffnessNm2, double DiametralClearanceM)
{
    internal static CoreRecord? Of(Core? core) =>
        core is { } known ? new CoreRecord(known.BendingStiffnessNm2, known.DiametralClearanceM) : null;

    internal Core ToCore() => new(BendingStiffnessNm2, DiametralClearanceM);
}

/// <summary>Ratings as they are stored.</summary>
internal sealed record RatingsRecord(
    double MinBendRadiusM,
    double ShortestM,
    double LongestM,
    double StepM,
    double? RatedPullN,
    double? RatedPushN,
    double? LongestTravelM,
    CoreConstruction CoreConstruction)
{
    internal static RatingsRecord Of(CableRatings ratings) => new(
        ratings.MinBendRadiusM,
        ratings.LengthsMade.ShortestM,
        ratings.LengthsMade.LongestM,
        ratings.LengthsMade.StepM,
        ratings.RatedPullN,
        ratings.RatedPushN,
        ratings.LongestTravelM,
        ratings.CoreConstruction);

    internal CableRatings ToRatings() => new(
        MinBendRadiusM, new LengthsMade(ShortestM, LongestM, StepM), RatedPullN, RatedPushN, LongestTravelM, CoreConstruction);
}

/// <summary>A price rule as it is stored; its parts share a currency.</summary>
internal sealed record PriceRecord(string Currency, decimal Base, decimal PerMetre, decimal Fittings, DateOnly Date)
{
    internal static PriceRecord Of(PriceRule price) =>
        new(price.Currency, price.Base.Amount, price.PerMetre.Amount, price.Fittings.Amount, price.PriceDate);

    internal PriceRule ToRule() =>
        new(new Money(Base, Currency), new Money(PerMetre, Currency), new Money(Fittings, Currency), Date);
}

/// <summary>How the store reads and writes JSON: strictly, and without reflection.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UseStringEnumConverter = true,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow)]
[JsonSerializable(typeof(GradeRecord))]
[JsonSerializable(typeof(PriceListRecord))]
[JsonSerializable(typeof(AccessKeyRecord))]
[JsonSerializable(typeof(JournalRecord))]
[JsonSerializable(typeof(CatalogHeader))]
[JsonSerializable(typeof(HolderNote))]
internal sealed partial class StorageJson : JsonSerializerContext;
