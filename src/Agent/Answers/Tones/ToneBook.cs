namespace CaptureAgent.Agent.Answers.Tones;

/// <summary>The five tones. Each sounds like what it means, and differs from the others in rhythm and timbre, not in pitch alone.</summary>
/// <remarks>
/// Not melodies: of the melodic alarms of IEC 60601-1-8 fewer than 30 % of 33 learners knew all after two sessions (PubMed 16430567);
/// sounds that resemble what they mean are learned better (Applied Ergonomics 99, 2022, 103609). What a tone means can be heard
/// below 2 kHz, for ears that have lost the treble; and pitch carries nothing that rhythm does not.
/// </remarks>
internal static class ToneBook
{
    private static readonly double[][] Made = [.. Enum.GetValues<Answer>().Select(Make)];

    /// <summary>At full loudness; <see cref="Wave.Rate"/> a second.</summary>
    public static ReadOnlySpan<double> Samples(Answer answer) => Made[(int)answer];

    private static double[] Make(Answer answer) => answer switch
    {
        Answer.Heard => new Strip(70).Knock(0, 7, 1, 1150, 1900).AtLevel(-27),
        Answer.GotIt => new Strip(560).Knock(0, 22, 0.6, 560, 1330).Knock(115, 95, 1, 330, 655, 985).AtLevel(-18),
        Answer.Refused => new Strip(470).Rasp(0, 180, 135, 34).Rasp(280, 180, 135, 34).AtLevel(-17),
        Answer.Look => new Strip(650).Glide(0, 640, 390, 880).AtLevel(-17),
        _ => Hammering().AtLevel(-15),
    };

    private static Strip Hammering()
    {
        var strip = new Strip(1560);
        for (var blow = 0; blow < 12; blow++)
            strip.Knock(blow % 6 * 105 + blow / 6 * 800, 24, 1, 740, 1110, 1480, 1850);
        return strip;
    }
}
