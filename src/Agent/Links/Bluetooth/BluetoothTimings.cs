namespace CaptureAgent.Agent.Links.Bluetooth;

/// <summary>How patient the Bluetooth central is. Common practice, no source, unless said otherwise.</summary>
internal sealed record BluetoothTimings
{
    public static BluetoothTimings Default { get; } = new();

    /// <summary>For a call that should be answered at once.</summary>
    public TimeSpan Calling { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>For a device that is not heard at first; then the try has failed and is told.</summary>
    public TimeSpan Seeing { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>A device that BlueZ knows may be connected without having been heard first: some are heard only by who connects.</summary>
    public TimeSpan SeeingKnown { get; init; } = TimeSpan.FromSeconds(8);

    /// <summary>Together with finding and resolving it leaves a try a minute.</summary>
    public TimeSpan Connecting { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>The attribute protocol gives an answer 30 s (Bluetooth Core Specification, Vol 3, Part F, 3.3.3), but one that takes nearly that long is lost.</summary>
    public TimeSpan Resolving { get; init; } = TimeSpan.FromSeconds(25);

    /// <summary>Characteristics may come on the bus a moment after their services are said to be resolved.</summary>
    public TimeSpan Appearing { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>Between questions for what a signal should tell.</summary>
    public TimeSpan Asking { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Before an aborted try is repeated.</summary>
    public TimeSpan Breath { get; init; } = TimeSpan.FromMilliseconds(500);

    /// <summary>A loss has a reason of the adapter's or the service's, which is told a moment later.</summary>
    public TimeSpan Reason { get; init; } = TimeSpan.FromMilliseconds(300);

    /// <summary>Nothing heard from anyone for so long: discovery may have died in silence.</summary>
    public TimeSpan Deaf { get; init; } = TimeSpan.FromSeconds(90);

    /// <summary>After a loss the device is listened for without a break; later now and then.</summary>
    public TimeSpan FullScan { get; init; } = TimeSpan.FromMinutes(2);

    public TimeSpan SpareOn { get; init; } = TimeSpan.FromSeconds(5);

    public TimeSpan SpareOff { get; init; } = TimeSpan.FromSeconds(10);

    public TimeSpan BatteryEvery { get; init; } = TimeSpan.FromHours(1);

    /// <summary>For a person to look at two numbers; BlueZ's own limit is 60 s.</summary>
    public TimeSpan Confirming { get; init; } = TimeSpan.FromSeconds(55);
}
