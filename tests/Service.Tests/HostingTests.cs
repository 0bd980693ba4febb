using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;

namespace CableCatalog.Service.Tests;

public sealed class HostingTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public void It_listens_on_this_machine_only() =>
        Assert.StartsWith("http://127.0.0.1:", service.Address, StringComparison.Ordinal);

    [Theory]
    [InlineData("")]
    [InlineData("cablecatalog.v1.GradeCatalog")]
    [InlineData("cablecatalog.v1.GradeScoring")]
    [InlineData("cablecatalog.v1.WeightTesting")]
    [InlineData("cablecatalog.v1.RoutePlanning")]
    [InlineData("cablecatalog.v1.Rigging")]
    public async Task It_says_that_it_serves(string name)
    {
        HealthCheckResponse health =
            await new Health.HealthClient(service.Channel).CheckAsync(new HealthCheckRequest { Service = name });
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, health.Status);
    }

    [Fact]
    public async Task It_reflects_its_services()
    {
        using var call = new ServerReflection.ServerReflectionClient(service.Channel).ServerReflectionInfo();
        await call.RequestStream.WriteAsync(new ServerReflectionRequest { ListServices = "" });
        await call.RequestStream.CompleteAsync();
        Assert.True(await call.ResponseStream.MoveNext(default));
        string[] names = [.. call.ResponseStream.Current.ListServicesResponse.Service.Select(s => s.Name)];
        Assert.Contains("cablecatalog.v1.GradeCatalog", names);
        Assert.Contains("cablecatalog.v1.GradeScoring", names);
        Assert.Contains("cablecatalog.v1.WeightTesting", names);
        Assert.Contains("cablecatalog.v1.RoutePlanning", names);
        Assert.Contains("cablecatalog.v1.Rigging", names);
    }
}
