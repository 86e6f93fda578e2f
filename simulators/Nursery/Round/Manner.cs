namespace CaptureAgent.Simulators.Nursery.Round;

/// <summary>How the keeper goes about one placing.</summary>
internal sealed record Manner
{
    /// <summary>When the code is scanned; <see cref="CodeTime.Never"/> is a mishap.</summary>
    public CodeTime Code { get; init; } = CodeTime.Before;

    /// <summary>Share of the weight that the hand still carries after the landing.</summary>
    public double Support { get; init; } = 0.4;

    public double HoldSeconds { get; init; } = 0.8;

    public double Unsteadiness { get; init; } = 0.03;

    /// <summary>What the chick leaves on the towel.</summary>
    public double DroppingGrams { get; init; }

    /// <summary>Somebody knocks against the bench.</summary>
    public bool Bumped { get; init; }
}

internal enum CodeTime
{
    Before,
    After,
    Never,
}
