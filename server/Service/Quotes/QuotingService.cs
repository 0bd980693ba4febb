using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Storage;
using CableCatalog.Economics.Advising;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Prices;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Options;
using CableCatalog.Service.Requests;
using Grpc.Core;

namespace CableCatalog.Service.Quotes;

/// <summary>Makes quotes: reads the request, delegates, writes the answer.</summary>
internal sealed class QuotingService(ICatalogStore store, FailureStatus failures, TimeProvider clock, CallRates? rates = null)
    : V1.Quoting.QuotingBase
{
    private const int MostQuotes = 1000;
    private const int DefaultDays = 30;
    private const int MostDays = 366;

    /// <inheritdoc/>
    public override Task<V1.Quote> MakeQuote(V1.MakeQuoteRequest request, ServerCallContext context) =>
        Task.FromResult(Quote(request, context.CancellationToken));

    /// <inheritdoc/>
    public override async Task MakeQuotes(
        V1.MakeQuotesRequest request, IServerStreamWriter<V1.MakeQuotesResponse> responseStream, ServerCallContext context)
    {
        if (request.Requests.Count is 0 or > MostQuotes)
        {
            throw InvalidRequestException.For("requests", "BAD_COUNT", $"must be 1 to {MostQuotes}");
        }

        // It has an end: a service that stops finishes it.
        using var call = new LongCall(context, store, clock, CancellationToken.None);
        await call.RunAsync(() => QuoteAllAsync(request, responseStream, context, call));
    }

    private async Task QuoteAllAsync(
        V1.MakeQuotesRequest request,
        IServerStreamWriter<V1.MakeQuotesResponse> responseStream,
        ServerCallContext context,
        LongCall call)
    {
        foreach ((int index, V1.MakeQuoteRequest one) in request.Requests.Index())
        {
            await call.CountAsync(index == 0 ? null : rates); // the call itself has been counted
            var response = new V1.MakeQuotesResponse { Request = index };
            try
            {
                response.Quote = Quote(one, call.End);
            }
            catch (Exception failure) when (failure is not OperationCanceledException)
            {
                response.Refusal = failures.Of(failure, context);
            }

            await responseStream.TellAsync(response, context, call.End);
        }
    }

    private V1.Quote Quote(V1.MakeQuoteRequest request, CancellationToken cancellation)
    {
        const string Root = "weighing.";
        CatalogSnapshot catalog = store.Current;
        var violations = new Violations();
        DateOnly? date = DateMapping.Read(violations, "date", request.Date);
        CheckTexts(violations, request);
        if (request is { HasValidDays: true, ValidDays: < 0 or > MostDays })
        {
            violations.Add("valid_days", "OUT_OF_RANGE", $"must be 0 to {MostDays} days");
        }

        WeighingRequest? asked = request.Weighing is null
            ? null
            : violations.Try(() => new WeighingReader(Root, cancellation).Read(
                date is null ? WithoutList(request.Weighing) : request.Weighing, catalog, date));
        if (request.Weighing is null)
        {
            violations.Missing("weighing", "the installation and the terms of the quote");
        }

        if (request.Weighing?.OnDate is { } onDate && request.Date is not null && !onDate.Equals(request.Date))
        {
            violations.Add($"{Root}on_date", "OUT_OF_ORDER", "must be left out, or be the date of the quote");
        }

        violations.ThrowIfAny();
        OptionStudy study = OptionWeighingService.Weigh(asked!, Root, cancellation);
        IReadOnlyList<int> quoted = QuotedOptions.Of(study);
        if (quoted.Count == 0)
        {
            throw new NothingToQuoteException(study);
        }

        V1.WeighOptionsResponse weighing = OptionWriter.Write(study, asked!);
        weighing.CatalogRevision = catalog.Revision;
        PriceList? list = asked!.Terms.List;
        return new V1.Quote
        {
            Customer = request.Customer,
            Boat = request.Boat,
            Dealer = request.Dealer,
            Remark = request.Remark,
            InstallationDisplayName = request.Weighing!.Installation.DisplayName,
            Date = request.Date,
            ValidUntil = DateMapping.Write(LastDay(date!.Value, request.HasValidDays ? request.ValidDays : DefaultDays, list)),
            PriceListDisplayName = list?.DisplayName ?? "",
            PriceListIsExpired = list is not null && list.On(date.Value) != ListValidity.Valid,
            Quantity = asked.Terms.Quantity,
            Options = { QuotedRows(study, quoted, asked.Terms.Quantity) },
            Weighing = weighing,
            TaxShare = (double)(list?.TaxShare ?? 0),
        };
    }

    // Whether a list is valid on a day that is no day is not asked.
    private static V1.WeighOptionsRequest WithoutList(V1.WeighOptionsRequest weighing)
    {
        V1.WeighOptionsRequest without = weighing.Clone();
        without.PriceList = "";
        return without;
    }

    private static void CheckTexts(Violations violations, V1.MakeQuoteRequest request)
    {
        violations.Text("customer", request.Customer, 0, 200);
        violations.Text("boat", request.Boat, 0, 200);
        violations.Text("dealer", request.Dealer, 0, 200);
        violations.Text("remark", request.Remark, 0, 1000);
    }

    private static DateOnly LastDay(DateOnly date, int days, PriceList? list)
    {
        DateOnly last = date.AddDays(Math.Min(days, DateOnly.MaxValue.DayNumber - date.DayNumber));
        return list is not null && list.On(date) == ListValidity.Valid && list.ValidUntil < last ? list.ValidUntil : last;
    }

    private static IEnumerable<V1.QuotedOption> QuotedRows(OptionStudy study, IReadOnlyList<int> quoted, int quantity)
    {
        int? before = study.MayKeep ? 0 : null;
        foreach (int index in quoted)
        {
            WeighedOption option = study.Options[index];
            Money total = option.Bill!.Total;
            Money extra = before is { } place ? total + (study.Options[place].Bill!.Total * -1) : total;
            double? savedN = before is { } than ? OptionWriter.ExtraSavedN(option, study.Options[than]) : null;
            var row = new V1.QuotedOption
            {
                Option = index,
                Advised = study.Advice is { Verdict: AdviceVerdict.Take } advice && advice.Option == index,
                Total = MoneyMapping.Write(total * quantity),
                ExtraCost = MoneyMapping.Write(extra),
                ExtraCostPerNewton = OptionWriter.RatioOf(extra, savedN),
            };
            if (savedN is { } n)
            {
                row.ExtraSavedN = n;
            }

            yield return row;
            before = index;
        }
    }
}
