namespace CableCatalog.Service.Tests;

/// <summary>Tests that measure time and memory: nothing else of the process runs beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
