using System.Reflection;
using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Tests;

public class ArchitectureTests
{
    private static readonly Assembly Routing = typeof(RouteInSpace).Assembly;

    [Fact]
    public void Routing_knows_mechanics_and_three_libraries_of_mathematics_only() =>
        Assert.All(
            Routing.GetReferencedAssemblies(),
            reference => Assert.Matches(
                @"^(System(\..+)?|CableCatalog\.Mechanics|MathNet\.Numerics|QuikGraph|Silk\.NET\.Maths)$", reference.Name));

    [Fact]
    public void Routing_keeps_no_state() =>
        Assert.All(
            Routing.GetTypes().Where(type => !type.Name.StartsWith('<')),
            type => Assert.All(
                type.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly),
                field => Assert.True(field.IsInitOnly || field.IsLiteral, $"{type}.{field.Name} can be changed")));
}
