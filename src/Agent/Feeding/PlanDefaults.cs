using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Feeding;

/// <summary>How often, how thick and how much a chick is fed by age, where the station does not say otherwise.</summary>
/// <remarks>
/// <list type="bullet">
/// <item>Through day 5 every two hours, through the night too: Stanley in Duerr and Gage (eds) 2020, Hand-Rearing Birds, 2nd ed., p. 616.</item>
/// <item>Later every 3, 5 and 8 hours (5 to 7, then 4 to 5, then 2 to 3 feeds a day): common practice, no source; no longer than the crop takes to empty
/// ("nearly empty in 4-6 h in all chicks": Doneley, WSAVA 2018, p. 592).</item>
/// <item>Solids 7 % through day 4, then 25 to 30 %: Roudybush and Grau 1986, J. Nutr. 116:552 (cockatiels: 7 % for days 0 to 4, then 30 %; 10 % throughout starved them);
/// 25 % to day 20: common practice, no source.</item>
/// <item>At most 10 % of body weight a feed before weaning: Harris, Primary avian pediatrics, VIN PR00290; not above 10 to 12 %: Rivera 2008.</item>
/// </list>
/// </remarks>
internal static class PlanDefaults
{
    public static IReadOnlyList<PlanOptions> Steps { get; } =
    [
        new() { ThroughDay = 4, EveryHours = 2, ThroughNight = true, SolidsPercent = 7 },
        new() { ThroughDay = 5, EveryHours = 2, ThroughNight = true, SolidsPercent = 25 },
        new() { ThroughDay = 20, EveryHours = 3, SolidsPercent = 25 },
        new() { ThroughDay = 35, EveryHours = 5, SolidsPercent = 30 },
        new() { EveryHours = 8, SolidsPercent = 30 },
    ];
}
