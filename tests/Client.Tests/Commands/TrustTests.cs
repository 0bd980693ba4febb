namespace CableCatalog.Client.Tests.Commands;

/// <summary>Which certificates of a service a caller trusts.</summary>
public sealed class TrustTests : IDisposable
{
    private readonly Workplace _workplace = new();

    public void Dispose() => _workplace.Dispose();

    [Fact]
    public async Task One_that_others_signed_is_trusted_by_the_root_or_by_itself_and_by_nothing_else()
    {
        var shop = TestCertificates.SignedOverTwoSteps();
        (string certificate, string key) = (_workplace.At("shop.pem"), _workplace.At("shop.key"));
        shop.Write(certificate, key);
        string own = _workplace.Write("own.pem", shop.Chain[0].ExportCertificatePem());
        string root = _workplace.Write("root.pem", shop.Chain[^1].ExportCertificatePem());
        string other = _workplace.Write("other.pem", TestCertificates.SignedOverTwoSteps().Chain[^1].ExportCertificatePem());
        using Served serve = await Served.StartAsync(
            _workplace.Catalog, "--certificate", certificate, "--certificate-key", key);
        string address = serve.Address.Replace("127.0.0.1", "localhost", StringComparison.Ordinal);

        Assert.Equal(0, (await Workplace.RunBareAsync("grades", "list", "--server", address, "--trust", root)).Code);
        Assert.Equal(0, (await Workplace.RunBareAsync("grades", "list", "--server", address, "--trust", own)).Code);
        Assert.Equal(3, (await Workplace.RunBareAsync("grades", "list", "--server", address, "--trust", other)).Code);
        Assert.Equal(3, (await Workplace.RunBareAsync("grades", "list", "--server", address)).Code);
        Assert.Equal(3, (await Workplace.RunBareAsync("grades", "list", "--server", serve.Address, "--trust", root)).Code);
    }
}
