namespace CaptureAgent.Agent.Checks;

/// <summary>The lines that <c>check</c> prints, and whether anything is wrong.</summary>
internal sealed class CheckReport(TextWriter output)
{
    public bool IsGood { get; private set; } = true;

    public void Good(string what, string text) => output.WriteLine($"OK      {what}: {text}");

    /// <param name="text">What is wrong and how to mend it.</param>
    public void Wrong(string what, string text)
    {
        IsGood = false;
        output.WriteLine($"WRONG   {what}: {text}");
    }

    /// <param name="text">What should be seen to, though a round can go on.</param>
    public void Warn(string what, string text) => output.WriteLine($"WARN    {what}: {text}");

    public void Note(string text) => output.WriteLine($"NOTE    {text}");
}
