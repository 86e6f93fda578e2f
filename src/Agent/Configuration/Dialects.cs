using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Configuration;

/// <summary>The roles a device can have and the dialects of each.</summary>
internal static class Dialects
{
    public static IReadOnlyList<string> Roles { get; } = ["scale", "probe", "scanner"];

    public static IReadOnlyList<string> Kinds { get; } = ["serial", "keyboard", "bluetooth", "hid", "one-wire", "iio"];

    /// <summary>Kinds of connection that this version can open.</summary>
    public static IReadOnlyList<string> ServedKinds { get; } = Links.LinkFactory.Kinds;

    /// <summary>Dialects that this version can read; empty for an unknown role.</summary>
    public static IReadOnlyList<string> Served(string role) => role switch
    {
        "scale" => [.. ScaleDialects.Names, "weight-scale", "bthome", "frame", "hid"],
        "probe" => ["health-thermometer", "environmental-sensing", "bthome", "frame", "text"],
        "scanner" => ["line", "transponder"],
        _ => [],
    };

    /// <summary>Dialects that station.json has names for, but that this version cannot read.</summary>
    public static IReadOnlyList<string> Unserved(string role) => role switch
    {
        "scale" => ["modbus"],
        "probe" => ["one-wire", "iio"],
        _ => [],
    };
}
