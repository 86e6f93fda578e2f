namespace CaptureAgent.Agent;

/// <summary>The station's time axis, on which readings of scales and probes lie.</summary>
internal static class TimeAxis
{
    /// <summary>A moment in seconds.</summary>
    public static double Seconds(this DateTimeOffset at) => at.UtcTicks / (double)TimeSpan.TicksPerSecond;
}
