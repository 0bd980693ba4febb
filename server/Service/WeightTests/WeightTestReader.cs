using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.WeightTests;

/// <summary>A weight test as it was read.</summary>
/// <param name="Installation">The installation.</param>
/// <param name="Fitted">The grade that was fitted: that of the test, or else of the present cable; null where neither is known.</param>
/// <param name="Series">The series, in the order of the test.</param>
/// <param name="Paid">What the fitted cable cost; null where that is not given.</param>
internal sealed record WeightTest(
    Installation Installation, CatalogGrade? Fitted, IReadOnlyList<TestedSeries> Series, Money? Paid)
{
    /// <summary>The chain as described, with the cable that was fitted.</summary>
    public DescribedChain Described { get; } = Describing.Of(Installation, Fitted);
}

/// <summary>Reads weight tests of the contract.</summary>
internal static class WeightTestReader
{
    /// <summary>Reads a test; null where anything is wrong, with violations.</summary>
    /// <param name="violations">Where to report.</param>
    /// <param name="test">The test.</param>
    /// <param name="root">The field path of the test in the request.</param>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="cancellation">Gives up.</param>
    public static WeightTest? Read(
        Violations violations, V1.WeightTest? test, string root, CatalogSnapshot catalog, CancellationToken cancellation)
    {
        if (test is null)
        {
            violations.Missing(root, "what was read, and the installation it belongs to");
            return null;
        }

        int before = violations.Count;
        Installation? installation = violations.Try(() => InstallationReader.Read(test.Installation, $"{root}.installation", cancellation));
        CatalogGrade? present = installation is null
            ? null
            : PresentGrades.Of(violations, installation, catalog, $"{root}.installation");
        CatalogGrade? fitted = ReadFitted(violations, test.FittedGrade, $"{root}.fitted_grade", catalog);
        Money? paid = ReadPaid(violations, test.AmountPaid, $"{root}.amount_paid");
        IReadOnlyList<TestedSeries> series =
            new SeriesReader(violations, installation).ReadAll(test.Series, $"{root}.series", 1);
        if (violations.Count > before)
        {
            return null;
        }

        var read = new WeightTest(installation!, fitted ?? present, series, paid);
        SeriesReader.CheckTogether(violations, read.Described, series, $"{root}.series");
        return violations.Count > before ? null : read;
    }

    private static CatalogGrade? ReadFitted(Violations violations, string name, string field, CatalogSnapshot catalog) =>
        name.Length > 0 && ResourceNames.Grades.Id(violations, field, name) is { } id
            ? PresentGrades.Find(violations, field, id, catalog)
            : null;

    private static Money? ReadPaid(Violations violations, Google.Type.Money? paid, string field)
    {
        if (paid is null)
        {
            return null;
        }

        Money? read = MoneyMapping.Read(violations, field, paid);
        if (read is { Amount: 0 })
        {
            violations.Add(field, "OUT_OF_RANGE", "must be more than 0; leave it out where it is not known");
        }

        return read;
    }
}
