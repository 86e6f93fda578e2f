namespace CaptureAgent.Agent.Answers;

/// <summary>Answers that wait for the loudspeaker: few, the most important first, none that has become stale. For one thread at a time.</summary>
/// <remarks>Among urgent ones the newest is first: it is what the keeper's hands are at. The others keep their order.</remarks>
internal sealed class AnswerQueue
{
    public const int Capacity = 16;

    /// <summary>A tick that comes later would be taken for that of the next scan.</summary>
    public static readonly TimeSpan HeardIsStaleAfter = TimeSpan.FromSeconds(1);

    /// <summary>What was put on the pan since then is another chick.</summary>
    public static readonly TimeSpan RestIsStaleAfter = TimeSpan.FromSeconds(20);

    private readonly List<Reply> waiting = [];

    /// <summary>Answers that found no room.</summary>
    public long Dropped { get; private set; }

    public int Count => waiting.Count;

    public bool HasTone => waiting.Exists(reply => reply.Tone is not null);

    public void Put(Reply reply)
    {
        // The verdict says that the code was heard; and the same thing said of twenty chicks is one tone.
        if (reply.Tone is { } tone && tone != Answer.Heard)
            waiting.RemoveAll(other => other is { Tone: Answer.Heard, Said: null });
        if (reply.Tone is not null and not Answer.GotIt && waiting.Exists(other => other.Tone == reply.Tone && other.Said == reply.Said))
            return;
        if (waiting.Count == Capacity)
        {
            Dropped++;
            var least = waiting.MinBy(other => other.Importance)!;
            if (least.Importance > reply.Importance)
                return;
            waiting.Remove(least);
        }

        waiting.Add(reply);
    }

    /// <param name="now">On the clock of the events.</param>
    public bool TryTake(DateTimeOffset now, out Reply reply)
    {
        waiting.RemoveAll(other => other.Importance < Answer.Urgent && now - other.At > (other is { Tone: Answer.Heard, Said: null } ? HeardIsStaleAfter : RestIsStaleAfter));
        var next = waiting.FindLastIndex(other => other.Importance == Answer.Urgent);
        if (next < 0 && waiting.Count > 0)
            next = 0;
        reply = next < 0 ? null! : waiting[next];
        if (next >= 0)
            waiting.RemoveAt(next);
        return next >= 0;
    }
}
