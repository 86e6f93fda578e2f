using System.Diagnostics;
using System.Globalization;

namespace CaptureAgent.Hardware.Bench;

/// <summary>Runs checks; each ends with a line RESULT NAME 0 or 1, which the stage counts.</summary>
internal sealed class Tally
{
    public int Bad { get; private set; }

    public async Task CheckAsync(string name, Func<Task> check)
    {
        var watch = Stopwatch.StartNew();
        try
        {
            await check();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"RESULT {name} 0 in {watch.Elapsed.TotalSeconds:0.0} s"));
        }
#pragma warning disable CA1031 // Whatever it is, it is this check's result; the next are still run.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            Bad++;
            Console.WriteLine($"{name}: {failure.Message}");
            Console.WriteLine($"RESULT {name} 1");
        }
    }
}
