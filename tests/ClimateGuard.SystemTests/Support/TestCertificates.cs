using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ClimateGuard.SystemTests.Support;

/// <summary>An authority of its own with certificates for broker and client, made anew in a folder.</summary>
public sealed class TestCertificates : IDisposable
{
    private readonly ECDsa authorityKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly X509Certificate2 authority;

    public TestCertificates(string folder, string name)
    {
        Folder = Directory.CreateDirectory(Path.Combine(folder, name)).FullName;
        var request = new CertificateRequest($"CN={name} authority", authorityKey, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        authority = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-400), DateTimeOffset.UtcNow.AddDays(30));
        File.WriteAllText(CaFile, authority.ExportCertificatePem());
    }

    public string Folder { get; }

    public string CaFile => Path.Combine(Folder, "ca.pem");

    /// <summary>Writes {name}.pem, {name}.key, {name}-both.pem and {name}.pfx.</summary>
    public string Issue(string name, DateTimeOffset? until = null)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest($"CN={name}", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddIpAddress(IPAddress.Loopback);
        request.CertificateExtensions.Add(names.Build());
        using var signed = request.Create(authority, DateTimeOffset.UtcNow.AddDays(-300), until ?? DateTimeOffset.UtcNow.AddDays(20), RandomNumberGenerator.GetBytes(8));
        using var whole = signed.CopyWithPrivateKey(key);
        var stem = Path.Combine(Folder, name);
        File.WriteAllText($"{stem}.pem", signed.ExportCertificatePem());
        File.WriteAllText($"{stem}.key", key.ExportPkcs8PrivateKeyPem());
        File.WriteAllText($"{stem}-both.pem", signed.ExportCertificatePem() + "\n" + key.ExportPkcs8PrivateKeyPem());
        File.WriteAllBytes($"{stem}.pfx", whole.Export(X509ContentType.Pkcs12));
        return stem;
    }

    public void Dispose()
    {
        authority.Dispose();
        authorityKey.Dispose();
    }
}
