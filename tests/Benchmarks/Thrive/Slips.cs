using System.Globalization;
using CaptureAgent.Benchmarks.Thrive.Bound;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>What goes wrong on a single morning: with the weighing, the crop or the room.</summary>
internal static class Slips
{
    private const int Each = 10;

    private static readonly double Apart = Math.Log(1.1);

    public static IReadOnlyList<RoomChick?> FillCrop(Room room, int day, IReadOnlyList<RoomChick> chicks, SeededRandom random)
    {
        foreach (var chick in chicks)
            chick.Weights[day] = Math.Round(chick.Weights[day] * (1 + random.Between(0.04, 0.10)), 1);
        return chicks;
    }

    public static IReadOnlyList<RoomChick?> ShiftRoom(Room room, int day, IReadOnlyList<RoomChick> chicks, SeededRandom random)
    {
        var factor = random.Chance(0.5) ? 1.02 : 0.98;
        foreach (var chick in room.Chicks)
            chick.Weights[day] = Math.Round(chick.Weights[day] * factor, 1);
        return [null];
    }

    public static IReadOnlyList<RoomChick?> ExchangeMates(Room room, int day, IReadOnlyList<RoomChick> chicks, SeededRandom random)
    {
        List<RoomChick?> exchanged = [];
        foreach (var nest in chicks.Count == 0 ? [] : room.Chicks.Where(chick => chick.Weights[day] > 0 && day - chick.HatchDay >= 6).GroupBy(chick => chick.Clutch))
        {
            if (exchanged.Count >= Each || nest.Take(2).ToList() is not [var a, var b] || Math.Abs(Math.Log(a.Weights[day] / b.Weights[day])) < Apart)
                continue;
            (a.Weights[day], b.Weights[day]) = (b.Weights[day], a.Weights[day]);
            exchanged.AddRange([a, b]);
        }

        return exchanged;
    }

    /// <summary>Of both weights as the other's, over as they stand; nothing is said of mates less than 10 % apart.</summary>
    public static double ScoreOfExchange(KnownRoom room, RoomChick? chick, int day)
    {
        if (room.Mate(chick!, day) is not { } mate || Math.Abs(Math.Log(chick!.Weights[day] / mate.Chick.Weights[day])) < Apart)
            return double.NegativeInfinity;
        var own = room.Of(chick);
        var (first, second) = (Math.Log(chick.Weights[day]), Math.Log(mate.Chick.Weights[day]));
        return LogLikelihood(own, day, second) + LogLikelihood(mate, day, first) - LogLikelihood(own, day, first) - LogLikelihood(mate, day, second);
    }

    public static IReadOnlyList<RoomChick?> ExchangeDigits(Room room, int day, IReadOnlyList<RoomChick> chicks, SeededRandom random)
    {
        List<RoomChick?> mistaken = [];
        foreach (var chick in chicks)
        {
            var text = chick.Weights[day].ToString("F1", CultureInfo.InvariantCulture).ToCharArray();
            var i = (int)(random.Unit() * (text.Length - 3));
            if (Exchanged(text, i) is not { } other || Math.Abs(Math.Log(other / chick.Weights[day])) < Apart)
                continue;
            chick.Weights[day] = other;
            mistaken.Add(chick);
        }

        return mistaken;
    }

    /// <summary>Of the best other order of two neighbouring digits, over the weight as it stands.</summary>
    public static double ScoreOfDigits(KnownRoom room, RoomChick? chick, int day)
    {
        var known = room.Of(chick!);
        var written = Math.Log(chick!.Weights[day]);
        // A nought that came to the front is not written.
        var text = ("0" + chick.Weights[day].ToString("F1", CultureInfo.InvariantCulture)).ToCharArray();
        var best = double.NegativeInfinity;
        for (var i = 0; i + 1 < text.Length - 2; i++)
        {
            if (Exchanged(text, i) is { } other && Math.Abs(Math.Log(other) - written) >= Apart)
                best = Math.Max(best, LogLikelihood(known, day, Math.Log(other)) - LogLikelihood(known, day, written));
        }

        return best;
    }

    private static double? Exchanged(char[] text, int i)
    {
        char[] digits = [.. text];
        (digits[i], digits[i + 1]) = (digits[i + 1], digits[i]);
        return digits[i] != '.' && digits[i + 1] != '.' && double.Parse(digits, CultureInfo.InvariantCulture) is > 0 and var other ? other : null;
    }

    private static double LogLikelihood(KnownChick chick, int day, double observed)
    {
        var (mean, deviation) = chick.Foretell(day);
        var z = (observed - mean) / deviation;
        return -z * z / 2 - Math.Log(deviation);
    }
}
