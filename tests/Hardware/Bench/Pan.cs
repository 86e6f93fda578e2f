namespace CaptureAgent.Hardware.Bench;

/// <summary>What lies on the pan of a bench scale.</summary>
/// <param name="scale">Its id at the station.</param>
internal sealed class Pan(string scale)
{
    public string Scale => scale;

    /// <summary>In tenths of a gram.</summary>
    public volatile int Tenths;

    /// <summary>An animal moves; a liner does not.</summary>
    public volatile bool IsAlive;

    /// <summary>What the scale shows, in tenths: a chick breathes, three tenths either way.</summary>
    public int Show(int turn) => Tenths + (IsAlive ? (int)Math.Round(3 * Math.Sin(turn * 0.9)) : 0);
}
