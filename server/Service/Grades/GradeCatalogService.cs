using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
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
        });
    }

    /// <inheritdoc/>
    public override Task<V1.Grade> GetGrade(V1.GetGradeRequest request, ServerCallContext context)
    {
        string id = GradeNames.Id("name", request.Name);
        return Task.FromResult(GradeWriter.Write(store.Current.Find(id) ?? throw CatalogRefusedException.NotFound(id)));
    }

    /// <inheritdoc/>
    public override Task<V1.Grade> CreateGrade(V1.CreateGradeRequest request, ServerCallContext context)
    {
        if (!GradeId.IsValid(request.GradeId))
        {
            throw InvalidRequestException.For("grade_id", "BAD_NAME", $"must be an id: {GradeId.InWords}");
        }

        Grade grade = GradeReader.Read(request.GradeId, Required(request.Grade), "grade");
        return Task.FromResult(Written(grade.Id, store.Write(
            catalog => CatalogEdits.Create(catalog, grade), context.CancellationToken)));
    }

    /// <inheritdoc/>
    public override Task<V1.Grade> UpdateGrade(V1.UpdateGradeRequest request, ServerCallContext context)
    {
        CatalogEdit.Update update = ReadUpdate(request, "");
        return Task.FromResult(Written(update.Id, store.Write(
            catalog => CatalogEdits.All(catalog, [update]), context.CancellationToken)));
    }

    /// <inheritdoc/>
    public override Task<V1.BatchUpdateGradesResponse> BatchUpdateGrades(
        V1.BatchUpdateGradesRequest request, ServerCallContext context)
    {
        if (request.Requests.Count is 0 or > MostBatched)
        {
            throw InvalidRequestException.For("requests", "BAD_COUNT", $"must be 1 to {MostBatched}");
        }

        CatalogEdit.Update[] updates = [.. request.Requests.Select((one, index) => ReadUpdate(one, $"requests[{index}]."))];
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach ((int index, CatalogEdit.Update update) in updates.Index())
        {
            if (!seen.Add(update.Id))
            {
                throw InvalidRequestException.For(
                    $"requests[{index}].grade.name", "DUPLICATE", "must not be the grade of another request of the batch");
            }
        }

        CatalogSnapshot after = store.Write(catalog => CatalogEdits.All(catalog, updates), context.CancellationToken);
        return Task.FromResult(new V1.BatchUpdateGradesResponse { Grades = { updates.Select(u => Written(u.Id, after)) } });
    }

    /// <inheritdoc/>
    public override Task<Empty> DeleteGrade(V1.DeleteGradeRequest request, ServerCallContext context)
    {
        string id = GradeNames.Id("name", request.Name);
        store.Write(catalog => CatalogEdits.Delete(catalog, id, NullIfEmpty(request.Etag)), context.CancellationToken);
        return Task.FromResult(new Empty());
    }

    private static CatalogEdit.Update ReadUpdate(V1.UpdateGradeRequest request, string prefix)
    {
        V1.Grade sent = Required(request.Grade, $"{prefix}grade");
        string id = GradeNames.Id($"{prefix}grade.name", sent.Name);
        IReadOnlyList<string> paths = GradeMask.Paths(request.UpdateMask, sent, $"{prefix}update_mask");
        return new CatalogEdit.Update(
            id,
            NullIfEmpty(sent.Etag),
            current => GradeReader.Read(id, GradeMask.Apply(GradeWriter.Write(current), sent, paths), $"{prefix}grade"),
            request.AllowMissing ? () => GradeReader.Read(id, sent, $"{prefix}grade") : null);
    }

    private static V1.Grade Required(V1.Grade? grade, string field = "grade") =>
        grade ?? throw InvalidRequestException.For(field, "REQUIRED", "must be given");

    private static V1.Grade Written(string id, CatalogSnapshot catalog) => GradeWriter.Write(catalog.Find(id)!);

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
