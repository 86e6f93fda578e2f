namespace CaptureAgent.Agent.Configuration;

/// <summary>How the station answers: tones, voice, lamp.</summary>
internal sealed class AnswerOptions
{
    /// <summary>The ALSA device that tones and voice are played on; <c>default</c> is the system's own.</summary>
    public string Device { get; set; } = "default";

    /// <summary>0 to 100 %; 0: no sound. Chicks hear it too.</summary>
    public int Loudness { get; set; } = 60;

    /// <summary>Local time from which it is quieter; null: there are no quiet hours.</summary>
    public TimeOnly? QuietFrom { get; set; }

    /// <summary>Local time until which it is quieter.</summary>
    public TimeOnly? QuietUntil { get; set; }

    /// <summary>0 to 100 %, in the quiet hours; only what is urgent is said then.</summary>
    public int QuietLoudness { get; set; } = 15;

    /// <summary>auto (the engine that is installed), none, espeak-ng or spd-say.</summary>
    public string Voice { get; set; } = "auto";

    /// <summary>Of what is said: en or es.</summary>
    public string Language { get; set; } = "en";

    public LampOptions Lamp { get; set; } = new();
}

internal sealed class LampOptions
{
    /// <summary>none, gpio or serial.</summary>
    public string Kind { get; set; } = "none";

    /// <summary>gpio: the number of the output line, 0 to 1023. serial: what is written to light it up, 1 to 32 ASCII characters.</summary>
    public string? Green { get; set; }

    public string? Yellow { get; set; }

    public string? Red { get; set; }

    /// <summary>serial: what is written to make it dark.</summary>
    public string? Off { get; set; }

    /// <summary>gpio: a light is on while its line is low.</summary>
    public bool ActiveLow { get; set; }

    /// <summary>serial: the device file, best the one under /dev/serial/by-id.</summary>
    public string? Path { get; set; }

    /// <summary>serial: bits a second, 50 to 4,000,000.</summary>
    public int Baud { get; set; } = 9600;
}
