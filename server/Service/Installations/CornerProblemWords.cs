using CableCatalog.Mechanics;
using CableCatalog.Routing.Corners;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Why corners make no route, in words. People count corners from 1, the helm end.</summary>
internal static class CornerProblemWords
{
    /// <summary>Reports a problem at the corner to change.</summary>
    /// <param name="violations">Where to report.</param>
    /// <param name="problem">The problem.</param>
    /// <param name="corners">The corners as written.</param>
    /// <param name="field">Their field path.</param>
    public static void Report(
        Violations violations, CornerProblem problem, IReadOnlyList<V1.Corner> corners, string field)
    {
        switch (problem)
        {
            case Coincident { Corner: var i }:
                violations.Add(
                    $"{field}[{i}].at",
                    "COINCIDENT",
                    $"must differ from the corner before it: corners {i} and {i + 1} are in the same place, within 0.001 m "
                        + "(0.04 in); leave one of them out");
                break;
            case Reversal { Corner: var i }:
                violations.Add(
                    $"{field}[{i}].at",
                    "TURNS_BACK",
                    $"must not turn straight back: at corner {i + 1} the route runs back the way it came, and no bend does that; "
                        + "turn round over two corners or more");
                break;
            case LegTooShort leg:
                violations.Add(CornerToEase(leg, corners, field), "DOES_NOT_FIT", Words(leg));
                break;
            case RouteTooLong { LengthM: var lengthM }:
                violations.Add(
                    field,
                    "OUT_OF_RANGE",
                    $"must have a length in all of {Limits.LengthM.InWords}; found {LengthWords.Of(lengthM)}");
                break;
            case TooMuchBend:
                violations.Add(field, "OUT_OF_RANGE", $"must bend {Limits.TotalBendRad.InWords}");
                break;
            default:
                throw new InvalidOperationException($"no words for {problem}");
        }
    }

    private static string Words(LegTooShort leg)
    {
        string too = $"must leave room for its bends on the run from corner {leg.FromCorner + 1} to corner {leg.ToCorner + 1}: "
            + $"that is {LengthWords.Of(leg.LegM)}, and {LengthWords.Of(leg.ShortByM)} too short";
        string[] widest =
        [
            .. new[] { (Corner: leg.FromCorner, WidestM: leg.FromWidestM), (Corner: leg.ToCorner, WidestM: leg.ToWidestM) }
                .Where(end => end.WidestM is not null)
                .Select(end => $"{LengthWords.AtMost(end.WidestM!.Value)} at corner {end.Corner + 1}"),
        ];
        return widest.Length == 0
            ? $"{too}; no radius of {Limits.BendRadiusM.InWords} fits: move a corner or leave one out"
            : $"{too}; the widest radius that would fit is {string.Join(" with ", widest)}";
    }

    private static string CornerToEase(LegTooShort leg, IReadOnlyList<V1.Corner> corners, string field) =>
        corners[leg.ToCorner].HasRadiusM ? $"{field}[{leg.ToCorner}].radius_m"
        : corners[leg.FromCorner].HasRadiusM ? $"{field}[{leg.FromCorner}].radius_m"
        : $"{field}[{leg.ToCorner}].at";
}
