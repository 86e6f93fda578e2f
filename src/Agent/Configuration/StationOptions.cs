using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Configuration;

/// <summary>station.json, bound and checked. Every key but a device's id, role and dialect has a default.</summary>
internal sealed class StationOptions
{
    /// <summary>The station's name in every row of the store: 1 to 64 characters.</summary>
    public string Station { get; set; } = "station";

    /// <summary>IANA name of a zone that the machine knows.</summary>
    public string TimeZone { get; set; } = "Etc/UTC";

    /// <summary>Local time at which a nursery day starts: 00:00 to 23:59.</summary>
    public TimeOnly DayStartsAt { get; set; } = new(3, 0);

    /// <summary>The store's file. A relative path starts at the folder of station.json, so that it means the same from wherever the agent is started.</summary>
    public string Store { get; set; } = "capture.db";

    public PageOptions Page { get; set; } = new();

    public CodeOptions Codes { get; set; } = new();

    public FeedingOptions Feeding { get; set; } = new();

    /// <summary>True: a chick scanned once more after its weighing, or weighed 3 to 15 % heavier within the hour, has been fed.</summary>
    public bool FeedFollowsWeighing { get; set; }

    public LabelOptions Labels { get; set; } = new();

    public AnswerOptions Answers { get; set; } = new();

    public HygieneOptions Hygiene { get; set; } = new();

    public IList<DeviceOptions> Devices { get; set; } = [];
}

internal sealed class PageOptions
{
    /// <summary>An http or https address of this computer, by number (or localhost, or * for all of them), without a path; "off": no page.</summary>
    public string Listen { get; set; } = "http://127.0.0.1:8790";

    /// <summary>For https: a certificate in PEM, with its chain; null: the agent makes one for itself. A relative path starts at the folder of station.json.</summary>
    public string? Certificate { get; set; }

    /// <summary>The certificate's key in PEM; null: it stands in the certificate's file.</summary>
    public string? CertificateKey { get; set; }

    /// <summary>Names under which the page is asked for, beside this computer's own.</summary>
    public IList<string> Hosts { get; set; } = [];
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

    public string Check { get; set; } = "!CHECK";

    public string Ice { get; set; } = "!ICE";

    public string Boil { get; set; } = "!BOIL";

    public string Reference { get; set; } = "!REFERENCE";

    public string Pair { get; set; } = "!PAIR";

    public string Crop { get; set; } = "!CROP";

    public string Washed { get; set; } = "!WASHED";

    public string Syringe { get; set; } = "!SYRINGE";

    public string Pan { get; set; } = "!PAN";

    public string Bowls { get; set; } = "!BOWLS";

    /// <summary>The chick is being weaned.</summary>
    public string Weaning { get; set; } = "!WEANING";

    /// <summary>What is seen of a chick, one card each.</summary>
    /// <remarks>Empty until bound: a binder adds to a list that is there. Left out, <see cref="DefaultObservations"/> holds.</remarks>
    public IList<ObservationCard> Observations { get; set; } = [];

    /// <summary>Each kind by its own name, in capitals: <c>!CROP-SMOOTH</c> and so on.</summary>
    public static IList<ObservationCard> DefaultObservations() =>
        [.. ObservationKinds.All.Where(kind => kind != ObservationKinds.Weaning).Select(kind => new ObservationCard { Kind = kind, Card = "!" + kind.ToUpperInvariant() })];
}

internal sealed class ObservationCard
{
    /// <summary>One of <see cref="ObservationKinds.All"/> but weaning, which has its own card.</summary>
    public string Kind { get; set; } = "";

    /// <summary>The card's code; starts with '!'.</summary>
    public string Card { get; set; } = "";
}

internal sealed class DeviceOptions
{
    /// <summary>1 to 32 letters, digits, '-' and '_'; each device its own.</summary>
    public string Id { get; set; } = "";

    /// <summary>scale, probe or scanner.</summary>
    public string Role { get; set; } = "";

    /// <summary>What the device speaks: see <see cref="Dialects"/>.</summary>
    public string Dialect { get; set; } = "";

    /// <summary>The scale interval d, in grams; 0.0001 to 100; null: taken from the digits that it sends.</summary>
    public decimal? DivisionGrams { get; set; }

    /// <summary>The largest load, 1 to 1,000,000 g; nine divisions above it begins overload; null: not known, the scale's own word counts.</summary>
    public decimal? CapacityGrams { get; set; }

    /// <summary>The scale's own accuracy (largest error within its specification) in grams, 0.0001 to 1000; null: what OIML R 76-1 permits a scale of class II.</summary>
    public decimal? AccuracyGrams { get; set; }

    /// <summary>The mass with which the check card checks the scale, 0.1 to 1,000,000 g and within the capacity; null: it cannot be checked.</summary>
    public decimal? CheckMassGrams { get; set; }

    /// <summary>The largest error of a check, 0.001 to 1000 g and less than the mass; null: one division, or the accuracy where that is more.</summary>
    public decimal? CheckToleranceGrams { get; set; }

    /// <summary>The probe's own accuracy (largest error within its specification) in °C, 0.05 to 5; null: 0.5.</summary>
    public decimal? AccuracyCelsius { get; set; }

    /// <summary>Silence after which the device is reported, in seconds, 0.5 to 86,400; null: by role. Scanners are never silent.</summary>
    public double? SilentAfterSeconds { get; set; }

    /// <summary>For <c>request-reply</c>: how often the scale is asked, 20 to 60,000 ms.</summary>
    public int PollMilliseconds { get; set; } = 100;

    /// <summary>For <c>custom</c>: the pattern of a whole line, with named groups value, unit and, if there are, sign and stable.</summary>
    public string? Pattern { get; set; }

    /// <summary>For <c>custom</c>: a line of this scale, on which the pattern is tried at start.</summary>
    public string? Sample { get; set; }

    /// <summary>For <c>bthome</c>: 32 hexadecimal digits.</summary>
    public string? Key { get; set; }

    /// <summary>For <c>frame</c>, and for lines over Bluetooth: where in what the device sends its value stands.</summary>
    public FrameOptions? Frame { get; set; }

    /// <summary>Battery level in per cent, 0 to 100, at or below which the device is reported; 0: never.</summary>
    public int BatteryWarnPercent { get; set; } = 15;

    public ConnectionOptions? Connection { get; set; }
}

internal sealed class ConnectionOptions
{
    /// <summary>serial, keyboard, bluetooth, hid, one-wire or iio.</summary>
    public string Kind { get; set; } = "serial";

    /// <summary>The device file; needed to open it, ignored in a replay.</summary>
    public string? Path { get; set; }

    /// <summary>Bluetooth address: six pairs of hexadecimal digits.</summary>
    public string? Address { get; set; }

    /// <summary>Address of the Bluetooth adapter to use, where there are several; null: the first.</summary>
    public string? Adapter { get; set; }

    /// <summary>Silence after which a Bluetooth connection is not believed any more and made anew, in seconds, 1 to 86,400; null: by role and dialect.</summary>
    public double? SuspectAfterSeconds { get; set; }

    /// <summary>Bits a second, 50 to 4,000,000.</summary>
    public int Baud { get; set; } = 9600;

    /// <summary>7 or 8.</summary>
    public int DataBits { get; set; } = 8;

    /// <summary>none, odd, even, mark or space.</summary>
    public string Parity { get; set; } = "none";

    /// <summary>1 or 2.</summary>
    public int StopBits { get; set; } = 1;

    /// <summary>none, xon-xoff or rts-cts.</summary>
    public string Flow { get; set; } = "none";
}
