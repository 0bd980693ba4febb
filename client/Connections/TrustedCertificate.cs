using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CableCatalog.Client.Failures;

namespace CableCatalog.Client.Connections;

/// <summary>The one certificate to trust: a service's own, or that of who signs for it.</summary>
internal sealed class TrustedCertificate
{
    private readonly X509Certificate2 _trusted;

    private TrustedCertificate(X509Certificate2 trusted) => _trusted = trusted;

    /// <summary>Reads it from a PEM file.</summary>
    /// <exception cref="ClientFailure">It cannot be read.</exception>
    public static TrustedCertificate Read(string file)
    {
        try
        {
            return new TrustedCertificate(X509CertificateLoader.LoadCertificateFromFile(file));
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or CryptographicException)
        {
            throw new ClientFailure(ExitCode.BadInput, $"--trust {file}: a certificate in PEM is expected ({failure.Message}).");
        }
    }

    /// <summary>Whether a service's certificate is the trusted one or signed with it, in its days, and for the name that was called.
    /// </summary>
    public bool Accepts(object sender, X509Certificate? presented, X509Chain? chain, SslPolicyErrors errors)
    {
        if (presented is not X509Certificate2 certificate || (errors & ~SslPolicyErrors.RemoteCertificateChainErrors) != 0)
        {
            return false;
        }

        // Somebody else may have signed it: trusted is this one, and not who signed it.
        if (certificate.RawDataMemory.Span.SequenceEqual(_trusted.RawDataMemory.Span))
        {
            return DateTime.Now >= certificate.NotBefore && DateTime.Now <= certificate.NotAfter;
        }

        using var ours = new X509Chain
        {
            ChainPolicy =
            {
                TrustMode = X509ChainTrustMode.CustomRootTrust,
                RevocationMode = X509RevocationMode.NoCheck,
                CustomTrustStore = { _trusted },
            },
        };
        ours.ChainPolicy.ExtraStore.AddRange(chain?.ChainPolicy.ExtraStore ?? []);
        return ours.Build(certificate);
    }
}
