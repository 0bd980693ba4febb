namespace CableCatalog.Mechanics.Cables;

/// <summary>The least force that a cable needs at the helm on any route with at least a given bend and length: no re-routing can
/// beat it.</summary>
/// <remarks>F_in = (F_out + s) e^(mu (theta + phi L)) + w L (e^y - 1)/y + s, y = mu phi L: a route whose bends are all at the output
/// end, where they multiply the least drag, of the least length, with neither a stiff core's drag nor snaking. It rises with theta
/// and L and every march of <see cref="CableMarch"/> is at least as much. It need not be reached.</remarks>
public static class FloorForce
{
    /// <summary>Force at the helm end of the core, N.</summary>
    /// <param name="cable">The coefficients. A hidden share counts, the core does not.</param>
    /// <param name="outputN">F_out: force at the output end, N, finite, >= 0.</param>
    /// <param name="leastBendRad">theta: bend that every route has, rad, >= 0.</param>
    /// <param name="leastLengthM">L: length that every route has, m, >= 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is negative, NaN or infinite.</exception>
    public static double InputN(in CableCoefficients cable, double outputN, double leastBendRad, double leastLengthM)
    {
        Require(outputN, nameof(outputN));
        Require(leastBendRad, nameof(leastBendRad));
        Require(leastLengthM, nameof(leastLengthM));
        double bentN = (outputN + cable.SealDragN) * Math.Exp(cable.FrictionOnRoute * leastBendRad);
        double wobble = cable.FrictionOnRoute * cable.WobbleRadPerM * leastLengthM;
        return Capstan.InputForceN(bentN, leastLengthM, wobble, cable.RunningDragNPerM) + cable.SealDragN;
    }

    private static void Require(double value, string name)
    {
        if (!(value >= 0 && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(name, value, "must be finite and not negative");
        }
    }
}
