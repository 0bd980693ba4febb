namespace CableCatalog.Client.Tests.Commands;

/// <summary>A <see cref="Workplace"/> whose catalogue has the demo price lists too.</summary>
public sealed class PricedWorkplace : IAsyncLifetime
{
    internal Workplace Workplace { get; } = new();

    public async Task InitializeAsync()
    {
        foreach (string list in new[] { "autumn", "mail-order" })
        {
            await Workplace.RunAsync("prices", "import", list, Repository.At("catalog-demo", "prices", $"{list}.csv"));
        }
    }

    public Task DisposeAsync()
    {
        Workplace.Dispose();
        return Task.CompletedTask;
    }

    /// <summary>Runs a command on the catalogue.</summary>
    internal Task<Ran> RunAsync(params string[] args) => Workplace.RunAsync(args);
}
