using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.History;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Requests.Filtering;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace CableCatalog.Service.Grades;

/// <summary>The catalogue of grades: reads the request, delegates, writes the answer.</summary>
internal sealed class GradeCatalogService(ICatalogStore store) : V1.GradeCatalog.GradeCatalogBase
{
    // What grades may be filtered and ordered by; the contract lists them in ListGradesRequest.
    private static readonly QueryFields Fields = new(
        V1.Grade.Descriptor,
        "id",
        "name",
        "display_name",
        "friction.low",
        "friction.likely",
        "friction.high",
        "min_bend_radius_m",
        "axial_stiffness_n",
        "rated_pull_n",
        "rated_push_n",
        "longest_travel_m",
        "lengths_made.longest_length_m",
        "price.base",
        "price.per_metre",
        "price.fittings",
        "price.price_date",
        "coefficient_basis",
        "core_construction",
        "create_time",
        "update_time");

    /// <inheritdoc/>
    public override Task<V1.ListGradesResponse> ListGrades(V1.ListGradesRequest request, ServerCallContext context)
    {
        var listing = new Listing<V1.Grade>(
            Fields,
            request.Filter,
            request.OrderBy,
            request.ReadMask,
            (request.PageSize, request.PageToken),
            new V1.ListGradesRequest { Filter = request.Filter, OrderBy = request.OrderBy });
        CatalogSnapshot catalog = store.Current;
        Listing<V1.Grade>.Page page = listing.Of(
            catalog.Grades, grade => grade.Id, GradeWriter.Write, context.CancellationToken);
        return Task.FromResult(new V1.ListGradesResponse
        {
            Grades = { page.Rows },
            NextPageToken = page.NextToken,
            TotalSize = page.Total,
            CatalogRevision = catalog.Revision,
            WatchToken = ResumeToken.At(catalog).Text,
        });
    }

    /// <inheritdoc/>
    public override Task<V1.Grade> GetGrade(V1.GetGradeRequest request, ServerCallContext context)
    {
        string id = ResourceNames.Grades.Id("name", request.Name);
        IReadOnlyList<string>? paths = FieldMasks.ToRead(request.ReadMask, V1.Grade.Descriptor);
        return Task.FromResult(Read(store.Current, id, paths));
    }

    /// <inheritdoc/>
    public override Task<V1.BatchGetGradesResponse> BatchGetGrades(V1.BatchGetGradesRequest request, ServerCallContext context)
    {
        IReadOnlyList<string> ids = ResourceNames.Grades.Ids("names", request.Names);
        IReadOnlyList<string>? paths = FieldMasks.ToRead(request.ReadMask, V1.Grade.Descriptor);
        CatalogSnapshot catalog = store.Current;
        return Task.FromResult(new V1.BatchGetGradesResponse
        {
            Grades = { ids.Select(id => Read(catalog, id, paths)) },
            CatalogRevision = catalog.Revision,
        });
    }

    /// <inheritdoc/>
    [Needs(AccessRole.Administrator)]
    public override Task<V1.Grade> CreateGrade(V1.CreateGradeRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        if (!GradeId.IsValid(request.GradeId))
        {
            violations.Add("grade_id", "BAD_NAME", $"must be an id: {GradeId.InWords}");
        }

        Grade? grade = violations.Try(() => GradeReader.Read(request.GradeId, Required(request.Grade), "grade"));
        violations.ThrowIfAny();
        return Task.FromResult(Writes.Make(store, context, request, catalog => CatalogEdits.Create(catalog, grade!)).Grade(grade!.Id));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.Grade> UpdateGrade(V1.UpdateGradeRequest request, ServerCallContext context)
    {
        CatalogEdit.Update update = ReadUpdate(request, "", Caller.Of(context));
        return Task.FromResult(Writes.Make(store, context, request, catalog => CatalogEdits.All(catalog, [update])).Grade(update.Id));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.BatchUpdateGradesResponse> BatchUpdateGrades(
        V1.BatchUpdateGradesRequest request, ServerCallContext context)
    {
        var caller = Caller.Of(context);
        IReadOnlyList<CatalogEdit.Update> updates = BatchParts.Read(
            request.Requests, "grade", (one, prefix) => ReadUpdate(one, prefix, caller), update => update.Id);
        Writes.Made made = Writes.Make(store, context, request, catalog => AllOrNone(catalog, updates, context.CancellationToken));
        return Task.FromResult(new V1.BatchUpdateGradesResponse { Grades = { updates.Select(update => made.Grade(update.Id)) } });
    }

    /// <inheritdoc/>
    [Needs(AccessRole.Administrator)]
    public override Task<Empty> DeleteGrade(V1.DeleteGradeRequest request, ServerCallContext context)
    {
        string id = ResourceNames.Grades.Id("name", request.Name);
        store.Write(
            Origins.Of(context, request),
            catalog => CatalogEdits.Delete(catalog, id, NullIfEmpty(request.Etag)),
            context.CancellationToken);
        return Task.FromResult(new Empty());
    }

    // Every grade is tried before any is refused, so that the caller hears of all that are wrong.
    private static CatalogChange AllOrNone(CatalogSnapshot catalog, IReadOnlyList<CatalogEdit.Update> updates, CancellationToken cancellation)
    {
        var violations = new Violations();
        foreach (CatalogEdit.Update update in updates)
        {
            cancellation.ThrowIfCancellationRequested();
            violations.Try(
                () => catalog.Find(update.Id) is { } current ? update.Edit(current.Grade) : update.CreateIfMissing?.Invoke());
        }

        violations.ThrowIfAny();
        return CatalogEdits.All(catalog, updates);
    }

    private static CatalogEdit.Update ReadUpdate(V1.UpdateGradeRequest request, string prefix, Caller caller)
    {
        V1.Grade sent = Required(request.Grade, $"{prefix}grade");
        string id = ResourceNames.Grades.Id($"{prefix}grade.name", sent.Name);
        IReadOnlyList<string> paths = FieldMasks.ToChange(request.UpdateMask, V1.Grade.Descriptor, $"{prefix}update_mask")
            ?? FieldMasks.SetIn(sent);
        RequireRole(caller, paths, request.AllowMissing);
        return new CatalogEdit.Update(
            id,
            NullIfEmpty(sent.Etag),
            current => GradeReader.Read(id, FieldMasks.Apply(GradeWriter.Write(current), sent, paths), $"{prefix}grade"),
            request.AllowMissing ? () => GradeReader.Read(id, sent, $"{prefix}grade") : null);
    }

    // A price editor changes prices, and nothing else of a grade.
    private static void RequireRole(Caller caller, IReadOnlyList<string> paths, bool mayCreate)
    {
        bool onlyPrice = !mayCreate && paths.All(path => path.Split('.')[0] == "price");
        if (caller.Role < AccessRole.Administrator && !onlyPrice)
        {
            throw new NotAllowedException(AccessRole.Administrator);
        }
    }

    private static V1.Grade Required(V1.Grade? grade, string field = "grade") =>
        grade ?? throw InvalidRequestException.For(field, "REQUIRED", "must be given");

    private static V1.Grade Read(CatalogSnapshot catalog, string id, IReadOnlyList<string>? paths) =>
        FieldMasks.Only(GradeWriter.Write(catalog.Find(id) ?? throw CatalogRefusedException.NotFound(id)), paths);

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
