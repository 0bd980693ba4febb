namespace CableCatalog.Client.Reports.Plots;

/// <summary>A straight scale from values, from 0 up, to places on a picture, with round figures to mark it by.</summary>
/// <param name="Most">The value at its far end, above 0.</param>
/// <param name="Step">Between marks, above 0.</param>
/// <param name="Start">The place of 0.</param>
/// <param name="End">The place of <paramref name="Most"/>.</param>
internal sealed record Axis(double Most, double Step, double Start, double End)
{
    /// <summary>An axis that ends at the first mark that is not below a value.</summary>
    /// <param name="greatest">The value; where it is not above 0, 1 takes its place.</param>
    /// <param name="start">The place of 0.</param>
    /// <param name="end">The place of its end.</param>
    /// <param name="steps">At most so many steps between marks, 1 or more.</param>
    public static Axis Reaching(double greatest, double start, double end, int steps)
    {
        double reach = greatest > 0 ? greatest : 1;
        double step = RoundStep(reach / steps);
        return new Axis(Math.Ceiling((reach / step) - 1e-9) * step, step, start, end);
    }

    /// <summary>The values of the marks, 0 among them.</summary>
    public IEnumerable<double> Marks =>
        Enumerable.Range(0, (int)Math.Round(Most / Step) + 1).Select(index => index * Step);

    /// <summary>The place of a value; one past the end stands at the end, since pictures have edges.</summary>
    public double At(double value) => Start + (Math.Clamp(value / Most, 0, 1) * (End - Start));

    // 1, 2 or 5 times a power of ten, the least that is not below.
    private static double RoundStep(double least)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        return new[] { 1, 2, 5, 10 }.First(factor => factor * power >= least * (1 - 1e-9)) * power;
    }
}
