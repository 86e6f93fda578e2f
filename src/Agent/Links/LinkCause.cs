namespace CaptureAgent.Agent.Links;

/// <summary>Why a device cannot be used, as one word: for programs, and for pages in another language than the words for people are in.</summary>
internal static class LinkCause
{
    /// <summary>It is not there, or not heard.</summary>
    public const string Absent = "absent";

    /// <summary>It was there and is not any more.</summary>
    public const string Lost = "lost";

    /// <summary>The system does not let the agent use it.</summary>
    public const string Denied = "denied";

    /// <summary>Something else uses it.</summary>
    public const string Busy = "busy";

    /// <summary>What is there is of another kind.</summary>
    public const string WrongDevice = "wrong-device";

    /// <summary>It is there and does not answer.</summary>
    public const string NoAnswer = "no-answer";

    /// <summary>It asks to be paired.</summary>
    public const string NotPaired = "not-paired";

    /// <summary>The computer's own Bluetooth is missing, off or deaf.</summary>
    public const string NoBluetooth = "no-bluetooth";

    /// <summary>The computer did not keep up, or has run out of something.</summary>
    public const string Overrun = "overrun";

    public static IEnumerable<string> All { get; } = [Absent, Lost, Denied, Busy, WrongDevice, NoAnswer, NotPaired, NoBluetooth, Overrun];
}
