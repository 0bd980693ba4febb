using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>A test that could be made next.</summary>
/// <param name="SetUp">What to connect.</param>
/// <param name="HangN">The weights to hang, in that order, N.</param>
/// <param name="StartWithN">For each of them the weight at the near end to start with, N: it should hold.</param>
/// <param name="InQuestionNow">How many suspects are in question for the main fault, nothing among them: two to the power of the
/// entropy, 1 where one is certain.</param>
/// <param name="InQuestionAfter">The same, as expected after the test.</param>
/// <param name="ExcessSpreadNowN">How far the excess of the suspects at the grip is uncertain, N: root of the summed variances.</param>
/// <param name="ExcessSpreadAfterN">The same, as expected after the test.</param>
/// <param name="StopAtN">More is not to be tried at the near end, N.</param>
/// <param name="Outcomes">What the last weight may show, from the least force to the most.</param>
public sealed record NextTest(
    SetUp SetUp,
    IReadOnlyList<double> HangN,
    IReadOnlyList<double> StartWithN,
    double InQuestionNow,
    double InQuestionAfter,
    double ExcessSpreadNowN,
    double ExcessSpreadAfterN,
    double StopAtN,
    IReadOnlyList<TestOutcome> Outcomes);

/// <summary>What the last weight of a test may show.</summary>
/// <param name="FromN">It holds there, N.</param>
/// <param name="ToN">It moves there, N; null: it still holds, and no more is tried.</param>
/// <param name="Probability">How likely this is.</param>
/// <param name="Leading">What is then most likely at fault; null: nothing.</param>
/// <param name="LeadingProbability">How likely that then is.</param>
public sealed record TestOutcome(double FromN, double? ToN, double Probability, Fault? Leading, double LeadingProbability);

/// <summary>Finds the test that is expected to narrow the question most, together with the best one to follow it.</summary>
/// <remarks>Each test is tried on the chains that are still possible: each gives a bracket, a step wide, at each weight; chains with
/// the same brackets stay together. The question is narrowed by the expected fall of the entropy over what is mainly at fault
/// (Lindley 1956, "On a measure of the information provided by an experiment", from memory). What a test tells at once is not
/// all: one that parts the chain in the middle lets the next tell more. So the entropy after the next test counts too, as
/// expected where the best is chosen by what the first showed.</remarks>
internal static class NextTests
{
    private const int ChainsTried = 3000;

    // Sums of brackets that are taken as one outcome, where the test after it counts.
    private const int SumsAlike = 4;

    // More than one possible chain in twenty may not pass the core's rated load.
    private const double Sure = 0.95;

    // Nine weights: five brackets tell far more than two, and nine more yet.
    private const int MostWeights = 9;

    // A share of a step that is nothing but rounding of units, a hundredth of it printed and read again.
    private const double Rounding = 0.01;

    // Less is no narrowing anybody would notice.
    private const double LeastGain = 0.02;

    // How much counts what is in question after the next test, against what is after this one: as long as nothing was taken apart,
    // and later, when few go on for long. Tried on simulated chains.
    private const double WeightOfNextAtFirst = 0.85;
    private const double WeightOfNextLater = 0.3;

    /// <summary>The tests, best first.</summary>
    public static IReadOnlyList<NextTest> Of(
        DescribedChain described, PossibleChains possible, IReadOnlyList<TestedSeries> done, LoadCase load, double stepN)
    {
        if (!possible.Any)
        {
            return [];
        }

        TriedChain[] tried = Resample(possible, described, load);
        double now = InQuestion(tried);
        double spreadN = ExcessSpread(tried);
        Trial[] trials =
        [
            .. SetUps(described, load)
                .Select(setUp => Best(described, setUp, done, tried, stepN, now, spreadN))
                .OfType<Trial>(),
        ];
        double weightOfNext = done.All(one => one.SetUp is SetUp.WholeChain) ? WeightOfNextAtFirst : WeightOfNextLater;
        return [.. trials.OrderBy(trial => Cost(trial, trials, tried, weightOfNext)).Select(trial => trial.Test)];
    }

    // From the least work to the most: of two that tell as much the first is taken.
    private static IEnumerable<SetUp> SetUps(DescribedChain described, LoadCase load)
    {
        yield return new SetUp.WholeChain(load);
        yield return new SetUp.CableOffAtArm(load.Direction);
        yield return new SetUp.ArmAlone(load);
        yield return new SetUp.HelmAlone();
        for (int i = 0; i < described.Chain.InlineDevices.Count; i++)
        {
            yield return new SetUp.DeviceAlone(i);
        }

        yield return new SetUp.CableAlone(load.Direction, null);
        double coilM = described.MinBendRadiusM
            ?? described.Chain.Route.Bends.Select(bend => bend.RadiusM).DefaultIfEmpty(0.25).Min();
        double turnRad = Math.Min(2 * Math.PI, 0.9 * described.Chain.Route.LengthM / coilM);
        if (Limits.BendAngleRad.Contains(turnRad))
        {
            yield return new SetUp.CableAlone(load.Direction, new Coil(coilM, turnRad));
        }
    }

