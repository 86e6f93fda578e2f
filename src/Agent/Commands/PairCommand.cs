using System.CommandLine;
using System.Globalization;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>pair</c>: lets another device use the page, lists those that do, ends it.</summary>
internal static class PairCommand
{
    public static Command Create(Surroundings around)
    {
        var look = new Option<bool>("--look") { Description = "The device may look and change nothing." };
        var list = new Option<bool>("--list") { Description = "List the devices that were paired, instead." };
        var end = new Option<string?>("--end") { HelpName = "ID", Description = "End the pairing of a device (its id, or the beginning of it, as --list shows it), instead." };
        var command = new Command("pair", """
            Prints a code with which one other device may use the page: within ten minutes, once.
            The device may look and correct; with --look it may only look. The page must listen on the network for
            that (page.listen in station.json, such as https://*:8790).

            Examples:
              capture-agent pair
              capture-agent pair --list
            """) { look, list, end };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, _) =>
        {
            var station = arguments.Read(parsed, around);
            using var store = station.OpenStore(around.Time);
            var output = parsed.InvocationConfiguration.Output;
            if (parsed.GetValue(list))
                await output.WriteAsync(Table(store.PairedDevices()));
            else if (parsed.GetValue(end) is { } id)
                await output.WriteLineAsync($"{End(store, id)} can use the page no more.");
            else
                await output.WriteLineAsync(Offer(store, parsed.GetValue(look) ? PageRole.Look : PageRole.Keeper, around.Time.GetUtcNow()));
            return ExitCode.Done;
        });
        return command;
    }

    private static string Offer(CaptureStore store, PageRole role, DateTimeOffset now)
    {
        var (code, row) = PairingOffer.New(role, now);
        store.Add(row);
        return $"""
            {code}

            Enter it on the page of the other device within {Secrets.CodeTime.TotalMinutes:0} minutes. It pairs one device, which may {(role == PageRole.Look ? "look" : "look and correct")}.
            """;
    }

    private static string Table(IReadOnlyList<PairedDevice> devices)
    {
        var table = new TextTable("id", "name", "may", "since", "ended");
        foreach (var device in devices)
            table.Add(device.Id.ToString(), device.Name, device.Role == PageRole.Look ? "look" : "look and correct", Moment(device.At), Moment(device.EndedAt));
        return table.ToString();
    }

    /// <exception cref="InputException">No device that is paired has this id.</exception>
    private static string End(CaptureStore store, string id)
    {
        var meant = store.PairedDevices().Where(device => device.EndedAt is null && device.Id.ToString().StartsWith(id, StringComparison.OrdinalIgnoreCase)).ToList();
        if (meant is not [var device])
            throw new InputException($"{(meant.Count == 0 ? "no" : "more than one")} paired device has an id that starts with '{id}'. `capture-agent pair --list` shows them.");
        store.EndPairing(device.Id, "the command line");
        return device.Name;
    }

    private static string? Moment(DateTimeOffset? at) => at?.ToString("yyyy-MM-dd HH:mm'Z'", CultureInfo.InvariantCulture);
}
