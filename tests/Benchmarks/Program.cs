using CaptureAgent.Benchmarks;
using CaptureAgent.Benchmarks.Driving;

return args switch
{
    ["decode"] => Decode.Run(),
    ["replay"] => Replay.Run(),
    ["commit", .. var native] => Commit.Run(native.FirstOrDefault()),
    ["idle", .. var native] => Idle.Run(native.FirstOrDefault()),
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

        NATIVE is a natively compiled capture-agent to measure beside the managed one, from
        dotnet publish src/Agent -c Release -r linux-x64 -p:PublishAot=true -o FOLDER
        """);
    return 1;
}
