namespace CaptureAgent.Simulators.Physics.Probes;

/// <summary>A bowl of formula that cools towards the room (Newton's law of cooling).</summary>
/// <param name="StartCelsius">At time zero.</param>
/// <param name="RoomCelsius">What it cools towards.</param>
/// <param name="PerMinute">Rate; 0.02 is a plausible bowl of 300 ml (no source).</param>
public sealed record Bowl(double StartCelsius, double RoomCelsius = 24, double PerMinute = 0.02)
{
    public double CelsiusAt(double seconds) => RoomCelsius + ((StartCelsius - RoomCelsius) * Math.Exp(-PerMinute * seconds / 60));
}
