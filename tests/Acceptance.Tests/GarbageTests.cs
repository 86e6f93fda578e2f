using System.Text;
using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>A bad wire: whatever it does to the lines, no wrong weight comes of it, and the next good weighing is right.</summary>
public sealed class GarbageTests
{
    private readonly Random random = new(5);

    public enum Fault
    {
        BytesBetweenLines,
        WrongParity,
        HalfLines,
        LostDigits,
    }

    [Theory(Timeout = 600_000)]
    [InlineData(Fault.BytesBetweenLines)]
    [InlineData(Fault.WrongParity)]
    [InlineData(Fault.HalfLines)]
    [InlineData(Fault.LostDigits)]
    public async Task A_bad_wire_gives_no_wrong_weight_and_the_next_weighing_is_right(Fault fault)
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(agent);

        keeper.Scale.Wire = line => random.NextDouble() < 0.25 ? Spoil(fault, line) : line;
        keeper.Scan(Station.Amazon);
        await keeper.PlaceAsync(186.4);
        await Keeper.WaitAsync(12);
        await keeper.LiftAsync();
        keeper.Scale.Wire = line => line;
        await Keeper.WaitAsync(3);

        foreach (var weighing in agent.Log.Weighings.Where(weighing => weighing.Text("verdict") == "accepted"))
            Keeper.AssertAccepted(weighing, Station.Amazon, 186.4, within: 0.8);
        Assert.True(agent.Log.Weighings.Count <= 1, string.Join('\n', agent.Log.Weighings));

        keeper.Scan(Station.Conure);
        await keeper.PlaceAsync(58.7);
        Keeper.AssertAccepted(await agent.NextAsync("weighing of the second chick", one => one.IsWeighingOf(Station.Conure)), Station.Conure, 58.7, within: 0.3);
    }

    private byte[] Spoil(Fault fault, byte[] line)
    {
        switch (fault)
        {
            case Fault.BytesBetweenLines:
                var noise = new byte[random.Next(1, 80)];
                random.NextBytes(noise);
                return [.. noise, .. "\n"u8, .. line];
            case Fault.WrongParity:
                // Even parity, received as an eighth data bit.
                return [.. line.Select(value => (byte)(int.IsOddInteger(System.Numerics.BitOperations.PopCount(value)) ? value | 0x80 : value))];
            case Fault.HalfLines:
                return random.Next(2) == 0 ? line[..random.Next(line.Length)] : line[random.Next(1, line.Length)..];
            default:
                // Two characters are lost: what is left may well be a line, of another weight.
                var at = random.Next(6, line.Length - 7);
                return Encoding.ASCII.GetBytes(Encoding.ASCII.GetString(line).Remove(at, 2));
        }
    }
}
