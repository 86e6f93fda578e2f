namespace CaptureAgent.Simulators.Nursery.Flock;

/// <summary>A species as this demo grows it: logistic growth to a peak weight.</summary>
/// <remarks>Round numbers that look plausible, no reference for a real chick.</remarks>
internal sealed record Species(string Name, double PeakGrams, double RatePerDay, double MiddleDay)
{
    public static Species Amazon { get; } = new("orange-winged amazon", 400, 0.15, 17);

    public static Species Conure { get; } = new("green-cheeked conure", 76, 0.19, 14);

    public static Species Lovebird { get; } = new("rosy-faced lovebird", 55, 0.19, 13);

    public static Species Cockatiel { get; } = new("cockatiel", 95, 0.22, 11);

    public static Species Eclectus { get; } = new("eclectus parrot", 440, 0.13, 22);

    public static Species Grey { get; } = new("grey parrot", 460, 0.13, 23);

    public static Species Macaw { get; } = new("blue-and-yellow macaw", 1050, 0.11, 33);

    public double GramsAt(int day) => PeakGrams / (1 + Math.Exp(-RatePerDay * (day - MiddleDay)));
}
