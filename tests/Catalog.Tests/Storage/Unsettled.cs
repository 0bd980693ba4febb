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
        string[] lines = File.ReadAllLines(elsewhere.Published);
        using var engine = new LiteEngine(new EngineSettings { Filename = catalog.Path });
        engine.BeginTrans();
        engine.Update("grades", lines[1..^1].Select(
            line => new BsonDocument { ["_id"] = JsonSerializer.Deserialize(line)["id"], ["line"] = line }));
        engine.Insert("journal", [entry], BsonAutoId.ObjectId);
        BsonValue sha256 = JsonSerializer.Deserialize(lines[^1])["sha256"];
        engine.Update("seal", [new BsonDocument { ["_id"] = 1, ["header"] = lines[0], ["sha256"] = sha256 }]);
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
