using CableCatalog.Client.Commands;
using CableCatalog.Client.Output;

return await CommandLine.RunAsync(args, Terminal.OfThisProcess());
