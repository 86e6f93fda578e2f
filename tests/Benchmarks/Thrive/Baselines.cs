using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>What a keeper would see in a list of weights, told the chick's true final weight.</summary>
internal static class Baselines
{
    private const double NearPeak = 0.8;

    /// <summary>Any loss before 80 % of the peak.</summary>
    public static bool AnyLoss(RoomChick chick, int day) =>
        Last(chick, day) is { } before && chick.Weights[day] < chick.Weights[before] && chick.Weights[day] < NearPeak * chick.Species.FinalGrams;

    /// <summary>A gain under 3 % a day, two weighings running, before 80 % of the peak.</summary>
    public static bool LittleGain(RoomChick chick, int day) =>
        chick.Weights[day] < NearPeak * chick.Species.FinalGrams && Last(chick, day) is { } before && IsLittle(chick, before, day) && Last(chick, before) is { } first && IsLittle(chick, first, before);

    private static bool IsLittle(RoomChick chick, int from, int to) => Math.Log(chick.Weights[to] / chick.Weights[from]) / (to - from) < Math.Log(1.03);

    private static int? Last(RoomChick chick, int day)
    {
        if (chick.Weights[day] <= 0)
            return null;
        for (var before = day - 1; before >= 0; before--)
        {
            if (chick.Weights[before] > 0)
                return before;
        }

        return null;
    }
}
