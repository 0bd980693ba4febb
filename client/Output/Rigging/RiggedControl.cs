using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>A control with the answer of how to rig it.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Installation">The control.</param>
/// <param name="Grade">"grades/{grade}" of the cable that is rigged; empty: the present cable.</param>
internal sealed record RiggedControl(RigControlResponse Answer, Installation Installation, string Grade);
