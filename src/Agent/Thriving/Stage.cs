namespace CaptureAgent.Agent.Thriving;

/// <summary>How far a chick has come.</summary>
internal enum Stage
{
    /// <summary>The first days: yolk is used up and the weight says little.</summary>
    Hatchling,
    Growing,

    /// <summary>The gain is all but over.</summary>
    Peak,

    /// <summary>Losing weight from the peak, as it should.</summary>
    Weaning,
    Weaned,
}

internal static class Stages
{
    /// <summary>For a list, a report and JSON.</summary>
    public static string Word(this Stage stage) => stage switch
    {
        Stage.Hatchling => "hatchling",
        Stage.Growing => "growing",
        Stage.Peak => "peak",
        Stage.Weaning => "weaning",
        _ => "weaned",
    };
}
