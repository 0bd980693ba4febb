using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Grades as rows, one each.</summary>
internal static class GradeCsv
{
    private static readonly string[] Heading =
    [
        "id", "display_name", "coefficient_basis", "friction_low", "friction_likely", "friction_high", "min_bend_radius_m",
        "shortest_length_m", "longest_length_m", "length_step_m", "base", "per_metre", "fittings", "currency", "price_date",
    ];

    /// <summary>Writes grades.</summary>
    public static void Write(TextWriter writer, IEnumerable<Grade> grades) =>
        CsvRows.Write(writer, Heading, grades.Select(grade => new object?[]
        {
            GradeTables.Id(grade), grade.DisplayName, grade.CoefficientBasis.ToString().ToLowerInvariant(),
            grade.Friction.Low, grade.Friction.Likely, grade.Friction.High, grade.MinBendRadiusM,
            grade.LengthsMade.ShortestLengthM, grade.LengthsMade.LongestLengthM, grade.LengthsMade.LengthStepM,
            MoneyText.ToDecimal(grade.Price.Base), MoneyText.ToDecimal(grade.Price.PerMetre),
            MoneyText.ToDecimal(grade.Price.Fittings),
            grade.Price.Base.CurrencyCode, DateText.Written(grade.Price.PriceDate),
        }));
}
