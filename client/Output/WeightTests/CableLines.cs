using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>What a cable itself does, a sentence a line.</summary>
internal static class CableLines
{
    /// <summary>The sentences; none where nothing is said of the cable.</summary>
    public static IEnumerable<string> Of(CableBehaviour? cable)
    {
        if (cable is null)
        {
            yield break;
        }

        yield return WeightTestWords.Friction(cable);
        if (WeightTestWords.ExtraBend(cable) is { Length: > 0 } bend)
        {
            yield return bend;
        }

        if (cable.FrictionOfPossibleChains is { } possible)
        {
            yield return "Whatever part is at fault, its friction is "
                + $"{WeightTestWords.Interval(possible, Figures.Ratio)} in everything that gives the readings.";
        }
    }
}
