using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Options;

public sealed class WeighOptionsTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    // Without labour, changes or routes an option is a grade: it must be as ScoreGrades scores it.
    [Fact]
    public async Task A_grade_alone_is_as_its_score()
    {
        ScoreGradesResponse scores = await service.Scoring.ScoreGradesAsync(
            new ScoreGradesRequest { Installation = TestGrades.Installation() });
        WeighOptionsResponse answer = await WeighAsync(TestGrades.Installation());

        Assert.Equal(10, answer.Options.Count);
        Assert.True(answer.Options[0].KeepsAll);
        Assert.Equal(scores.PresentCable, answer.PresentCable);
        Assert.All(scores.GradeScores, score =>
        {
            WeighedOption option = Assert.Single(answer.Options, o => o.Grade == score.Grade);
            Assert.Equal(score.CaseEfforts, option.CaseEfforts);
            Assert.Equal(score.FitNotes, option.FitNotes);
            Assert.Equal(score.SavedN, option.SavedN);
            Assert.Equal(score.Price, option.Bill.Total);
            Assert.Equal(score.CostPerNewtonSaved, option.CostPerNewtonSaved);
            Assert.Equal(score.LimitVerdict, option.LimitVerdict);
        });
    }

    [Fact]
    public async Task The_frontier_rises_and_says_who_beats_what()
    {
        WeighOptionsResponse answer = await WeighAsync(Rich());

        int[] corners = [.. answer.Options.Index()
            .Where(o => o.Item.Standing == FrontierStanding.OnFrontier).Select(o => o.Index).OrderBy(i => Cost(answer, i))];
        Assert.Equal(corners[..^1], answer.Steps.Select(step => step.FromOption));
        Assert.Equal(corners[1..], answer.Steps.Select(step => step.ToOption));
        Assert.All(answer.Steps.Zip(answer.Steps.Skip(1)), pair =>
            Assert.True(Amount(pair.First.ExtraCostPerNewton) < Amount(pair.Second.ExtraCostPerNewton)));
        Assert.All(answer.Options, option => Assert.Equal(
            option.Standing switch
            {
                FrontierStanding.Dominated => (true, false),
                FrontierStanding.ExtendedlyDominated => (true, true),
                _ => (false, false),
            },
            (option.HasDominatedBy, option.HasDominatedWith)));
        Assert.All(answer.Options.Where(o => o.HasDominatedBy && !o.HasDominatedWith), option =>
        {
            Assert.True(Amount(option.Bill.Total) >= Cost(answer, option.DominatedBy));
            Assert.True(option.SavedN.Likely <= answer.Options[option.DominatedBy].SavedN.Likely + 1e-9);
        });
    }

    // By hand of any option: 140 for the way; the reducer out 14 and 35.
    [Fact]
    public async Task Routes_and_changes_are_options_too()
    {
        WeighOptionsResponse answer = await WeighAsync(Rich());

        Assert.Equal(2 * 10 * 4, answer.Options.Count);
        WeighedOption both = Assert.Single(answer.Options, o => o is { Route: "straighter", Grade: "" } && o.Changes.Count == 2);
        Assert.Equal(["reducer out", "longer grip"], both.Changes);
        Assert.Equal(
            [(BillItem.Labour, "straighter", 140m), (BillItem.Parts, "reducer out", 14m), (BillItem.Labour, "reducer out", 35m),
                (BillItem.Parts, "longer grip", 30m)],
            both.Bill.Lines.Select(line => (line.Item, line.About, Amount(line.Amount))));
        Assert.Equal(219, Amount(both.Bill.Total));
        Assert.Equal(0, Amount(both.Bill.Tax));
        Assert.True(answer.HasBestReroute);
        Assert.Equal(("straighter", ""), (answer.Options[answer.BestReroute].Route, answer.Options[answer.BestReroute].Grade));
    }

    [Fact]
    public async Task An_option_is_held_against_three_others()
    {
        WeighOptionsResponse answer = await WeighAsync(Rich());
        WeighedOption option = answer.Options.Last(o => o.Problems.Count == 0);

        Assert.Equal(
            [ComparedWith.Present, ComparedWith.CheapestThatWorks, ComparedWith.Reroute],
            option.Comparisons.Select(comparison => comparison.With));
        Assert.All(option.Comparisons, comparison =>
        {
            WeighedOption other = answer.Options[comparison.Option];
            Assert.Equal(Amount(option.Bill.Total) - Amount(other.Bill.Total), Amount(comparison.ExtraCost));
            Assert.Equal(
                option.SavedN.Likely - (other.KeepsAll ? 0 : other.SavedN.Likely), comparison.ExtraSavedN, 1e-9);
            Assert.Equal(
                Amount(comparison.ExtraCost) > 0 && comparison.ExtraSavedN > 0, comparison.ExtraCostPerNewton is not null);
        });
        Assert.DoesNotContain(answer.Options[0].Comparisons, comparison => comparison.With == ComparedWith.Present);
    }

    // Like options cost less together: g9 at 128 + 31.5 L + 12, from five 6 % off; L of 7 m (6.6 m of straights and bends).
    [Theory]
    [InlineData(4)]
    [InlineData(5)]
    public async Task A_price_list_takes_the_place_of_the_catalogue(int quantity)
    {
        await service.PutAsync("weighing", TestLists.New());
        var request = new WeighOptionsRequest
        {
            Installation = TestGrades.Installation(),
            Grades = { "grades/g9" },
            PriceList = "priceLists/weighing",
            OnDate = TestLists.Day(2026, 12, 1),
            Quantity = quantity,
        };
        WeighOptionsResponse answer = await service.Weighers.WeighOptionsAsync(request);
        WeighedOption option = answer.Options[1];

        decimal price = Math.Round(128m + (31.5m * (decimal)option.OrderLengthM) + 12m, 2) * (quantity == 5 ? 0.94m : 1);
        decimal cable = Math.Round(price, 2, MidpointRounding.AwayFromZero);
        Assert.Equal(
            [(BillItem.Cable, cable), (BillItem.Fittings, 4.80m), (BillItem.Labour, 63m)],
            option.Bill.Lines.Select(line => (line.Item, Amount(line.Amount))));
        decimal net = cable + 67.80m;
        decimal tax = Math.Round(net * 0.0825m, 2, MidpointRounding.AwayFromZero);
        Assert.Equal((net, tax, net + tax), (Amount(option.Bill.Net), Amount(option.Bill.Tax), Amount(option.Bill.Total)));

        // 0.33 h at 84 and 8.25 % tax: 27.72 and 2.29.
        Assert.Equal(30.01m, Amount(answer.Advice.TestCost));
    }

    [Fact]
    public async Task Advice_follows_the_limit_the_confidence_and_the_value()
    {
        WeighOptionsResponse limit = await WeighAsync(TestGrades.Installation());
        Assert.Equal(AdviceVerdict.Take, limit.Advice.Verdict);
        WeighedOption taken = limit.Options[limit.Advice.Option];
        Assert.True(taken.MeetChance >= 0.8);
        Assert.All(
            limit.Options.Where(o => Amount(o.Bill.Total) < Amount(taken.Bill.Total)), cheaper => Assert.True(cheaper.MeetChance < 0.8));

        WeighOptionsResponse surer = await WeighAsync(TestGrades.Installation(), r => r.Confidence = 0.99);
        Assert.True(Cost(surer, surer.Advice.Option) >= Cost(limit, limit.Advice.Option));
        Assert.Equal(0.99, surer.Confidence);

        WeighOptionsResponse worth = await WeighAsync(TestGrades.Installation(), r => r.ValuePerNewton = TestGrades.Usd(1000));
        Assert.Equal(worth.Options.Max(o => o.SavedN?.Likely), worth.Options[worth.Advice.Option].SavedN.Likely);
        Assert.All(worth.Steps, step => Assert.True(step.WorthChance > 0.9));

        Installation unlimited = TestGrades.Installation();
        unlimited.ClearEffortLimitN();
        WeighOptionsResponse nothing = await WeighAsync(unlimited);
        Assert.Equal((AdviceVerdict.NothingAsked, false), (nothing.Advice.Verdict, nothing.Advice.HasOption));
        Assert.All(nothing.Options, option => Assert.False(option.HasMeetChance));
        WeighOptionsResponse free = await WeighAsync(unlimited, r => r.ValuePerNewton = TestGrades.Usd(0));
        Assert.Equal((AdviceVerdict.Keep, 0), (free.Advice.Verdict, free.Advice.Option));
    }

    [Fact]
    public async Task What_measuring_is_worth_is_told_where_anything_is_in_doubt()
    {
        Installation vague = TestGrades.Installation();
        vague.PresentCable.Friction = new Band { Low = 0.05, Likely = 0.17, High = 0.4 };
        vague.LoadCases[0].ForceRangeN = new Band { Low = 100, Likely = 150, High = 190 };
        WeighOptionsResponse answer = await WeighAsync(vague, r => r.ValuePerNewton = TestGrades.Usd(0, 500_000_000));

        Assert.Equal(
            [Measured.PresentCable, Measured.Load, Measured.Both], answer.Advice.Measuring.Select(one => one.Measured));
        Assert.True(Amount(answer.Advice.Measuring[2].AtMost) >= Amount(answer.Advice.Measuring[0].AtMost));
        Assert.DoesNotContain(answer.Assumptions, a => a.Kind == AssumptionKind.LoadsExact);
        Assert.Contains(answer.Assumptions, a => a.Kind == AssumptionKind.TriangularBands);
        Assert.Empty((await WeighAsync(TestGrades.Installation())).Advice.Measuring);
    }

    [Fact]
    public async Task Where_nothing_explains_the_measured_effort_nothing_is_priced()
    {
        Installation unexplained = TestGrades.Installation();
        unexplained.PresentCable = new PresentCable { MeasuredEffort = new MeasuredEffort { EffortN = 4000 } };

        WeighOptionsResponse answer = await WeighAsync(unexplained);

        Assert.Equal(AdviceVerdict.DiagnoseFirst, answer.Advice.Verdict);
        Assert.Empty(answer.Options);
    }

    [Fact]
    public async Task The_worst_of_all_loads_in_both_directions_governs_unless_one_is_shown_only()
    {
        Installation both = TestGrades.Installation();
        both.LoadCases.Add(new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 180 });
        WeighOptionsResponse worst = await WeighAsync(both);
        Assert.Equal("lower", worst.Options[0].WorstLoadCase);

        both.LoadCases[1].ShownOnly = true;
        WeighOptionsResponse shown = await WeighAsync(both);
        Assert.Equal("raise", shown.Options[0].WorstLoadCase);
        Assert.Equal(2, shown.Options[0].CaseEfforts.Count);
        Assert.Equal(
            (await WeighAsync(TestGrades.Installation())).Options[0].WorstEffortN, shown.Options[0].WorstEffortN);
    }

    public static TheoryData<string, string, Action<WeighOptionsRequest>> Spoilt => new()
    {
        { "price_list", "which has no \"unheard-of\"", r => r.PriceList = "priceLists/unheard-of" },
        { "price_list", "must be priceLists/ and an id", r => r.PriceList = "weighing" },
        { "price_list", "was valid until 2027-02-28", r => r.OnDate = TestLists.Day(2027, 3, 1) },
        { "price_list", "is valid only from 2026-09-01", r => r.OnDate = TestLists.Day(2026, 8, 31) },
        { "on_date", "the day on which", r => r.OnDate = null },
        { "on_date", "must be a whole date", r => r.OnDate = TestLists.Day(2026, 13, 1) },
        { "quantity", "must be 1 to 1000000", r => r.Quantity = 0 },
        { "confidence", "must be 0.5 to 0.999", r => r.Confidence = 1 },
        { "value_per_newton", "must be 0 to 1000000", r => r.ValuePerNewton = TestGrades.Usd(-1) },
        { "value_per_newton.currency_code", "must be USD", r => r.ValuePerNewton = TestGrades.Usd(1).With(m => m.CurrencyCode = "EUR") },
        { "grades[0]", "must be a grade of this catalogue", r => r.Grades.Add("grades/unheard-of") },
        {
            "installation.labour.replace.currency_code",
            "must be USD",
            r => r.Installation.Labour = new Labour { Replace = TestGrades.Usd(9).With(m => m.CurrencyCode = "EUR") }
        },
        {
            "installation.changes[0].parts.currency_code",
            "must be USD",
            r => r.Installation.Changes.Add(new Change
            {
                DisplayName = "grip", GripRadiusM = 0.4, Parts = TestGrades.Usd(9).With(m => m.CurrencyCode = "EUR"),
            })
        },
        {
            "grades",
            "make 2560",
            r => r.Installation.With(i => i.Changes.Add(Enumerable.Range(0, 6).Select(n => Service(n, i))))
                .OtherRoutes.Add(Enumerable.Range(0, 3).Select(n => Straighter().With(o => o.DisplayName = $"way {n}")))
        },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task Whatever_is_wrong_is_told_by_its_field(string field, string message, Action<WeighOptionsRequest> spoil)
    {
        await service.PutAsync("weighing", TestLists.New());
        var request = new WeighOptionsRequest
        {
            Installation = TestGrades.Installation(),
            PriceList = "priceLists/weighing",
            OnDate = TestLists.Day(2026, 12, 1),
        };
        spoil(request);

        (string at, string says) = Assert.Single(await ComplaintsOf(service.Weighers.WeighOptionsAsync(request)));

        Assert.Equal(field, at);
        Assert.Contains(message, says, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_expired_list_is_used_where_that_is_asked_for()
    {
        await service.PutAsync("weighing", TestLists.New());

        WeighOptionsResponse answer = await WeighAsync(TestGrades.Installation(), r =>
            (r.PriceList, r.OnDate, r.AllowExpired) = ("priceLists/weighing", TestLists.Day(2030, 1, 1), true));

        Assert.True(Amount(answer.Options[1].Bill.Tax) > 0);
    }

    // A helm of 0.98 is not made one of 0.95 by looking after it; what is assumed of a service is listed.
    [Fact]
    public async Task A_service_of_which_nothing_is_said_makes_nothing_worse()
    {
        Installation good = TestGrades.Installation();
        (good.Helm.Efficiency, good.Helm.FrictionN) = (0.98, 0);
        good.Changes.Add(new Change { DisplayName = "service", Service = new ServicedPart { Mechanism = Mechanism.Helm } });
        good.Changes.Add(new Change { DisplayName = "reducer", Service = new ServicedPart { Device = "gear reducer" } });

        WeighOptionsResponse answer = await WeighAsync(good);

        WeighedOption now = answer.Options[0];
        WeighedOption helm = Assert.Single(answer.Options, o => o.Grade == "" && o.Changes.SequenceEqual(["service"]));
        WeighedOption reducer = Assert.Single(answer.Options, o => o.Grade == "" && o.Changes.SequenceEqual(["reducer"]));
        Assert.Equal(now.WorstEffortN, helm.WorstEffortN);

        // By hand: 0.8 and 3 N before, 0.95 and none after, at the helm end of the cable: (E 0.95/0.06 0.3) less 3, times 0.8/0.95.
        double atCrankN = now.WorstEffortN.Likely * 0.98 * 0.3 / 0.06;
        Assert.Equal((atCrankN - 3) * 0.8 / 0.95, reducer.WorstEffortN.Likely * 0.98 * 0.3 / 0.06, 1e-9);
        Assert.Contains(answer.Assumptions, a => a is { Kind: AssumptionKind.ServicedSound, Efficiency: 0.95 });
    }

    [Fact]
    public async Task Hours_need_a_rate()
    {
        Installation hours = TestGrades.Installation();
        hours.Changes.Add(new Change { DisplayName = "grip", GripRadiusM = 0.4, LabourHours = 0.5 });
        PriceList rateless = TestLists.New();
        rateless.Labour = null;
        await service.PutAsync("rateless", rateless);

        Assert.Equal(
            ["installation.changes[0].labour_hours"],
            await ViolationsOf(service.Weighers.WeighOptionsAsync(new WeighOptionsRequest { Installation = hours })));
        Assert.Equal(
            ["installation.changes[0].labour_hours"],
            await ViolationsOf(service.Weighers.WeighOptionsAsync(new WeighOptionsRequest
            {
                Installation = hours, PriceList = "priceLists/rateless", OnDate = TestLists.Day(2026, 12, 1),
            })));
        await service.PutAsync("weighing", TestLists.New());
        WeighOptionsResponse answer = await WeighAsync(hours, r =>
            (r.PriceList, r.OnDate) = ("priceLists/weighing", TestLists.Day(2026, 12, 1)));
        Assert.Equal(42m, Amount(Assert.Single(answer.Options, o => o.Grade == "" && o.Changes.Count == 1).Bill.Net));
    }

    // A list that was good when it was written, and whose grade is no longer there.
    [Fact]
    public async Task A_list_with_a_grade_that_the_catalogue_lacks_is_refused_by_name()
    {
        await service.Catalog.CreateGradeAsync(new CreateGradeRequest { GradeId = "short-lived", Grade = TestGrades.New("x", 0.1, 9) });
        PriceList list = TestLists.New();
        list.Grades.Add(new ListedGrade { Grade = "grades/short-lived", Margin = 0.1 });
        await service.PutAsync("lacking", list);
        await service.Catalog.DeleteGradeAsync(new DeleteGradeRequest { Name = "grades/short-lived" });

        (string field, string message) = Assert.Single(await ComplaintsOf(service.Weighers.WeighOptionsAsync(new WeighOptionsRequest
        {
            Installation = TestGrades.Installation(), PriceList = "priceLists/lacking", OnDate = TestLists.Day(2026, 12, 1),
        })));

        Assert.Equal("price_list", field);
        Assert.Contains("short-lived", message, StringComparison.Ordinal);
    }

    // 0.004 a metre and nothing else: 0.03 for 7 m less 90 % rounds to 0.00.
    [Fact]
    public async Task A_cable_that_would_cost_nothing_is_refused()
    {
        PriceList list = TestLists.New();
        list.Grades.Add(new ListedGrade
        {
            Grade = "grades/g1",
            OwnPrice = new OwnPrice { Base = TestGrades.Usd(0), PerMetre = TestGrades.Usd(0, 4_000_000) },
            Breaks = { new PriceBreak { FromQuantity = 2, Discount = 0.9 } },
        });
        await service.PutAsync("free", list);

        (string field, string message) = Assert.Single(await ComplaintsOf(service.Weighers.WeighOptionsAsync(new WeighOptionsRequest
        {
            Installation = TestGrades.Installation(), PriceList = "priceLists/free", OnDate = TestLists.Day(2026, 12, 1), Quantity = 2,
        })));

        Assert.Equal("price_list", field);
        Assert.Contains("g1 would cost 0.00", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_grade_that_the_list_does_not_offer_is_named_and_cannot_be_taken()
    {
        PriceList list = TestLists.New();
        list.ClearOtherGradesMargin();
        await service.PutAsync("narrow", list);

        WeighOptionsResponse answer = await WeighAsync(TestGrades.Installation(), r =>
            (r.PriceList, r.OnDate) = ("priceLists/narrow", TestLists.Day(2026, 12, 1)));

        Assert.Equal(7, answer.GradesNotOffered.Count);
        Assert.All(answer.GradesNotOffered, grade => Assert.NotNull(
            Assert.Single(Assert.Single(answer.Options, o => o.Grade == grade).Problems).NotOffered));
    }

    private async Task<WeighOptionsResponse> WeighAsync(Installation installation, Action<WeighOptionsRequest>? with = null)
    {
        var request = new WeighOptionsRequest { Installation = installation };
        with?.Invoke(request);
        return await service.Weighers.WeighOptionsAsync(request);
    }

    private static Installation Rich()
    {
        Installation installation = TestGrades.Installation();
        installation.OtherRoutes.Add(Straighter());
        installation.Changes.Add(new Change
        {
            DisplayName = "reducer out",
            TakeOut = new DeviceTakenOut { Device = "gear reducer" },
            Parts = TestGrades.Usd(14),
            Labour = TestGrades.Usd(35),
        });
        installation.Changes.Add(new Change { DisplayName = "longer grip", GripRadiusM = 0.35, Parts = TestGrades.Usd(30) });
        return installation;
    }

    private static OtherRoute Straighter() => new()
    {
        DisplayName = "straighter",
        Path = new CablePath { Elements = { TestGrades.Straight(2), TestGrades.Bend(90, 0.3), TestGrades.Straight(2) } },
        Labour = TestGrades.Usd(140),
    };

    private static Change Service(int number, Installation installation)
    {
        string device = $"device {number}";
        installation.InlineDevices.Add(installation.InlineDevices[0].Clone().With(d => d.DisplayName = device));
        return new Change { DisplayName = $"change {number}", Service = new ServicedPart { Device = device } };
    }

    private static decimal Cost(WeighOptionsResponse answer, int option) => Amount(answer.Options[option].Bill.Total);

    private static decimal Amount(Google.Type.Money money) => money.Units + (money.Nanos / 1_000_000_000m);
}
