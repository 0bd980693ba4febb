using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.PriceLists;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;
using CableCatalog.Service.WeightTests;

namespace CableCatalog.Service.Options;

/// <summary>What is to be weighed.</summary>
/// <param name="Installation">The installation.</param>
/// <param name="Present">The grade of its present cable; null where not known.</param>
/// <param name="Series">A weight test of it; empty where there is none.</param>
/// <param name="Grades">The grades that may be bought.</param>
/// <param name="Terms">The terms.</param>
internal sealed record WeighingRequest(
    Installation Installation,
    CatalogGrade? Present,
    IReadOnlyList<TestedSeries> Series,
    IReadOnlyList<CatalogGrade> Grades,
    WeighingTerms Terms);

/// <summary>Reads requests to weigh options.</summary>
/// <param name="root">The field path of the request, with a dot after it; empty where it is the whole.</param>
/// <param name="cancellation">Gives up.</param>
internal sealed class WeighingReader(string root, CancellationToken cancellation)
{
    private const double DefaultConfidence = 0.8;
    private const int MostQuantity = 1_000_000;

    private static readonly ValidRange Confidence = new(0.5, 0.999, "0.5 to 0.999 (0.8 for 80 %)");

    private readonly Violations _violations = new();

    /// <summary>Reads a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="catalog">The catalogue.</param>
    /// <param name="date">The day on which a price list must be valid, where the request need not say.</param>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported, by field path.</exception>
    /// <exception cref="CatalogRefusedException">The catalogue has no grades.</exception>
    public WeighingRequest Read(V1.WeighOptionsRequest request, CatalogSnapshot catalog, DateOnly? date = null)
    {
        string installationField = $"{root}installation";
        string seriesField = $"{root}test_series";
        Installation? installation = _violations.Try(() => InstallationReader.Read(request.Installation, installationField, cancellation));
        CatalogGrade? present = installation is null
            ? null
            : PresentGrades.Of(_violations, installation, catalog, installationField);
        IReadOnlyList<TestedSeries> series = new SeriesReader(_violations, installation).ReadAll(request.TestSeries, seriesField, 0);
        CatalogGrade[] grades = PresentGrades.All(_violations, $"{root}grades", request.Grades, catalog);
        PriceList? list = ReadList(request, catalog, date);
        string currency = list?.Currency ?? catalog.Currency ?? "";
        var terms = new WeighingTerms(
            currency,
            list,
            ReadQuantity(request),
            _violations.Number($"{root}confidence", request.HasConfidence, request.Confidence, Confidence) ?? DefaultConfidence,
            ReadValue(request, currency));
        if (catalog.Count > 0 && installation is not null)
        {
            CheckMoney(request.Installation, currency);
            CheckHours(request.Installation, list);
            CheckCount(installation, grades.Length);
        }

        _violations.ThrowIfAny();
        if (catalog.Count == 0)
        {
            throw CatalogRefusedException.NoGrades();
        }

        SeriesReader.CheckTogether(_violations, Describing.Of(installation!, present), series, seriesField);
        _violations.ThrowIfAny();
        return new WeighingRequest(installation!, present, series, grades, terms);
    }

    private int ReadQuantity(V1.WeighOptionsRequest request)
    {
        if (request is { HasQuantity: true, Quantity: < 1 or > MostQuantity })
        {
            _violations.Add($"{root}quantity", "OUT_OF_RANGE", $"must be 1 to {MostQuantity}");
        }

        return request.HasQuantity ? request.Quantity : 1;
    }

    private decimal? ReadValue(V1.WeighOptionsRequest request, string currency)
    {
        if (request.ValuePerNewton is null)
        {
            return null;
        }

        string field = $"{root}value_per_newton";
        Money? value = MoneyMapping.Read(_violations, field, request.ValuePerNewton);
        RequireCurrency($"{field}", request.ValuePerNewton, currency);
        return value?.Amount;
    }

    private PriceList? ReadList(V1.WeighOptionsRequest request, CatalogSnapshot catalog, DateOnly? date)
    {
        string field = $"{root}price_list";
        DateOnly? on = request.OnDate is null ? date : DateMapping.Read(_violations, $"{root}on_date", request.OnDate);
        if (request.PriceList.Length == 0 || ResourceNames.PriceLists.Id(_violations, field, request.PriceList) is not { } id)
        {
            return null;
        }

        if (catalog.FindPriceList(id) is not { } held)
        {
            _violations.Add(
                field,
                "NOT_FOUND",
                $"must be a price list of this catalogue, which has no \"{id}\"; "
                    + (catalog.PriceLists.Any()
                        ? $"it has {string.Join(", ", catalog.PriceLists.Take(10).Select(list => list.Id))}"
                        : "it has none yet"));
            return null;
        }

        CheckDay(request, held.List, on, field);
        CheckAgainst(catalog, held, field);
        return held.List;
    }

