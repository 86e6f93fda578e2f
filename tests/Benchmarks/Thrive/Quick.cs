using CaptureAgent.Agent.Thriving;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

internal static class Quick
{
    static readonly string[] Down = [FindingKinds.Loss, FindingKinds.Stall, FindingKinds.Slow, FindingKinds.BehindClutch, FindingKinds.Crossing, FindingKinds.WeaningLoss];

    public static int Run(string[] words)
    {
        if (words.Length > 1) { var room = new Room(new RoomConditions(), 1); room.Weigh(); var r = new ReviewedRoom(room); for (var d = r.FirstDay; d < room.Days; d++) foreach (var code in words[1].Split(',')) if (r.Mornings[d - r.FirstDay].TryGetValue(code, out var c)) { var ch = room.Chicks.First(x => x.Code == code); Console.WriteLine($"{d} age {d - ch.HatchDay} {code} {c.Weight.Grams} exp {c.ExpectedGrams:0.0} sd {c.Deviation:0.000} z {c.Z:0.0} common {c.Common:0.000} rate {c.Watch.Rate:0.000} gain {ch.Gain(d):0.000} {c.IsSetAside} n {r.Mornings[d-r.FirstDay].Count}"); } return 0; }
        var rooms = words.Length > 0 ? int.Parse(words[0]) : 10;
        foreach (var (noise, corr) in new[] { (0.02, 0.4), (0.01, 0.4), (0.03, 0.4), (0.02, 0.0), (0.02, 0.7) })
        {
            var cond = new RoomConditions { Noise = noise, Correlation = corr };
            Console.WriteLine($"=== noise {noise} corr {corr}");
            Clean(cond, rooms);
            Faults(cond, rooms);
        }
        return 0;
    }

    static void Clean(RoomConditions cond, int rooms)
    {
        var kinds = new SortedDictionary<string, int>();
        var stages = new SortedDictionary<string, (int n, int f)>();
        int chickMornings = 0, n = 0, inside = 0; List<double> widths = []; double z2 = 0; List<double> rho = [];
        var byage = new SortedDictionary<string, (int n, double z, double z2, double w, double s)>();
        double sig = 0, phi = 0; int shifts = 0, morns = 0;
        for (var s = 1; s <= rooms; s++)
        {
            var room = new Room(cond, (ulong)s); room.Weigh();
            var r = new ReviewedRoom(room);
            sig += r.Noise.Deviation; phi += r.Noise.Correlation;
            for (var day = 30; day < room.Days; day++)
            {
                morns++;
                if (r.Of(null, day).Count > 0) shifts++;
                var m = r.Mornings[day - r.FirstDay];
                foreach (var c in m.Values)
                {
                    chickMornings++;
                    if (c.Watch.Count > 1) { n++; if (c.Observed >= Math.Log(c.LowGrams) && c.Observed <= Math.Log(c.HighGrams)) inside++; widths.Add((c.HighGrams - c.LowGrams) / c.ExpectedGrams); z2 += c.Z * c.Z; var ch0 = room.Chicks.First(x => x.Code == c.Watch.Chick.Code); var age = day - ch0.HatchDay; var past = day - ch0.PeakDay; var key = (age <= 2 ? "a0-2" : age <= 5 ? "a3-5" : age <= 9 ? "a6-9" : past <= -12 ? "b grow" : past <= 0 ? "c nearpeak" : past <= 8 ? "d rec" : "e late") + (ch0.Species.Name == "" ? " unl" : " lis") + (ch0.TellsHatchDate ? "" : "?"); byage[key] = (byage.GetValueOrDefault(key).n + 1, byage.GetValueOrDefault(key).z + c.Z, byage.GetValueOrDefault(key).z2 + c.Z * c.Z, byage.GetValueOrDefault(key).w + c.Deviation, byage.GetValueOrDefault(key).s + (c.Watch.LastResidual is { } ? c.Watch.Shortfall.Deviations * c.Watch.Shortfall.Deviations : 0)); }
                    foreach (var f in r.Of(c.Watch.Chick.Code, day))
                    {
                        var k = f.Severity + " " + f.Kind;
                        kinds[k] = kinds.GetValueOrDefault(k) + 1;
                        if (f.Severity != "note" && Environment.GetEnvironmentVariable("SHOWFA") == "1") { var ch = room.Chicks.First(x => x.Code == f.Chick); Console.WriteLine($"{s} d{day} age {day - ch.HatchDay} peak {ch.PeakDay - ch.HatchDay} {(ch.Species.Name == "" ? "unlisted" : ch.Species.Name)} known={ch.TellsHatchDate} stage {c.Watch.Stage} S={c.Watch.Shortfall.Deviations:0.0} gain {100 * ch.Gain(day):0.0} {f.Severity} {f.Text}"); }
                    }
                }
            }
        }
        widths.Sort();
        Console.WriteLine($"chick-mornings {chickMornings}; coverage {100.0 * inside / n:0.0} width {100 * widths[widths.Count / 2]:0.00} z2 {z2 / n:0.00} sigma {sig / rooms:0.0000} phi {phi / rooms:0.00} false shifts {shifts}/{morns}");
        foreach (var (k, v) in byage) Console.WriteLine($"    {k}: n {v.n} mean z {v.z / v.n:0.00} z2 {v.z2 / v.n:0.00} sd {100 * v.w / v.n:0.00}");
        double look = 0, red = 0;
        foreach (var (k, c) in kinds) { var per = 100.0 * c / chickMornings; if (k.StartsWith("look")) look += per; if (k.StartsWith("red")) red += per; Console.Write($"  {k} {per:0.000}"); }
        Console.WriteLine($"\n  LOOK {look:0.00} RED {red:0.000} per 100 chicks a morning");
    }

