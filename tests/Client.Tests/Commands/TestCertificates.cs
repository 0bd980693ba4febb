using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>A certificate for localhost with its key, and those that signed it.</summary>
/// <param name="Chain">Its own first, the root's last.</param>
/// <param name="Key">Its private key as PEM.</param>
internal sealed record TestCertificates(IReadOnlyList<X509Certificate2> Chain, string Key)
{
    private static DateTimeOffset Yesterday => DateTimeOffset.UtcNow.AddDays(-1);

    private static DateTimeOffset Tomorrow => DateTimeOffset.UtcNow.AddDays(1);

    /// <summary>One that nobody else signed.</summary>
    public static TestCertificates SelfSigned()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        return new TestCertificates([ForLocalhost(key).CreateSelfSigned(Yesterday, Tomorrow)], key.ExportPkcs8PrivateKeyPem());
    }

    /// <summary>One signed by an authority between it and the root.</summary>
    public static TestCertificates SignedOverTwoSteps()
    {
        using var rootKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var betweenKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        X509Certificate2 root = ForAuthority("CN=root", rootKey).CreateSelfSigned(Yesterday, Tomorrow);
        X509Certificate2 between = Sign(ForAuthority("CN=between", betweenKey), root, rootKey, 1);
        X509Certificate2 own = Sign(ForLocalhost(key), between, betweenKey, 2);
        return new TestCertificates([own, between, root], key.ExportPkcs8PrivateKeyPem());
    }

    /// <summary>Writes what a service is given: all but the root, unless that is all there is, and the key.</summary>
    public void Write(string certificate, string key)
    {
        File.WriteAllLines(certificate, Chain.Take(Math.Max(1, Chain.Count - 1)).Select(one => one.ExportCertificatePem()));
        File.WriteAllText(key, Key);
    }

    private static CertificateRequest ForLocalhost(ECDsa key)
    {
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        request.CertificateExtensions.Add(names.Build());
        return request;
    }

    private static CertificateRequest ForAuthority(string name, ECDsa key)
    {
        var request = new CertificateRequest(name, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        return request;
    }

    private static X509Certificate2 Sign(CertificateRequest request, X509Certificate2 signer, ECDsa signersKey, byte serial) =>
        request.Create(signer.SubjectName, X509SignatureGenerator.CreateForECDsa(signersKey), Yesterday.AddHours(1), Tomorrow.AddHours(-1), [serial]);
}
