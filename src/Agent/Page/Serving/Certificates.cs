using System.Net;
using System.Net.NetworkInformation;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>The certificate for https: the user's, or one that the agent makes for itself and keeps beside the store.</summary>
internal static class Certificates
{
    private const string SelfMade = "page-certificate.pem", ServerAuthentication = "1.3.6.1.5.5.7.3.1";

    /// <summary>Browsers refuse certificates that are good for longer (CA/Browser Forum: 398 days; from memory).</summary>
    private static readonly TimeSpan Validity = TimeSpan.FromDays(397);

    private static readonly TimeSpan RenewBefore = TimeSpan.FromDays(30);

    /// <param name="folder">Of the store.</param>
    /// <exception cref="IOException">It cannot be read or written.</exception>
    /// <exception cref="CryptographicException">The file holds no certificate with its key.</exception>
    public static X509Certificate2 Of(PageOptions page, string folder, DateTimeOffset now)
    {
        if (OperatingSystem.IsWindows())
            throw new PlatformNotSupportedException("The agent runs on Linux.");
        if (page.Certificate is { } own)
            return Usable(X509Certificate2.CreateFromPemFile(own, page.CertificateKey ?? own));
        var path = Path.Combine(folder, SelfMade);
        if (File.Exists(path) && X509Certificate2.CreateFromPemFile(path) is { } kept && kept.NotAfter.ToUniversalTime() > (now + RenewBefore).UtcDateTime)
            return Usable(kept);
        using var made = Make(now);
        // The key is for the agent's own user alone.
        using (var file = new FileStream(path, new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write, UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite }))
        using (var text = new StreamWriter(file))
            text.Write(made.ExportCertificatePem() + "\n" + made.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem() + "\n");
        return Usable(X509Certificate2.CreateFromPemFile(path));
    }

    /// <summary>SHA-256 of the certificate, in the pairs of digits that browsers show.</summary>
    public static string Fingerprint(X509Certificate2 certificate) =>
        string.Join(':', SHA256.HashData(certificate.RawData).Select(pair => pair.ToString("X2", System.Globalization.CultureInfo.InvariantCulture)));

    private static X509Certificate2 Make(DateTimeOffset now)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest($"CN={Environment.MachineName}", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        foreach (var name in ListenAddress.OwnNames().Append("localhost"))
            names.AddDnsName(name);
        foreach (var address in Addresses())
            names.AddIpAddress(address);
        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: false, hasPathLengthConstraint: false, 0, critical: true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(ServerAuthentication)], critical: false));
        return request.CreateSelfSigned(now.AddDays(-1), now + Validity);
    }

    private static IEnumerable<IPAddress> Addresses() =>
        NetworkInterface.GetAllNetworkInterfaces().SelectMany(each => each.GetIPProperties().UnicastAddresses).Select(each => each.Address)
            .Where(address => !address.IsIPv6LinkLocal).Append(IPAddress.Loopback).Distinct();

    // A key straight from PEM is not one that every platform serves with; through PKCS #12 it is.
    private static X509Certificate2 Usable(X509Certificate2 read)
    {
        using (read)
            return X509CertificateLoader.LoadPkcs12(read.Export(X509ContentType.Pkcs12), null);
    }
}
