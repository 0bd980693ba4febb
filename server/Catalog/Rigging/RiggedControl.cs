using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;

namespace CableCatalog.Catalog.Rigging;

/// <summary>How a control should be rigged, with its present cable or with a grade.</summary>
/// <param name="Travel">From the crank to the arm; null where the cable locks.</param>
/// <param name="Sweeps">Effort over the sweep in each load case; null where the cable locks under it or the arm over-runs.</param>
/// <param name="Holes">Every hole of the crank with every hole of the arm.</param>
/// <param name="BestHole">The recommended one; null where none works.</param>
/// <param name="Removals">Devices at the arm end that could be taken out.</param>
/// <param name="Stop">Where the stop belongs.</param>
/// <param name="Assumptions">What was assumed.</param>
public sealed record RiggedControl(
    Travel? Travel,
    IReadOnlyList<SweepCurve?> Sweeps,
    IReadOnlyList<HoleChoice> Holes,
    HoleChoice? BestHole,
    IReadOnlyList<DeviceRemoval> Removals,
    PlacedStop Stop,
    IReadOnlyList<Assumption> Assumptions)
{
    // Every degree or so of a lever's sweep.
    private const int SweepPoints = 61;

    /// <summary>Rigs a control whose helm's sweep is known.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="baseline">Its present cable, which is not unexplained where it is the one to rig.</param>
    /// <param name="grade">The grade to rig; null: the present cable.</param>
    /// <param name="cancellation">Gives up between two choices of holes.</param>
    public static RiggedControl Of(
        Installation installation, Baseline baseline, CatalogGrade? grade, CancellationToken cancellation)
    {
        ControlRigging rigging = installation.Rigging;
        CatalogGrade? rigged = grade ?? baseline.Grade;
        RiggedCable cable = CableOf(installation, baseline, grade);
        Chain chain = installation.Chain;
        HoleChoice[] holes = [.. HoleChoice.All(
            chain,
            rigging.Swing,
            cable,
            rigged?.Grade.Ratings,
            installation.Loads,
            OrInUse(rigging.CrankHolesM, chain.Helm.CrankRadiusM),
            OrInUse(rigging.ArmHolesM, chain.Arm.HoleRadiusM),
            cancellation)];
        PlacedStop stop = PlacedStop.Of(installation, cable);
        return new RiggedControl(
            Travel.Of(chain, rigging.Swing, cable, installation.Loads),
            [.. installation.Loads.Select(load => SweepCurve.Of(chain, rigging.Swing, cable, load, SweepPoints))],
            holes,
            HoleChoice.Best(holes),
            DeviceRemoval.All(
                chain,
                rigging.Swing,
                cable,
                installation.Loads,
                rigging.ArmHolesM,
                rigging.DevicesWithLever.Select(i => chain.InlineDevices[i]).Where(device => device.At == CableEnd.Arm)),
            stop,
            AssumptionsFor(installation, baseline, grade, cable, stop));
    }

    private static IReadOnlyList<double> OrInUse(IReadOnlyList<double> holesM, double inUseM) =>
        holesM.Count > 0 ? [.. holesM.Order()] : [inUseM];

    /// <summary>The cable to rig. One whose friction was measured has it at the likely wobble: more of the one is less of the other.
    /// </summary>
    internal static RiggedCable CableOf(Installation installation, Baseline baseline, CatalogGrade? grade)
    {
        double playM = installation.Rigging.FittingsPlayM ?? 0;
        if ((grade ?? (baseline.Basis == BaselineBasis.Predicted ? baseline.Grade : null))?.Grade is { } known)
        {
            return new RiggedCable(known.Bands, installation.WobbleRadPerM, known.AxialStiffnessN, playM);
        }

        PresentCable present = installation.Present;
        double? axialN = baseline.Grade is { } own ? own.Grade.AxialStiffnessN : present.AxialStiffnessN;
        if (baseline.Basis == BaselineBasis.Predicted)
        {
            var bands = new CableBands(present.Friction ?? default, present.SealDragN, present.RunningDragNPerM, present.Core);
            return new RiggedCable(bands, installation.WobbleRadPerM, axialN, playM);
        }

        CableCoefficients likely = baseline.Likely!.Value;
        return new RiggedCable(
            new CableBands(
                Band.Exactly(likely.FrictionOnRoute),
                Band.Exactly(likely.SealDragN),
                Band.Exactly(likely.RunningDragNPerM),
                likely.Core),
            Band.Exactly(likely.WobbleRadPerM),
            axialN,
            playM);
    }

    private static Assumption[] AssumptionsFor(
        Installation installation, Baseline baseline, CatalogGrade? grade, RiggedCable cable, PlacedStop stop)
    {
        CatalogGrade[] grades = (grade ?? baseline.Grade) is { } rigged ? [rigged] : [];
        ControlRigging rigging = installation.Rigging;
        (AssumptionKind Kind, bool Assumed)[] of =
        [
            (AssumptionKind.EvenMoment, true),
            (AssumptionKind.ArmCentred, rigging.Swing.AtRestRad is null),
            (AssumptionKind.ArmAsNow, rigging.Swing.NeededRad is null),
            (AssumptionKind.NoClearancePlay, cable.Bands.Core is null),
            (AssumptionKind.NoFittingsPlay, rigging.FittingsPlayM is null),
            (AssumptionKind.NoStretch, cable.AxialStiffnessN is null),
        ];
        return
        [
            .. InstallationScore.AssumptionsFor(installation, baseline, grades).Where(a => grade is null || !IsOfPresent(a.Kind)),
            .. of.Where(a => a.Assumed).Select(a => new Assumption(a.Kind)),
            .. stop.Assumptions,
        ];
    }

    private static bool IsOfPresent(AssumptionKind kind) => kind is AssumptionKind.PresentFriction or AssumptionKind.PresentDrags
        or AssumptionKind.PresentCoreUnknown or AssumptionKind.ExcessIsTheCables;
}
