using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Simulators.Rooms;

/// <summary>One simulated chick: its true course, and what the scale said.</summary>
public sealed class RoomChick
{
    /// <summary>What is left a day later of a chick's wandering from its curve: a memory of a week.</summary>
    public const double WanderMemory = 0.87;

    private readonly double[] course, planned;

    internal RoomChick(string code, SpeciesCurve species, int hatchDay, bool tellsHatchDate, string clutch, RoomConditions room, SeededRandom random)
    {
        (Code, Species, HatchDay, TellsHatchDate, Clutch) = (code, species, hatchDay, tellsHatchDate, clutch);
        course = new double[room.Days];
        planned = new double[room.Days];
        Noise = new double[room.Days];
        Weights = new double[room.Days];
        Law = ChickLaw.Draw(species, random);
        Grow(room, random);
    }

    public string Code { get; }

    public SpeciesCurve Species { get; }

    /// <summary>Day of the room on which it hatched; before the first is possible.</summary>
    public int HatchDay { get; }

    public bool TellsHatchDate { get; }

    public string Clutch { get; }

    /// <summary>Day of the room on which the growth ends and the recession begins; may lie beyond the last.</summary>
    public int PeakDay { get; private set; }

    public ChickLaw Law { get; }

    /// <summary>In ln(weight), by day of the room.</summary>
    public double[] Noise { get; }

    /// <summary>Grams as the scale showed them, by day of the room; 0: not weighed.</summary>
    public double[] Weights { get; }

    /// <summary>ln(grams) on an empty crop without noise, by day of the room.</summary>
    public IReadOnlyList<double> Course => course;

    /// <summary>Gain of ln(weight) up to each day's morning by the chick's curve and recession alone, without its own wandering and whatever went wrong.</summary>
    public IReadOnlyList<double> PlannedGain => planned;

    public bool IsThere(int day) => day >= HatchDay;

    /// <summary>The true gain of ln(weight) up to this day's morning.</summary>
    public double Gain(int day) => day > 0 && IsThere(day - 1) ? course[day] - course[day - 1] : 0;

    /// <summary>From a day on the true gains are others.</summary>
    public void Change(int fromDay, int toDay, Func<double, double> gain)
    {
        var before = course.ToArray();
        for (var day = fromDay; day < course.Length; day++)
        {
            var was = before[day] - before[day - 1];
            course[day] = course[day - 1] + (day <= toDay ? gain(was) : was);
        }
    }

    // The curve's gain at each age, times an own rate that wanders (an Ornstein-Uhlenbeck process of a week's memory); then the recession.
    private void Grow(RoomConditions room, SeededRandom random)
    {
        PeakDay = HatchDay + (int)Math.Round(Law.PeakAge);
        var own = room.OwnWander * random.Normal();
        var noise = room.Noise * random.Normal();
        var log = Law.LogHatched + Law.Size;
        var expected = 0.0;
        for (var day = HatchDay; day < course.Length; day++)
        {
            if (day > HatchDay)
            {
                var age = day - HatchDay;
                own = WanderMemory * own + room.OwnWander * Math.Sqrt(1 - WanderMemory * WanderMemory) * random.Normal();
                expected = Law.Gain(age);
                log += expected * (Law.IsGrowing(age) ? 1 + own : 1);
                noise = room.Correlation * noise + room.Noise * Math.Sqrt(1 - room.Correlation * room.Correlation) * random.Normal();
            }

            if (day < 0)
                continue;
            course[day] = log;
            planned[day] = expected;
            Noise[day] = noise;
        }
    }
}
