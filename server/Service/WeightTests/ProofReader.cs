using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Requests;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.WeightTests;

/// <summary>A test before and one after, as they were read.</summary>
/// <param name="Before">The test with the old cable.</param>
/// <param name="After">The test with the new one.</param>
/// <param name="Grade">The new cable.</param>
/// <param name="Cost">What it cost.</param>
internal sealed record TestPair(WeightTest Before, WeightTest After, CatalogGrade Grade, Money Cost);

/// <summary>Reads what a proof is asked from.</summary>
internal static class ProofReader
{
    /// <summary>Reads it.</summary>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported, by field path.</exception>
    public static TestPair Read(V1.VerifyCableRequest request, CatalogSnapshot catalog, CancellationToken cancellation)
    {
        var violations = new Violations();
        WeightTest? before = WeightTestReader.Read(violations, request.Before, "before", catalog, cancellation);
        WeightTest? after = ReadAfter(violations, request, catalog, cancellation);
        violations.ThrowIfAny();
        Money? cost = ReadCost(violations, after!);
        CheckTestedBoth(violations, before!, after!);
        violations.ThrowIfAny();
        return new TestPair(before!, after!, after!.Fitted!, cost!.Value);
    }

    private static WeightTest? ReadAfter(
        Violations violations, V1.VerifyCableRequest request, CatalogSnapshot catalog, CancellationToken cancellation)
    {
        if (request.After is { FittedGrade: "" })
        {
            violations.Missing("after.fitted_grade", "the grade of the new cable");
        }

        if (request is not { Before.Installation: { } was, After.Installation: { } now } || was.Equals(now))
        {
            return WeightTestReader.Read(violations, request.After, "after", catalog, cancellation);
        }

        IEnumerable<FieldDescriptor> changed = V1.Installation.Descriptor.Fields.InDeclarationOrder()
            .Where(field => !Equals(field.Accessor.GetValue(was), field.Accessor.GetValue(now)));
        violations.Add(
            "after.installation",
            "OTHER_INSTALLATION",
            "must be the installation of the test before, with the old cable still named as the present one: what is saved is "
                + $"told of one and the same; found other values of {string.Join(", ", changed.Select(field => field.Name))}");
        return null;
    }

    private static Money? ReadCost(Violations violations, WeightTest after)
    {
        const string Field = "after.amount_paid";
        if (after.Paid is { } paid)
        {
            string currency = after.Fitted!.Grade.Price.Currency;
            if (paid.Currency != currency)
            {
                violations.Add($"{Field}.currency_code", "OTHER_CURRENCY", $"must be {currency}, as all prices of the catalogue");
            }

            return paid;
        }

        double neededM = after.Installation.NeededLengthM;
        LengthsMade lengths = after.Fitted!.Grade.Ratings.LengthsMade;
        if (lengths.OrderLengthM(neededM) is { } orderM)
        {
            return after.Fitted.Grade.Price.For(orderM);
        }

        violations.Missing(
            Field,
            FormattableString.Invariant(
                $"what the cable cost; {ResourceNames.Grades.Of(after.Fitted.Id)} has no price for it in the catalogue, being made up to ")
                + FormattableString.Invariant($"{lengths.LongestMadeM:0.##} m where {neededM:0.##} m are needed"));
        return null;
    }

    private static void CheckTestedBoth(Violations violations, WeightTest before, WeightTest after)
    {
        HashSet<LoadCase> was = WholeChain(before);
        if (!WholeChain(after).Overlaps(was))
        {
            violations.Add(
                "after.series",
                "NOTHING_TO_COMPARE",
                "must have a series with the whole chain and a load that was tested with the whole chain before too"
                    + (was.Count == 0 ? "; the test before has no series with the whole chain" : ""));
        }
    }

    private static HashSet<LoadCase> WholeChain(WeightTest test) =>
        [.. test.Series.Select(series => series.SetUp).OfType<SetUp.WholeChain>().Select(setUp => setUp.Load)];
}
