using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Cables;

/// <summary>What a march is shown of a cable, section by section from the output end.</summary>
internal interface ISectionVisitor
{
    /// <summary>Shows a section and the force at its output end, N, which is infinite once the cable has locked.</summary>
    void Visit(in Section section, double outputN);
}

/// <summary>One straight or bend of a cable as the force along it sees it: dF/ds = a F^2 + k F + w, where the first term sets in
/// with snaking.</summary>
/// <param name="LengthM">L, m.</param>
/// <param name="FrictionAngle">k L = mu (theta + phi L), without unit.</param>
/// <param name="RunningDragNPerM">w, N/m.</param>
/// <param name="SnakingRate">a = mu r/(4 EI), 1/(N m); 0 where it cannot snake.</param>
/// <param name="OnsetN">The force from which it snakes, N; infinite where it cannot.</param>
/// <param name="ShorteningPerN">What a snaking core shortens by for each newton and metre: r^2/(4 EI), 1/N.</param>
internal readonly record struct Section(
    double LengthM, double FrictionAngle, double RunningDragNPerM, double SnakingRate, double OnsetN, double ShorteningPerN)
{
    /// <summary>A section of a route for a cable in one direction.</summary>
    public static Section Of(RouteElement element, in CableCoefficients cable, Direction direction)
    {
        double frictionAngle = cable.FrictionOnRoute * (element.AngleRad + (cable.WobbleRadPerM * element.LengthM));
        if (direction != Direction.Push || cable.Core is not { } core)
        {
            return new Section(
                element.LengthM, frictionAngle, cable.RunningDragNPerM, 0, double.PositiveInfinity, 0);
        }

        double radialM = core.DiametralClearanceM / 2;
        double onsetN = element is Bend bend
            ? Snaking.OnsetInBendN(core, bend.RadiusM)
            : Snaking.OnsetInStraightN(core, element.LengthM);
        double perN = Snaking.RatePerFriction(core);
        return new Section(
            element.LengthM, frictionAngle, cable.RunningDragNPerM, cable.Friction * perN, onsetN, radialM * perN);
    }

    /// <summary>Force at its helm end, N; infinite where it locks.</summary>
    public double InputForceN(double outputN) => double.IsPositiveInfinity(OnsetN)
        ? Capstan.InputForceN(outputN, LengthM, FrictionAngle, RunningDragNPerM)
        : Snaking.InputForceN(outputN, LengthM, FrictionAngle / LengthM, RunningDragNPerM, SnakingRate, OnsetN);

    /// <summary>The largest force at its output end, N, with which that at its helm end is no more than a limit; negative where not even
    /// none is little enough.</summary>
    /// <param name="mostInputN">The limit, N; infinite: it must not lock.</param>
    public double LargestOutputN(double mostInputN) => double.IsPositiveInfinity(OnsetN)
        ? Capstan.OutputForceN(mostInputN, LengthM, FrictionAngle, RunningDragNPerM)
        : Snaking.LargestOutputN(mostInputN, LengthM, FrictionAngle / LengthM, RunningDragNPerM, SnakingRate, OnsetN);

    /// <summary>Integral of the force along it, N m, and what a snaking core shortens by, m; both infinite where it locks.</summary>
    public (double ForceNm, double ShorteningM) Integrals(double outputN)
    {
        if (double.IsPositiveInfinity(OnsetN))
        {
            return (Capstan.ForceIntegralNm(outputN, LengthM, FrictionAngle, RunningDragNPerM), 0);
        }

        (double allNm, double snakingNm) = Snaking.ForceIntegral(
            outputN, LengthM, FrictionAngle / LengthM, RunningDragNPerM, SnakingRate, OnsetN);
        return (allNm, snakingNm * ShorteningPerN);
    }
}
