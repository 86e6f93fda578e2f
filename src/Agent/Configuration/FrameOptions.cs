namespace CaptureAgent.Agent.Configuration;

/// <summary>Where a device of no open standard puts its value: the frame description of station.json. Places count from 0; negative ones from the end, -1 being the last byte.</summary>
/// <remarks>A scale that sends lines over Bluetooth has the first four keys only.</remarks>
internal sealed class FrameOptions
{
    /// <summary>UUID of the GATT service: four hexadecimal digits, or all 36 characters. Tells two characteristics of one UUID apart; null: any.</summary>
    public string? Service { get; set; }

    /// <summary>UUID of the characteristic that notifies; null: whatever the device sends.</summary>
    public string? Characteristic { get; set; }

    /// <summary>Bytes in hexadecimal, written after connecting to make the device send; null: it sends by itself.</summary>
    public string? Start { get; set; }

    /// <summary>UUID of where <see cref="Start"/> is written; null: the characteristic that notifies.</summary>
    public string? StartCharacteristic { get; set; }

    /// <summary>Shorter frames are refused; 1 to 512.</summary>
    public int MinLength { get; set; } = 1;

    /// <summary>Bytes in hexadecimal with which every frame begins; others are not looked at. Null: any.</summary>
    public string? Begins { get; set; }

    /// <summary>The number. Needed for the dialect <c>frame</c>.</summary>
    public FrameValueOptions? Value { get; set; }

    /// <summary>A byte that tells the unit; null: the unit is always the value's.</summary>
    public FrameUnitsOptions? Units { get; set; }

    /// <summary>Bits that tell whether the value is stable; null: none do.</summary>
    public FrameStableOptions? Stable { get; set; }

    public FrameChecksumOptions? Checksum { get; set; }

    /// <summary>The device's own clock or counter, for the time axis; null: it has none.</summary>
    public FrameClockOptions? Clock { get; set; }

    /// <summary>Frames seen with known masses (or temperatures): the description is used only if it reads them right.</summary>
    public IList<FrameProofOptions> Proof { get; set; } = [];
}

internal sealed class FrameValueOptions
{
    /// <summary>-512 to 511.</summary>
    public int Offset { get; set; }

    /// <summary>Bytes, 1 to 4.</summary>
    public int Width { get; set; } = 2;

    /// <summary>little or big.</summary>
    public string Endianness { get; set; } = "little";

    /// <summary>none, twos-complement, or bit (a bit elsewhere, set below zero).</summary>
    public string Sign { get; set; } = "twos-complement";

    /// <summary>For the sign <c>bit</c>: the byte.</summary>
    public int SignOffset { get; set; }

    /// <summary>For the sign <c>bit</c>: the bits of it, two hexadecimal digits.</summary>
    public string SignMask { get; set; } = "80";

    /// <summary>What one of the number is, in the unit; 0.000001 to 1000.</summary>
    public decimal Factor { get; set; } = 1;

    /// <summary>g, kg, mg, oz or lb; for a probe C or F. Null: g, or C.</summary>
    public string? Unit { get; set; }
}

internal sealed class FrameUnitsOptions
{
    public int Offset { get; set; }

    /// <summary>The bits that tell the unit, two hexadecimal digits.</summary>
    public string Mask { get; set; } = "ff";

    public IList<FrameUnitOptions> Table { get; set; } = [];
}

internal sealed class FrameUnitOptions
{
    /// <summary>The bits under the mask, two hexadecimal digits.</summary>
    public string Byte { get; set; } = "";

    public string Unit { get; set; } = "";
}

internal sealed class FrameStableOptions
{
    public int Offset { get; set; }

    /// <summary>Two hexadecimal digits.</summary>
    public string Mask { get; set; } = "01";

    /// <summary>What it means when one of the bits is set: stable or moving.</summary>
    public string Set { get; set; } = "stable";
}

internal sealed class FrameChecksumOptions
{
    /// <summary>sum, xor, crc8 or crc16.</summary>
    public string Kind { get; set; } = "sum";

    /// <summary>Null: the last byte, or the last two.</summary>
    public int? At { get; set; }

    /// <summary>First byte that it covers.</summary>
    public int From { get; set; }

    /// <summary>Last byte that it covers; null: the one before the check sum at the end.</summary>
    public int? Through { get; set; }

    /// <summary>Hexadecimal, without the highest term and not reflected, as catalogues of CRCs have it. For CRCs alone.</summary>
    public string Polynomial { get; set; } = "1021";

    /// <summary>Hexadecimal.</summary>
    public string Initial { get; set; } = "0";

    /// <summary>For CRCs: normal, or reflected (lowest bit first).</summary>
    public string Bits { get; set; } = "normal";

    /// <summary>Hexadecimal.</summary>
    public string XorOut { get; set; } = "0";

    /// <summary>For two bytes: little or big.</summary>
    public string Endianness { get; set; } = "little";
}

internal sealed class FrameClockOptions
{
    public int Offset { get; set; }

    /// <summary>Bytes, 1 to 4.</summary>
    public int Width { get; set; } = 1;

    /// <summary>little or big.</summary>
    public string Endianness { get; set; } = "little";

    /// <summary>Milliseconds of one count, 0.001 to 60,000; for a counter of frames the device's own interval.</summary>
    public decimal Milliseconds { get; set; }
}

internal sealed class FrameProofOptions
{
    /// <summary>What lay on the pan, in grams (0: nothing); for a probe the true temperature in °C.</summary>
    public decimal Known { get; set; }

    /// <summary>What the device sent then, in hexadecimal.</summary>
    public string Frame { get; set; } = "";
}
