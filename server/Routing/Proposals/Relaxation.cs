namespace CableCatalog.Routing.Proposals;

/// <summary>Something that, given up or eased by itself, makes a route possible.</summary>
public abstract record Relaxation
{
    private Relaxation()
    {
    }

    /// <summary>The task without it.</summary>
    public abstract RouteTask Of(RouteTask task);

    /// <summary>A box taken away.</summary>
    /// <param name="Index">Which, from 0.</param>
    public sealed record WithoutBox(int Index) : Relaxation
    {
        /// <inheritdoc/>
        public override RouteTask Of(RouteTask task) =>
            task with { Boxes = [.. task.Boxes.Where((_, i) => i != Index)] };
    }

    /// <summary>A clamp left out.</summary>
    /// <param name="Index">Which, from 0.</param>
    public sealed record WithoutClamp(int Index) : Relaxation
    {
        /// <inheritdoc/>
        public override RouteTask Of(RouteTask task) =>
            task with { Clamps = [.. task.Clamps.Where((_, i) => i != Index)] };
    }

    /// <summary>A smaller clearance.</summary>
    /// <param name="ClearanceM">Which, m.</param>
    public sealed record Clearance(double ClearanceM) : Relaxation
    {
        /// <inheritdoc/>
        public override RouteTask Of(RouteTask task) => task with { ClearanceM = ClearanceM };
    }

    /// <summary>A smaller least bend radius.</summary>
    /// <param name="MinBendRadiusM">Which, m.</param>
    public sealed record Radius(double MinBendRadiusM) : Relaxation
    {
        /// <inheritdoc/>
        public override RouteTask Of(RouteTask task) => task with { MinBendRadiusM = MinBendRadiusM };
    }
}
