using CaptureAgent.Agent.Events;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>The forecast of a batch after three minutes, in seconds.</summary>
/// <param name="Ahead">From the forecast to the truth.</param>
/// <param name="Error">Of the forecast moment.</param>
/// <param name="Held">The truth lay in the 95 % interval.</param>
/// <param name="LineError">Of a straight line through the last three minutes' readings.</param>
internal readonly record struct CoolingError(double Ahead, double Error, bool Held, double LineError);

/// <summary>When it falls below the band, from three minutes of readings.</summary>
internal static class Cooling
{
    private const double Data = 180;

    public static IReadOnlyList<CoolingError> Run(int batches, ulong seed) =>
        [.. Draws.Each(batches, seed, Play).Where(one => one is not null).Select(one => one!.Value)];

    private static CoolingError? Play(SeededRandom random)
    {
        var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.7));
        var (probe, station) = drawn.BeginInAir(random, 12, 20);
        probe.FlutterCelsius = DrawnProbe.Flutter(random) / 2;
        var at = station.Now;
        var bowl = new Bowl(random.Between(40, 41.4), drawn.Room, random.LogBetween(0.01, 0.04));
        station.Dip(bowl);
        station.Pass(Data + (3 * drawn.Constant));
        var now = station.Now - at;
        var leaves = Math.Log((bowl.StartCelsius - drawn.Room) / (Danger.Low - drawn.Room)) / bowl.PerMinute * 60;
        var told = station.Events.OfType<BatchEvent>().LastOrDefault(one => one.BelowBandAt is not null);
        if (leaves - now < 30 || told is null)
            return null;
        var said = ProbeStation.Seconds(told.BelowBandAt!.Value) - at;
        var held = ProbeStation.Seconds(told.BelowBandSoonest!.Value) - at <= leaves && leaves <= ProbeStation.Seconds(told.BelowBandLatest!.Value) - at;
        return new CoolingError(leaves - now, Math.Abs(said - leaves), held, Math.Abs(Line([.. station.Readings.Where(one => one.Seconds - at > now - Data)], at) - leaves));
    }

    private static double Line(List<(double Seconds, double Celsius)> readings, double at)
    {
        var (x, y) = (readings.Average(one => one.Seconds - at), readings.Average(one => one.Celsius));
        var slope = readings.Sum(one => (one.Seconds - at - x) * (one.Celsius - y)) / readings.Sum(one => Math.Pow(one.Seconds - at - x, 2));
        return x + ((Danger.Low - y) / slope);
    }
}
