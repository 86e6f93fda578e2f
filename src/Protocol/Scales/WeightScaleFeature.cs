using System.Buffers.Binary;

namespace CaptureAgent.Protocol.Scales;

/// <summary>Weight Scale Feature (0x2A9E): what the scale can do, and how finely.</summary>
/// <param name="WeightStepKilograms">Null: not told, or a code kept for later use. In pounds the scale has another step: <paramref name="WeightStepPounds"/>.</param>
/// <param name="HeightStepMetres">Null as above.</param>
/// <remarks>Bluetooth SIG, Weight Scale Service 1.0, 3.1 (from memory): bits 0 to 2 time, users, body mass index; 3 to 6 step of weight; 7 to 9 step of height.</remarks>
public readonly record struct WeightScaleFeature(
    bool HasTime, bool HasUsers, bool HasBodyMassIndex, decimal? WeightStepKilograms, decimal? WeightStepPounds, decimal? HeightStepMetres)
{
    private static readonly (decimal Kilograms, decimal Pounds)[] WeightSteps =
        [(0.5m, 1m), (0.2m, 0.5m), (0.1m, 0.2m), (0.05m, 0.1m), (0.02m, 0.05m), (0.01m, 0.02m), (0.005m, 0.01m)];

    private static readonly decimal[] HeightSteps = [0.01m, 0.005m, 0.001m];

    /// <summary>Null if it is too short.</summary>
    public static WeightScaleFeature? Read(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 4)
            return null;
        var word = BinaryPrimitives.ReadUInt32LittleEndian(bytes);
        var weight = (int)(word >> 3 & 0xF);
        var height = (int)(word >> 7 & 0x7);
        (decimal Kilograms, decimal Pounds)? step = weight is >= 1 and <= 7 ? WeightSteps[weight - 1] : null;
        return new WeightScaleFeature(
            (word & 1) != 0, (word & 2) != 0, (word & 4) != 0, step?.Kilograms, step?.Pounds, height is >= 1 and <= 3 ? HeightSteps[height - 1] : null);
    }
}
