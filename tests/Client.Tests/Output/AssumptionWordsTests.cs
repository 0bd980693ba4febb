using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Output;

public sealed class AssumptionWordsTests
{
    public static TheoryData<AssumptionKind> Kinds =>
        [.. Enum.GetValues<AssumptionKind>().Where(kind => kind != AssumptionKind.Unspecified)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_kind_of_assumption_has_words_of_its_own(AssumptionKind kind)
    {
        string words = AssumptionWords.Of(
            new Assumption { Kind = kind, LengthM = 0.02, StiffnessNPerM = 200_000 }, new Figures(UnitSystem.Si));
        string unknown = AssumptionWords.Of(new Assumption(), new Figures(UnitSystem.Si));
        Assert.NotEqual(unknown, words);
    }

    [Fact]
    public void Lengths_and_stiffness_are_in_the_units_asked_for()
    {
        var stiffness = new Assumption { Kind = AssumptionKind.StopStiffness, StiffnessNPerM = 200_000 };

        // By hand: 200000 N/m for 1 mm is 200 N, and 200/4.4482216152605 = 44.96 lbf.
        Assert.Contains(
            "200.0 N to squeeze by 1 mm", AssumptionWords.Of(stiffness, new Figures(UnitSystem.Si)),
            StringComparison.Ordinal);
        Assert.Contains(
            "45.0 lbf to squeeze by 0.039", AssumptionWords.Of(stiffness, new Figures(UnitSystem.Us)),
            StringComparison.Ordinal);
    }
}
