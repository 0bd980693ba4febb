using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Grades;

/// <summary>Reads a grade of the contract into one of the catalogue. The only place where grades are validated.</summary>
internal static class GradeReader
{
    /// <summary>Reads a grade.</summary>
    /// <param name="id">Its id; valid.</param>
    /// <param name="grade">The grade; its name and output-only fields are not looked at.</param>
    /// <param name="field">The field path of the grade in the request.</param>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported.</exception>
    public static Grade Read(string id, V1.Grade grade, string field)
    {
        var violations = new Violations();
        string displayName = violations.Text($"{field}.display_name", grade.DisplayName, 1, 100);
        string core = violations.Text($"{field}.core", grade.Core, 0, 500);
        string liner = violations.Text($"{field}.liner", grade.Liner, 0, 500);
        CoefficientBasis basis = ReadBasis(violations, $"{field}.coefficient_basis", grade.CoefficientBasis);
        CableBands? bands = ReadBands(violations, grade, field);
        CableRatings? ratings = ReadRatings(violations, grade, field);
        double? axialStiffnessN = violations.Number(
            $"{field}.axial_stiffness_n", grade.HasAxialStiffnessN, grade.AxialStiffnessN, Limits.AxialStiffnessN);
        PriceRule? price = ReadPrice(violations, grade.Price, $"{field}.price");
        violations.ThrowIfAny();
        return new Grade(id, displayName, core, liner, basis, bands!, axialStiffnessN, ratings!, price!);
    }

    /// <summary>Reads the core data that a grade and a present cable share: both or neither.</summary>
    public static Core? ReadCore(
        Violations violations, string field, bool hasStiffness, double stiffnessNm2, bool hasClearance, double clearanceM)
    {
        double? stiffness = violations.Number(
            $"{field}.core_bending_stiffness_n_m2", hasStiffness, stiffnessNm2, Limits.BendingStiffnessNm2);
        double? clearance = violations.Number($"{field}.diametral_clearance_m", hasClearance, clearanceM, Limits.ClearanceM);
        if (hasStiffness != hasClearance)
        {
            violations.Add(
                $"{field}.{(hasStiffness ? "core_bending_stiffness_n_m2" : "diametral_clearance_m")}",
                "INCOMPLETE",
                "core bending stiffness and diametral clearance go together: give both or neither");
        }

        return stiffness is { } ei && clearance is { } c ? new Core(ei, c) : null;
    }

    private static CoefficientBasis ReadBasis(Violations violations, string field, V1.CoefficientBasis basis)
    {
        switch (basis)
        {
            case V1.CoefficientBasis.Assumed:
                return CoefficientBasis.Assumed;
            case V1.CoefficientBasis.Measured:
                return CoefficientBasis.Measured;
            default:
                violations.Missing(field, "whether the coefficients are assumed or measured");
                return default;
        }
    }

    private static CableBands? ReadBands(Violations violations, V1.Grade grade, string field)
    {
        int before = violations.Count;
        if (grade.Friction is null)
        {
            violations.Missing($"{field}.friction", "the friction coefficient as low, likely and high");
        }

        Band? friction = violations.Band($"{field}.friction", grade.Friction, Limits.Friction);
        Band? sealDragN = violations.Band($"{field}.seal_drag_n", grade.SealDragN, Limits.SealDragN);
        Band? runningDragNPerM = violations.Band(
            $"{field}.running_drag_n_per_m", grade.RunningDragNPerM, Limits.RunningDragNPerM);
        Core? core = ReadCore(
            violations,
            field,
            grade.HasCoreBendingStiffnessNM2,
            grade.CoreBendingStiffnessNM2,
            grade.HasDiametralClearanceM,
            grade.DiametralClearanceM);
        return violations.Count > before
            ? null
            : new CableBands(friction!.Value, sealDragN ?? default, runningDragNPerM ?? default, core);
    }

    private static CableRatings? ReadRatings(Violations violations, V1.Grade grade, string field)
    {
        int before = violations.Count;
        double minBendRadiusM = violations.Number($"{field}.min_bend_radius_m", grade.MinBendRadiusM, Limits.BendRadiusM);
        LengthsMade? lengths = ReadLengths(violations, grade.LengthsMade, $"{field}.lengths_made");
        double? pullN = violations.Number($"{field}.rated_pull_n", grade.HasRatedPullN, grade.RatedPullN, Limits.RatedLoadN);
        double? pushN = violations.Number($"{field}.rated_push_n", grade.HasRatedPushN, grade.RatedPushN, Limits.RatedLoadN);
        double? travelM = violations.Number(
            $"{field}.longest_travel_m", grade.HasLongestTravelM, grade.LongestTravelM, Limits.TravelM);
        CoreConstruction construction = ReadConstruction(violations, $"{field}.core_construction", grade.CoreConstruction);
        return violations.Count > before
            ? null
            : new CableRatings(minBendRadiusM, lengths!, pullN, pushN, travelM, construction);
    }

    private static CoreConstruction ReadConstruction(Violations violations, string field, V1.CoreConstruction construction)
    {
        switch (construction)
        {
            case V1.CoreConstruction.Stranded:
                return CoreConstruction.Stranded;
            case V1.CoreConstruction.Solid:
                return CoreConstruction.Solid;
            case V1.CoreConstruction.Unspecified:
                return CoreConstruction.Unstated;
            default:
                violations.Add(field, "UNKNOWN_VALUE", "must be stranded or solid, or left out");
                return default;
        }
    }

    private static LengthsMade? ReadLengths(Violations violations, V1.LengthsMade? made, string field)
    {
        if (made is null)
        {
            violations.Missing(field, "the shortest and longest length made, and the step");
            return null;
        }

        int before = violations.Count;
        violations.Number($"{field}.shortest_length_m", made.ShortestLengthM, Limits.LengthM);
        violations.Number($"{field}.longest_length_m", made.LongestLengthM, Limits.LengthM);
        violations.Number($"{field}.length_step_m", made.LengthStepM, Limits.LengthStepM);
        if (violations.Count == before && made.LongestLengthM < made.ShortestLengthM)
        {
            violations.Add($"{field}.longest_length_m", "OUT_OF_ORDER", "must be at least the shortest length");
        }

        return violations.Count > before
            ? null
            : new LengthsMade(made.ShortestLengthM, made.LongestLengthM, made.LengthStepM);
    }

    private static PriceRule? ReadPrice(Violations violations, V1.Price? price, string field)
    {
        if (price is null)
        {
            violations.Missing(field, "base, per metre, fittings and the price date");
            return null;
        }

        int before = violations.Count;
        Money? @base = MoneyMapping.Read(violations, $"{field}.base", price.Base);
        Money? perMetre = MoneyMapping.Read(violations, $"{field}.per_metre", price.PerMetre);
        Money? fittings = MoneyMapping.Read(violations, $"{field}.fittings", price.Fittings);
        DateOnly? date = DateMapping.Read(violations, $"{field}.price_date", price.PriceDate);
        if (violations.Count > before)
        {
            return null;
        }

        if (perMetre!.Value.Currency != @base!.Value.Currency || fittings!.Value.Currency != @base.Value.Currency)
        {
            violations.Add(field, "MIXED_CURRENCIES", "must have base, per metre and fittings in one currency");
            return null;
        }

        if (@base.Value.Amount + perMetre.Value.Amount + fittings.Value.Amount == 0)
        {
            violations.Add(field, "OUT_OF_RANGE", "must not be 0 in all of base, per metre and fittings");
            return null;
        }

        return new PriceRule(@base.Value, perMetre.Value, fittings.Value, date!.Value);
    }
}
