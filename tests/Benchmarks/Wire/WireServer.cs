using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using CableCatalog.Tests.Support;
using CableCatalog.V1;
using Google.Protobuf;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;

namespace CableCatalog.Benchmarks.Wire;

/// <summary>The service as it is run, in a process of its own, with the yardstick behind the same door.</summary>
internal static class WireServer
{
    // Nobody is to be slowed down.
    private const int CallsPerSecond = 100_000;

    /// <summary>Serves a catalogue of invented grades until its input ends; tells its address first.</summary>
    public static async Task<int> RunAsync(int grades)
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cablecatalog-wire-");
        try
        {
            using LiteCatalogStore store = LiteCatalogStore.Create(
                Path.Combine(folder.FullName, "catalog.db"),
                ManyGrades.Catalogue(grades, 7, 1).Grades.Select(grade => grade.Grade),
                "the benchmarks",
                TimeProvider.System);
            var settings = new HostSettings(0) { Doors = new DoorSettings(CallsPerSecond: CallsPerSecond) };
            await using CatalogHost host = await CatalogHost.StartAsync(store, settings, routes => routes.MapGrpcService<ReadyMade>());
            using GrpcChannel channel = GrpcChannel.ForAddress(host.Address);
            ScoreGradesResponse answer = await new GradeScoring.GradeScoringClient(channel).ScoreGradesAsync(Requests.BestTen());
            ReadyMade.Answers = (answer.ToByteArray(), new ScoreInstallationsResponse { Scores = answer }.ToByteArray());
            Console.WriteLine(host.Address);
            await Console.In.ReadToEndAsync();
            return 0;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
