namespace CaptureAgent.Protocol;

/// <summary>Why a line or a frame was refused. A refusal is data to count and show, never an exception.</summary>
public enum LineFault
{
    None,

    /// <summary>The line is not of the dialect's shape.</summary>
    BadShape,

    /// <summary>The shape is right, the status word is not one of the dialect's.</summary>
    UnknownStatus,

    /// <summary>The value is no number, or has both a comma and a point.</summary>
    BadNumber,

    /// <summary>The unit is no unit of mass (or, for a probe, of temperature) that converts exactly.</summary>
    UnknownUnit,

    /// <summary>Longer than any line of the dialect: wrong speed, wrong parity, or no line ending.</summary>
    TooLong,

    /// <summary>The device understood but has no value to give now, or reports an error of its own.</summary>
    NoValue,

    /// <summary>A check sum does not fit: damaged on its way.</summary>
    BadCheck,

    /// <summary>Encrypted with another key, plain although a key is set, or heard before.</summary>
    NotAuthentic,
}
