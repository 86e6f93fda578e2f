namespace CaptureAgent.Protocol.Scales;

/// <summary>A decoder, or the sentences that say why there is none. Exactly one of the two is there.</summary>
public sealed record ScaleDialect(IScaleDecoder? Decoder, IReadOnlyList<string> Faults);

/// <summary>The dialects of scales that speak in lines, by the names used in the station's configuration.</summary>
public static class ScaleDialects
{
    public const string HeaderComma = "header-comma";
    public const string SignValue = "sign-value";
    public const string RequestReply = "request-reply";
    public const string Custom = "custom";

    public static IReadOnlyList<string> Names { get; } = [HeaderComma, SignValue, RequestReply, Custom];

    /// <summary>Makes the decoder of a dialect. Never throws on what a user wrote.</summary>
    /// <param name="pattern">For <c>custom</c> alone: the pattern of a whole line.</param>
    /// <param name="sample">For <c>custom</c> alone: a line on which the pattern is tried.</param>
    public static ScaleDialect Create(string name, string? pattern = null, string? sample = null) => name switch
    {
        HeaderComma => new(new HeaderComma(), []),
        SignValue => new(new SignValue(), []),
        RequestReply => new(new RequestReply(), []),
        Custom => CustomPatternFactory.Create(pattern, sample),
        _ => new(null, [$"'{name}' is no dialect of a scale that speaks in lines; allowed are {string.Join(", ", Names)}."]),
    };
}
