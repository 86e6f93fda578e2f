using System.Net;
using System.Net.NetworkInformation;
using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>Where the page listens, as <c>page.listen</c> says.</summary>
/// <param name="Address">Null: every address of this computer, of both kinds.</param>
internal sealed record ListenAddress(IPAddress? Address, int Port, bool IsSecure)
{
    /// <summary>The word that turns the page off.</summary>
    public const string Off = "off";

    private static readonly string[] Everywhere = ["*", "+", "0.0.0.0", "[::]"];

    public bool IsLoopback => Address is { } address && IPAddress.IsLoopback(address);

    /// <returns>Null if the page is turned off.</returns>
    /// <exception cref="FormatException">It is no such address; <see cref="Fault"/> says what is wrong.</exception>
    public static ListenAddress? Of(PageOptions page)
    {
        if (page.Listen == Off)
            return null;
        var uri = Parse(page.Listen) ?? throw new FormatException(Fault(page.Listen));
        IPAddress? address = uri.IdnHost is "localhost" ? IPAddress.Loopback : IPAddress.TryParse(uri.Host.Trim('[', ']'), out var literal) ? literal : null;
        if (address is not null && (address.Equals(IPAddress.Any) || address.Equals(IPAddress.IPv6Any)))
            address = null;
        return new(address, uri.Port, uri.Scheme == Uri.UriSchemeHttps);
    }

    /// <summary>What is wrong with the text; null if nothing is.</summary>
    public static string? Fault(string listen) => listen == Off || Parse(listen) is not null
        ? null
        : "must be an http or https address of this computer, by number and without a path, such as http://127.0.0.1:8790 or https://*:8790, or \"off\".";

    /// <summary>Names under which this computer is asked for: its own, and that with the network's usual ending.</summary>
    public static IEnumerable<string> OwnNames()
    {
        var name = Environment.MachineName;
        yield return name;
        yield return $"{name}.local";
        var domain = IPGlobalProperties.GetIPGlobalProperties().DomainName;
        if (domain.Length > 0 && domain != "(none)")
            yield return $"{name}.{domain}";
    }

    private static Uri? Parse(string listen)
    {
        var isEverywhere = Everywhere.Any(each => listen.Contains($"//{each}", StringComparison.Ordinal));
        var text = isEverywhere ? listen.Replace("//*", "//0.0.0.0", StringComparison.Ordinal).Replace("//+", "//0.0.0.0", StringComparison.Ordinal) : listen;
        return Uri.TryCreate(text, UriKind.Absolute, out var uri) && (uri.Scheme == Uri.UriSchemeHttp || uri.Scheme == Uri.UriSchemeHttps)
            && uri.PathAndQuery == "/" && uri.UserInfo.Length == 0 && (uri.Host == "localhost" || IPAddress.TryParse(uri.Host.Trim('[', ']'), out _))
            ? uri
            : null;
    }
}
