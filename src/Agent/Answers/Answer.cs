namespace CaptureAgent.Agent.Answers;

/// <summary>The five answers that are heard and seen; everything beyond them is said. In order of importance.</summary>
internal enum Answer
{
    /// <summary>The code was read.</summary>
    Heard,

    /// <summary>It is on disk.</summary>
    GotIt,

    /// <summary>Somebody should look, today.</summary>
    Look,

    /// <summary>It does not count: do it again.</summary>
    Refused,

    /// <summary>Now: before the next chick is fed.</summary>
    Urgent,
}

/// <summary>The answers' names, in files and on the command line.</summary>
internal static class AnswerNames
{
    public static IReadOnlyList<Answer> All { get; } = [Answer.Heard, Answer.GotIt, Answer.Refused, Answer.Look, Answer.Urgent];

    public static string Of(Answer answer) => answer switch
    {
        Answer.Heard => "heard",
        Answer.GotIt => "got-it",
        Answer.Look => "look",
        Answer.Refused => "refused",
        _ => "urgent",
    };

    public static string MeaningOf(Answer answer) => answer switch
    {
        Answer.Heard => "the code was read",
        Answer.GotIt => "it is on disk",
        Answer.Look => "look at it today; what it is, is said",
        Answer.Refused => "it does not count; why, and what to do, is said",
        _ => "now, before the next feed; what it is, is said",
    };

    public static string SoundOf(Answer answer) => answer switch
    {
        Answer.Heard => "one tick, as of a pencil",
        Answer.GotIt => "a lid that shuts: clack, then a fuller knock",
        Answer.Look => "one long 'hm?' that rises",
        Answer.Refused => "two rough buzzes: no, no",
        _ => "hammering at a door: six blows, twice",
    };
}
