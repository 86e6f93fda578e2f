namespace CaptureAgent.Agent.Configuration;

/// <summary>station.json, bound and checked. Every key but a device's id, role and dialect has a default.</summary>
internal sealed class StationOptions
{
    public string Station { get; set; } = "station";

    /// <summary>IANA name.</summary>
    public string TimeZone { get; set; } = "Etc/UTC";

    /// <summary>Local hour at which a nursery day starts.</summary>
    public TimeOnly DayStartsAt { get; set; } = new(3, 0);

    public string Store { get; set; } = "capture.db";

    public PageOptions Page { get; set; } = new();

    public CodeOptions Codes { get; set; } = new();

    public FeedingOptions Feeding { get; set; } = new();

    public IList<DeviceOptions> Devices { get; set; } = [];
}

internal sealed class PageOptions
{
    public string Listen { get; set; } = "http://127.0.0.1:8790";
}

internal sealed class CodeOptions
{
    /// <summary>Matched whole, against the code with its check characters.</summary>
    public string Pattern { get; set; } = "[A-Za-z0-9./-]{2,24}";

    /// <summary>none, mod37-2, mod97-10 or mod11-2.</summary>
    public string Check { get; set; } = "none";

    /// <summary>The codes of the command cards; each starts with '!'.</summary>
    public CardOptions Cards { get; set; } = new();
}

internal sealed class CardOptions
{
    public string Fed { get; set; } = "!FED";

    public string Reweigh { get; set; } = "!REWEIGH";

    public string Undo { get; set; } = "!UNDO";

    public string Batch { get; set; } = "!BATCH";

    public string Tare { get; set; } = "!TARE";
}

internal sealed class FeedingOptions
{
    /// <summary>Hours a crop is given to empty, by day of age: up to and including <see cref="EmptyingStep.ThroughDay"/>; the last has none.</summary>
    public IList<EmptyingStep> EmptyingGap { get; set; } = [];
}

internal sealed class EmptyingStep
{
    public int? ThroughDay { get; set; }

    public double Hours { get; set; }
}

internal sealed class DeviceOptions
{
    public string Id { get; set; } = "";

    /// <summary>scale, probe or scanner.</summary>
    public string Role { get; set; } = "";

    public string Dialect { get; set; } = "";

    /// <summary>The scale interval d, in grams; null: taken from the digits that it sends.</summary>
    public decimal? DivisionGrams { get; set; }

    public decimal? CapacityGrams { get; set; }

    /// <summary>The scale's own accuracy (largest error within its specification) in grams; null: one division.</summary>
    public decimal? AccuracyGrams { get; set; }

    /// <summary>Silence after which the device is reported, in seconds; null: by role. Scanners are never silent.</summary>
    public double? SilentAfterSeconds { get; set; }

    /// <summary>For <c>request-reply</c>: how often the scale is asked.</summary>
    public int PollMilliseconds { get; set; } = 100;

    /// <summary>For <c>custom</c>: the pattern of a whole line, with named groups value, unit and, if there are, sign and stable.</summary>
    public string? Pattern { get; set; }

    /// <summary>For <c>custom</c>: a line of this scale, on which the pattern is tried at start.</summary>
    public string? Sample { get; set; }

    /// <summary>For <c>bthome</c>: 32 hexadecimal digits.</summary>
    public string? Key { get; set; }

    public ConnectionOptions? Connection { get; set; }
}

internal sealed class ConnectionOptions
{
    /// <summary>serial, keyboard, bluetooth, hid, one-wire or iio.</summary>
    public string Kind { get; set; } = "serial";

    public string? Path { get; set; }

    public string? Address { get; set; }

    public int Baud { get; set; } = 9600;

    public int DataBits { get; set; } = 8;

    /// <summary>none, odd, even, mark or space.</summary>
    public string Parity { get; set; } = "none";

    /// <summary>1 or 2.</summary>
    public int StopBits { get; set; } = 1;

    /// <summary>none, xon-xoff or rts-cts.</summary>
    public string Flow { get; set; } = "none";
}
