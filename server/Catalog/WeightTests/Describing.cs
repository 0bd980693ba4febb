using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Diagnoses;

namespace CableCatalog.Catalog.WeightTests;

/// <summary>An installation as the weight tests see it.</summary>
public static class Describing
{
    /// <summary>The chain as described, with the cable that is or was fitted.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="grade">The grade of the cable; null: what the installation states of its present cable, and where it states no
    /// friction, that of any sound cable.</param>
    public static DescribedChain Of(Installation installation, CatalogGrade? grade)
    {
        PresentCable present = installation.Present;
        CableBands bands = grade?.Grade.Bands ?? new CableBands(
            present.Friction ?? Prior.AnySoundFriction, present.SealDragN, present.RunningDragNPerM, present.Core);
        return new DescribedChain(
            installation.Chain,
            installation.Loads,
            installation.WobbleRadPerM,
            bands,
            grade?.Grade.Ratings.MinBendRadiusM,
            grade?.Grade.Ratings.RatedPullN,
            grade?.Grade.Ratings.RatedPushN);
    }
}
