namespace CaptureAgent.Agent.Round;

/// <summary>Grams as they are told and stored: to the milligram.</summary>
internal static class Milligram
{
    public static decimal Nearest(double grams) => Math.Round((decimal)grams, 3, MidpointRounding.ToEven);
}
