using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>Loads the certificates of the settings and judges the broker's.</summary>
internal static class BrokerCertificates
{
    /// <summary>What is wrong with the files, which exist and can be read.</summary>
    internal static IEnumerable<string> Problems(BrokerSettings settings)
    {
        if (settings.CaFile is { Length: > 0 } caFile && Failure(() => Authorities(settings)) is { } ca)
        {
            yield return $"{BrokerSettings.Section}:CaFile \"{caFile}\" holds no certificate ({ca}); PEM text is needed";
        }

        if (settings.ClientCertificate is { Length: > 0 } own && Failure(() => Own(settings)) is { } client)
        {
            yield return $"{BrokerSettings.Section}:ClientCertificate \"{own}\" cannot be used ({client}); "
                + "a PFX file without password, or PEM with certificate and key, is needed";
        }
    }

    /// <summary>The certificates to trust; empty for those of the system.</summary>
    /// <exception cref="CryptographicException">The file holds none.</exception>
    internal static X509Certificate2Collection Authorities(BrokerSettings settings)
    {
        var authorities = new X509Certificate2Collection();
        if (settings.CaFile is { Length: > 0 } file)
        {
            authorities.ImportFromPemFile(file);
            if (authorities.Count == 0)
            {
                throw new CryptographicException("no certificate in it");
            }
        }

        return authorities;
    }

    /// <summary>Our own certificate with its key, or null.</summary>
    /// <exception cref="CryptographicException">The file holds none, or no key.</exception>
    internal static X509Certificate2? Own(BrokerSettings settings)
    {
        if (settings.ClientCertificate is not { Length: > 0 } file)
        {
            return null;
        }

        var isPfx = Path.GetExtension(file).ToUpperInvariant() is ".PFX" or ".P12";
        var certificate = isPfx
            ? X509CertificateLoader.LoadPkcs12FromFile(file, null)
            : X509Certificate2.CreateFromPemFile(file, settings.ClientKey is { Length: > 0 } key ? key : null);
        return certificate.HasPrivateKey ? certificate : throw new CryptographicException("no key in it");
    }

    /// <summary>Why the certificate of the broker is not accepted, or null when it is.</summary>
    /// <param name="certificate">As presented.</param>
    /// <param name="chain">The chain as presented; its extra certificates may be intermediates.</param>
    /// <param name="errors">What the platform found, judged against its own trust.</param>
    /// <param name="authorities">Whom to trust; empty for the platform's own judgement.</param>
    /// <param name="now">The time to judge validity at.</param>
    internal static string? Refusal(
        X509Certificate2 certificate, X509Chain? chain, SslPolicyErrors errors, X509Certificate2Collection authorities, DateTime now)
    {
        if (now > certificate.NotAfter)
        {
            return $"the certificate of the broker expired on {certificate.NotAfter.ToUniversalTime():yyyy-MM-dd}: renew it on the broker";
        }

        if (now < certificate.NotBefore)
        {
            return $"the certificate of the broker is valid only from {certificate.NotBefore.ToUniversalTime():yyyy-MM-dd}: check both clocks";
        }

        if (errors.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch))
        {
            return "the certificate of the broker is for another name: Broker:Host must be a name or address in it";
        }

        if (authorities.Count == 0)
        {
            return errors == SslPolicyErrors.None
                ? null
                : "the certificate of the broker is signed by nobody this system trusts: set Broker:CaFile to the certificate of the signer";
        }

        using var own = new X509Chain();
        own.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        own.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        own.ChainPolicy.VerificationTime = now;
        own.ChainPolicy.CustomTrustStore.AddRange(authorities);
        if (chain is not null)
        {
            own.ChainPolicy.ExtraStore.AddRange(chain.ChainPolicy.ExtraStore);
        }

        return own.Build(certificate)
            ? null
            : "the certificate of the broker is not signed by a certificate in Broker:CaFile: ask who runs the broker for the right file";
    }

    private static string? Failure(Func<object?> load)
    {
        try
        {
            (load() as IDisposable)?.Dispose();
            return null;
        }
        catch (Exception failed) when (failed is CryptographicException or IOException or ArgumentException)
        {
            return failed.Message.ReplaceLineEndings(" ");
        }
    }
}
