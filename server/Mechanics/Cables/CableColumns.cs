using System.Runtime.Intrinsics;
using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Mechanics.Cables;

/// <summary>Many cables at one end of their bands, each property in a column of its own, so that <see cref="RouteSums"/> takes
/// eight of them at once. The columns are filled up to a whole number of eights with cables that take no force.</summary>
public sealed class CableColumns
{
    /// <summary>Lays cables out.</summary>
    /// <param name="cables">The cables.</param>
    /// <param name="end">Which end of their bands.</param>
    public CableColumns(IReadOnlyList<CableBands> cables, BandEnd end)
    {
        Friction = Column(cable => cable.Friction.At(end), 0);
        SealDragN = Column(cable => cable.SealDragN.At(end), 0);
        RunningDragNPerM = Column(cable => cable.RunningDragNPerM.At(end), 0);
        ElasticFactor = Column(cable => cable.Core is { } core ? core.BendingStiffnessNm2 / Math.Sqrt(core.DiametralClearanceM) : 0, 0);
        PerRootClearance = Column(cable => PerRoot(cable, 1), 1);
        SnakingRate = Column(
            cable => cable.Core is { } core ? cable.Friction.At(end) * Snaking.RatePerFriction(core) : 0, 0);
        MostFriction = Friction.Max();
        LeastPerRootClearance = cables.Min(cable => PerRoot(cable, double.PositiveInfinity));
        HasCores = cables.Any(cable => cable.Core is not null);

        double[] Column(Func<CableBands, double> of, double filling) => ColumnOf(cables, of, filling);

        static double PerRoot(CableBands cable, double withoutCore) =>
            cable.Core is { } core ? 1 / Math.Sqrt(core.DiametralClearanceM) : withoutCore;
    }

    /// <summary>Rows with those that fill up the last eight.</summary>
    public int Rows => Friction.Length;

    /// <summary>The largest friction of any.</summary>
    public double MostFriction { get; }

    /// <summary>Whether the core of any is known.</summary>
    public bool HasCores { get; }

    /// <summary>a = mu r/(4 EI), see <see cref="SnakingBound"/>, 1/(N m); 0 where the core is not known.</summary>
    public double[] SnakingRate { get; }

    /// <summary>mu.</summary>
    internal double[] Friction { get; }

    /// <summary>s, N.</summary>
    internal double[] SealDragN { get; }

    /// <summary>w, N/m.</summary>
    internal double[] RunningDragNPerM { get; }

    /// <summary>EI/sqrt(C), N m^1.5; 0 where the core is not known.</summary>
    internal double[] ElasticFactor { get; }

    /// <summary>1/sqrt(C), m^-0.5.</summary>
    internal double[] PerRootClearance { get; }

    /// <summary>The least 1/sqrt(C) of a core that is known, m^-0.5; infinite where none is.</summary>
    internal double LeastPerRootClearance { get; }

    /// <summary>A column of a property, filled up to a whole number of eights.</summary>
    /// <param name="things">What has the property.</param>
    /// <param name="of">The property.</param>
    /// <param name="filling">What the rows have that fill up the last eight.</param>
    public static double[] ColumnOf<T>(IReadOnlyList<T> things, Func<T, double> of, double filling)
    {
        int eight = Vector512<double>.Count;
        double[] column = new double[(things.Count + eight - 1) / eight * eight];
        Array.Fill(column, filling);
        for (int i = 0; i < things.Count; i++)
        {
            column[i] = of(things[i]);
        }

        return column;
    }
}
