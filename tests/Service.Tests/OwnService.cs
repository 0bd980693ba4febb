namespace CableCatalog.Service.Tests;

/// <summary>A service that one test has for itself.</summary>
internal sealed record OwnService(ServiceFixture Service) : IAsyncDisposable
{
    public static async Task<OwnService> StartAsync()
    {
        var own = new ServiceFixture();
        await own.InitializeAsync();
        return new OwnService(own);
    }

    public async ValueTask DisposeAsync()
    {
        await Service.DisposeAsync();
        Service.Dispose();
    }
}
