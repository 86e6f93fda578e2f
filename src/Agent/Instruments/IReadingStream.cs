namespace CaptureAgent.Agent.Instruments;

/// <summary>What one device sends, as readings. Keeps what is not complete until more comes.</summary>
internal interface IReadingStream<TReading>
    where TReading : struct
{
    /// <summary>State of charge that the device told with its readings, in per cent; null: not told.</summary>
    int? BatteryPercent => null;

    /// <summary>The device's own clock at the newest reading, in seconds from any beginning; null: it has none.</summary>
    double? DeviceSeconds => null;

    /// <summary>Takes bytes off the front until there is a reading or a refusal; false when they ran out first.</summary>
    /// <param name="source">GATT characteristic or service data UUID, or "hid"; null for text.</param>
    /// <param name="reading">Default unless the fault is none.</param>
    bool TryTake(string? source, ref ReadOnlySpan<byte> bytes, out TReading reading, out Protocol.LineFault fault);

    /// <summary>The link was lost: a half line is no line.</summary>
    void Reset();
}
