using CaptureAgent.Hardware.Bench;

// In the virtual machine: hardware AGENT... , where AGENT is the command that starts the agent.
return await Morning.RunAsync(args);
