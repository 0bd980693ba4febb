using System.Reflection;
using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Tests;

public class ArchitectureTests
{
    private static readonly Assembly Economics = typeof(Money).Assembly;

    [Fact]
    public void Economics_knows_nothing_but_the_base_library() =>
        Assert.All(
            Economics.GetReferencedAssemblies(),
            reference => Assert.Matches(@"^(System(\..+)?|netstandard|mscorlib)$", reference.Name));

    [Fact]
    public void Economics_keeps_no_state() =>
        Assert.All(
            Economics.GetTypes().Where(type => !type.Name.StartsWith('<')),
            type => Assert.All(
                type.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly),
                field => Assert.True(field.IsInitOnly || field.IsLiteral, $"{type}.{field.Name} can be changed")));

    // Money is exact. Forces, chances and values of a newton are not, and nothing else is a floating number.
    [Fact]
    public void No_other_public_constructor_takes_a_floating_number() =>
        Assert.Equal(
            ["AnswerWorth`1", "Candidate", "CostEffect", "Eligible", "FrontierStep", "Prospect", "Saving", "Triangular", "Wish", "WorthFrom"],
            Economics.GetExportedTypes()
                .Where(type => type.GetConstructors().Any(c => c.GetParameters().Any(p => p.ParameterType == typeof(double))))
                .Select(type => type.Name)
                .Order(StringComparer.Ordinal));
}
