using System.Reflection;

namespace CableCatalog.Mechanics.Tests;

public class LimitsTests
{
    public static TheoryData<string> Names => [.. Ranges.Keys];

    private static readonly Dictionary<string, ValidRange> Ranges = typeof(Limits)
        .GetFields(BindingFlags.Public | BindingFlags.Static)
        .ToDictionary(field => field.Name, field => (ValidRange)field.GetValue(null)!);

    // 24 when this was written; there may be more.
    [Fact]
    public void Every_limit_is_looked_at() => Assert.True(Ranges.Count >= 24);

    [Theory]
    [MemberData(nameof(Names))]
    public void The_upper_end_is_in_and_the_next_number_is_out(string name)
    {
        ValidRange range = Ranges[name];
        Accepts(range, range.Most);
        Accepts(range, Math.BitDecrement(range.Most));
        Refuses(range, Math.BitIncrement(range.Most));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_lower_end_is_in_and_what_lies_below_is_out(string name)
    {
        ValidRange range = Ranges[name];
        Accepts(range, Math.BitIncrement(range.Least));
        Refuses(range, Math.BitDecrement(range.Least));
        Accepts(range, range.Least);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void NaN_and_the_infinities_are_refused(string name)
    {
        Refuses(Ranges[name], double.NaN);
        Refuses(Ranges[name], double.PositiveInfinity);
        Refuses(Ranges[name], double.NegativeInfinity);
    }

    private static void Accepts(ValidRange range, double value)
    {
        Assert.True(range.Contains(value));
        Assert.Equal(value, range.Require(value, "quantity"));
    }

    private static void Refuses(ValidRange range, double value)
    {
        Assert.False(range.Contains(value));
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => range.Require(value, "quantity"));
        Assert.Equal("quantity", refusal.ParamName);
        Assert.Contains(range.InWords, refusal.Message, StringComparison.Ordinal);
    }
}
