using CaptureAgent.Benchmarks;
using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Benchmarks.Settle;
using CaptureAgent.Benchmarks.Thrive;

return args switch
{
    ["decode"] => Decode.Run(),
    ["replay"] => Replay.Run(),
    ["commit", .. var native] => Commit.Run(native.FirstOrDefault()),
    ["idle", .. var native] => Idle.Run(native.FirstOrDefault()),
    ["settle", .. var words] => SettleCommand.Run(words) ?? Usage(),
    ["thrive", .. var words] => ThriveCommand.Run(words.Length > 0 && int.TryParse(words[0], out var rooms) ? rooms : 30, words.ElementAtOrDefault(1)),
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
          idle [NATIVE]     processor time with three devices at 10 Hz
          settle [COUNT] [SEED] [FAMILY] [--list] [--dump N]
                            right, wrong, missed, seconds and accuracy on simulated placings, beside three
                            baselines and the bound; also a chart. 4000 placings of seed 1 unless told otherwise;
                            FAMILY is a part of a family's name. With it, or for fewer than 2000 placings, nothing
                            is written. --list tells the wrong and missed ones, --dump N the readings of placing N

          thrive [ROOMS] [NATIVE]
                            false alarms, detection and the interval on simulated rooms (30 of each kind unless told
                            otherwise), and the time of the morning summary over ten years (about five minutes)

        NATIVE is a natively compiled capture-agent to measure beside the managed one, from
        dotnet publish src/Agent -c Release -r linux-x64 -p:PublishAot=true -o FOLDER
        """);
    return 1;
}
