using System.CommandLine;
using CaptureAgent.Simulators.Nursery;
using CaptureAgent.Simulators.Nursery.Watching;

var seed = new Option<ulong>("--seed") { Description = "Another seed makes another morning.", DefaultValueFactory = _ => 7 };
var agent = new Option<FileInfo?>("--agent") { Description = "The capture-agent executable to run instead of the one built with this demo." };
var keep = new Option<bool>("--keep") { Description = "Keep the folder with station.json, the two CSV files and the store, and say where it is." };
var command = new RootCommand("One morning round in an invented nursery: simulated chicks and instruments, the real capture agent. Ends by itself within 4 minutes; exit code 0 only if every verdict came as it had to.")
{
    seed, agent, keep,
};
command.SetAction(async (parsed, cancellationToken) =>
{
    try
    {
        return await Demo.RunAsync(parsed.GetValue(seed), parsed.GetValue(agent), parsed.GetValue(keep), new Narration(Console.Out, TimeProvider.System), cancellationToken);
    }
    catch (DemoException trouble)
    {
        await Console.Error.WriteLineAsync(trouble.Message);
        return 1;
    }
});
return await command.Parse(args).InvokeAsync();
