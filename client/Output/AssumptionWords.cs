using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>What was assumed, in words.</summary>
internal static class AssumptionWords
{
    /// <summary>One assumption.</summary>
    public static string Of(Assumption assumption, Figures figures) => assumption.Kind switch
    {
        AssumptionKind.GradeCoefficients => assumption.GradeCount == 1
            ? "the grade's friction, drags and core data: nobody measured them"
            : $"friction, drags and core data of {assumption.GradeCount} grades: nobody measured them",
        AssumptionKind.RouteWobble => $"route wobble {figures.Wobble(assumption.RouteWobbleRadPerM)} (not stated)",
        AssumptionKind.HelmEfficiency => $"helm efficiency {Figures.Ratio(assumption.Efficiency)} (not stated)",
        AssumptionKind.HelmFriction => "no friction in the helm (not stated)",
        AssumptionKind.ArmEfficiency => $"arm efficiency {Figures.Ratio(assumption.Efficiency)} (not stated)",
        AssumptionKind.ArmFriction => "no friction in the driven arm (not stated)",
        AssumptionKind.CrankCentred => "half the helm's sweep to either side of perpendicular (crank at rest not stated)",
        AssumptionKind.CrankPerpendicular => "the crank perpendicular to the cable, where the effort is worst (sweep not stated)",
        AssumptionKind.PresentFriction => "the present cable's friction, stated and not measured",
        AssumptionKind.PresentDrags => "no running or seal drag in the present cable where not stated, so savings may be more",
        AssumptionKind.ExcessIsTheCables => "all the excess in the measured effort is the cable's, and friction: savings are "
            + "\"up to\" until the parts have been tested apart",
        AssumptionKind.PresentCoreUnknown => "no core stiffness and no snaking in the present cable (its core is not "
            + "described), so savings may be more",
        AssumptionKind.TurnsOppose => "bends that touch turn opposite ways (turn not stated)",
        AssumptionKind.LikelyFaults => "how likely each fault is before any reading, how bad it then is, and how far a sound "
            + "part is from its description (diagnose lists it under \"Taken as likely before any reading\")",
        AssumptionKind.ShapeUnknown => "nothing of the shape in space of a route with a bend that does not say which way it "
            + "turns, so its least bend is not known (give \"turn\" for each bend)",
        AssumptionKind.NoLabour => "no labour (not stated), so the costs are of the cable alone",
        AssumptionKind.Clearance =>
            $"{figures.ShortLength(assumption.LengthM)} of room between a new route and every obstacle (not stated)",
        AssumptionKind.ArmCentred => "half of what the arm turns to either side of perpendicular (arm at rest not stated)",
        AssumptionKind.ArmAsNow => "the arm has to turn as far as it does now (not stated)",
        AssumptionKind.NoClearancePlay => "no free play of the core in its liner (the clearance is not known)",
        AssumptionKind.NoFittingsPlay => "no play in the end fittings (not stated)",
        AssumptionKind.NoStretch => "no stretch of the cable (its axial stiffness is not known)",
        AssumptionKind.StopStiffness => $"a stop that takes {figures.Force(assumption.StiffnessNPerM / 1000)} to squeeze by "
            + $"{figures.ShortLength(0.001)} (its stiffness is not stated)",
        AssumptionKind.StopGap =>
            $"a gap of at most {figures.ShortLength(assumption.LengthM)} accepted at full throttle (not stated)",
        AssumptionKind.EvenMoment => "the load's moment on the arm is the same throughout its swing",
        AssumptionKind.SameWobble => "every other route has the wobble of the present one",
        AssumptionKind.SameFriction =>
            "the present cable rubs on other routes as it does on the present one: nobody measured it there",
        AssumptionKind.TriangularBands =>
            "chances: everything given as low, likely and high is triangular between them; friction and drags of one cable are high or low "
                + "together, loads heavy or light together, two cables by themselves",
        AssumptionKind.ServicedSound =>
            $"a serviced mechanism has an efficiency of {Figures.Ratio(assumption.Efficiency)} and no friction, where the file does not "
                + "say",
        AssumptionKind.LoadsExact => "chances: loads without a force range are just what the file says",
        AssumptionKind.MeasuredExact => "chances: the measured effort is exact, and what could not give it is ruled out",
        AssumptionKind.HiddenBendsStay =>
            "bends that the weight test says are hidden in the present route stay with it: another route is as it is described",
        _ => "something this client has no words for: it is older than the server",
    };
}
