using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Advising;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Frontiers;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Diagnoses;

namespace CableCatalog.Catalog.Options;

/// <summary>How sure an option is.</summary>
/// <param name="MeetChance">How likely it meets the owner's limit; null where there is none.</param>
/// <param name="ExpectedSavedN">What it saves on average over everything that is not known, N; null where the present cable may lock,
/// which has no mean.</param>
/// <param name="EffortWithinN">What its effort stays within with the confidence asked, N; null where it is off the frontier, or that is
/// beyond any figure.</param>
public sealed record SureOf(double? MeetChance, double? ExpectedSavedN, double? EffortWithinN);

/// <summary>A step up the frontier.</summary>
/// <param name="Step">The step, between options by their place.</param>
/// <param name="SavesMoreChance">How likely the dearer saves more at all.</param>
/// <param name="WorthChance">How likely it saves at least what it costs more; null where nobody says what a newton is worth.</param>
public sealed record SureStep(FrontierStep Step, double SavesMoreChance, double? WorthChance);

/// <summary>Every option of an installation on one frontier.</summary>
/// <param name="Baseline">The present cable.</param>
/// <param name="Options">Every option; the first keeps everything as it is.</param>
/// <param name="Sure">For each option how sure it is; null where it cannot be taken.</param>
/// <param name="Places">For each option where it stands to the frontier; null where it cannot be taken.</param>
/// <param name="Steps">The steps up the frontier.</param>
/// <param name="Advice">What to do; options by their place. Null where the baseline is unexplained.</param>
public sealed record OptionStudy(
    Baseline Baseline,
    IReadOnlyList<WeighedOption> Options,
    IReadOnlyList<SureOf?> Sure,
    IReadOnlyList<FrontierPlace?> Places,
    IReadOnlyList<SureStep> Steps,
    Advice<Unknown>? Advice)
{
    /// <summary>The most options that are weighed together.</summary>
    public const int MostOptions = 2000;

    // Sums of chances are no nearer, and none may pass 1.
    private const int ChanceDecimals = 9;

    /// <summary>Whether what is there now may stay, and so stands on the frontier too.</summary>
    public bool MayKeep => Baseline.IsFitToStay;

    /// <summary>The options on the frontier, the cheapest first.</summary>
    public IEnumerable<int> OnFrontier => Places.Index()
        .Where(place => place.Item is { Standing: FrontierStanding.OnFrontier })
        .Select(place => place.Index)
        .OrderBy(i => Options[i].Bill!.Total.Amount);

    /// <summary>The cheapest option that works, keeping everything among them: that likely meets the limit or, without one, likely saves;
    /// null where none does.</summary>
    public int? CheapestThatWorks => Cheapest(option => option.Limit == LimitVerdict.NoLimit
        ? option.Saving is { LikelyN: > 0 }
        : option.Limit is LimitVerdict.Meets or LimitVerdict.LikelyMeets);

    /// <summary>The re-route with the present cable and nothing else that takes the least effort; null where there is none.</summary>
    public int? BestReroute => Taken
        .Where(i => Options[i].Parts is { Grade: null, Route.IsPresent: false, Changes.Count: 0 })
        .OrderBy(i => Options[i].WorstEffortN.LikelyN)
        .Select(i => (int?)i)
        .FirstOrDefault();

    private IEnumerable<int> Taken => Enumerable.Range(0, Options.Count).Where(i => Places[i] is not null);

    /// <summary>How many options an installation has with so many grades.</summary>
    public static long CountOf(Installation installation, int grades) => OptionParts.Count(installation, grades);

    /// <summary>Weighs every option. Pure: the same installation, grades and terms give the same bits.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="baseline">Its present cable.</param>
    /// <param name="grades">The grades that may be bought; with them at most <see cref="MostOptions"/> options.</param>
    /// <param name="terms">The terms.</param>
    /// <param name="cancellation">Gives up between two options.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static OptionStudy Of(
        Installation installation,
        Baseline baseline,
        IReadOnlyCollection<CatalogGrade> grades,
        WeighingTerms terms,
        CancellationToken cancellation)
    {
        if (baseline.Basis == BaselineBasis.Unexplained)
        {
            return new OptionStudy(baseline, [], [], [], [], null);
        }

        var parallel = new ParallelOptions { CancellationToken = cancellation };
        OptionParts[] parts = [.. OptionParts.All(installation, grades)];
        var options = new WeighedOption[parts.Length];
        Parallel.For(0, parts.Length, parallel, i => options[i] = WeighedOption.Of(installation, baseline, terms, parts[i]));
        if (!baseline.IsFitToStay)
        {
            TakeOutUnseen(options);
        }

        int[] taken = [.. Enumerable.Range(0, options.Length).Where(i => options[i].Works)];
        IReadOnlyList<State> states = States.Of(installation, baseline);
        var odds = new OptionOdds(installation, baseline, states);
        var inStates = new OptionInStates[taken.Length];
        double[] meet = new double[taken.Length];
        Parallel.For(0, taken.Length, parallel, i =>
        {
            inStates[i] = odds.InStates(parts[taken[i]]);
            meet[i] = installation.EffortLimitN is { } limitN
                ? Math.Round(Math.Min(1, odds.ChanceOfAtMost(parts[taken[i]], limitN)), ChanceDecimals)
                : 1;
        });
        double[] chances = [.. states.Select(state => state.Chance)];
        Prospect[] prospects = [.. taken.Select((option, i) => new Prospect(
            options[option].Bill!.Total.Amount,
            SavedN(options[option]),
            meet[i],
            inStates[i].SavedN,
            inStates[i].MeetChance))];
        var frontier = Frontier.Of([.. prospects.Select(one => new CostEffect(one.Cost, one.LikelySavedN))]);
        Advice<Unknown> advice = Economics.Advising.Advice.Of(
            prospects,
            Array.IndexOf(taken, 0) is >= 0 and var keep ? keep : null,
            terms.WishFor(installation.EffortLimitN),
            chances,
            [.. States.Questions(states, baseline.Diagnosis is not null).Select(q => new Question<Unknown>(q.What, q.Answers))],
            terms.List?.TestCost is { } test ? test.Amount / terms.Quantity : null);
        return new OptionStudy(
            baseline,
            options,
            Spread(i => new SureOf(
                installation.EffortLimitN is null ? null : prospects[i].MeetChance,
                odds.PresentHasFigures ? Mean(inStates[i].SavedN) : null,
                taken[i] == 0 || frontier.Places[i].Standing == FrontierStanding.OnFrontier
                    ? odds.EffortWithin(parts[taken[i]], terms.Confidence)
                    : null)),
            Spread(i => (FrontierPlace?)InPlaces(frontier.Places[i])),
            [.. frontier.Steps.Select(step => SureOfStep(step))],
            advice.After(BeforeOf(baseline, advice.Option is { } chosen ? parts[taken[chosen]] : null)) with
            {
                Option = advice.Option is { } about ? taken[about] : null,
                BetterFrom = [.. advice.BetterFrom.Select(one => one with { Option = taken[one.Option] })],
            });

        double Mean(IReadOnlyList<double> of) => of.Zip(chances, (value, chance) => value * chance).Sum();

        T?[] Spread<T>(Func<int, T?> of)
        {
            var spread = new T?[options.Length];
            foreach ((int i, int option) in taken.Index())
            {
                spread[option] = of(i);
            }

            return spread;
        }

        FrontierPlace InPlaces(FrontierPlace place) => place with
        {
            By = place.By is { } by ? taken[by] : null,
            AndBy = place.AndBy is { } andBy ? taken[andBy] : null,
        };

        SureStep SureOfStep(FrontierStep step)
        {
            (int from, int to) = (taken[step.From], taken[step.To]);
            return new SureStep(
                step with { From = from, To = to },
                odds.ChanceToSaveMore(parts[from], parts[to], Saving.LeastN),
                terms.ValuePerNewton is { } value
                    ? value == 0 ? 0 : odds.ChanceToSaveMore(parts[from], parts[to], (double)(step.ExtraCost / value))
                    : null);
        }
    }

    /// <summary>Everything assumed in weighing options.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="grades">The grades that may be bought.</param>
    /// <param name="terms">The terms.</param>
    public IReadOnlyList<Assumption> AssumptionsFor(
        Installation installation, IEnumerable<CatalogGrade> grades, WeighingTerms terms)
    {
        InstallationRoutes said = installation.Routes;
        LabourRates? rates = terms.List?.Labour;
        bool reroutes = said.Others.Any(other => other.Labour is null);
        bool priced = Baseline.Basis != BaselineBasis.Unexplained;
        (AssumptionKind Kind, bool Assumed)[] of =
        [
            (AssumptionKind.NoLabour, (said.ReplaceLabour is null && rates?.ReplaceHours is null)
                || (reroutes && said.RerouteLabour is null && rates?.RerouteHours is null)),
            (AssumptionKind.SameWobble, said.Others.Count > 0),
            (AssumptionKind.SameFriction, said.Others.Count > 0 && priced),
            (AssumptionKind.ArmAsNow, installation.Changes.Any(change => change.Effect.ChangesMotion)
                && installation.Chain.Helm.Sweep is not null && installation.Rigging.Swing.NeededRad is null),
            (AssumptionKind.HiddenBendsStay, said.Others.Count > 0 && Baseline.Diagnosis is not null && priced),
            (AssumptionKind.TriangularBands, priced),
            (AssumptionKind.LoadsExact, priced && Baseline.Diagnosis is null
                && installation.Loads.Any(load => load.Governs && load.RangeN is null)),
            (AssumptionKind.MeasuredExact, Baseline.Basis == BaselineBasis.Measured),
        ];
        return
        [
            .. InstallationScore.AssumptionsFor(
                installation, Baseline, Baseline.Grade is { } own ? grades.Append(own) : grades),
            .. installation.Assumptions.Where(a => a.Kind == AssumptionKind.ServicedSound),
            .. of.Where(a => a.Assumed).Select(a => new Assumption(a.Kind)),
        ];
    }

    // What is not fit to stay is replaced whatever is at fault; and what is at fault need not be seen to before an option that does just
    // that.
    private static BeforeBuying BeforeOf(Baseline baseline, OptionParts? advised)
    {
        BeforeBuying before = InstallationScore.BeforeBuyingOf(baseline.Diagnosis);
        bool mends = before == BeforeBuying.Repair && advised is not null && Mends(advised, baseline.Diagnosis!.Suspects[0].Fault);
        return mends || !baseline.IsFitToStay ? BeforeBuying.Nothing : before;
    }

    private static bool Mends(OptionParts parts, Fault fault)
    {
        TouchedPart? part = fault.Kind switch
        {
            FaultKind.Helm => new TouchedPart(ChainPart.HelmBearing),
            FaultKind.Arm => new TouchedPart(ChainPart.ArmBearing),
            FaultKind.Device => new TouchedPart(ChainPart.Device, fault.DeviceIndex),
            _ => null,
        };
        return part is { } faulty ? parts.Changes.Any(change => change.Effect.Touches.Contains(faulty))
            : fault.Kind == FaultKind.Bends && !parts.Route.IsPresent;
    }

    // A saving beyond any figure, because the present cable locks, counts as one from the most that any hand gives.
    // Less than the grain is the rounding of two efforts, of which no step up a frontier may be made.
    private static double SavedN(WeighedOption option)
    {
        double savedN = option.Saving!.Value.LikelyN;
        return Math.Round(
            double.IsFinite(savedN) ? savedN : Limits.EffortN.Most - option.WorstEffortN.LikelyN, Saving.Decimals);
    }

    // Nobody replaces one cable that may lock by another, as long as there is one that is known not to.
    private static void TakeOutUnseen(WeighedOption[] options)
    {
        if (!options.Any(option => option is { Works: true, MayLockUnseen: false }))
        {
            return;
        }

        foreach ((int i, WeighedOption option) in options.Index().Where(o => o.Item is { Works: true, MayLockUnseen: true }).ToArray())
        {
            options[i] = option with { Problems = [new OptionProblem.MayLockUnseen()], Saving = null };
        }
    }

    private int? Cheapest(Func<WeighedOption, bool> works) => Taken
        .Where(i => works(Options[i]))
        .OrderBy(i => Options[i].Bill!.Total.Amount)
        .ThenBy(i => Options[i].WorstEffortN.LikelyN)
        .Select(i => (int?)i)
        .FirstOrDefault();
}
