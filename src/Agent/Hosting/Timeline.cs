namespace CaptureAgent.Agent.Hosting;

/// <summary>Gives each record its place in time: never before the one that came before it, and always after a deadline that has fired.</summary>
/// <remarks>A trace keeps exactly these moments, so that its replay fires the same deadlines before the same records.</remarks>
internal sealed class Timeline
{
    private DateTimeOffset floor = DateTimeOffset.MinValue;

    /// <summary>The moment of the next record, in the steps of a trace.</summary>
    public DateTimeOffset Place(DateTimeOffset at)
    {
        var whole = at.AddTicks(-(at.UtcTicks % Trace.TraceWriter.TicksPerStep));
        floor = whole > floor ? whole : floor;
        return floor;
    }

    /// <summary>Every deadline up to this moment has fired.</summary>
    public void Fired(DateTimeOffset upTo)
    {
        var next = upTo.AddTicks(Trace.TraceWriter.TicksPerStep - (upTo.UtcTicks % Trace.TraceWriter.TicksPerStep));
        floor = next > floor ? next : floor;
    }
}
