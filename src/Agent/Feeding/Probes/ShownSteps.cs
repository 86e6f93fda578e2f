using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>The step in which a probe really counts: one that shows tenths may go up by halves.</summary>
internal sealed class ShownSteps
{
    /// <summary>So many changes, all of them whole steps, are no chance: for the least of them, every other tenth, one in 32.</summary>
    private const int Enough = 5;

    private static readonly int[] Multiples = [10, 5, 2];

    private readonly int[] changes = new int[Multiples.Length];
    private decimal? before;

    /// <returns>°C: a multiple of the last digit's step.</returns>
    public decimal Take(in ProbeReading reading)
    {
        var digit = reading.ResolutionCelsius;
        if (before is { } last && last != reading.Celsius && digit > 0)
        {
            var steps = Math.Round((reading.Celsius - last) / digit);
            for (var i = 0; i < Multiples.Length; i++)
                changes[i] = steps % Multiples[i] == 0 ? changes[i] + 1 : int.MinValue / 2;
        }

        before = reading.Celsius;
        for (var i = 0; i < Multiples.Length; i++)
        {
            if (changes[i] >= Enough)
                return digit * Multiples[i];
        }

        return digit;
    }
}
