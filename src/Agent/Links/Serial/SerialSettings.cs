using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Links.Serial;

/// <summary>How characters go over the line: what is applied to the port, and no more.</summary>
internal sealed record SerialSettings(int Baud, int DataBits, SerialParity Parity, int StopBits, SerialFlow Flow)
{
    /// <exception cref="ArgumentException">A value that is not allowed; the message says which are.</exception>
    public static SerialSettings For(ConnectionOptions connection) => new(
        connection.Baud is >= 50 and <= 4_000_000 ? connection.Baud : throw Refused("baud", $"{connection.Baud}", "50 to 4000000"),
        connection.DataBits is 7 or 8 ? connection.DataBits : throw Refused("dataBits", $"{connection.DataBits}", "7 or 8"),
        connection.Parity switch
        {
            "none" => SerialParity.None,
            "odd" => SerialParity.Odd,
            "even" => SerialParity.Even,
            "mark" => SerialParity.Mark,
            "space" => SerialParity.Space,
            var other => throw Refused("parity", other, "none, odd, even, mark or space"),
        },
        connection.StopBits is 1 or 2 ? connection.StopBits : throw Refused("stopBits", $"{connection.StopBits}", "1 or 2"),
        connection.Flow switch
        {
            "none" => SerialFlow.None,
            "xon-xoff" => SerialFlow.XonXoff,
            "rts-cts" => SerialFlow.RtsCts,
            var other => throw Refused("flow", other, "none, xon-xoff or rts-cts"),
        });

    private static ArgumentException Refused(string key, string value, string allowed) =>
        new($"connection.{key} is \"{value}\"; allowed: {allowed}.");
}

internal enum SerialParity
{
    None,
    Odd,
    Even,
    Mark,
    Space,
}

internal enum SerialFlow
{
    None,
    XonXoff,
    RtsCts,
}
