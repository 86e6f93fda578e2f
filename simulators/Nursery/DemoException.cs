namespace CaptureAgent.Simulators.Nursery;

/// <summary>The demo cannot go on; the message is for the one who watches.</summary>
internal sealed class DemoException(string message) : Exception(message);
