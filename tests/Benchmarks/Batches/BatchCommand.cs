using System.Globalization;
using CaptureAgent.Agent.Events;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Probes;

namespace CaptureAgent.Benchmarks.Batches;

internal static class BatchCommand
{
    public static int? Run(IReadOnlyList<string> words)
    {
        var n = words.Count > 0 ? int.Parse(words[0], CultureInfo.InvariantCulture) : 1000;
        Settling(n);
        Dangerous(n);
        Good(n);
        return 0;
    }

    private static void Settling(int n)
    {
        List<double> first = [], later = [], naive = [], z = [], zLater = [];
        List<(double, double, double)> firstByTau = [];
        Parallel(n, i =>
        {
            var random = new SeededRandom((ulong)(1000 + i));
            var drawn = DrawnProbe.Draw(random, fine: true);
            var probe = drawn.Make(random.NextUInt64());
            var station = new ProbeStation(probe, drawn.PerSecond, random);
            if (Environment.GetEnvironmentVariable("DUMP") is { } d && d != i.ToString()) return;
            station.Pass(random.Between(12, 20));
            for (var dip = 0; dip < 4; dip++)
            {
                probe.FlutterCelsius = random.Chance(0.5) ? random.Between(0.02, 0.15) : 0;
                probe.LagSeconds = drawn.LagSeconds * Math.Exp(0.04 * random.Normal());
                var at = station.Now;
                var tau = probe.LagSeconds * (1 + drawn.SheathRatio);
                var bowl = new Bowl(random.Between(36, 46), drawn.Room, random.LogBetween(0.01, 0.04));
                station.Dip(bowl);
                var seen = station.Readings.Count;
                station.Pass(Math.Max(1.8 * tau, 0.1), () => false);
                while (station.Readings.Count < seen + 8)
                    station.Pass(0.05);
                var told = station.Events.OfType<ProbeEvent>().LastOrDefault(one => ProbeStation.Seconds(one.At) > at);
                var truth = bowl.CelsiusAt(station.Readings[^1].Seconds - at);
                if (Environment.GetEnvironmentVariable("DUMP") == i.ToString() && dip == int.Parse(Environment.GetEnvironmentVariable("DIP") ?? "0"))
                {
                    Console.WriteLine($"--- dip {dip} {drawn} tau {tau:0.00} at {at:0.00} bowl {bowl} flutter {probe.FlutterCelsius:0.00}");
                    foreach (var r in station.Readings.Skip(seen - 4)) Console.WriteLine($"{r.Seconds - at:0.00} {r.Celsius} {station.Events.OfType<ProbeEvent>().FirstOrDefault(e => Math.Abs(ProbeStation.Seconds(e.At) - r.Seconds) < 0.01) is { } e2 }  {string.Join(' ', station.Events.OfType<ProbeEvent>().Where(e => Math.Abs(ProbeStation.Seconds(e.At) - r.Seconds) < 0.01).Select(e => $"{e.Celsius} ±{e.UncertaintyCelsius}"))}");
                }
                var error = told is null ? 99 : (double)told.Celsius - truth;
                lock (first)
                {
                    if (Math.Abs(error) > 0.6) Console.WriteLine($"  BAD {i} dip {dip} error {error:0.00} {drawn.LagSeconds:0.0} r {drawn.SheathRatio:0.00} n {drawn.Noise:0.00} hz {drawn.PerSecond} f {probe.FlutterCelsius:0.00}");
                    (dip == 0 ? first : later).Add(error);
                    naive.Add(station.Readings[^1].Celsius - truth);
                    if (told is not null) (dip == 0 ? z : zLater).Add(error / Math.Sqrt(Math.Max(1e-4, Math.Pow((double)told.UncertaintyCelsius, 2) - 0.25 / 3)));
                    if (dip == 0) firstByTau.Add((tau, error, drawn.SheathRatio));
                }
                station.Pass(6 * tau + 5);
                probe.TakeOut();
                if (random.Chance(0.5)) { probe.Rinse(random.Between(20, 34)); station.Pass(random.Between(3, 10)); probe.TakeOut(); }
                station.Pass(random.Between(30, 90));
            }
        });
        Console.WriteLine($"first within 0.3: {Share(first)}  later: {Share(later)}  naive {Share(naive)}  sd {Rms(first):0.000} {Rms(later):0.000} z95 {z.Count(v => Math.Abs(v) < 2) / (double)z.Count:0.000} {zLater.Count(v => Math.Abs(v) < 2) / (double)zLater.Count:0.000} mean {first.Average():0.000} {later.Average():0.000}");
        foreach (var group in firstByTau.GroupBy(x => ((int)(x.Item1 / 3), x.Item3 > 0)).OrderBy(g => g.Key))
            Console.WriteLine($"   tau ~{group.Key} {group.Count()} within {group.Count(x => Math.Abs(x.Item2) <= 0.3) / (double)group.Count():0.000} mean {group.Average(x => x.Item2):0.000}");
    }

