namespace CaptureAgent.Agent.Answers.Lamp;

/// <summary>A lamp that can be opened; opening it anew after a fault is a matter of course.</summary>
internal interface ILampSource
{
    /// <exception cref="LampException">It cannot be used now.</exception>
    ILamp Open();
}

/// <summary>An opened lamp. Dark when it is disposed.</summary>
internal interface ILamp : IDisposable
{
    /// <exception cref="LampException">It is gone.</exception>
    void Show(LampColour colour);
}

/// <summary>The lamp cannot be used. The message says why and what to do.</summary>
internal sealed class LampException(string message) : Exception(message);
