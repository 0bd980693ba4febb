using CableCatalog.Catalog.Storage;
using LiteDB;
using LiteDB.Engine;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>Leaves a catalogue as a crash does between the commit of a write and the rest of it: the write is in the log only.
/// </summary>
internal static class Unsettled
{
    internal static void Write(TestCatalog catalog, bool published = false)
    {
        // The store itself makes the write elsewhere; what it published there is what the log here must come to hold.
        using TestCatalog elsewhere = catalog.Copy();
        using (LiteCatalogStore store = elsewhere.Open())
        {
            store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);
        }

        BsonDocument entry = LastEntry(elsewhere.Path);
        CatalogSeal seal = PublishedCopy.ReadSeal(elsewhere.Published);
        using var engine = new LiteEngine(new EngineSettings { Filename = catalog.Path });
        engine.BeginTrans();
        engine.Update("grades", elsewhere.Read().Grades.Select(
            grade => new BsonDocument { ["_id"] = grade.Id, ["line"] = GradeRecord.LineOf(grade) }));
        engine.Insert("journal", [entry], BsonAutoId.ObjectId);
        engine.Update("seal", [new BsonDocument { ["_id"] = 1, ["header"] = seal.HeaderAlone, ["sha256"] = seal.Checksum }]);
        engine.Commit();
        if (published)
        {
            File.Copy(elsewhere.Published, catalog.Published, overwrite: true);
        }
    }

    private static BsonDocument LastEntry(string path)
    {
        using var database = new LiteDatabase(path);
        return database.GetCollection("journal").FindAll().Last();
    }
}
