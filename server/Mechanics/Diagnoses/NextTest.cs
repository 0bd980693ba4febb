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
/// <param name="Outcomes">What the last weight may show, from the least force to the most.</param>
public sealed record NextTest(
    SetUp SetUp,
    IReadOnlyList<double> HangN,
    IReadOnlyList<double> StartWithN,
    double InQuestionNow,
    double InQuestionAfter,
    double ExcessSpreadNowN,
    double ExcessSpreadAfterN,
    IReadOnlyList<TestOutcome> Outcomes);

/// <summary>What the last weight of a test may show.</summary>
/// <param name="FromN">It holds there, N.</param>
/// <param name="ToN">It moves there, N; null: no force tried moves it.</param>
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
    private const int ChainsTried = 1000;

    // What one person moves safely at a grip, and hangs: 50 and 80 lbf (common practice, no source).
    private const double MostForceN = 223;
    private const double MostHungN = 356;

    // A share of a step that is nothing but rounding of units.
    private const double Rounding = 1e-6;

    // Less is no narrowing anybody would notice.
    private const double LeastGain = 0.02;

    // What is in question after one test and after the next, against each other: tried on simulated chains.
    private const double WeightOfNext = 0.75;

    /// <summary>The tests, best first.</summary>
    public static IReadOnlyList<NextTest> Of(
        DescribedChain described, PossibleChains possible, IReadOnlyList<TestedSeries> done, double stepN)
    {
        if (!possible.Any)
        {
            return [];
        }

        LoadCase load = done.Select(d => d.SetUp.LoadOnArm).OfType<LoadCase>().FirstOrDefault() ?? described.Loads[0];
        TriedChain[] tried = Resample(possible, described, load);
        double now = InQuestion(tried);
        double spreadN = ExcessSpread(tried);
        Trial[] trials =
        [
            .. SetUps(described, load)
                .Select(setUp => Best(described, setUp, done, tried, stepN, now, spreadN))
                .OfType<Trial>(),
        ];
        return [.. trials.OrderBy(trial => Cost(trial, trials, tried)).Select(trial => trial.Test)];
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
        NextTest? best = null;
        double[][] bestForces = [];
        TriedChain[][] bestGroups = [];
        foreach (double[] hangN in Weights(setUp, described, stepN).Where(hangN => !IsDone(setUp, hangN, done, stepN)))
        {
            double[][] forces = Array.ConvertAll(hangN, addedN => Forces(force, tried, addedN));
            double[] loaded = forces[^1];
            if (hangN[1] > stepN && loaded.Order().ElementAt(tried.Length / 2) > MostForceN)
            {
                break;
            }

            TriedChain[][] groups = Groups(tried, forces, stepN);
            double after = Math.Pow(2, Expected(groups, InQuestionBits));
            if (best is null || after < best.InQuestionAfter - (LeastGain / 2))
            {
                best = new NextTest(setUp, hangN, [], now, after, spreadN, spreadN, []);
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
            StartWithN = Array.ConvertAll(bestForces, forces => Math.Max(0, (Bracket(forces.Min(), stepN) - 1) * stepN)),
            ExcessSpreadAfterN = Math.Sqrt(Expected(bestGroups, ExcessVariance)),
            Outcomes = Outcomes(tried, atHeaviest, stepN),
        };
        return new Trial(test, Array.ConvertAll(atHeaviest, forceN => Bracket(forceN, stepN)));
    }

    // Bits in question after a test and, counted for more, after the best one to follow. There the bracket at the heaviest weight
    // has to do: with every bracket of two tests hardly two chains were alike, and any test would seem to settle everything.
    private static double Cost(Trial trial, Trial[] trials, TriedChain[] tried)
    {
        double next = Enumerable.Range(0, tried.Length)
            .GroupBy(i => trial.AtHeaviest[i])
            .Sum(outcome => trials.Min(follow => outcome
                .GroupBy(i => follow.AtHeaviest[i], i => tried[i])
                .Sum(group => InQuestionBits([.. group]) * group.Count())));
        return ((1 - WeightOfNext) * Math.Log2(trial.Test.InQuestionAfter)) + (WeightOfNext * next / tried.Length);
    }

    // Five weights cost little more than two once the parts are apart, and five brackets tell far more.
    private static IEnumerable<double[]> Weights(SetUp setUp, DescribedChain described, double stepN)
    {
        double mostN = Math.Min(
            MostHungN, setUp.CoreDirection is { } direction ? described.RatedN(direction) ?? MostHungN : MostHungN);
        return new[] { 1, 2, 3, 4 }
            .Where(steps => steps == 1 || 4 * steps * stepN <= mostN)
            .Select(steps => new[] { 0, 1, 2, 3, 4 }.Select(i => i * steps * stepN).ToArray());
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

    private static int Bracket(double forceN, double stepN) => forceN < 1e6 ? (int)(forceN / stepN) : int.MaxValue;

    // Those that show the same brackets stay together: split by the bracket at one weight after the other.
    private static TriedChain[][] Groups(TriedChain[] tried, double[][] forces, double stepN)
    {
        int[] group = new int[tried.Length];
        foreach (double[] atWeight in forces)
        {
            var numbers = new Dictionary<(int Group, int Bracket), int>();
            for (int i = 0; i < group.Length; i++)
            {
                (int, int) key = (group[i], Bracket(atWeight[i], stepN));
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
    private static List<TestOutcome> Outcomes(TriedChain[] tried, double[] loaded, double stepN)
    {
        var outcomes = new List<(int From, int To, Fault? Leading, List<TriedChain> Members)>();
        foreach (IGrouping<int, TriedChain> bracket in tried.Zip(loaded, (one, n) => (one, Bracket(n, stepN)))
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
            o.From == int.MaxValue ? MostForceN : o.From * stepN,
            o.To == int.MaxValue ? null : (o.To + 1) * stepN,
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
        double sum = 0;
        int next = 0;
        foreach (WeightedChain one in possible.Chains)
        {
            sum += one.Weight;
            if ((next + 0.5) / ChainsTried <= sum)
            {
                double[] excessN = excess.All(one.Chain);
                var chain = new TriedChain(one.Chain, MainFault(one.Chain, excessN), excessN);
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
    private static int MainFault(PossibleChain chain, double[] excessN) =>
        chain.Faults.Count == 0 ? -1 : Array.IndexOf(excessN, excessN.Max());

    private sealed record TriedChain(PossibleChain Chain, int MainFault, double[] ExcessN);

    private sealed record Trial(NextTest Test, int[] AtHeaviest);
}
