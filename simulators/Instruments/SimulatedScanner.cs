using System.Text;
using CaptureAgent.Simulators.Instruments.Terminals;

namespace CaptureAgent.Simulators.Instruments;

/// <summary>A code scanner at the end of a serial line.</summary>
/// <param name="socket">Where it is plugged.</param>
/// <param name="ending">CR, LF, CR LF or Tab.</param>
public sealed class SimulatedScanner(SerialSocket socket, string ending = "\r")
{
    /// <summary>False where nobody was listening: the scan is lost.</summary>
    public bool Scan(string code)
    {
        var bytes = Encoding.Latin1.GetBytes(code + ending);
        return socket.Write(bytes) == bytes.Length;
    }
}