    private void CheckDay(V1.WeighOptionsRequest request, PriceList list, DateOnly? on, string field)
    {
        if (on is not { } day)
        {
            if (request.OnDate is null)
            {
                _violations.Missing($"{root}on_date", "the day on which the price list must be valid");
            }

            return;
        }

        if (!request.AllowExpired && list.On(day) != ListValidity.Valid)
        {
            bool expired = list.On(day) == ListValidity.Expired;
            _violations.Add(
                field,
                expired ? "EXPIRED" : "NOT_YET_VALID",
                expired
                    ? $"must be valid on {day:yyyy-MM-dd}; \"{list.Id}\" was valid until {list.ValidUntil:yyyy-MM-dd}: take a newer list, or "
                        + "allow an expired one"
                    : $"must be valid on {day:yyyy-MM-dd}; \"{list.Id}\" is valid only from {list.ValidFrom:yyyy-MM-dd}: take another list, "
                        + "or allow one outside its days");
        }
    }

    // The catalogue may have changed since the list was written.
    private void CheckAgainst(CatalogSnapshot catalog, CatalogPriceList held, string field)
    {
        string[] lacking = [.. held.List.Grades.Keys.Where(id => catalog.Find(id) is null).Order(StringComparer.Ordinal)];
        if (lacking.Length > 0)
        {
            _violations.Add(
                field,
                "NOT_FOUND",
                $"must price grades that the catalogue has; \"{held.Id}\" prices {string.Join(", ", lacking)}, which it has not: "
                    + "bring the list up to date");
        }

        if (held.List.RestsOnCatalog && catalog.Currency is { } currency && currency != held.List.Currency)
        {
            _violations.Add(
                field,
                "OTHER_CURRENCY",
                $"must be in {currency}, as the catalogue's prices are that \"{held.Id}\" has a margin on; it is in {held.List.Currency}");
        }
    }

    private void CheckMoney(V1.Installation installation, string currency)
    {
        RequireCurrency($"{root}installation.labour.reroute", installation.Labour?.Reroute, currency);
        RequireCurrency($"{root}installation.labour.replace", installation.Labour?.Replace, currency);
        foreach ((int i, V1.OtherRoute other) in installation.OtherRoutes.Index())
        {
            RequireCurrency($"{root}installation.other_routes[{i}].labour", other.Labour, currency);
        }

        foreach ((int i, V1.Change change) in installation.Changes.Index())
        {
            RequireCurrency($"{root}installation.changes[{i}].parts", change.Parts, currency);
            RequireCurrency($"{root}installation.changes[{i}].labour", change.Labour, currency);
        }
    }

    private void RequireCurrency(string field, Google.Type.Money? money, string currency)
    {
        if (money is not null && Money.IsCurrency(money.CurrencyCode) && money.CurrencyCode != currency && currency.Length > 0)
        {
            _violations.Add(
                $"{field}.currency_code",
                "OTHER_CURRENCY",
                $"must be {currency}, the currency of the prices that it is added to; found {money.CurrencyCode}");
        }
    }

    private void CheckHours(V1.Installation installation, PriceList? list)
    {
        foreach ((int i, V1.Change change) in installation.Changes.Index().Where(c => c.Item.HasLabourHours && list?.Labour is null))
        {
            _violations.Add(
                $"{root}installation.changes[{i}].labour_hours",
                "NO_RATE",
                list is null
                    ? "needs a price list with a labour rate; name one, or give the labour of this change in money"
                    : $"needs a labour rate, and \"{list.Id}\" has none; give the labour of this change in money");
        }
    }

    private void CheckCount(Installation installation, int grades)
    {
        long count = OptionStudy.CountOf(installation, grades);
        if (count > OptionStudy.MostOptions)
        {
            _violations.Add(
                $"{root}grades",
                "TOO_MANY_OPTIONS",
                $"must leave at most {OptionStudy.MostOptions} options; {grades} grades with {installation.Changes.Count} changes and "
                    + $"{installation.Routes.Others.Count} other routes make {count}: name the grades to weigh, or fewer changes");
        }
    }
}
