namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>Numbers as one language says them.</summary>
internal interface INumberWords
{
    /// <summary>The word between the whole part and the decimals.</summary>
    string DecimalMark { get; }

    string Minus { get; }

    /// <param name="number">0 to 999,999.</param>
    /// <param name="beforeNoun">A masculine noun follows at once.</param>
    string Cardinal(int number, bool beforeNoun);
}
