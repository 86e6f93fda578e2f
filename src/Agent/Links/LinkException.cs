namespace CaptureAgent.Agent.Links;

/// <summary>A device that cannot be used now. Never fatal: it is tried again for ever.</summary>
/// <param name="cause">One of <see cref="LinkCause"/>.</param>
/// <param name="message">What is wrong, and where.</param>
/// <param name="remedy">What a person can do about it.</param>
internal sealed class LinkException(string cause, string message, string remedy) : IOException(message)
{
    public string Cause => cause;

    /// <summary>There is no such device now: after a loss nothing new.</summary>
    public bool IsAbsence { get; init; }

    /// <summary>Both, as one text for people. Equal for equal causes: a change of it is a change of the reason.</summary>
    public string Detail => $"{Message} {remedy}";
}