    private static string Share(List<double> errors) => $"{errors.Count(e => Math.Abs(e) <= 0.3) / (double)errors.Count:0.0000} of {errors.Count}";
    private static double Rms(List<double> errors) => Math.Sqrt(errors.Average(e => Math.Min(e * e, 4)));

    private static void Dangerous(int n)
    {
        List<double> times = [], naive = [];
        int falseIn = 0, naiveFalse = 0, missed = 0;
        Parallel(n, i =>
        {
            var random = new SeededRandom((ulong)(500_000 + i));
            var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.5));
            var probe = drawn.Make(random.NextUInt64());
            var station = new ProbeStation(probe, drawn.PerSecond, random);
            station.Pass(random.Between(8, 15));
            probe.FlutterCelsius = random.Chance(0.5) ? random.Between(0.02, 0.2) : 0;
            var at = station.Now;
            var tau = drawn.Constant;
            var bowl = new Bowl(random.Between(42.6, 52), drawn.Room, random.LogBetween(0.01, 0.04));
            station.Dip(bowl);
            station.Pass(80);
            double? stop = null;
            var bad = false;
            foreach (var told in station.Events.OfType<BatchEvent>())
            {
                var s = ProbeStation.Seconds(told.At) - at;
                if (told.State == "stop") stop ??= s / tau;
                if (told.State == "in-range" && bowl.CelsiusAt(s) >= 42.5) bad = true;
            }
            var low = station.Readings.FindIndex(r => r.Seconds > at && r.Celsius is >= 38 and <= 41);
            var naiveStop = station.Readings.Where(r => r.Seconds > at && r.Celsius >= 42.5).Select(r => (r.Seconds - at) / tau).DefaultIfEmpty(99).First();
            lock (times)
            {
                if (bad) { falseIn++; Console.WriteLine($"FALSE IN RANGE {i} {drawn} {bowl}"); }
                if (low >= 0) naiveFalse++;
                times.Add(stop ?? 99); naive.Add(naiveStop);
                if (stop is null) missed++;
            }
        });
        times.Sort(); naive.Sort();
        Console.WriteLine($"dangerous {n}: false {falseIn} (naive {naiveFalse}), stop median {times[n / 2]:0.00} p90 {times[(int)(n * 0.9)]:0.00} p95 {times[(int)(n * .95)]:0.00} missed {missed}; naive {naive[n / 2]:0.00} {naive[(int)(n * .9)]:0.00}");
    }

    private static void Good(int n)
    {
        int stops = 0, inRange = 0, wrong = 0, early = 0;
        List<double> times = [], one = [];
        Parallel(n, i =>
        {
            var random = new SeededRandom((ulong)(900_000 + i));
            var drawn = DrawnProbe.Draw(random, fine: random.Chance(0.5));
            var probe = drawn.Make(random.NextUInt64());
            var station = new ProbeStation(probe, drawn.PerSecond, random);
            station.Pass(random.Between(8, 15));
            probe.FlutterCelsius = random.Chance(0.5) ? random.Between(0.02, 0.2) : 0;
            var at = station.Now;
            var tau = drawn.Constant;
            var bowl = new Bowl(random.Between(38.8, 40.8), drawn.Room, random.LogBetween(0.01, 0.03));
            station.Dip(bowl);
            station.Pass(110);
            var told = station.Events.OfType<BatchEvent>().ToList();
            var reading = told.FirstOrDefault(b => b.State == "one-reading");
            var ok = told.FirstOrDefault(b => b.State == "in-range");
            lock (times)
            {
                if (told.Any(b => b.State == "stop")) stops++;
                if (ok is not null) { inRange++; times.Add((ProbeStation.Seconds(ok.At) - at)); }
                if (reading is not null) one.Add((ProbeStation.Seconds(reading.At) - at) / tau);
                if (ok is null && wrong++ < 5) Console.WriteLine($"  none {i} {drawn} {bowl.StartCelsius:0.0} {string.Join(' ', told.Select(b => $"{b.State}@{ProbeStation.Seconds(b.At) - at:0.0}"))}");
            }
        });
        times.Sort(); one.Sort();
        Console.WriteLine($"good {n}: stops {stops}, in range {inRange} median {times[times.Count / 2]:0.0} s p90 {times[(int)(times.Count * .9)]:0.0}, one-reading at {one[one.Count / 2]:0.00} tau p90 {one[(int)(one.Count * .9)]:0.00}; {early}");
    }

    private static void Parallel(int n, Action<int> body) => System.Threading.Tasks.Parallel.For(0, n, body);
}
