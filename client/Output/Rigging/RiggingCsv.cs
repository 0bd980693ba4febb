using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>A rigged control for a spreadsheet or a script: a record for the travel, each point of a sweep, each choice of holes, each
/// device that could be left out, the stop and each squeeze of it. SI units, in the names of the columns.</summary>
internal static class RiggingCsv
{
    /// <summary>Writes it.</summary>
    public static void Write(TextWriter writer, RiggedControl rigged)
    {
        var records = new Records(
        [
            "record", "load_case", "direction", "verdict", "helm_rad", "arm_rad", "needed_rad", "short_by_rad",
            "effort_low_n", "effort_likely_n", "effort_high_n", "crank_hole_m", "arm_hole_m", "in_use", "recommended",
            "crank_travel_m", "cable_travel_m", "clearance_play_m", "fittings_play_m", "stretch_m", "arm_travel_m", "lost_motion_m",
            "device", "effort_without_likely_n", "arm_creep_m", "least_clearance_m", "most_clearance_m", "gap_now_m", "squeeze_m",
            "stop_force_n", "added_effort_n", "least_turns", "most_turns",
        ]);
        RigControlResponse answer = rigged.Answer;
        if (answer.Travel is { } travel)
        {
            records.Add(
                ("record", "travel"),
                ("verdict", Records.Word(travel.Reach)),
                ("crank_travel_m", travel.CrankTravelM),
                ("cable_travel_m", travel.CableTravelM),
                ("clearance_play_m", travel.ClearancePlayM),
                ("fittings_play_m", travel.FittingsPlayM),
                ("stretch_m", travel.StretchM),
                ("arm_travel_m", travel.ArmTravelM),
                ("arm_rad", travel.HasArmSweepRad ? travel.ArmSweepRad : null),
                ("needed_rad", travel.HasNeededSweepRad ? travel.NeededSweepRad : null),
                ("short_by_rad", travel.HasShortByRad ? travel.ShortByRad : null));
        }

        foreach (SweepCurve sweep in answer.Sweeps)
        {
            foreach (SweepPoint point in sweep.Points)
            {
                AddPoint(records, "sweep", sweep, point);
            }

            if (sweep.Worst is { } worst)
            {
                AddPoint(records, "worst", sweep, worst);
            }
        }

        foreach ((int index, HoleChoice hole) in answer.Holes.Index())
        {
            records.Add(
            [
                ("record", "holes"),
                ("verdict", Records.Word(hole.Verdict)),
                ("crank_hole_m", hole.CrankHoleM),
                ("arm_hole_m", hole.ArmHoleM),
                ("in_use", hole.InUse),
                ("recommended", answer.HasBestHole && index == answer.BestHole),
                ("arm_rad", hole.HasArmSweepRad ? hole.ArmSweepRad : null),
                ("short_by_rad", hole.HasShortByRad ? hole.ShortByRad : null),
                .. Records.Band("effort", "_n", hole.EffortN),
                ("cable_travel_m", hole.CableTravelM),
                ("lost_motion_m", hole.LostMotionM),
            ]);
        }

        foreach (DeviceRemoval removal in answer.Removals)
        {
            records.Add(
            [
                ("record", "removal"),
                ("device", removal.Device),
                ("arm_hole_m", removal.HoleRadiusM),
                .. Records.Band("effort", "_n", removal.EffortWithN),
                ("effort_without_likely_n", removal.EffortWithoutN is { HasLikely: true } n ? n.Likely : null),
            ]);
        }

        AddStop(records, answer.Stop);
        records.Write(writer);
    }

    private static void AddPoint(Records records, string record, SweepCurve sweep, SweepPoint point) => records.Add(
    [
        ("record", record),
        ("load_case", sweep.LoadCase),
        ("direction", Records.Word(sweep.Direction)),
        ("helm_rad", point.HelmRad),
        ("arm_rad", point.ArmRad),
        .. Records.Band("effort", "_n", point.EffortN),
    ]);

    private static void AddStop(Records records, StopAdvice stop)
    {
        bool isPlaced = stop.Verdict is StopVerdict.Placed or StopVerdict.NotReached;
        records.Add(
            ("record", "stop"),
            ("verdict", Records.Word(stop.Verdict)),
            ("load_case", stop.LoadCase),
            ("arm_creep_m", isPlaced ? stop.ArmCreepM : null),
            ("least_clearance_m", isPlaced ? stop.LeastClearanceM : null),
            ("most_clearance_m", isPlaced ? stop.MostClearanceM : null),
            ("gap_now_m", stop.HasGapNowM ? stop.GapNowM : null),
            ("added_effort_n", stop.HasAddedEffortNowN ? stop.AddedEffortNowN : null),
            ("least_turns", stop.HasLeastTurns ? stop.LeastTurns : null),
            ("most_turns", stop.HasMostTurns ? stop.MostTurns : null));
        foreach (StopSqueeze squeeze in stop.Squeezes)
        {
            records.Add(
                ("record", "squeeze"),
                ("load_case", stop.LoadCase),
                ("squeeze_m", squeeze.SqueezeM),
                ("stop_force_n", squeeze.StopForceN),
                ("added_effort_n", squeeze.AddedEffortN));
        }
    }
}
