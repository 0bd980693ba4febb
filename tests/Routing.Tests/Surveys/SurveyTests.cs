using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Floors;
using CableCatalog.Routing.Surveys;
using CableCatalog.Routing.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Routing.Tests.Surveys;

public class SurveyTests
{
    private const double Deg = Math.PI / 180;
    private const int Surveys = 6;

    /// <summary>Curves, how far apart their points are, how far each is off, and how near what is found must be: what a bench of 20
    /// surveys each showed, with a half more.</summary>
    public static TheoryData<MeasuredCurve, double, double, double, double> Measured => new()
    {
        // curve, gap m, error m, degrees of the total bend, share of the tightest radius
        { MeasuredCurve.Straight, 0.1, 0, 0.01, 0 },
        { MeasuredCurve.Straight, 0.1, 0.002, 0.6, 0 },
        { MeasuredCurve.Straight, 0.1, 0.005, 1.5, 0 },
        { MeasuredCurve.Circle, 0.1, 0, 0.05, 0.001 },
        { MeasuredCurve.Circle, 0.1, 0.002, 2.3, 0.01 },
        { MeasuredCurve.Circle, 0.1, 0.005, 5.5, 0.02 },
        { MeasuredCurve.Helix, 0.05, 0, 2, 0.1 },
        { MeasuredCurve.Helix, 0.1, 0.002, 7, 0.15 },
        { MeasuredCurve.SBend, 0.1, 0, 0.05, 0.01 },
        { MeasuredCurve.SBend, 0.1, 0.002, 2, 0.15 },
        { MeasuredCurve.SBend, 0.1, 0.005, 4, 0.3 },

        // Where a sine is nearly straight the error hides what is left of its bend, up to a fifteenth of it.
        { MeasuredCurve.Sine, 0.1, 0, 3, 0.15 },
        { MeasuredCurve.Sine, 0.1, 0.002, 11, 0.3 },
        { MeasuredCurve.Sine, 0.1, 0.005, 15, 0.4 },
        { MeasuredCurve.DeckRun, 0.1, 0, 0.05, 0.01 },
        { MeasuredCurve.DeckRun, 0.1, 0.002, 1, 0.06 },
        { MeasuredCurve.DeckRun, 0.1, 0.005, 2.5, 0.15 },
        { MeasuredCurve.DeckRun, 0.2, 0.005, 6, 0.3 },
    };

    [Theory]
    [MemberData(nameof(Measured))]
    public void Bend_and_radius_of_a_known_curve_come_back_from_its_points(
        MeasuredCurve curve, double gapM, double errorM, double withinDeg, double radiusShare)
    {
        for (int seed = 0; seed < Surveys; seed++)
        {
            Smoothed smoothed = Smooth(curve, gapM, errorM, seed);
            CableRoute route = smoothed.Route.Route;
            Close.To(curve.BendRad / Deg, route.TotalBendRad / Deg, withinDeg);
            // Either end is off by the error.
            Close.To(curve.LengthM, route.LengthM, (0.003 * curve.LengthM) + (4 * errorM));
            if (curve.RadiusM is { } radiusM)
            {
                Close.To(radiusM, route.Bends.Min(bend => bend.RadiusM), radiusShare * radiusM);
            }
        }
    }

    // By hand: over a whole period the direction swings from +atan(Ak) to -atan(Ak) and back.
    [Fact]
    public void The_bend_of_a_sine_by_integration_is_that_of_its_slopes() =>
        Close.To(4 * Math.Atan(0.35 * Math.PI / 1.2), MeasuredCurve.Sine.BendRad, 1e-6);

    // Each survey of a helix with 5 mm of error is off by up to a seventh; that is chance, and not a leaning one way.
    [Fact]
    public void On_the_mean_a_rough_survey_of_a_helix_neither_gains_nor_loses_bend() => Close.To(
        MeasuredCurve.Helix.BendRad / Deg,
        Enumerable.Range(0, 25).Average(seed => Smooth(MeasuredCurve.Helix, 0.1, 0.005, seed).Route.Route.TotalBendRad) / Deg,
        4);

    // What smoothing is for: 5 mm of error in points a hand apart.
    [Fact]
    public void Straight_lines_from_point_to_point_would_bend_far_more()
    {
        Smoothed smoothed = Smooth(MeasuredCurve.DeckRun, 0.1, 0.005, 1);
        Assert.True(smoothed.UnsmoothedBendRad > 3 * MeasuredCurve.DeckRun.BendRad);
    }

    [Fact]
    public void Points_on_a_straight_measured_well_make_a_straight_and_nothing_else() =>
        Assert.IsType<Straight>(Assert.Single(Smooth(MeasuredCurve.Straight, 0.2, 0, 0).Route.Route.Elements));

