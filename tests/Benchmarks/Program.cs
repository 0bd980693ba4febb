using BenchmarkDotNet.Running;
using CableCatalog.Benchmarks.Wire;

switch (args)
{
    case ["wire-server", var grades]:
        return await WireServer.RunAsync(int.Parse(grades));
    case ["wire"]:
        foreach (var m in await WireBenchmark.RunAsync()) Console.WriteLine($"{m.What,-75} {m.Ours,10:0} {m.Theirs,10:0} {m.Ratio:0.00} {m.Limit}");
        return 0;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
        return 0;
}
