using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

/// <summary>Draws chains that are really there, by chance, evenly over what a sound one may be. All of these ranges are assumed.
/// </summary>
internal static class ChainDraw
{
    /// <summary>A chain with nothing at fault: coefficients anywhere in their bands, mechanisms that lose half to one and a half
    /// times what is described, a load off by up to a tenth.</summary>
    public static SimulatedChain Sound(DescribedChain described, Random random)
    {
        Chain chain = described.Chain;
        CableBands bands = described.Cable;
        return new SimulatedChain(
            chain with
            {
                Helm = chain.Helm with { Efficiency = Efficiency(chain.Helm.Efficiency), FrictionN = Drag(chain.Helm.FrictionN) },
                InlineDevices = [.. chain.InlineDevices.Select(
                    device => device with { Efficiency = Efficiency(device.Efficiency), DragN = Drag(device.DragN) })],
                Arm = chain.Arm with { Efficiency = Efficiency(chain.Arm.Efficiency), FrictionN = Drag(chain.Arm.FrictionN) },
            },
            new CableCoefficients(
                In(bands.Friction), In(described.WobbleRadPerM), In(bands.SealDragN), In(bands.RunningDragNPerM), bands.Core),
            Evenly(0.9, 1.1));

        double Evenly(double least, double most) => least + ((most - least) * random.NextDouble());
        double In(Band band) => Evenly(band.Low, band.High);
        double Efficiency(double likely) => 1 - ((1 - likely) * Evenly(0.5, 1.5));
        double Drag(double likelyN) => likelyN * Evenly(0.5, 1.5);
    }

    /// <summary>The chain with its efficiency of one mechanism at a value.</summary>
    public static SimulatedChain WithEfficiency(SimulatedChain chain, FaultKind of, double efficiency) => chain with
    {
        Chain = of switch
        {
            FaultKind.Helm => chain.Chain with { Helm = chain.Chain.Helm with { Efficiency = efficiency } },
            FaultKind.Arm => chain.Chain with { Arm = chain.Chain.Arm with { Efficiency = efficiency } },
            _ => chain.Chain with { InlineDevices = [chain.Chain.InlineDevices[0] with { Efficiency = efficiency }] },
        },
    };

    /// <summary>The chain with more constant friction in one mechanism.</summary>
    public static SimulatedChain WithFriction(SimulatedChain chain, FaultKind of, double addedN)
    {
        Chain sound = chain.Chain;
        return chain with
        {
            Chain = of switch
            {
                FaultKind.Helm => sound with { Helm = sound.Helm with { FrictionN = sound.Helm.FrictionN + addedN } },
                FaultKind.Arm => sound with { Arm = sound.Arm with { FrictionN = sound.Arm.FrictionN + addedN } },
                _ => sound with { InlineDevices = [sound.InlineDevices[0] with { DragN = sound.InlineDevices[0].DragN + addedN }] },
            },
        };
    }

    /// <summary>The chain whose second bend rubs as if it were so many times its angle, as long as it was and no tighter: the arc that is
    /// more is taken from the straight beyond it.</summary>
    public static SimulatedChain WithRoughBend(SimulatedChain chain, double times)
    {
        RouteElement[] elements = [.. chain.Chain.Route.Elements];
        (int at, RouteElement bend) = elements.Index().Where(e => e.Item is Bend).ElementAt(1);
        elements[at] = new Bend(bend.AngleRad * times, ((Bend)bend).RadiusM);
        elements[at + 1] = new Straight(elements[at + 1].LengthM - (elements[at].LengthM - bend.LengthM));
        return chain with { Chain = chain.Chain with { Route = new CableRoute(elements) } };
    }

    /// <summary>The chain with a bend, 8 inches in radius, that is nowhere described, in the middle of its longest straight.</summary>
    public static SimulatedChain WithHiddenBend(SimulatedChain chain, double angleRad)
    {
        List<RouteElement> elements = [.. chain.Chain.Route.Elements];
        RouteElement longest = elements.OfType<Straight>().MaxBy(straight => straight.LengthM)!;
        var bend = new Bend(angleRad, 8 * Support.Units.MetresPerInch);
        var half = new Straight((longest.LengthM - bend.LengthM) / 2);
        int at = elements.IndexOf(longest);
        elements.RemoveAt(at);
        elements.InsertRange(at, [half, bend, half]);
        return chain with { Chain = chain.Chain with { Route = new CableRoute(elements) } };
    }
}