    // The theorem of LeastBend: the points as smoothed lie on the route.
    [Fact]
    public void The_floor_through_the_points_is_under_the_route_and_over_that_between_its_ends()
    {
        foreach (MeasuredCurve curve in MeasuredCurve.All)
        {
            for (int seed = 0; seed < Surveys; seed++)
            {
                Smoothed smoothed = Smooth(curve, 0.1, 0.004, seed);
                double endsRad = LeastBend.Rad(smoothed.Route.HelmEnd, smoothed.Route.ArmEnd)!.Value;
                Close.AtLeast(endsRad, smoothed.FloorRad!.Value);
                Close.AtLeast(smoothed.FloorRad!.Value, smoothed.Route.Route.TotalBendRad);
            }
        }
    }

    // A right standard deviation leaves a spread of 1 in what is off, over it; known over 80 to within 0.16 (two deviations of a
    // sample's). The pieces are not known beforehand but sought, which makes it more: to 1.5 is asked for.
    [Fact]
    public void The_total_bend_is_off_by_about_what_is_said()
    {
        var off = new List<double>();
        Law.Holds(
            Gen.Select(Gen.Double[0.15, 0.4], Gen.Double[0.6, 2], Gen.Double[0, 6], Gen.Double[0.6, 1.6], Gen.Int[0, 9999]),
            71,
            80,
            drawn =>
            {
                (double radiusM, double angleRad, double turnRad, double apartM, int seed) = drawn;
                var curve = MeasuredCurve.Of(
                    "drawn",
                    new Straight(0.7),
                    new Bend(angleRad, radiusM, 0),
                    new Straight(apartM),
                    new Bend(1.2, 0.3, turnRad),
                    new Straight(0.7));
                Smoothed smoothed = Smooth(curve, 0.1, 0.003, seed);
                off.Add((smoothed.Route.Route.TotalBendRad - curve.BendRad) / smoothed.TotalBendErrorRad);
            });
        double spread = Math.Sqrt(off.Average(z => z * z));
        Assert.InRange(spread, 0.8, 1.5);
    }

    [Fact]
    public void An_error_stated_far_too_small_is_told()
    {
        Assert.True(Survey.Smooth(MeasuredCurve.DeckRun.Points(0.1, 0.005, 3), 0.005) is Smoothed { FitsWithinError: true });
        Assert.True(Survey.Smooth(MeasuredCurve.DeckRun.Points(0.1, 0.005, 3), 0.0005) is Smoothed { FitsWithinError: false });
    }

    // A cable could run so: nothing but the eye tells that it does not.
    [Fact]
    public void One_wrong_point_is_drawn_as_a_detour_of_tight_bends()
    {
        Vec[] points = MeasuredCurve.DeckRun.Points(0.1, 0.001, 3);
        points[14] += new Vec(0, 0.05, 0);
        Smoothed smoothed = Assert.IsType<Smoothed>(Survey.Smooth(points, 0.001));
        Assert.True(smoothed.FitsWithinError);
        Assert.Equal(2, smoothed.Route.Route.Bends.Count(bend => bend.RadiusM < MeasuredCurve.DeckRun.RadiusM / 2));
    }

    [Fact]
    public void Points_that_make_no_route_say_why()
    {
        Vec[] points = MeasuredCurve.SBend.Points(0.2, 0, 0);
        Assert.Equal(new PointsCoincide(4), Problem([.. points[..4], points[3] + new Vec(0, 0, 0.0005), .. points[4..]]));
        Assert.Equal(201, Assert.IsType<SurveyTooLong>(Problem([.. points[..3], points[2] + new Vec(201, 0, 0)])).LengthM, 1d);

        // Straight, and within twice the most, so that it is smoothed first.
        Assert.Equal(150, Assert.IsType<SurveyTooLong>(Problem([.. Enumerable.Range(0, 4).Select(i => new Vec(50 * i, 0, 0))])).LengthM, 0.1);

        // By hand: 10 turns round the mast are 62.8 rad, over the 60 rad that a route may have.
        Vec[] coil =
        [
            .. Enumerable.Range(0, 190).Select(i => i * 10 * Math.Tau / 189)
                .Select(t => new Vec(0.3 * Math.Cos(t), 0.3 * Math.Sin(t), 0.02 * t)),
        ];
        Assert.InRange(Assert.IsType<SurveyBendsTooMuch>(Problem(coil)).BendRad, 60.5, 65);

        static SurveyProblem Problem(Vec[] points) =>
            Assert.IsType<NotSmoothed>(Survey.Smooth(points, 0.003)).Problem;
    }

    [Fact]
    public void What_no_person_can_measure_is_refused()
    {
        Vec[] points = MeasuredCurve.SBend.Points(0.2, 0, 0);
        Assert.Throws<ArgumentException>(() => Survey.Smooth(points[..3], 0.003));
        Assert.Throws<ArgumentException>(() => Survey.Smooth([.. points, new Vec(double.NaN, 0, 0)], 0.003));
        Assert.Throws<ArgumentOutOfRangeException>(() => Survey.Smooth(points, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Survey.Smooth(points, double.NaN));
    }

    // The least error that may be stated, where there is none.
    private static Smoothed Smooth(MeasuredCurve curve, double gapM, double errorM, int seed) =>
        Assert.IsType<Smoothed>(Survey.Smooth(curve.Points(gapM, errorM, seed), Math.Max(errorM, Limits.MeasuringErrorM.Least)));
}
