using System.Globalization;
using System.Text;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Chicks;

namespace CaptureAgent.Simulators.Nursery.Flock;

/// <summary>A dozen chicks and two weeks of their morning weights.</summary>
internal sealed class InventedNursery
{
    private const int HistoryDays = 14;

    public InventedNursery(ulong seed, DateOnly today)
    {
        var random = new SeededRandom(seed);
        Chicks =
        [
            Grow("MC-0013", Species.Macaw, 7, "macaws B", Temperament.Sleeper(random)),
            Grow("AM-0151", Species.Amazon, 9, "amazons B", Temperament.Sleeper(random)),
            Grow("LB-0078", Species.Lovebird, 10, "lovebirds A", Temperament.Calm(random)),
            Grow("LB-0077", Species.Lovebird, 12, "lovebirds A", Temperament.Calm(random)),
            Grow("CN-0322", Species.Conure, 16, "conures A", Temperament.Calm(random), fails: true),
            Grow("CN-0321", Species.Conure, 18, "conures A", Temperament.Calm(random)),
            Grow("CK-0410", Species.Cockatiel, 20, "cockatiels A", Temperament.Calm(random)),
            Grow("AM-0148", Species.Amazon, 22, "amazons A", Temperament.Calm(random)),
            Grow("AM-0147", Species.Amazon, 24, "amazons A", Temperament.Calm(random)),
            Grow("GR-0096", Species.Grey, 28, "greys A", Temperament.Restless(random)),
            Grow("EC-0033", Species.Eclectus, 30, "eclectus A", Temperament.Calm(random)),
            Grow("MC-0012", Species.Macaw, 46, "macaws A", Temperament.Calm(random)),
        ];

        NurseryChick Grow(string code, Species species, int age, string clutch, Temperament temperament, bool fails = false)
        {
            var own = 1 + (0.05 * Math.Clamp(random.Normal(), -1.5, 1.5));
            List<(DateOnly, decimal)> history = [];
            for (var back = Math.Min(HistoryDays, age); back >= 1; back--)
                history.Add((today.AddDays(-back), Math.Round((decimal)Weight(species, age - back, own), 1)));
            var last = (double)history[^1].Item2;
            return new(code, species, age, clutch, temperament)
            {
                Hatched = today.AddDays(-age),
                History = history,
                TrueGrams = fails ? 0.955 * last : Weight(species, age, own),
            };
        }

        double Weight(Species species, int day, double own) => own * species.GramsAt(day) * (1 + (0.008 * Math.Clamp(random.Normal(), -2, 2)));
    }

    /// <summary>Youngest first, as a round goes.</summary>
    public IReadOnlyList<NurseryChick> Chicks { get; }

    public NurseryChick this[string code] => Chicks.Single(chick => chick.Code == code);

    public string RegisterCsv()
    {
        var csv = new StringBuilder("code,species,hatched,clutch\r\n");
        foreach (var chick in Chicks)
            csv.Append(CultureInfo.InvariantCulture, $"{chick.Code},{chick.Species.Name},{chick.Hatched:yyyy-MM-dd},{chick.Clutch}\r\n");
        return csv.ToString();
    }

    public string HistoryCsv()
    {
        var csv = new StringBuilder("chick,date,grams\r\n");
        foreach (var chick in Chicks)
        {
            foreach (var (day, grams) in chick.History)
                csv.Append(CultureInfo.InvariantCulture, $"{chick.Code},{day:yyyy-MM-dd},{grams}\r\n");
        }

        return csv.ToString();
    }
}
