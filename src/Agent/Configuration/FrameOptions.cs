namespace CaptureAgent.Agent.Configuration;

/// <summary>Where a device of no open standard puts its value: the frame description of station.json.</summary>
/// <remarks>A scale that sends lines over Bluetooth has the first four keys only.</remarks>
internal sealed class FrameOptions
{
    /// <summary>UUID of the GATT service: four hexadecimal digits, or all 36 characters. Tells two characteristics of one UUID apart; null: any.</summary>
    public string? Service { get; set; }

    /// <summary>UUID of the characteristic that notifies; null: whatever the device sends.</summary>
    public string? Characteristic { get; set; }

    /// <summary>Bytes in hexadecimal, written after connecting to make the device send; null: it sends by itself.</summary>
    public string? Start { get; set; }

    /// <summary>UUID of where <see cref="Start"/> is written; null: the characteristic that notifies.</summary>
    public string? StartCharacteristic { get; set; }
}
