using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A plan of a first weight test for people: what to heed, what to hang, what it tells, how to write it down.</summary>
internal sealed class PlanTable(
    PlanWeightTestResponse plan, Installation installation, string installationFile, Figures figures)
{
    /// <summary>Draws it; what to heed comes before anything that is to be done.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine($"{installation.DisplayName}: a first weight test, with everything connected");
        Paragraphs.List(console, "Before anything is hung:", plan.Cautions.InFull);
        console.WriteLine();
        console.WriteLine(
            "At each step hang the weight at the arm's load radius, beside the load that is there. Hang on the grip what to "
                + $"start with: it should hold. Go up by {WeightTestWords.Weight(plan.WeightStepN, figures)} at a time until "
                + $"the grip moves, and stop at {WeightTestWords.MostByHand(figures)} whatever it does. Write down the most that "
                + $"held and the least that moved it. {WeightTestWords.HowToHang(Connected.WholeChain)}");
        console.WriteLine(
            "The order is nothing hung, then the heaviest, then those between, so that a test cut short still shows the slope.");
        Paragraphs.Line(console, WeightTestWords.CoarseStep(plan, figures));
        foreach (PlannedSeries series in plan.PlannedSeries)
        {
            console.WriteLine();
            new PlannedSeriesTable(series, figures).Draw(console);
        }

        console.WriteLine();
        console.WriteLine(
            "What the slope tells: friction multiplies, so what rubs shows in how steeply the effort rises with the weight, and "
                + "what drags alike under any load shows in the effort with nothing hung. A neglected control can show five to "
                + "six pounds at the hand for each pound at the load, where a good cable on a good route shows about two "
                + "(common practice, no source).");
        console.WriteLine();
        console.WriteLine("To write it down, copy this into a file, fill in what held and what moved, and give it to diagnose:");
        console.WriteLine();
        TestFileSkeleton.Write(console.Profile.Out.Writer, plan, installationFile, figures);
        Paragraphs.List(console, "Assumed, not measured:", plan.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
    }
}
