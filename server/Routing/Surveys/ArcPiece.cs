using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Surveys;

/// <summary>A piece of a curve with one curvature: a straight, or an arc.</summary>
/// <param name="LengthM">Its length, m.</param>
/// <param name="LeftPerM">Curvature towards the left of the frame that it begins in, 1/m.</param>
/// <param name="UpPerM">Curvature towards the up of that frame, 1/m.</param>
/// <param name="IsStraight">Held straight: the curvature is 0 and stays so.</param>
internal readonly record struct ArcPiece(double LengthM, double LeftPerM, double UpPerM, bool IsStraight)
{
    /// <summary>Curvature, 1/m.</summary>
    public double CurvaturePerM => double.Hypot(LeftPerM, UpPerM);

    /// <summary>The angle that it turns through, rad.</summary>
    public double AngleRad => CurvaturePerM * LengthM;

    /// <summary>The same piece, straight.</summary>
    public ArcPiece Straightened => new(LengthM, 0, 0, true);

    /// <summary>The frame some way along, where it begins in a given one.</summary>
    public Frame Along(in Frame start, double distanceM)
    {
        double curvature = CurvaturePerM;
        // Under this the arc is a straight to the last bit.
        return curvature * Math.Abs(distanceM) < 1e-12
            ? start with { At = start.At + (start.Forward * distanceM) }
            : start.Around(
                ((start.Left * LeftPerM) + (start.Up * UpPerM)) / curvature, 1 / curvature, curvature * distanceM);
    }
}
