using CaptureAgent.Benchmarks;
using CaptureAgent.Benchmarks.Batches;
using CaptureAgent.Benchmarks.Crop;
using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Benchmarks.Known;
using CaptureAgent.Benchmarks.Pages;
using CaptureAgent.Benchmarks.Radio;
using CaptureAgent.Benchmarks.Settle;
using CaptureAgent.Benchmarks.Tares;
using CaptureAgent.Benchmarks.Thrive;
using CaptureAgent.Benchmarks.Trees;

return args switch
{
    ["decode"] => Decode.Run(),
    ["replay"] => Replay.Run(),
    ["commit", .. var native] => Commit.Run(native.FirstOrDefault()),
    ["idle", .. var native] => Idle.Run(native.FirstOrDefault()),
    ["settle", .. var words] => SettleCommand.Run(words) ?? Usage(),
    ["known", .. var words] => KnownCommand.Run(words) ?? Usage(),
    ["tares"] => TaresCommand.Run(),
    ["bluetooth", .. var native] => await Bluetooth.RunAsync(native.FirstOrDefault()),
    [RadioIdle.NurseryName] => await RadioIdle.PlayAsync(),
    ["crop", .. var words] => CropCommand.Run(words) ?? Usage(),
    ["answers"] => await Answers.RunAsync(),
    ["page"] => await PageFigures.RunAsync(),
    ["growth"] => Growth.Run(100_000),
    ["growth", var chicks] when int.TryParse(chicks, out var count) && count > 0 => Growth.Run(count),
    ["batch", .. var words] => BatchCommand.Run(words) ?? Usage(),
    ["thrive", "summary", .. var native] => ThriveCommand.RunSummary(native.FirstOrDefault()),
    ["thrive", var rooms, "only", var word] => int.TryParse(rooms, out var some) && some > 0 ? ThriveCommand.RunOnly(some, word) : Usage(),
    ["thrive", var rooms, "calm"] => int.TryParse(rooms, out var calm) && calm > 0 ? ThriveCommand.RunCalm(calm) : Usage(),
    ["thrive", .. var words] => ThriveCommand.Run(words.Length > 0 && int.TryParse(words[0], out var rooms) ? rooms : 30, words.ElementAtOrDefault(1)),
    ["trees"] => TreesCommand.Run(TreesCommand.MostSeeds),
    ["trees", var seeds] when int.TryParse(seeds, out var some) && some is > 0 and <= TreesCommand.MostSeeds => TreesCommand.Run(some),
    [IdleHost.Name] => IdleHost.Run(),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("""
        Measures the agent and writes tests/Benchmarks/Results/NAME.md.
        Use: dotnet run -c Release --project tests/Benchmarks -- NAME

          decode            lines a second from bytes to grams, bytes allocated a line
          replay            seconds of trace a second
          commit [NATIVE]   from the deciding line to the accepted event, on this disk (about five minutes)
          known [STATIONS] [SEED]
                            wrong records and seconds with and without the motion of a chick's earlier mornings, on simulated
                            stations (120 of seed 1 unless told otherwise; fewer are not written)
          tares             how often a slip of the liner is told, and a drift taken out, on simulated placings
          idle [NATIVE]     processor time with three devices at 10 Hz
          bluetooth [NATIVE]
                            delay, outages, a thousand connections and idle cost, against a stand-in for BlueZ
                            (about seven minutes; needs dbus-daemon)
          batch [COUNT] [SEED]
                            the probe's forecast, false "in range", how soon "stop" is said, a probe taken out, cooling, beside
                            the last reading against thresholds. 10000 dangerous batches of seed 1 unless told otherwise; fewer
                            are not written
          settle [COUNT] [SEED] [FAMILY] [--hasty] [--list] [--dump N]
                            right, wrong, missed, seconds and accuracy on simulated placings, beside three
                            baselines and the bound; also a chart. 4000 placings of seed 1 unless told otherwise;
                            FAMILY is a part of a family's name. With it, with another seed, or for fewer than 2000
                            placings nothing is written. --list tells the wrong and missed ones, --dump N the readings of placing N
          trees [SEEDS]     fits the trees that tell the chance of a wrong record to simulated placings (4000 of each of forty-five
                            seeds unless told otherwise, and a quarter as many plain ones) and writes
                            src/Agent/Weighing/settling-trees.tsv (about an hour)
          answers           from the commit to the tone's first samples at the loudspeaker's program (about a minute)
          page              from the commit to the pixels in a browser, the first load on a throttled phone, and what fifty
                            open pages cost (about eight minutes; needs Chromium)
          crop [COUNT] [SEED]
                            feeds that nobody recorded, caught by the weight; unfed chicks refused. 2000 chicks a
                            nursery of seed 1 unless told otherwise; for fewer nothing is written
          growth [CHICKS]   fits of growth curves: one chick, beside R's nls, and a register of 100,000 chicks

          thrive [ROOMS] [NATIVE] | thrive ROOMS only WORD | thrive ROOMS calm | thrive summary [NATIVE]
                            false alarms, detection and the interval on simulated rooms (30 of each kind unless told
                            otherwise), and the time of the morning summary over ten years (about five minutes);
                            only prints the disturbances with a word in their name, summary that time

        NATIVE is a natively compiled capture-agent to measure beside the managed one, from
        dotnet publish src/Agent -c Release -r linux-x64 -p:PublishAot=true -o FOLDER
        """);
    return 1;
}
