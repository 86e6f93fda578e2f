namespace CaptureAgent.Agent.Round;

/// <summary>Moments at which something happens by itself; null: never.</summary>
internal static class Deadline
{
    /// <summary>The earliest of them; null if there is none.</summary>
    public static DateTimeOffset? Earliest(params ReadOnlySpan<DateTimeOffset?> moments)
    {
        DateTimeOffset? earliest = null;
        foreach (var moment in moments)
            earliest = earliest is null || moment < earliest ? moment : earliest;
        return earliest;
    }
}
