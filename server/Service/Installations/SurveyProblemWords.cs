using System.Globalization;
using CableCatalog.Mechanics;
using CableCatalog.Routing.Surveys;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Why measured points make no route, in words. People count points from 1, the helm end.</summary>
internal static class SurveyProblemWords
{
    /// <summary>Reports a problem at the point to change.</summary>
    /// <param name="violations">Where to report.</param>
    /// <param name="problem">The problem.</param>
    /// <param name="field">The field path of the points.</param>
    public static void Report(Violations violations, SurveyProblem problem, string field)
    {
        switch (problem)
        {
            case PointsCoincide { Point: var i }:
                violations.Add(
                    $"{field}[{i}]",
                    "COINCIDENT",
                    $"must differ from the point before it: points {i} and {i + 1} are in the same place, within 0.001 m (0.04 in); "
                        + "leave one of them out");
                break;
            case SurveyTooLong { LengthM: var lengthM }:
                violations.Add(
                    field,
                    "OUT_OF_RANGE",
                    $"must make a route with a length in all of {Limits.LengthM.InWords}; found {LengthWords.Of(lengthM)}: look for a "
                        + "point in another unit or out of order");
                break;
            case SurveyBendsTooMuch { BendRad: var bendRad }:
                violations.Add(
                    field,
                    "OUT_OF_RANGE",
                    $"must make a route that bends {Limits.TotalBendRad.InWords}; "
                        + string.Create(CultureInfo.InvariantCulture, $"found {bendRad:0} rad ({bendRad * 180 / Math.PI:0} deg): ")
                        + "look for a point out of order");
                break;
            default:
                throw new InvalidOperationException($"no words for {problem}");
        }
    }
}
