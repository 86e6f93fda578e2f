namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>The states of a batch. Only from <see cref="InRange"/> may be fed.</summary>
internal static class BatchStates
{
    public const string
        Unmeasured = "unmeasured", Warming = "warming", TooCold = "too-cold", OneReading = "one-reading", InRange = "in-range",
        TooHot = "too-hot", Stop = "stop", Stir = "stir", Discard = "discard";

    /// <summary>Whether it says what a probe at rest showed.</summary>
    public static bool IsSettled(string state) => state is OneReading or InRange or TooCold or TooHot;

    /// <summary>Whether the moment of falling below the band is told.</summary>
    public static bool HasForecast(string state) => state is InRange or TooHot or Stop;
}
