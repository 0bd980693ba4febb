using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace CableCatalog.Mechanics.Cables;

/// <summary>Sums of powers, eight at a time.</summary>
/// <remarks>In place of exponentials too: eight lanes are handed to a call, and back, over the stack, which is aligned for two, so that
/// the same call takes longer on one thread than on another. The last digits differ between machines: for bounds and shortlists only; what
/// is answered is marched (<see cref="SideBySide"/>).</remarks>
internal static class PowerSeries
{
    /// <summary>The sum of c_n x^n, the even terms and the odd ones apart: a sum waits for the one before it.</summary>
    /// <param name="terms">c_0 to the last, an even number of them.</param>
    /// <param name="x">The x of each.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Of(double[] terms, Vector512<double> x)
    {
        Vector512<double> squared = x * x;
        (Vector512<double> even, Vector512<double> odd) = (Vector512<double>.Zero, Vector512<double>.Zero);
        for (int n = terms.Length - 2; n >= 0; n -= 2)
        {
            odd = Vector512.MultiplyAddEstimate(odd, squared, Vector512.Create(terms[n + 1]));
            even = Vector512.MultiplyAddEstimate(even, squared, Vector512.Create(terms[n]));
        }

        return Vector512.MultiplyAddEstimate(odd, x, even);
    }
}
