using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Chains;

/// <summary>The helm lever.</summary>
/// <param name="GripRadiusM">From pivot to grip, m.</param>
/// <param name="CrankRadiusM">From pivot to where the cable attaches, m.</param>
/// <param name="Efficiency">Work out over work in, the constant friction apart.</param>
/// <param name="FrictionN">Constant friction at the grip, N.</param>
/// <param name="Sweep">Where the crank moves; null: it is taken as perpendicular to the cable.</param>
public sealed record Helm(double GripRadiusM, double CrankRadiusM, double Efficiency, double FrictionN, CrankSweep? Sweep);

/// <summary>The driven arm.</summary>
/// <param name="LoadRadiusM">From pivot to where the load acts, m.</param>
/// <param name="HoleRadiusM">From pivot to where the cable attaches, m.</param>
/// <param name="Efficiency">Work out over work in, the constant friction apart.</param>
/// <param name="FrictionN">Constant friction at the cable, N.</param>
public sealed record Arm(double LoadRadiusM, double HoleRadiusM, double Efficiency, double FrictionN);

/// <summary>An end of the cable.</summary>
public enum CableEnd
{
    /// <summary>The hand's end.</summary>
    Helm,

    /// <summary>The driven arm's end.</summary>
    Arm,
}

/// <summary>A gearbox, multiplier or equaliser beside the cable: F &lt;- F rho/eta + f from its arm side to its helm
/// side.</summary>
/// <param name="Name">What the owner calls it.</param>
/// <param name="At">At which end of the cable it sits.</param>
/// <param name="ForceRatio">rho: helm-side force over arm-side force without losses. Motion scales by 1/rho.</param>
/// <param name="Efficiency">eta: work out over work in, the drag apart.</param>
/// <param name="DragN">f: drag on its helm side, N.</param>
public sealed record InlineDevice(string Name, CableEnd At, double ForceRatio, double Efficiency, double DragN);

/// <summary>A load to move.</summary>
/// <param name="Name">What the owner calls it.</param>
/// <param name="Direction">Pull or push.</param>
/// <param name="ForceN">Q: the load at the arm's load radius, N, >= 0.</param>
public sealed record LoadCase(string Name, Direction Direction, double ForceN)
{
    /// <summary>How well the load is known, N, with <see cref="ForceN"/> the likely; null where it is taken as it is. Bands of effort are at
    /// the likely load; odds count all of it.</summary>
    public Band? RangeN { get; init; }

    /// <summary>The load at the most that it may be; null where it is taken as it is.</summary>
    public LoadCase? Heaviest => RangeN is { } range ? this with { ForceN = range.High } : null;

    /// <summary>Whether the effort under it decides, and is not only shown and checked.</summary>
    public bool Governs { get; init; } = true;
}

/// <summary>Everything between the hand and the load but the cable itself.</summary>
/// <param name="Helm">The helm lever.</param>
/// <param name="Route">The cable's route.</param>
/// <param name="InlineDevices">In order from the helm to the arm.</param>
/// <param name="Arm">The driven arm.</param>
public sealed record Chain(Helm Helm, CableRoute Route, IReadOnlyList<InlineDevice> InlineDevices, Arm Arm)
{
    /// <summary>The same with the cable along another route.</summary>
    public Chain Along(CableRoute route) => ReferenceEquals(route, Route) ? this : this with { Route = route };

    /// <summary>The same with the cable through other holes of the crank and of the arm, m.</summary>
    public Chain Through(double crankHoleM, double armHoleM) => this with
    {
        Helm = Helm with { CrankRadiusM = crankHoleM },
        Arm = Arm with { HoleRadiusM = armHoleM },
    };

    /// <summary>How far the arm turns for a small turn of the lever, both perpendicular to the cable.</summary>
    public double ArmTurnPerHelmTurn => InlineDevices.Aggregate(
        Helm.CrankRadiusM / Arm.HoleRadiusM, (ratio, device) => ratio * device.ForceRatio);

    /// <summary>The same without one of its inline devices.</summary>
    public Chain Without(InlineDevice device) =>
        this with { InlineDevices = [.. InlineDevices.Where(other => !ReferenceEquals(other, device))] };
}
