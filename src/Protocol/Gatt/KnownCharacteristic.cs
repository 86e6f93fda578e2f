using System.Globalization;

namespace CaptureAgent.Protocol.Gatt;

/// <summary>What a device says of itself in the characteristics that many devices have, in words.</summary>
public static class KnownCharacteristic
{
    /// <summary>Those that are worth a look when a device is met for the first time.</summary>
    public static IReadOnlyList<string> Introducing { get; } = ["2a29", "2a24", "2a25", "2a26", "2a27", "2a28", "2a50", "2a19", "2a2b"];

    /// <summary>Null for a characteristic that is none of them, or says nothing.</summary>
    /// <param name="uuid">Four lower-case digits.</param>
    public static string? Describe(string? uuid, ReadOnlySpan<byte> value) => uuid switch
    {
        "2a29" => Named("maker", DeviceInformation.Text(value)),
        "2a24" => Named("model", DeviceInformation.Text(value)),
        "2a25" => Named("serial number", DeviceInformation.Text(value)),
        "2a26" => Named("firmware", DeviceInformation.Text(value)),
        "2a27" => Named("hardware", DeviceInformation.Text(value)),
        "2a28" => Named("software", DeviceInformation.Text(value)),
        "2a50" => DeviceInformation.ReadPnpId(value) is { } id ? string.Create(CultureInfo.InvariantCulture, $"product {id.Vendor:x4}:{id.Product:x4}, version {id.Version:x4}") : null,
        "2a19" => BatteryLevel.Read(value) is { } percent ? string.Create(CultureInfo.InvariantCulture, $"battery {percent} %") : null,
        "2a2b" => CurrentTime.Read(value)?.Time is { } time
            ? string.Create(CultureInfo.InvariantCulture, $"its own clock {time.Year:0000}-{time.Month:00}-{time.Day:00} {time.Hour:00}:{time.Minute:00}:{time.Second:00}")
            : null,
        _ => null,
    };

    private static string? Named(string what, string text) => text.Length == 0 ? null : $"{what} {text}";
}
