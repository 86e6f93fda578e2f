namespace CaptureAgent.Simulators.Bluetooth.StandIn;

/// <summary>A characteristic of a simulated device.</summary>
/// <param name="Uuid">Four digits or 36 characters.</param>
/// <param name="Flags">Such as notify, indicate, read, write.</param>
/// <param name="Value">What reading it gives.</param>
public sealed record SimulatedCharacteristic(string Service, string Uuid, string[] Flags, byte[] Value);

/// <summary>A simulated device on the air: what it has, and how it misbehaves.</summary>
public sealed class SimulatedPeripheral(string address, params SimulatedCharacteristic[] characteristics)
{
    public string Address { get; } = address;

    public IReadOnlyList<SimulatedCharacteristic> Characteristics { get; } = characteristics;

    /// <summary>Not in range, or switched off: it does not advertise and cannot be connected.</summary>
    public bool IsInRange { get; set; } = true;

    /// <summary>Errors that the next calls of Connect give, in their order: an error's last word, and its text.</summary>
    public Queue<(string Error, string Text)> ConnectErrors { get; } = new();

    /// <summary>Connects, but its services are never resolved.</summary>
    public bool NeverResolves { get; set; }

    /// <summary>No signal tells of its connections and their services: only who asks for its properties sees them.</summary>
    public bool IsUnsaid { get; set; }

    /// <summary>Services are said to be resolved before their characteristics are on the bus.</summary>
    public bool IsLate { get; set; }

    /// <summary>Each connection leaves the objects of the one before on the bus, as ghosts that notify no more.</summary>
    public bool LeavesGhosts { get; set; }

    /// <summary>StartNotify succeeds and nothing comes.</summary>
    public bool IsMute { get; set; }

    /// <summary>Its characteristics can be used only once it is paired.</summary>
    public bool WantsPairing { get; set; }

    /// <summary>In advertisements, by UUID.</summary>
    public Dictionary<string, byte[]> ServiceData { get; } = new(StringComparer.Ordinal);

    /// <summary>Percent, on the bus while it is connected; null: it has no battery service.</summary>
    public byte? Battery { get; set; }

    /// <summary>What was written to it: UUID and bytes.</summary>
    public List<(string Uuid, byte[] Bytes)> Written { get; } = [];

    /// <summary>How often Connect was called.</summary>
    public int ConnectCalls { get; internal set; }

    /// <summary>As when the service that knew of it has died.</summary>
    public void ForgetConnection() => Notifying.Clear();

    internal int Connections { get; set; }

    internal HashSet<string> Notifying { get; } = new(StringComparer.Ordinal);

    internal TaskCompletionSource<bool>? Pending { get; set; }
}