    private static Trial? Best(
        DescribedChain described,
        SetUp setUp,
        IReadOnlyList<TestedSeries> done,
        TriedChain[] tried,
        double stepN,
        double now,
        double spreadN)
    {
        var force = new SetUpForce(described.Chain, setUp);
        var ladder = new Ladder(stepN, WeightPlan.StopAtN(setUp));
        NextTest? best = null;
        double[][] bestForces = [];
        TriedChain[][] bestGroups = [];
        foreach (double[] hangN in Weights(weightN => IsSafe(described, force, tried, weightN), stepN)
            .Where(hangN => !IsDone(setUp, hangN, done, stepN)))
        {
            double[][] forces = Array.ConvertAll(hangN, addedN => Forces(force, tried, addedN));
            TriedChain[][] groups = Groups(tried, forces, ladder);
            double after = Math.Pow(2, Expected(groups, InQuestionBits));
            if (best is null || after < best.InQuestionAfter - (LeastGain / 2))
            {
                best = new NextTest(setUp, hangN, [], now, after, spreadN, spreadN, WeightPlan.StopAtN(setUp), []);
                (bestForces, bestGroups) = (forces, groups);
            }
        }

        if (best is null || best.InQuestionAfter > now - LeastGain)
        {
            return null;
        }

        double[] atHeaviest = bestForces[^1];
        NextTest test = best with
        {
            StartWithN = Array.ConvertAll(bestForces, forces => ladder.StartN(forces.Min())),
            ExcessSpreadAfterN = Math.Sqrt(Expected(bestGroups, ExcessVariance)),
            Outcomes = Outcomes(tried, atHeaviest, ladder),
        };
        return new Trial(
            test, [.. Enumerable.Range(0, tried.Length).Select(i => bestForces.Sum(forces => ladder.Bracket(forces[i])) / SumsAlike)]);
    }

    // Bits in question after a test and after the best one to follow. There the sum of the brackets has to do:
    // with every bracket of two tests hardly two chains were alike, and any test would seem to settle everything. What few chains
    // in a group still understate is added (Miller 1955, "Note on the bias of information estimates", from memory).
    private static double Cost(Trial trial, Trial[] trials, TriedChain[] tried, double weightOfNext)
    {
        double next = Enumerable.Range(0, tried.Length)
            .GroupBy(i => trial.Showing[i])
            .Sum(outcome => trials.Min(follow => outcome
                .GroupBy(i => follow.Showing[i], i => tried[i])
                .Sum(group => UnbiasedBits([.. group]))));
        return ((1 - weightOfNext) * Math.Log2(trial.Test.InQuestionAfter)) + (weightOfNext * next / tried.Length);
    }

    // Of all of a group.
    private static double UnbiasedBits(TriedChain[] group) =>
        (InQuestionBits(group) * group.Length) + ((group.CountBy(one => one.MainFault).Count() - 1) / (2 * Math.Log(2)));

    // A step or two apart, as many as are safe.
    private static IEnumerable<double[]> Weights(Predicate<double> isSafe, double stepN) => new[] { stepN, 2 * stepN }
        .Select(apartN => Enumerable.Range(0, MostWeights).Select(i => i * apartN).TakeWhile(weightN => isSafe(weightN)).ToArray())
        .Where(hangN => hangN.Length > 0);

    // For a person, a likely one of the chains; for the core, nearly all of them.
    private static bool IsSafe(DescribedChain described, SetUpForce force, TriedChain[] tried, double weightN)
    {
        if (weightN > WeightPlan.MostHungN || At(0.5, one => force.N(one.Chain, weightN)) > WeightPlan.StopAtN(force.SetUp))
        {
            return false;
        }

        return force.SetUp.CoreDirection is not { } direction
            || At(Sure, one => force.CoreN(one.Chain, weightN)) <= (described.RatedN(direction) ?? double.MaxValue);

        double At(double share, Func<TriedChain, double> valueN) => tried.Select(valueN).Order().ElementAt((int)(share * tried.Length));
    }

    // To do the very same again would tell no more, only give the model's error another chance.
    private static bool IsDone(SetUp setUp, double[] hangN, IReadOnlyList<TestedSeries> done, double stepN)
    {
        WeightReading[] read =
        [
            .. done.Where(one => one.SetUp == setUp)
                .SelectMany(one => one.Series.Readings)
                .Where(reading => reading.MovedN - reading.HeldN <= stepN * (1 + Rounding)),
        ];
        return hangN.All(addedN => read.Any(reading => Math.Abs(reading.AddedN - addedN) <= stepN * Rounding));
    }

    private static double[] Forces(SetUpForce force, TriedChain[] tried, double addedN) =>
        Array.ConvertAll(tried, one => force.N(one.Chain, addedN));

    // Those that show the same brackets stay together: split by the bracket at one weight after the other.
    private static TriedChain[][] Groups(TriedChain[] tried, double[][] forces, Ladder ladder)
    {
        int[] group = new int[tried.Length];
        foreach (double[] atWeight in forces)
        {
            var numbers = new Dictionary<(int Group, int Bracket), int>();
            for (int i = 0; i < group.Length; i++)
            {
                (int, int) key = (group[i], ladder.Bracket(atWeight[i]));
                if (!numbers.TryGetValue(key, out group[i]))
                {
                    numbers[key] = group[i] = numbers.Count;
                }
            }
        }

        return [.. tried.Zip(group).GroupBy(pair => pair.Second, pair => pair.First).Select(members => members.ToArray())];
    }

