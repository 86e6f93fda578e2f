namespace CaptureAgent.Agent.Configuration;

/// <summary>What may stand at one place of station.json.</summary>
internal abstract record KeyShape;

/// <summary>Named keys.</summary>
internal sealed record KeyGroup(IReadOnlyDictionary<string, KeyShape> Keys) : KeyShape;

/// <summary>A list of things of one shape.</summary>
internal sealed record KeyList(KeyShape Item) : KeyShape;

/// <summary>One value.</summary>
/// <param name="Allowed">In words, as in "must be …".</param>
internal sealed record KeyValue(string Allowed, Func<string, bool> Fits) : KeyShape;

/// <summary>Every key of station.json. A test holds this table and <see cref="StationOptions"/> together.</summary>
internal static class StationKeys
{
    public static KeyGroup Root { get; } = Group(
        ("station", Scalar.Text),
        ("timeZone", Scalar.Text),
        ("dayStartsAt", Scalar.TimeOfDay),
        ("store", Scalar.Text),
        ("page", Group(("listen", Scalar.Text), ("certificate", Scalar.Text), ("certificateKey", Scalar.Text), ("hosts", new KeyList(Scalar.Text)))),
        ("codes", Group(
            ("pattern", Scalar.Text),
            ("check", Scalar.Text),
            ("cards", Group(
                ("fed", Scalar.Text), ("reweigh", Scalar.Text), ("undo", Scalar.Text), ("batch", Scalar.Text), ("tare", Scalar.Text), ("check", Scalar.Text), ("pair", Scalar.Text),
                ("crop", Scalar.Text), ("washed", Scalar.Text), ("syringe", Scalar.Text), ("pan", Scalar.Text), ("bowls", Scalar.Text),
                ("ice", Scalar.Text), ("boil", Scalar.Text), ("reference", Scalar.Text),
                ("weaning", Scalar.Text), ("observations", new KeyList(Group(("kind", Scalar.Text), ("card", Scalar.Text)))))))),
        ("labels", Group(
            ("symbol", Scalar.Text), ("sheet", Scalar.Text),
            ("sheets", new KeyList(Group(
                ("name", Scalar.Text), ("pageWidthMillimetres", Scalar.Number), ("pageHeightMillimetres", Scalar.Number), ("columns", Scalar.Whole), ("rows", Scalar.Whole),
                ("leftMillimetres", Scalar.Number), ("topMillimetres", Scalar.Number), ("labelWidthMillimetres", Scalar.Number), ("labelHeightMillimetres", Scalar.Number),
                ("gapAcrossMillimetres", Scalar.Number), ("gapDownMillimetres", Scalar.Number)))))),
        ("answers", Group(
            ("device", Scalar.Text), ("loudness", Scalar.Whole), ("quietFrom", Scalar.TimeOfDay), ("quietUntil", Scalar.TimeOfDay), ("quietLoudness", Scalar.Whole),
            ("voice", Scalar.Text), ("language", Scalar.Text),
            ("lamp", Group(
                ("kind", Scalar.Text), ("green", Scalar.Text), ("yellow", Scalar.Text), ("red", Scalar.Text), ("off", Scalar.Text),
                ("activeLow", Scalar.YesOrNo), ("path", Scalar.Text), ("baud", Scalar.Whole))))),
        ("feedFollowsWeighing", Scalar.YesOrNo),
        ("hygiene", Group(
            ("washHours", Scalar.Number), ("syringeDays", Scalar.Number), ("bowlsHours", Scalar.Number),
            ("bowlsFromDay", Scalar.Whole), ("panBetweenClutches", Scalar.YesOrNo))),
        ("feeding", Group(
            ("emptyingGap", new KeyList(Group(("throughDay", Scalar.Whole), ("hours", Scalar.Number)))),
            ("batch", Group(
                ("targetCelsius", Scalar.Exact),
                ("lowCelsius", Scalar.Exact),
                ("highCelsius", Scalar.Exact),
                ("stopCelsius", Scalar.Exact),
                ("spreadCelsius", Scalar.Exact),
                ("discardMinutes", Scalar.Exact),
                ("warningMinutes", Scalar.Exact),
                ("roomCelsius", Scalar.Exact),
                ("altitudeMetres", Scalar.Exact),
                ("boilingCelsius", Scalar.Exact),
                ("referenceCelsius", Scalar.Exact),
                ("probeCheckDays", Scalar.Whole),
                ("show", Scalar.Text))),
            ("plan", new KeyList(Group(
                ("species", Scalar.Text), ("throughDay", Scalar.Whole), ("everyHours", Scalar.Number), ("throughNight", Scalar.YesOrNo),
                ("solidsPercent", Scalar.Number), ("mostPercent", Scalar.Number)))),
            ("fat", new KeyList(Group(
                ("species", Scalar.Text), ("fromDay", Scalar.Whole), ("throughDay", Scalar.Whole), ("percent", Scalar.Number)))),
            ("chicks", new KeyList(Group(("chick", Scalar.Text), ("everyHours", Scalar.Number), ("weaned", Scalar.YesOrNo)))),
            ("nightFrom", Scalar.TimeOfDay),
            ("nightUntil", Scalar.TimeOfDay),
            ("lateMinutes", Scalar.Number),
            ("weanedAfterDays", Scalar.Number),
            ("kitchenScaleGrams", Scalar.Exact),
            ("sparePercent", Scalar.Number))),
        ("devices", new KeyList(Group(
            ("id", Scalar.Text),
            ("role", Scalar.Text),
            ("dialect", Scalar.Text),
            ("divisionGrams", Scalar.Exact),
            ("capacityGrams", Scalar.Exact),
            ("accuracyGrams", Scalar.Exact),
            ("checkMassGrams", Scalar.Exact),
            ("checkToleranceGrams", Scalar.Exact),
            ("accuracyCelsius", Scalar.Exact),
            ("silentAfterSeconds", Scalar.Number),
            ("pollMilliseconds", Scalar.Whole),
            ("pattern", Scalar.Text),
            ("sample", Scalar.Text),
            ("key", Scalar.Text),
            ("batteryWarnPercent", Scalar.Whole),
            ("frame", FrameKeys.Group),
            ("connection", Group(
                ("kind", Scalar.Text),
                ("path", Scalar.Text),
                ("address", Scalar.Text),
                ("adapter", Scalar.Text),
                ("suspectAfterSeconds", Scalar.Number),
                ("baud", Scalar.Whole),
                ("dataBits", Scalar.Whole),
                ("parity", Scalar.Text),
                ("stopBits", Scalar.Whole),
                ("flow", Scalar.Text)))))));

    internal static KeyGroup Group(params (string Key, KeyShape Shape)[] keys) =>
        new(keys.ToDictionary(pair => pair.Key, pair => pair.Shape, StringComparer.OrdinalIgnoreCase));
}
