using CableCatalog.Catalog.Rigging;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.Rigging;

/// <summary>Writes a rigged control as the contract has it. What is beyond any bound is left out.</summary>
internal static class RiggingWriter
{
    /// <summary>Writes a control; the catalogue's revision is the caller's to add.</summary>
    public static V1.RigControlResponse Write(RiggedControl control, Installation installation)
    {
        var written = new V1.RigControlResponse
        {
            Travel = control.Travel is { } travel ? Write(travel) : null,
            Sweeps =
            {
                control.Sweeps.Zip(installation.Loads).Select(sweep => Write(sweep.First, sweep.Second)),
            },
            Holes = { control.Holes.Select(hole => Write(hole, installation.Chain)) },
            Removals = { control.Removals.Select(removal => Write(removal, installation.Rigging.ArmLengthM)) },
            Stop = Write(control.Stop),
            Assumptions = { control.Assumptions.Select(AssumptionWriter.Write) },
            Cautions = Cautions.All(),
        };
        if (control.BestHole is { } best)
        {
            written.BestHole = control.Holes.Index().First(hole => ReferenceEquals(hole.Item, best)).Index;
        }

        return written;
    }

    private static V1.Travel Write(Travel travel)
    {
        var written = new V1.Travel
        {
            CrankTravelM = travel.CrankM,
            CableTravelM = travel.CableM,
            ClearancePlayM = travel.Lost.ClearancePlayM,
            FittingsPlayM = travel.Lost.FittingsPlayM,
            StretchM = travel.Lost.StretchM,
            OutputTravelM = travel.OutputM,
            ArmTravelM = travel.ArmM,
            Reach = travel.Reach switch
            {
                ArmReach.BothEnds => V1.ArmReach.BothEnds,
                ArmReach.FallsShort => V1.ArmReach.FallsShort,
                ArmReach.OverRuns => V1.ArmReach.OverRuns,
                _ => V1.ArmReach.NotStated,
            },
        };
        IfThere(travel.TurnedRad, rad => written.ArmSweepRad = rad);
        IfThere(travel.NeededRad, rad => written.NeededSweepRad = rad);
        IfThere(travel.ShortByRad, rad => written.ShortByRad = rad);
        return written;
    }

    private static V1.SweepCurve Write(SweepCurve? curve, LoadCase load) => new()
    {
        LoadCase = load.Name,
        Direction = ScoreWriter.Write(load.Direction),
        Points = { (curve?.Points ?? []).Select(Write) },
        Worst = curve is null ? null : Write(curve.Worst),
        StretchM = curve?.Lost.StretchM ?? 0,
    };

    private static V1.SweepPoint Write(SweepPoint point) => new()
    {
        HelmRad = point.HelmRad,
        ArmRad = point.ArmRad,
        EffortN = ScoreWriter.Write(point.EffortN),
    };

    private static V1.HoleChoice Write(HoleChoice choice, Chain chain)
    {
        var written = new V1.HoleChoice
        {
            CrankHoleM = choice.CrankHoleM,
            ArmHoleM = choice.ArmHoleM,
            InUse = HoleChoice.IsSameHole(choice.CrankHoleM, chain.Helm.CrankRadiusM)
                && HoleChoice.IsSameHole(choice.ArmHoleM, chain.Arm.HoleRadiusM),
            Verdict = choice.Verdict switch
            {
                HoleVerdict.Works => V1.HoleVerdict.Works,
                HoleVerdict.FallsShort => V1.HoleVerdict.FallsShort,
                HoleVerdict.OverRuns => V1.HoleVerdict.OverRuns,
                HoleVerdict.TravelTooLong => V1.HoleVerdict.TravelTooLong,
                HoleVerdict.OverRatedLoad => V1.HoleVerdict.OverRatedLoad,
                _ => V1.HoleVerdict.Locks,
            },
            EffortN = choice.EffortN is { } effortN ? ScoreWriter.Write(effortN) : null,
            LostMotionM = choice.LostM ?? 0,
            LostMotionRad = (choice.LostM ?? 0) / choice.ArmHoleM,
            CableTravelM = choice.Travel?.CableM ?? 0,
        };
        IfThere(choice.Travel?.TurnedRad, rad => written.ArmSweepRad = rad);
        IfThere(choice.Travel?.ShortByRad, rad => written.ShortByRad = rad);
        return written;
    }

    private static V1.DeviceRemoval Write(DeviceRemoval removal, double? armLengthM)
    {
        var written = new V1.DeviceRemoval
        {
            Device = removal.Device.Name,
            HoleRadiusM = removal.HoleM,
            EffortWithN = removal.WithN is { } withN ? ScoreWriter.Write(withN) : null,
            EffortWithoutN = removal.WithoutN is { } withoutN ? ScoreWriter.Write(withoutN) : null,
        };
        IfThere(removal.NearestHoleM, holeM => written.NearestHoleM = holeM);
        IfThere(armLengthM, lengthM => written.OnTheArm = removal.HoleM <= lengthM);
        return written;
    }

    private static V1.StopAdvice Write(PlacedStop stop)
    {
        var written = new V1.StopAdvice
        {
            Verdict = stop.Verdict switch
            {
                StopVerdict.Placed => V1.StopVerdict.Placed,
                StopVerdict.DualLever => V1.StopVerdict.DualLever,
                StopVerdict.NotReached => V1.StopVerdict.NotReached,
                _ => V1.StopVerdict.NotStated,
            },
        };
        if (stop.Placement is not { } placed)
        {
            return written;
        }

        written.CableCreepM = placed.CableCreepM;
        written.ArmCreepM = placed.ArmCreepM;
        written.LeastClearanceM = placed.LeastClearanceM;
        written.MostClearanceM = placed.MostClearanceM;
        written.Squeezes.AddRange(placed.Squeezes.Where(s => double.IsFinite(s.AddedN)).Select(squeeze => new V1.StopSqueeze
        {
            SqueezeM = squeeze.SqueezeM,
            StopForceN = squeeze.StopN,
            AddedEffortN = squeeze.AddedN,
        }));
        written.LoadCase = placed.Squeezes[^1].Load.Name;
        IfThere(stop.GapNowM, gapM => written.GapNowM = gapM);
        IfThere(stop.Now?.AddedN, addedN => written.AddedEffortNowN = addedN);
        IfThere(stop.Turns?.Least, turns => written.LeastTurns = turns);
        IfThere(stop.Turns?.Most, turns => written.MostTurns = turns);
        IfThere(stop.WindowTurns, turns => written.WindowTurns = turns);
        return written;
    }

    private static void IfThere(double? value, Action<double> write)
    {
        if (value is { } known && double.IsFinite(known))
        {
            write(known);
        }
    }
}
