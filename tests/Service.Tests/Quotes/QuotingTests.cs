using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using Google.Rpc;
using Grpc.Core;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Quotes;

public sealed class QuotingTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task A_quote_has_the_advised_option_and_its_neighbours_with_what_each_step_costs()
    {
        Quote quote = await service.Quoters.MakeQuoteAsync(Request());

        Assert.Equal(
            ("R. Halyard", "Plover", "Quayside", "Kept dry.", "Test launch"),
            (quote.Customer, quote.Boat, quote.Dealer, quote.Remark, quote.InstallationDisplayName));
        Assert.InRange(quote.Options.Count, 2, 3);
        QuotedOption advised = Assert.Single(quote.Options, option => option.Advised);
        Assert.Equal(quote.Weighing.Advice.Option, advised.Option);
        decimal before = 0;
        double savedBefore = 0;
        foreach (QuotedOption row in quote.Options)
        {
            WeighedOption option = quote.Weighing.Options[row.Option];
            Assert.False(option.KeepsAll);
            Assert.Equal(Amount(option.Bill.Total) - before, Amount(row.ExtraCost));
            Assert.Equal(option.SavedN.Likely - savedBefore, row.ExtraSavedN, 1e-9);
            Assert.Equal(
                (double)Amount(row.ExtraCost) / row.ExtraSavedN, (double)Amount(row.ExtraCostPerNewton), 1e-8);
            (before, savedBefore) = (Amount(option.Bill.Total), option.SavedN.Likely);
        }
    }

    [Fact]
    public async Task Its_weighing_is_that_of_the_same_question()
    {
        MakeQuoteRequest request = Request();
        Quote quote = await service.Quoters.MakeQuoteAsync(request);

        Assert.Equal(await service.Weighers.WeighOptionsAsync(request.Weighing), quote.Weighing);
    }

    [Fact]
    public async Task It_holds_thirty_days_and_never_longer_than_its_prices()
    {
        await service.PutAsync("quoting", TestLists.New());
        Assert.Equal(TestLists.Day(2026, 12, 31), (await Quoted(r => r.Date = TestLists.Day(2026, 12, 1))).ValidUntil);
        Assert.Equal(TestLists.Day(2026, 12, 1), (await Quoted(r => r.ValidDays = 0)).ValidUntil);
        Quote late = await Quoted(r => r.With(_ => r.Weighing.PriceList = "priceLists/quoting").Date = TestLists.Day(2027, 2, 20));
        Assert.Equal(TestLists.Day(2027, 2, 28), late.ValidUntil);
        Assert.Equal(("Autumn", false, 0.0825), (late.PriceListDisplayName, late.PriceListIsExpired, late.TaxShare));
        Quote over = await Quoted(r => r.With(_ => r.Weighing.PriceList = "priceLists/quoting")
            .With(_ => r.Weighing.AllowExpired = true).Date = TestLists.Day(2027, 3, 1));
        Assert.Equal((true, TestLists.Day(2027, 3, 31)), (over.PriceListIsExpired, over.ValidUntil));
    }

    [Fact]
    public async Task For_several_alike_all_of_them_are_added_up()
    {
        Quote quote = await Quoted(r => r.Weighing.Quantity = 3);

        Assert.Equal(3, quote.Quantity);
        Assert.All(quote.Options, row =>
            Assert.Equal(3 * Amount(quote.Weighing.Options[row.Option].Bill.Total), Amount(row.Total)));
    }

    public static TheoryData<string, Action<MakeQuoteRequest>> Spoilt => new()
    {
        { "date", r => r.Date = null },
        { "weighing", r => r.Weighing = null },
        { "valid_days", r => r.ValidDays = 367 },
        { "customer", r => r.Customer = new string('x', 201) },
        { "boat", r => r.Boat = "a\nb" },
        { "remark", r => r.Remark = new string('x', 1001) },
        { "weighing.installation.helm", r => r.Weighing.Installation.Helm = null },
        { "weighing.quantity", r => r.Weighing.Quantity = -1 },
        { "weighing.price_list", r => r.Weighing.PriceList = "priceLists/unheard-of" },
        { "weighing.on_date", r => r.Weighing.OnDate = TestLists.Day(2026, 12, 2) },
        { "date", r => r.With(_ => r.Weighing.PriceList = "priceLists/quoting").Date = TestLists.Day(2026, 2, 30) },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task Whatever_is_wrong_is_told_by_its_field(string field, Action<MakeQuoteRequest> spoil)
    {
        MakeQuoteRequest request = Request();
        spoil(request);

        Assert.Equal([field], await ViolationsOf(service.Quoters.MakeQuoteAsync(request)));
    }

    // Nothing is 99.9 % sure here: something comes nearest, and that is not advised.
    [Fact]
    public async Task What_only_comes_nearest_is_not_called_advised()
    {
        Quote quote = await Quoted(r => (r.Weighing.Installation.EffortLimitN, r.Weighing.Confidence) = (60, 0.999));

        Assert.Equal(AdviceVerdict.NoneMeetsLimit, quote.Weighing.Advice.Verdict);
        Assert.DoesNotContain(quote.Options, option => option.Advised);
    }

    [Fact]
    public async Task Where_there_is_nothing_to_quote_it_says_why()
    {
        MakeQuoteRequest tight = Request();
        tight.Weighing.Installation.Route.Add(TestGrades.Bend(20, 0.05));
        await Refuses(tight, "nothing fits this installation");

        MakeQuoteRequest unexplained = Request();
        unexplained.Weighing.Installation.PresentCable =
            new PresentCable { MeasuredEffort = new MeasuredEffort { EffortN = 4000 } };
        await Refuses(unexplained, "Find the part at fault first");

        MakeQuoteRequest slick = Request();
        slick.Weighing.Installation.PresentCable = new PresentCable { Friction = TestGrades.Exactly(0.001) };
        await Refuses(slick, "nothing saves effort for its money");

        PriceList narrow = TestLists.New();
        narrow.ClearOtherGradesMargin();
        await service.PutAsync("narrow", narrow);
        MakeQuoteRequest unoffered = Request();
        (unoffered.Weighing.PriceList, unoffered.Weighing.OnDate) = ("priceLists/narrow", TestLists.Day(2026, 12, 1));
        unoffered.Weighing.Grades.Add("grades/g1");
        await Refuses(unoffered, "the price list offers none of these grades");

        async Task Refuses(MakeQuoteRequest request, string words)
        {
            (StatusCode code, Google.Rpc.Status status) = await FailureOf(service.Quoters.MakeQuoteAsync(request));
            Assert.Equal(StatusCode.FailedPrecondition, code);
            Assert.Equal("OPTIONS", status.GetDetail<PreconditionFailure>()!.Violations[0].Type);
            Assert.Contains(words, status.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Of_many_one_that_is_wrong_does_not_hold_up_the_others()
    {
        MakeQuoteRequest bad = Request();
        bad.Weighing.Installation.Arm = null;
        MakeQuoteRequest nothing = Request();
        nothing.Weighing.Installation.Route.Add(TestGrades.Bend(20, 0.05));
        using AsyncServerStreamingCall<MakeQuotesResponse> call =
            service.Quoters.MakeQuotes(new MakeQuotesRequest { Requests = { Request(), bad, nothing, Request() } });

        List<MakeQuotesResponse> answers = await AllOf(call);

        Assert.Equal([0, 1, 2, 3], answers.Select(answer => answer.Request));
        Assert.Equal(answers[0].Quote, answers[3].Quote);
        Assert.Equal((int)Code.InvalidArgument, answers[1].Refusal.Code);
        Assert.Equal(
            "weighing.installation.arm", answers[1].Refusal.GetDetail<BadRequest>()!.FieldViolations[0].Field);
        Assert.Equal((int)Code.FailedPrecondition, answers[2].Refusal.Code);
    }

    [Fact]
    public async Task None_at_all_is_refused()
    {
        using AsyncServerStreamingCall<MakeQuotesResponse> call = service.Quoters.MakeQuotes(new MakeQuotesRequest());

        RpcException failure = await Assert.ThrowsAsync<RpcException>(() => AllOf(call));

        Assert.Equal("requests", failure.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations[0].Field);
    }

    private static async Task<List<MakeQuotesResponse>> AllOf(AsyncServerStreamingCall<MakeQuotesResponse> call)
    {
        var all = new List<MakeQuotesResponse>();
        await foreach (MakeQuotesResponse answer in call.ResponseStream.ReadAllAsync())
        {
            all.Add(answer);
        }

        return all;
    }

    private async Task<Quote> Quoted(Action<MakeQuoteRequest> with)
    {
        MakeQuoteRequest request = Request();
        with(request);
        return await service.Quoters.MakeQuoteAsync(request);
    }

    private static MakeQuoteRequest Request() => new()
    {
        Weighing = new WeighOptionsRequest { Installation = TestGrades.Installation() },
        Date = TestLists.Day(2026, 12, 1),
        Customer = "R. Halyard",
        Boat = "Plover",
        Dealer = "Quayside",
        Remark = "Kept dry.",
    };

    private static decimal Amount(Google.Type.Money money) => money.Units + (money.Nanos / 1_000_000_000m);
}
