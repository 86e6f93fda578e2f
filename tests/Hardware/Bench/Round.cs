using System.Globalization;

namespace CaptureAgent.Hardware.Bench;

/// <summary>One run of the agent at a station: its devices come up, chicks are scanned and weighed, it ends.</summary>
/// <param name="weighed">Gets each accepted weight, in grams with three digits.</param>
/// <param name="scan">Scans a code.</param>
internal sealed class Round(Agent agent, List<(string Chick, string Grams)> weighed, Action<string> scan, params Pan[] pans)
{
    private const int Liner = 82;

    /// <summary>Until all devices are up, the probe has told a temperature and the liner is the tare of each scale.</summary>
    public async Task ConnectAsync()
    {
        var from = agent.Count;
        agent.Run();
        foreach (var device in pans.Select(static one => one.Scale).Append("scanner").Append("probe"))
            await agent.WaitAsync(from, $"{device} up", Agent.DeviceIs(device, "up"), 120);
        await agent.WaitAsync(from, "a temperature", static one => Agent.Text(one, "event") == "probe", 20);
        await Task.Delay(2000);
        from = agent.Count;
        foreach (var pan in pans)
        {
            pan.Tenths = Liner;
            await agent.WaitAsync(from, $"the tare of the liner on {pan.Scale}", one => Agent.Text(one, "event") == "tare" && Agent.Text(one, "device") == pan.Scale, 30);
        }
    }

    public async Task WeighAsync(Pan pan, string chick, int tenths)
    {
        var from = agent.Count;
        scan(chick);
        await agent.WaitAsync(from, $"the scan of {chick}", one => Agent.Text(one, "event") == "scan" && Agent.Text(one, "code") == chick, 10);
        (pan.Tenths, pan.IsAlive) = (Liner + tenths, true);
        var weighing = await agent.WaitAsync(from, $"the weighing of {chick}", one => Agent.Text(one, "event") == "weighing", 60);
        if (Agent.Text(weighing, "chick") != chick || Agent.Text(weighing, "verdict") != "accepted" || Agent.Text(weighing, "device") != pan.Scale)
            throw new InvalidOperationException($"not accepted: {weighing}");
        var grams = weighing.GetProperty("grams").GetDecimal();
        if (Math.Abs(grams - tenths / 10m) > 0.2m)
            throw new InvalidOperationException($"{grams} g instead of {tenths / 10m} g");
        weighed.Add((chick, grams.ToString("0.000", CultureInfo.InvariantCulture)));
        from = agent.Count;
        (pan.Tenths, pan.IsAlive) = (Liner, false);
        await agent.WaitAsync(from, "lifted", static one => Agent.Text(one, "event") == "lifted", 20);
    }

    public async Task StopAsync()
    {
        if (await agent.StopAsync() is not 0 and var code)
            throw new InvalidOperationException($"exit code {code}");
    }
}
