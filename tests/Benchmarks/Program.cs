using CaptureAgent.Benchmarks;
using CaptureAgent.Benchmarks.Driving;

return args switch
{
    ["decode"] => Decode.Run(),
    ["replay"] => Replay.Run(),
    ["commit"] => Commit.Run(),
    ["idle", .. var published] => Idle.Run(published.FirstOrDefault()),
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
          commit            from the deciding line to the accepted event, on this disk (about five minutes)
          idle [NATIVE]     processor time with three devices at 10 Hz; NATIVE: a natively compiled capture-agent to measure beside
        """);
    return 1;
}
