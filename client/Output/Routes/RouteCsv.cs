using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Routes for a spreadsheet or a script: a record for each route, bend, grade on a route, and way to spend the money. SI units, in
/// the names of the columns.</summary>
internal static class RouteCsv
{
    private static readonly string[] Heading =
    [
        "record", "route", "route_name", "source", "length_m", "total_bend_rad", "tightest_radius_m", "needed_length_m",
        "least_bend_rad", "bend", "begins_at_m", "angle_rad", "radius_m", "x_m", "y_m", "z_m", "grade", "fits", "effort_low_n",
        "effort_likely_n", "effort_high_n", "saved_likely_n", "order_length_m", "price", "currency", "kind", "cost",
        "cost_per_newton_saved", "is_best", "short_by_m", "fit_problems",
        "measuring_error_m", "residual_m", "unsmoothed_bend_rad", "total_bend_error_rad", "fits_within_error",
    ];

    /// <summary>A study.</summary>
    public static void Write(TextWriter writer, RouteStudy study)
    {
        var records = new Records(Heading);
        StudyRoutesResponse answer = study.Answer;
        foreach ((int index, StudiedRoute route) in answer.Routes.Index())
        {
            AddShape(records, index, RouteWords.Name(answer, index), Records.Word(route.Source), route.Shape);
            foreach (Corner corner in route.Corners)
            {
                records.Add(
                    ("record", "corner"),
                    ("route", index + 1),
                    ("x_m", corner.At.XM),
                    ("y_m", corner.At.YM),
                    ("z_m", corner.At.ZM),
                    ("radius_m", corner.HasRadiusM ? corner.RadiusM : null));
            }
        }

        foreach ((int index, StudiedRoute route) in answer.Routes.Index())
        {
            records.Add(
            [
                ("record", "present_cable"),
                ("route", index + 1),
                .. Records.Band("effort", "_n", route.PresentCable.CaseEfforts.Count > 0 ? route.PresentCable.WorstEffortN : null),
                ("short_by_m", route.HasPresentCableShortByM ? route.PresentCableShortByM : null),
                ("fit_problems", Problems(route.PresentCable.FitProblems)),
            ]);
        }

        if (answer.Floor is { } floor)
        {
            records.Add(
            [
                ("record", "floor"),
                ("least_bend_rad", RouteWords.LeastBendRad(floor)),
                ("grade", "present cable"),
                .. Records.Band("effort", "_n", floor.PresentCableEffortN),
            ]);
        }

        foreach (GradeOnRoutes grade in answer.Grades)
        {
            AddGrade(records, grade);
        }

        foreach ((int index, RouteMoneyOption option) in answer.Money.Options.Index())
        {
            records.Add(
            [
                ("record", "money"),
                ("kind", Records.Word(option.Kind)),
                ("route", option.Route + 1),
                ("grade", option.Grade.Length > 0 ? GradeName.ToId(option.Grade) : "present cable"),
                ("cost", MoneyText.ToDecimal(option.Cost)),
                ("currency", option.Cost.CurrencyCode),
                .. Records.Band("effort", "_n", option.EffortN),
                ("saved_likely_n", option.SavedN is { HasLikely: true } saved ? saved.Likely : null),
                ("cost_per_newton_saved", option.CostPerNewtonSaved is { } cost ? MoneyText.ToDecimal(cost) : null),
                ("is_best", answer.Money.HasBest && answer.Money.Best == index),
            ]);
        }

        records.Write(writer);
    }

    /// <summary>A route by itself.</summary>
    public static void Write(TextWriter writer, MeasureRouteResponse measured)
    {
        var records = new Records(Heading);
        AddShape(records, 0, "", "", measured.Shape);
        foreach (GradeOnRoute grade in measured.Grades)
        {
            records.Add(
                ("record", "grade"),
                ("grade", GradeName.ToId(grade.Grade)),
                ("fits", grade.TightBends.Count == 0 && grade.HasOrderLengthM),
                ("order_length_m", grade.HasOrderLengthM ? grade.OrderLengthM : null),
                ("price", grade.Price is { } price ? MoneyText.ToDecimal(price) : null),
                ("currency", grade.Price?.CurrencyCode ?? ""));
        }

        records.Write(writer);
    }

    private static void AddShape(Records records, int index, string name, string source, RouteShape shape)
    {
        records.Add(
            ("record", "route"),
            ("route", index + 1),
            ("route_name", name),
            ("source", source),
            ("length_m", shape.Figures.LengthM),
            ("total_bend_rad", shape.Figures.TotalBendRad),
            ("tightest_radius_m", shape.Figures.HasTightestRadiusM ? shape.Figures.TightestRadiusM : null),
            ("needed_length_m", shape.Figures.NeededLengthM),
            ("least_bend_rad", shape.LeastBend?.AngleRad));
        if (shape.Smoothing is { } smoothing)
        {
            records.Add(
                ("record", "smoothing"),
                ("route", index + 1),
                ("measuring_error_m", smoothing.MeasuringErrorM),
                ("residual_m", smoothing.ResidualM),
                ("unsmoothed_bend_rad", smoothing.UnsmoothedBendRad),
                ("total_bend_error_rad", smoothing.TotalBendErrorRad),
                ("fits_within_error", smoothing.FitsWithinError));
        }

        foreach ((int number, BendFigures bend) in shape.Bends.Index())
        {
            records.Add(
                ("record", "bend"),
                ("route", index + 1),
                ("bend", number + 1),
                ("begins_at_m", bend.BeginsAtM),
                ("angle_rad", bend.AngleRad),
                ("radius_m", bend.RadiusM));
        }
    }

    private static void AddGrade(Records records, GradeOnRoutes grade)
    {
        foreach ((int index, GradeScore score) in grade.Scores.Index())
        {
            records.Add(
            [
                ("record", "grade"),
                ("route", index + 1),
                ("grade", GradeName.ToId(grade.Grade)),
                ("fits", score.Fits),
                .. Records.Band("effort", "_n", score.WorstEffortN),
                ("saved_likely_n", score.SavedN is { HasLikely: true } saved ? saved.Likely : null),
                ("order_length_m", score.HasOrderLengthM ? score.OrderLengthM : null),
                ("price", score.Price is { } price ? MoneyText.ToDecimal(price) : null),
                ("currency", score.Price?.CurrencyCode ?? ""),
                ("cost_per_newton_saved", score.CostPerNewtonSaved is { } cost ? MoneyText.ToDecimal(cost) : null),
                ("is_best", grade.HasBestRoute && grade.BestRoute == index),
                ("fit_problems", Problems(score.FitProblems)),
            ]);
        }

        records.Add(
            [("record", "grade_floor"), ("grade", GradeName.ToId(grade.Grade)), .. Records.Band("effort", "_n", grade.FloorEffortN)]);
    }

    private static string Problems(IEnumerable<FitProblem> problems) =>
        string.Join("; ", problems.Select(problem => FitWords.Of(problem, new Figures(Units.UnitSystem.Si))));
}
