namespace CaptureAgent.Agent.Answers;

/// <summary>How loud an answer may be, by the hour at the station.</summary>
/// <param name="from">Null: there are no quiet hours. May be later than <paramref name="until"/>: over midnight.</param>
/// <param name="loudness">By day, 0 to 100 %.</param>
/// <param name="quietLoudness">In the quiet hours, 0 to 100 %; 0: silence.</param>
internal sealed class QuietHours(TimeOnly? from, TimeOnly? until, int loudness, int quietLoudness, TimeZoneInfo zone)
{
    public bool Holds(DateTimeOffset at) =>
        from is { } begin && until is { } end && TimeOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, zone).DateTime).IsBetween(begin, end);

    /// <summary>0 to 100 %.</summary>
    public int LoudnessAt(DateTimeOffset at) => Holds(at) ? quietLoudness : loudness;

    /// <summary>At night chicks sleep: only what cannot wait is said.</summary>
    public bool MaySpeak(Reply reply) => !Holds(reply.At) || (reply.Importance == Answer.Urgent && quietLoudness > 0);
}