    static void Faults(RoomConditions cond, int rooms)
    {
        foreach (var (name, lo, hi) in new[] { ("halved", 0.06, 0.5), ("halved", 0.03, 0.06), ("halved", 0.015, 0.03), ("stall", 0.03, 0.5), ("stall", 0.02, 0.03), ("loss", 0.03, 0.5), ("loss", 0.01, 0.03) })
        {
            List<int> first = []; int lossNamed = 0, red = 0;
            for (var s = 1; s <= rooms; s++)
            {
                var room = new Room(cond, (ulong)s);
                var rnd = new SeededRandom((ulong)(s + 1000));
                var start = room.Days - 8;
                var chosen = room.Chicks.Where(c => start - c.HatchDay >= 5 && c.HatchDay < start - 5 && start < c.PeakDay && c.Gain(start) >= lo && c.Gain(start) < hi).Take(12).ToList();
                foreach (var c in chosen)
                {
                    var loss = rnd.Between(0.02, 0.04);
                    c.Change(start, room.Days, g => name == "halved" ? g / 2 : name == "stall" ? 0 : -loss);
                }
                room.Weigh();
                var r = new ReviewedRoom(room);
                foreach (var c in chosen)
                {
                    var at = 99;
                    for (var d = start; d < room.Days; d++)
                    {
                        var fs = r.Of(c.Code, d).Where(f => f.Severity != "note" && Down.Contains(f.Kind)).ToList();
                        if (fs.Count > 0) { at = d - start + 1; if (fs[0].Kind == name) lossNamed++; if (fs[0].Severity == "red") red++; break; }
                    }
                    first.Add(at);
                }
            }
            first.Sort();
            Console.WriteLine($"  {name} {lo}-{hi}: n {first.Count} median {first[first.Count / 2]} by1 {100.0 * first.Count(f => f <= 1) / first.Count:0} by2 {100.0 * first.Count(f => f <= 2) / first.Count:0.0} by3 {100.0 * first.Count(f => f <= 3) / first.Count:0} by4 {100.0 * first.Count(f => f <= 4) / first.Count:0} missed {100.0 * first.Count(f => f == 99) / first.Count:0} named {100.0 * lossNamed / first.Count:0} red {100.0 * red / first.Count:0}");
        }
        foreach (var name in new[] { "swapped", "digits", "shift", "crop" })
        {
            int n = 0, hit = 0, blamed = 0, blamedN = 0, next = 0, dig4 = 0, dig4n = 0;
            for (var s = 1; s <= rooms; s++)
            {
                var room = new Room(cond, (ulong)s);
                var rnd = new SeededRandom((ulong)(s + 2000));
                var day = room.Days - 2;
                room.Weigh();
                List<RoomChick> hurt = [];
                if (name == "shift") { var f = rnd.Chance(0.5) ? 1.02 : 0.98; foreach (var c in room.Chicks) c.Weights[day] = Math.Round(c.Weights[day] * f, 1); }
                else if (name == "crop") { foreach (var c in room.Chicks.Where(c => c.Weights[day] > 0 && day < c.PeakDay && day - c.HatchDay > 3).Take(15)) { c.Weights[day] = Math.Round(c.Weights[day] * (1 + rnd.Between(0.04, 0.10)), 1); hurt.Add(c); } }
                else if (name == "digits")
                {
                    foreach (var c in room.Chicks.Where(c => c.Weights[day] > 0 && day - c.HatchDay > 3).Take(20))
                    {
                        var t = c.Weights[day].ToString("F1", System.Globalization.CultureInfo.InvariantCulture).ToCharArray();
                        var i = (int)(rnd.Unit() * (t.Length - 3)); if (i + 1 >= t.Length - 2 || t[i] == t[i + 1]) continue;
                        (t[i], t[i + 1]) = (t[i + 1], t[i]);
                        var w = double.Parse(new string(t), System.Globalization.CultureInfo.InvariantCulture);
                        if (w <= 0 || Math.Abs(Math.Log(w / c.Weights[day])) < 0.05) continue;
                        c.Weights[day] = w; hurt.Add(c);
                    }
                }
                else
                {
                    var done = 0;
                    foreach (var g in room.Chicks.Where(c => c.Weights[day] > 0 && day - c.HatchDay > 3).GroupBy(c => c.Clutch))
                    {
                        var two = g.Take(2).ToList();
                        if (two.Count < 2 || Math.Abs(Math.Log(two[0].Weights[day] / two[1].Weights[day])) < 0.10 || done++ > 5) continue;
                        (two[0].Weights[day], two[1].Weights[day]) = (two[1].Weights[day], two[0].Weights[day]);
                        hurt.AddRange(two);
                    }
                }
                var r = new ReviewedRoom(room);
                if (name == "shift") { n++; if (r.Of(null, day).Count > 0) hit++; foreach (var c in room.Chicks) { if (c.Weights[day] > 0) { blamedN++; if (r.Of(c.Code, day).Any(f => f.Severity != "note")) blamed++; if (r.Of(c.Code, day + 1).Any(f => f.Severity != "note")) next++; } } }
                else foreach (var c in hurt) { n++; blamedN++; var ks = r.Of(c.Code, day).Where(f => f.Severity != "note").Select(f => f.Kind).ToList(); if (ks.Contains(name == "digits" ? "implausible" : name == "crop" ? "too-good" : name)) hit++; else if (ks.Count > 0) blamed++; if (r.Of(c.Code, day + 1).Any(f => f.Severity != "note")) next++; }
            }
            Console.WriteLine($"  {name}: n {n} hit {100.0 * hit / Math.Max(n, 1):0.0} other finding {100.0 * blamed / Math.Max(blamedN, 1):0.00} next morning {100.0 * next / Math.Max(blamedN, 1):0.00}");
        }
    }
}
