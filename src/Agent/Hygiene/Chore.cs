namespace CaptureAgent.Agent.Hygiene;

/// <summary>The chores of hygiene.</summary>
internal static class Chore
{
    public const string Wash = "wash", Syringe = "syringe", Pan = "pan", Bowls = "bowls";

    /// <summary>What is to be done, for a keeper.</summary>
    /// <param name="card">The card that says it is done.</param>
    public static string TextOf(string chore, string card) => chore switch
    {
        Wash => $"Wash the instruments: soap and warm water first, then disinfect for the time on its label, then rinse. Never mix cleaners. Then scan {card}.",
        Syringe => $"Throw syringes and plungers away and take new ones. Then scan {card}.",
        Pan => $"Another clutch's turn: disinfect the pan, rinse and dry it, change gloves. Then scan {card}.",
        _ => $"Change the water and weaning bowls. Then scan {card}.",
    };
}
