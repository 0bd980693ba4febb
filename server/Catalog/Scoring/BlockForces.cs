using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Scoring;

/// <summary>Room for the forces in the cores of a block of grades at their likely values, a row for each.</summary>
internal sealed class BlockForces
{
    /// <summary>The largest under the loads that decide the effort, N.</summary>
    public double[] GoverningN { get; } = new double[GradeBlock.Most];

    /// <summary>The largest under any load that is pulled, N; minus infinity where none is.</summary>
    public double[] PullN { get; } = new double[GradeBlock.Most];

    /// <summary>The same under any that is pushed.</summary>
    public double[] PushN { get; } = new double[GradeBlock.Most];

    /// <summary>Whether it may lock in push: all bits set, or none.</summary>
    public double[] Locks { get; } = new double[GradeBlock.Most];

    /// <summary>Whether the force may be more than what stands here, and whether it locks is not known yet: all bits set, or none.</summary>
    public double[] Untold { get; } = new double[GradeBlock.Most];
}