    private static double Expected(TriedChain[][] groups, Func<IReadOnlyList<TriedChain>, double> width) =>
        groups.Sum(group => width(group) * group.Length) / groups.Sum(group => group.Length);

    private static double InQuestion(TriedChain[] tried) => Math.Pow(2, InQuestionBits(tried));

    private static double InQuestionBits(IReadOnlyList<TriedChain> tried) => tried
        .CountBy(one => one.MainFault)
        .Select(main => (double)main.Value / tried.Count)
        .Sum(share => -share * Math.Log2(share));

    private static double ExcessSpread(TriedChain[] tried) => Math.Sqrt(ExcessVariance(tried));

    private static double ExcessVariance(IReadOnlyList<TriedChain> tried)
    {
        double sum = 0;
        for (int i = 0; i < tried[0].ExcessN.Length; i++)
        {
            double mean = tried.Average(one => one.ExcessN[i]);
            sum += tried.Average(one => (one.ExcessN[i] - mean) * (one.ExcessN[i] - mean));
        }

        return sum;
    }

    // Brackets that lead to the same suspect are one outcome.
    private static List<TestOutcome> Outcomes(TriedChain[] tried, double[] loaded, Ladder ladder)
    {
        var outcomes = new List<(int From, int To, Fault? Leading, List<TriedChain> Members)>();
        foreach (IGrouping<int, TriedChain> bracket in tried.Zip(loaded, (one, n) => (one, ladder.Bracket(n)))
            .GroupBy(pair => pair.Item2, pair => pair.one).OrderBy(group => group.Key))
        {
            Fault? leading = Leading([.. bracket]).Fault;
            if (outcomes.Count > 0 && outcomes[^1].Leading == leading)
            {
                outcomes[^1].Members.AddRange(bracket);
                outcomes[^1] = outcomes[^1] with { To = bracket.Key };
            }
            else
            {
                outcomes.Add((bracket.Key, bracket.Key, leading, [.. bracket]));
            }
        }

        return [.. outcomes.Select(o => new TestOutcome(
            o.From * ladder.StepN,
            o.To == ladder.Top ? null : (o.To + 1) * ladder.StepN,
            (double)o.Members.Count / tried.Length,
            o.Leading,
            Leading(o.Members).Probability))];
    }

    private static (Fault? Fault, double Probability) Leading(IReadOnlyList<TriedChain> tried)
    {
        double nothing = (double)tried.Count(one => one.Chain.Faults.Count == 0) / tried.Count;
        (Fault? Fault, double Probability) first = tried
            .SelectMany(one => one.Chain.Faults)
            .GroupBy(fault => fault)
            .Select(group => ((Fault?)group.Key, (double)group.Count() / tried.Count))
            .OrderByDescending(pair => pair.Item2)
            .FirstOrDefault();
        return first.Probability > nothing ? first : (null, nothing);
    }

    // At even distances along the heap of weights, so that each stands for as much of it.
    private static TriedChain[] Resample(PossibleChains possible, DescribedChain described, LoadCase load)
    {
        var tried = new TriedChain[ChainsTried];
        var excess = new ExcessOf(described, possible.Typical, load);
        List<Fault> faults = [.. Prior.Faults(described).Select(f => f.Fault)];
        double sum = 0;
        int next = 0;
        foreach (WeightedChain one in possible.Chains)
        {
            sum += one.Weight;
            if ((next + 0.5) / ChainsTried <= sum)
            {
                double[] excessN = excess.All(one.Chain);
                var chain = new TriedChain(one.Chain, MainFault(one.Chain, faults, excessN), excessN);
                for (; next < ChainsTried && (next + 0.5) / ChainsTried <= sum; next++)
                {
                    tried[next] = chain;
                }
            }
        }

        Array.Fill(tried, tried[next - 1], next, ChainsTried - next);
        return tried;
    }

    // The one of its faults that adds most; -1 where it has none.
    private static int MainFault(PossibleChain chain, List<Fault> faults, double[] excessN) =>
        chain.Faults.Count == 0 ? -1 : chain.Faults.Select(fault => faults.IndexOf(fault)).MaxBy(i => excessN[i]);

    private sealed record TriedChain(PossibleChain Chain, int MainFault, double[] ExcessN);

    // Showing: what a test shows of each chain tried, in short.
    private sealed record Trial(NextTest Test, int[] Showing);

    // Forces in steps, up to where one stops: there it only holds.
    private readonly record struct Ladder(double StepN, double StopAtN)
    {
        public int Top => (int)(StopAtN / StepN);

        public int Bracket(double forceN) => (int)Math.Min(forceN / StepN, Top);

        // A step below the first that may move it.
        public double StartN(double leastN) => Math.Max(0, Bracket(leastN) - 1) * StepN;
    }
}
