namespace CableCatalog.Client.Files;

/// <summary>A place in a text: line and column, each from 1.</summary>
internal readonly record struct TextPlace(int Line, int Column);
