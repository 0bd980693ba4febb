namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>A test of many random inputs that takes minutes: run where CABLECATALOG_FUZZ_INPUTS says how many.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class RandomInputsAttribute : TheoryAttribute
{
    public RandomInputsAttribute() => Skip =
        Environment.GetEnvironmentVariable("CABLECATALOG_FUZZ_INPUTS") is null ? "set CABLECATALOG_FUZZ_INPUTS to run it" : null!;
}
