using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.WeightTests;

/// <summary>What was or is to be connected, in the fields that the contract has for it.</summary>
/// <param name="Connected">What.</param>
/// <param name="LoadCase">The load on the arm; empty where none is.</param>
/// <param name="Direction">What the core carries; unspecified where none moves.</param>
/// <param name="InlineDevice">Which device; empty where none is alone.</param>
internal readonly record struct WrittenSetUp(
    V1.Connected Connected, string LoadCase, V1.Direction Direction, string InlineDevice);

/// <summary>Writes set-ups and faults as those of the contract.</summary>
internal static class SetUpWriter
{
    /// <summary>Writes a set-up.</summary>
    public static WrittenSetUp Write(SetUp setUp, Chain chain) => new(
        setUp switch
        {
            SetUp.WholeChain => V1.Connected.WholeChain,
            SetUp.CableOffAtArm => V1.Connected.CableOffAtArm,
            SetUp.HelmAlone => V1.Connected.HelmAlone,
            SetUp.CableAlone => V1.Connected.CableAlone,
            SetUp.ArmAlone => V1.Connected.ArmAlone,
            SetUp.DeviceAlone => V1.Connected.InlineDeviceAlone,
            _ => throw new InvalidOperationException($"no word in the contract for {setUp}"),
        },
        setUp.LoadOnArm?.Name ?? "",
        setUp.CoreDirection is { } direction ? ScoreWriter.Write(direction) : V1.Direction.Unspecified,
        setUp is SetUp.DeviceAlone device ? DeviceName(chain, device.Index) : "");

    /// <summary>The name of an inline device; empty for the index of none.</summary>
    public static string DeviceName(Chain chain, int index) => index < 0 ? "" : chain.InlineDevices[index].Name;

    /// <summary>Writes a kind of fault.</summary>
    public static V1.FaultKind Write(FaultKind kind) => kind switch
    {
        FaultKind.Liner => V1.FaultKind.Liner,
        FaultKind.Bends => V1.FaultKind.Bends,
        FaultKind.Device => V1.FaultKind.InlineDevice,
        FaultKind.Arm => V1.FaultKind.Arm,
        FaultKind.Helm => V1.FaultKind.Helm,
        FaultKind.Stop => V1.FaultKind.Stop,
        _ => V1.FaultKind.Load,
    };
}
