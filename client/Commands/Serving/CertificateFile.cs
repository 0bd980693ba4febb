using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Commands;

/// <summary>The service's certificate with its private key: a PEM pair, or one PKCS #12 file.</summary>
internal static class CertificateFile
{
    /// <summary>The variable with the password of the certificate's key.</summary>
    public const string PasswordVariable = "CABLECATALOG_CERTIFICATE_PASSWORD";

    /// <summary>Reads it.</summary>
    /// <param name="certificate">The certificate and, where there are such, those that signed it; or the key too.</param>
    /// <param name="key">The private key; null where it is in the same file.</param>
    /// <param name="terminal">For the password, which may be in a variable.</param>
    /// <returns>The certificate with its key, and those that signed it.</returns>
    /// <exception cref="ClientFailure">It cannot be read, or has no private key.</exception>
    public static (X509Certificate2 Own, X509Certificate2Collection Signers) Read(string certificate, string? key, Terminal terminal)
    {
        string? password = terminal.Variable(PasswordVariable);
        try
        {
            bool isPem = key is not null || File.ReadAllText(certificate).Contains("-----BEGIN", StringComparison.Ordinal);
            X509Certificate2Collection all = isPem ? [] : X509CertificateLoader.LoadPkcs12CollectionFromFile(certificate, password);
            if (isPem)
            {
                all.ImportFromPemFile(certificate);
            }

            X509Certificate2? own = !isPem
                ? all.FirstOrDefault(one => one.HasPrivateKey)
                : string.IsNullOrEmpty(password)
                    ? X509Certificate2.CreateFromPemFile(certificate, key)
                    : X509Certificate2.CreateFromEncryptedPemFile(certificate, password, key);
            return own is { HasPrivateKey: true }
                ? (own, [.. all.Where(one => !one.RawDataMemory.Span.SequenceEqual(own.RawDataMemory.Span))])
                : throw new ClientFailure(ExitCode.BadInput, $"--certificate {certificate} has no private key in it; give it with --certificate-key.");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or CryptographicException)
        {
            throw new ClientFailure(
                ExitCode.BadInput,
                $"--certificate {certificate}: a PEM pair or a PKCS #12 file with its private key is expected, its password in "
                    + $"{PasswordVariable} where it has one ({failure.Message}).");
        }
    }
}
