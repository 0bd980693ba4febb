using System.Globalization;
using CableCatalog.V1;
using Grpc.Net.Client;

namespace CableCatalog.Benchmarks.Wire;

/// <summary>Every row of a large catalogue, page by page: what it takes of the server's memory.</summary>
internal static class AllRowsBenchmark
{
    private const int PageSize = 1000;
    private const int Rounds = 5;

    /// <summary>Measures it beside the bytes of those rows, which a server that held them all would have.</summary>
    public static async Task<IReadOnlyList<Measured>> RunAsync() => [await OfAsync(20_000, null), await OfAsync(100_000, new Limit(AtMost: 0.25))];

    private static async Task<Measured> OfAsync(int grades, Limit? limit)
    {
        // Collected often, so that what is held shows and not what waits to be collected.
        using var server = ServerProcess.Start(
            ["wire-server", grades.ToString(CultureInfo.InvariantCulture)], [KeyValuePair.Create("DOTNET_GCgen0size", "400000")]);
        using GrpcChannel channel = GrpcChannel.ForAddress(await server.AddressAsync());
        double bytes = await ReadAllAsync(channel);
        var peaks = new List<double>();
        for (int round = 0; round < Rounds; round++)
        {
            double before = server.ForgetPeakMB();
            await ReadAllAsync(channel);
            peaks.Add(server.PeakMB - before);
        }

        return new Measured(
            "Over the wire",
            FormattableString.Invariant($"all rows of {grades:N0} grades in pages of {PageSize:N0}: the most memory that the server takes for it"),
            peaks.Order().ElementAt(Rounds / 2),
            "the bytes of those rows",
            bytes / 1e6,
            "MB",
            limit);
    }

    private static async Task<double> ReadAllAsync(GrpcChannel channel)
    {
        var scoring = new GradeScoring.GradeScoringClient(channel);
        ScoreGradesRequest request = Requests.BestTen();
        request.PageSize = PageSize;
        double bytes = 0;
        do
        {
            ScoreGradesResponse page = await scoring.ScoreGradesAsync(request);
            request.PageToken = page.NextPageToken;
            bytes += page.CalculateSize();
        }
        while (request.PageToken.Length > 0);
        return bytes;
    }
}
