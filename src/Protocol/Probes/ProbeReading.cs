namespace CaptureAgent.Protocol.Probes;

/// <summary>One temperature exactly as the probe sent it, in degrees Celsius, with the step of its last digit.</summary>
public readonly record struct ProbeReading(decimal Celsius, decimal ResolutionCelsius);
