using System.Reflection;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Tests;

public class ArchitectureTests
{
    private static readonly Assembly Mechanics = typeof(Limits).Assembly;

    // Constructors that promise to refuse: each with arguments that are good.
    private static readonly (Type Type, object?[] Good)[] Refusing =
    [
        (typeof(Band), [0.1, 0.2, 0.3]),
        (typeof(Straight), [1.0]),
        (typeof(Bend), [1.0, 0.2, 1.0]),
        (typeof(CrankSweep), [-0.5, 1.0]),
        (typeof(LengthsMade), [1.0, 10.0, 0.5]),
        (typeof(WeightReading), [5.0, 24.0, 26.0]),
        (typeof(WeightSeries), [new[] { new WeightReading(5, 24, 26) }, 0.5, 0.25]),
    ];

    // Plain data: they promise nothing, whoever makes them has validated.
    private static readonly string[] PlainData =
    [
        "Arm", "ArmStop", "ArmSwing", "CableCoefficients", "CableRatings", "CaseEffort", "Coil", "Core", "CoreWouldSet",
        "DescribedChain", "DeviceRemoval", "EffortLine", "EffortRow", "Fit", "ForceBand", "Helm", "HoleChoice", "InlineDevice",
        "LengthNotMade", "LoadCase", "LocksInPush", "LongerThanNeeded", "LostMotion", "MayExceedRatedLoad", "NextTest",
        "PlannedWeight", "Range", "RatedLoadExceeded", "RiggedCable", "RouteSums", "Setting", "Spread", "Stage", "StopPlacement",
        "StopSqueeze", "Suspect", "SweepEffort", "SweepPoint", "TestOutcome", "TestedApart", "TightBend", "Travel", "TravelTooShort", "ValidRange",
        "WeightPlan",
    ];

    [Fact]
    public void Mechanics_knows_nothing_but_the_base_library() =>
        Assert.All(
            Mechanics.GetReferencedAssemblies(),
            reference => Assert.Matches(@"^(System(\..+)?|netstandard|mscorlib)$", reference.Name));

    [Fact]
    public void Mechanics_keeps_no_state() =>
        Assert.All(
            Mechanics.GetTypes().Where(type => !type.Name.StartsWith('<')),
            type => Assert.All(
                type.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly),
                field => Assert.True(field.IsInitOnly || field.IsLiteral, $"{type}.{field.Name} can be changed")));

    [Fact]
    public void Every_public_constructor_with_a_number_is_known_to_promise_or_not()
    {
        IEnumerable<string> found = Mechanics.GetExportedTypes()
            .Where(type => type.GetConstructors().Any(c => c.GetParameters().Any(IsNumber)))
            .Select(type => type.Name);
        Assert.Equal(
            Refusing.Select(r => r.Type.Name).Concat(PlainData).Order(StringComparer.Ordinal),
            found.Order(StringComparer.Ordinal));
    }

    public static TheoryData<int, int, double> EveryNumber
    {
        get
        {
            var data = new TheoryData<int, int, double>();
            foreach ((int i, (Type _, object?[] good)) in Refusing.Index())
            {
                foreach (int place in Enumerable.Range(0, good.Length).Where(place => good[place] is double))
                {
                    data.Add(i, place, double.NaN);
                    data.Add(i, place, double.PositiveInfinity);
                    data.Add(i, place, double.NegativeInfinity);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(EveryNumber))]
    public void A_constructor_that_promises_to_refuses_what_is_no_number(int constructor, int place, double bad)
    {
        (Type type, object?[] good) = Refusing[constructor];
        ConstructorInfo made = Assert.Single(type.GetConstructors(), c => c.GetParameters().Length == good.Length);
        Assert.NotNull(made.Invoke(good));
        object?[] spoilt = [.. good];
        spoilt[place] = bad;
        var thrown = Assert.Throws<TargetInvocationException>(() => made.Invoke(spoilt));
        Assert.IsAssignableFrom<ArgumentException>(thrown.InnerException);
    }

    private static bool IsNumber(ParameterInfo parameter) =>
        parameter.ParameterType == typeof(double) || parameter.ParameterType == typeof(double?);
}
