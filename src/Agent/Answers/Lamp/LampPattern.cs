namespace CaptureAgent.Agent.Answers.Lamp;

internal enum LampColour
{
    Off,
    Green,
    Yellow,
    Red,
}

/// <summary>One stretch of a pattern.</summary>
internal readonly record struct LampStep(LampColour Colour, TimeSpan Length);

/// <summary>What the lamp shows for each answer. Rhythm alone tells them apart, for eyes that do not see red and green; never more than three flashes a second (WCAG 2.2, 2.3.1).</summary>
internal static class LampPattern
{
    public static IReadOnlyList<LampStep> Of(Answer answer) => answer switch
    {
        Answer.Heard => [On(LampColour.Yellow, 120)],
        Answer.GotIt => [On(LampColour.Green, 2000)],
        Answer.Refused => Flashes(LampColour.Red, 2, on: 350, off: 150),
        Answer.Look => Flashes(LampColour.Yellow, 3, on: 900, off: 500),
        _ => Flashes(LampColour.Red, 12, on: 200, off: 200),
    };

    /// <summary>Long, short, a few or many, for the README and for <c>hear</c>.</summary>
    public static string WordsFor(Answer answer) => answer switch
    {
        Answer.Heard => "yellow, one short flash",
        Answer.GotIt => "green, two seconds",
        Answer.Refused => "red, two flashes",
        Answer.Look => "yellow, three slow flashes",
        _ => "red, twelve quick flashes",
    };

    private static LampStep On(LampColour colour, int milliseconds) => new(colour, TimeSpan.FromMilliseconds(milliseconds));

    private static List<LampStep> Flashes(LampColour colour, int count, int on, int off)
    {
        List<LampStep> steps = [];
        for (var i = 0; i < count; i++)
            steps.AddRange([On(colour, on), On(LampColour.Off, off)]);
        return steps;
    }
}
