using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Parts of the effort, in words.</summary>
internal static class EffortPartWords
{
    /// <summary>One part.</summary>
    public static string Of(EffortPart part) => part switch
    {
        EffortPart.UsefulLoad => "useful load",
        EffortPart.ArmFriction => "driven arm's friction",
        EffortPart.Bends => "bends",
        EffortPart.Wobble => "wobble of the route",
        EffortPart.Drags => "running and seal drag",
        EffortPart.CoreStiffness => "core stiffness",
        EffortPart.PushBuckling => "snaking in push",
        EffortPart.InlineDevices => "inline devices",
        EffortPart.Helm => "helm's friction",
        _ => "other",
    };
}
