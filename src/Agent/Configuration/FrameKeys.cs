namespace CaptureAgent.Agent.Configuration;

/// <summary>Every key of a frame description.</summary>
internal static class FrameKeys
{
    public static KeyGroup Group { get; } = StationKeys.Group(
        ("service", Scalar.Text),
        ("characteristic", Scalar.Text),
        ("start", Scalar.Text),
        ("startCharacteristic", Scalar.Text),
        ("minLength", Scalar.Whole),
        ("begins", Scalar.Text),
        ("value", StationKeys.Group(
            ("offset", Scalar.Whole),
            ("width", Scalar.Whole),
            ("endianness", Scalar.Text),
            ("sign", Scalar.Text),
            ("signOffset", Scalar.Whole),
            ("signMask", Scalar.Text),
            ("factor", Scalar.Exact),
            ("unit", Scalar.Text))),
        ("units", StationKeys.Group(
            ("offset", Scalar.Whole),
            ("mask", Scalar.Text),
            ("table", new KeyList(StationKeys.Group(("byte", Scalar.Text), ("unit", Scalar.Text)))))),
        ("stable", StationKeys.Group(("offset", Scalar.Whole), ("mask", Scalar.Text), ("set", Scalar.Text))),
        ("checksum", StationKeys.Group(
            ("kind", Scalar.Text),
            ("at", Scalar.Whole),
            ("from", Scalar.Whole),
            ("through", Scalar.Whole),
            ("polynomial", Scalar.Text),
            ("initial", Scalar.Text),
            ("bits", Scalar.Text),
            ("xorOut", Scalar.Text),
            ("endianness", Scalar.Text))),
        ("clock", StationKeys.Group(
            ("offset", Scalar.Whole), ("width", Scalar.Whole), ("endianness", Scalar.Text), ("milliseconds", Scalar.Exact))),
        ("proof", new KeyList(StationKeys.Group(("known", Scalar.Exact), ("frame", Scalar.Text)))));
}
