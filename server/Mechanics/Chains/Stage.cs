namespace CableCatalog.Mechanics.Chains;

/// <summary>What a mechanism makes of a force on its way to the hand: F &lt;- gain F + drag.</summary>
/// <remarks>Statics of levers: the gain is the lever or force ratio over the efficiency, the drag the constant friction on the
/// hand's side. A cable that is pulled is such a stage too.</remarks>
/// <param name="Gain">Newtons on the hand's side for each on the load's.</param>
/// <param name="DragN">Newtons on the hand's side with no load.</param>
public readonly record struct Stage(double Gain, double DragN)
{
    /// <summary>The force on its hand's side, N.</summary>
    public double InputN(double outputN) => (outputN * Gain) + DragN;

    /// <summary>This and then another, as one.</summary>
    public Stage Then(Stage next) => new(next.Gain * Gain, next.InputN(DragN));

    /// <summary>The helm lever at an angle into its sweep; without a sweep the crank is perpendicular.</summary>
    public static Stage Of(Helm helm, double intoSweepRad)
    {
        double crankFactor = helm.Sweep is { } sweep ? Math.Cos(sweep.FromRad + intoSweepRad) : 1;
        return new Stage(helm.CrankRadiusM / helm.GripRadiusM * crankFactor / helm.Efficiency, helm.FrictionN);
    }

    /// <summary>The helm lever where the sweep makes it worst.</summary>
    public static Stage Of(Helm helm) => Of(helm, helm.Sweep?.WorstAtRad ?? 0);

    /// <summary>An inline device.</summary>
    public static Stage Of(InlineDevice device) => new(device.ForceRatio / device.Efficiency, device.DragN);

    /// <summary>The driven arm.</summary>
    public static Stage Of(Arm arm) => new(arm.LoadRadiusM / arm.HoleRadiusM / arm.Efficiency, arm.FrictionN);
}
