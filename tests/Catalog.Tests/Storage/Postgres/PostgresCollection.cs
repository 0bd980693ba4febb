namespace CableCatalog.Catalog.Tests.Storage.Postgres;

/// <summary>Tests that share one cluster.</summary>
[CollectionDefinition(Name)]
[System.Diagnostics.CodeAnalysis.SuppressMessage("Naming", "CA1711", Justification = "It is what xunit calls it.")]
public sealed class PostgresCollection : ICollectionFixture<TestCluster>
{
    internal const string Name = "postgres";
}
