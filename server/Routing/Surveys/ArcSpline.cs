using CableCatalog.Routing.Space;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Surveys;

/// <summary>A curve of straights and arcs, each tangent to the next, as they lie in space.</summary>
internal sealed class ArcSpline
{
    private readonly Frame[] frames;
    private readonly double[] startsM;

    public ArcSpline(Frame start, IReadOnlyList<ArcPiece> pieces)
    {
        Pieces = pieces;
        frames = new Frame[pieces.Count + 1];
        startsM = new double[pieces.Count + 1];
        frames[0] = start;
        for (int j = 0; j < pieces.Count; j++)
        {
            frames[j + 1] = pieces[j].Along(frames[j], pieces[j].LengthM);
            startsM[j + 1] = startsM[j] + pieces[j].LengthM;
        }
    }

    public IReadOnlyList<ArcPiece> Pieces { get; }

    /// <summary>The frame before each piece, and after the last.</summary>
    public IReadOnlyList<Frame> Frames => frames;

    /// <summary>How far along each piece begins, m; the last is the whole length.</summary>
    public IReadOnlyList<double> StartsM => startsM;

    public double LengthM => startsM[^1];

    /// <summary>The piece at a distance along the curve.</summary>
    public int PieceAt(double distanceM)
    {
        int found = Array.BinarySearch(startsM, distanceM);
        return Math.Clamp(found < 0 ? ~found - 1 : found, 0, Pieces.Count - 1);
    }

    /// <summary>The frame at a distance along the curve, within its length.</summary>
    public Frame At(double distanceM)
    {
        int piece = PieceAt(distanceM);
        return Pieces[piece].Along(frames[piece], distanceM - startsM[piece]);
    }

    /// <summary>How far along the point of the curve lies that is nearest to a given one, near a first guess, m.</summary>
    /// <remarks>Newton's method, kept near the guess: a curve that passes the point twice is not left for its other
    /// pass.</remarks>
    public double FootM(Vec point, double guessM)
    {
        double footM = Math.Clamp(guessM, 0, LengthM);
        for (int i = 0; i < 4; i++)
        {
            int piece = PieceAt(footM);
            Frame frame = Pieces[piece].Along(frames[piece], footM - startsM[piece]);
            Vec off = point - frame.At;
            Vec bend = (frame.Left * Pieces[piece].LeftPerM) + (frame.Up * Pieces[piece].UpPerM);
            double step = Vector3D.Dot(off, frame.Forward) / Math.Max(0.25, 1 - Vector3D.Dot(off, bend));
            footM = Math.Clamp(footM + step, 0, LengthM);
        }

        return footM;
    }
}
