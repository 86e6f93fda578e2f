using CaptureAgent.Agent.Commands;

return await CommandLine.RunAsync(args, Surroundings.OfProcess());
