using CsCheck;
using Xunit.Sdk;

namespace CableCatalog.Testing;

/// <summary>Holds a law against generated cases, the same ones on every run.</summary>
/// <remarks>CsCheck's own Sample uses its seed for the first case alone and spreads the rest over threads, so that no two
/// runs are alike; here one seeded generator makes every case.</remarks>
internal static class Law
{
    /// <summary>Runs a law on a number of cases.</summary>
    /// <exception cref="XunitException">A case breaks the law: which, with the failure inside.</exception>
    public static void Holds<T>(Gen<T> cases, ulong seed, int count, Action<T> law)
    {
        var random = new PCG(1, seed);
        for (int i = 0; i < count; i++)
        {
            T one = cases.Generate(random, null, out _);
            try
            {
                law(one);
            }
            catch (Exception failure)
            {
                throw new XunitException($"case {i} of seed {seed}: {failure.Message}", failure);
            }
        }
    }
}
