using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.History;
using CableCatalog.Service.Requests;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace CableCatalog.Service.Grades;

/// <summary>The catalogue of grades: reads the request, delegates, writes the answer.</summary>
internal sealed class GradeCatalogService(ICatalogStore store) : V1.GradeCatalog.GradeCatalogBase
{
    private const int MostBatched = 1000;

    /// <inheritdoc/>
    public override Task<V1.ListGradesResponse> ListGrades(V1.ListGradesRequest request, ServerCallContext context)
    {
        int size = Paging.Size(request.PageSize);
        var identity = new V1.ListGradesRequest();
        string[]? after = Paging.LastKey(identity, request.PageToken, 1);
        CatalogSnapshot catalog = store.Current;
        CatalogGrade[] page = [.. catalog.Grades
            .SkipWhile(grade => after is [var lastId] && string.CompareOrdinal(grade.Id, lastId) <= 0)
            .Take(size + 1)];
        return Task.FromResult(new V1.ListGradesResponse
        {
            Grades = { page.Take(size).Select(GradeWriter.Write) },
            NextPageToken = page.Length > size ? Paging.Token(identity, page[size - 1].Id) : "",
            TotalSize = catalog.Count,
            CatalogRevision = catalog.Revision,
            WatchToken = ResumeToken.At(catalog).Text,
        });
    }

    /// <inheritdoc/>
    public override Task<V1.Grade> GetGrade(V1.GetGradeRequest request, ServerCallContext context)
    {
        string id = ResourceNames.Grades.Id("name", request.Name);
        return Task.FromResult(GradeWriter.Write(store.Current.Find(id) ?? throw CatalogRefusedException.NotFound(id)));
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
        return Task.FromResult(Written(grade!.Id, store.Write(
            Origins.Of(context, request), catalog => CatalogEdits.Create(catalog, grade!), context.CancellationToken)));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.Grade> UpdateGrade(V1.UpdateGradeRequest request, ServerCallContext context)
    {
        CatalogEdit.Update update = ReadUpdate(request, "", Caller.Of(context));
        return Task.FromResult(Written(update.Id, store.Write(
            Origins.Of(context, request), catalog => CatalogEdits.All(catalog, [update]), context.CancellationToken)));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.BatchUpdateGradesResponse> BatchUpdateGrades(
        V1.BatchUpdateGradesRequest request, ServerCallContext context)
    {
        if (request.Requests.Count is 0 or > MostBatched)
        {
            throw InvalidRequestException.For("requests", "BAD_COUNT", $"must be 1 to {MostBatched}");
        }

        var violations = new Violations();
        var caller = Caller.Of(context);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var updates = new List<CatalogEdit.Update>();
        foreach ((int index, V1.UpdateGradeRequest one) in request.Requests.Index())
        {
            CatalogEdit.Update? update = violations.Try(() => ReadPart(one, $"requests[{index}].", caller));
            if (update is not null && !seen.Add(update.Id))
            {
                violations.Add(
                    $"requests[{index}].grade.name", "DUPLICATE", "must not be the grade of another request of the batch");
            }

            updates.AddRange(update is null ? [] : [update]);
        }

        violations.ThrowIfAny();
        WriteOutcome after = store.Write(
            Origins.Of(context, request), catalog => AllOrNone(catalog, updates), context.CancellationToken);
        return Task.FromResult(new V1.BatchUpdateGradesResponse { Grades = { updates.Select(u => Written(u.Id, after)) } });
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
    private static CatalogChange AllOrNone(CatalogSnapshot catalog, List<CatalogEdit.Update> updates)
    {
        var violations = new Violations();
        foreach (CatalogEdit.Update update in updates)
        {
            violations.Try(
                () => catalog.Find(update.Id) is { } current ? update.Edit(current.Grade) : update.CreateIfMissing?.Invoke());
        }

        violations.ThrowIfAny();
        return CatalogEdits.All(catalog, updates);
    }

    private static CatalogEdit.Update ReadPart(V1.UpdateGradeRequest request, string prefix, Caller caller) =>
        request.RequestId.Length == 0
            ? ReadUpdate(request, prefix, caller)
            : throw InvalidRequestException.For(
                $"{prefix}request_id", "EXCLUSIVE", "must be left out: the batch is one request and has its own");

    private static CatalogEdit.Update ReadUpdate(V1.UpdateGradeRequest request, string prefix, Caller caller)
    {
        V1.Grade sent = Required(request.Grade, $"{prefix}grade");
        string id = ResourceNames.Grades.Id($"{prefix}grade.name", sent.Name);
        IReadOnlyList<string> paths = GradeMask.Paths(request.UpdateMask, sent, $"{prefix}update_mask");
        RequireRole(caller, paths, request.AllowMissing);
        return new CatalogEdit.Update(
            id,
            NullIfEmpty(sent.Etag),
            current => GradeReader.Read(id, GradeMask.Apply(GradeWriter.Write(current), sent, paths), $"{prefix}grade"),
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

    private static V1.Grade Written(string id, WriteOutcome outcome) => GradeWriter.Write(outcome.Grade(id)!);

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
