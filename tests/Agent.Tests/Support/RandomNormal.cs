namespace CaptureAgent.Agent.Tests.Support;

internal static class RandomNormal
{
    /// <summary>Of a standard normal distribution (Box and Muller 1958): the same two draws, the same value.</summary>
    public static double NextNormal(this Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
