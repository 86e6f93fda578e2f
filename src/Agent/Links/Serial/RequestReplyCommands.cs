namespace CaptureAgent.Agent.Links.Serial;

/// <summary>What is sent to a scale that speaks only when asked.</summary>
internal static class RequestReplyCommands
{
    /// <summary>The weight as it is now, settled or not.</summary>
    public static ReadOnlySpan<byte> WeightNow => "SI\r\n"u8;
}
