using System.Text;
using CaptureAgent.Simulators.Instruments;
using CaptureAgent.Simulators.Instruments.Encoders;
using CaptureAgent.Simulators.Instruments.Terminals;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Probes;
using CaptureAgent.Simulators.Physics.Scales;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Instruments;

public sealed class TerminalTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("capture-sim-").FullName;
    private readonly List<IDisposable> open = [];

    [Fact]
    public void Scale_sends_lines_that_a_program_reads_from_the_device()
    {
        var socket = Socket("scale");
        using var device = OpenDevice(socket);
        var scale = Scale(socket, new HeaderComma(), new());
        scale.AdvanceTo(0.5);

        Assert.Equal(["ST,GS,+    0.0  g", "ST,GS,+    0.0  g"], ReadLines(device, 2));
    }

    [Fact]
    public void What_is_sent_while_nobody_reads_is_lost()
    {
        var socket = Socket("scanner");
        var scanner = new SimulatedScanner(socket);
        Assert.False(scanner.Scan("AM-0001"));
        using (OpenDevice(socket))
        {
            Assert.True(socket.HasReader);
        }

        Assert.False(scanner.Scan("AM-0002"));
        using var device = OpenDevice(socket);
        Assert.True(scanner.Scan("AM-0003"));
        Assert.Equal("AM-0003\r", ReadText(device, 8));
    }

    [Fact]
    public void Pulled_cable_is_a_hang_up_and_the_same_path_works_again()
    {
        var socket = Socket("scanner");
        using (var device = OpenDevice(socket))
        {
            socket.Unplug();
            Assert.False(Path.Exists(socket.Path));
            Assert.True(EndsOrFails(device));
        }

        socket.Plug();
        using var again = OpenDevice(socket);
        Assert.True(new SimulatedScanner(socket, "\n").Scan("CN-0321"));
        Assert.Equal("CN-0321\n", ReadText(again, 8));
    }

    [Fact]
    public void Mute_scale_sends_nothing_and_goes_on_afterwards()
    {
        var socket = Socket("scale");
        using var device = OpenDevice(socket);
        var scale = Scale(socket, new SignValue(), new());
        scale.IsMute = true;
        scale.AdvanceTo(5);
        scale.IsMute = false;
        scale.AdvanceTo(5.25);

        Assert.Equal(["+      0.0 g  "], ReadLines(device, 1));
    }

    [Fact]
    public void Asked_scale_answers_over_the_line()
    {
        var socket = Socket("scale");
        using var device = OpenDevice(socket);
        var scale = Scale(socket, new RequestReply(), new());
        scale.AdvanceTo(2);
        device.Write("SI\r\n"u8);
        device.Flush();
        scale.AdvanceTo(2.1);

        Assert.Equal(["S S        0.0 g"], ReadLines(device, 1));
    }

    [Fact]
    public void Probe_sends_its_temperature()
    {
        var socket = Socket("probe");
        using var device = OpenDevice(socket);
        var probe = new SimulatedProbe(new(new Bowl(40, 22, 0), 1) { NoiseCelsius = 0 }, socket, LineFaults.None, 1);
        probe.SendReadingAt(1);
        probe.Dip();
        probe.SendReadingAt(100);

        Assert.Equal(["22.0 C", "40.0 C"], ReadLines(device, 2));
    }

    public void Dispose()
    {
        foreach (var one in open)
            one.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private static SimulatedScale Scale(SerialSocket socket, IScaleEncoder encoder, ScaleSpecification specification) =>
        new(new WeighingSimulation(new PanForces(1), new(specification with { NoiseGrams = 0, FlagSeconds = 0.01 }, 1)), encoder, socket, LineFaults.None, 1);

    private SerialSocket Socket(string name)
    {
        var socket = new SerialSocket(folder, name);
        open.Add(socket);
        socket.Plug();
        return socket;
    }

    private static FileStream OpenDevice(SerialSocket socket) => new(socket.Path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite, bufferSize: 0);

    private static string ReadText(FileStream device, int bytes)
    {
        var buffer = new byte[bytes];
        device.ReadExactly(buffer);
        return Encoding.Latin1.GetString(buffer);
    }

    private static List<string> ReadLines(FileStream device, int count)
    {
        List<string> lines = [];
        var line = "";
        while (lines.Count < count)
        {
            var next = ReadText(device, 1);
            if (next == "\n")
                (line, lines) = ("", [.. lines, line.TrimEnd('\r')]);
            else
                line += next;
        }

        return lines;
    }

    private static bool EndsOrFails(FileStream device)
    {
        try
        {
            return device.ReadByte() == -1;
        }
        catch (IOException)
        {
            return true;
        }
    }
}
