using System.Globalization;

namespace CaptureAgent.Simulators.Nursery.Watching;

/// <summary>Tells in plain lines who does what, with the seconds since the start. Safe for several threads.</summary>
internal sealed class Narration(TextWriter output, TimeProvider time)
{
    private readonly Lock gate = new();
    private readonly long start = time.GetTimestamp();

    public double Seconds => time.GetElapsedTime(start).TotalSeconds;

    public void Say(string who, string what)
    {
        lock (gate)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Seconds,6:F1} s  {who,-7} {what}"));
    }

    public void Plain(string text)
    {
        lock (gate)
            output.WriteLine(text);
    }
}
