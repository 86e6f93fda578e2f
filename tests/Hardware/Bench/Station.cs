using System.Text.Json;

namespace CaptureAgent.Hardware.Bench;

/// <summary>The station of the bench, by radio and by wire: an invented nursery of four chicks, with scales, a probe and a scanner.</summary>
internal static class Station
{
    public const string RadioScale = "scale", HidScale = "hid-scale", SerialScale = "serial-scale";

    /// <summary>The file of the chicks, in the station's folder.</summary>
    public const string Register = "chicks.csv";

    private static readonly int[] DaysOld = [20, 16, 18, 17];

    /// <summary>A scale whose frame is described, and a probe, each reached through an adapter of its own: behind one emulated controller the second connection's services are not resolved.</summary>
    public static void WriteRadio(string folder, string scannerPath) => Write(folder, $$"""
        { "id": "{{RadioScale}}", "role": "scale", "dialect": "frame", "divisionGrams": 0.1,
          "frame": { "service": "fff0", "characteristic": "fff1", "minLength": 5, "begins": "a5", "value": { "offset": 1, "width": 2, "factor": 0.1, "unit": "g" },
            "checksum": { "kind": "sum" },
            "proof": [ {{Proof(0)}}, {{Proof(1000)}}, {{Proof(2000)}} ] },
          "connection": { "kind": "bluetooth", "address": "{{AddressOf("hci1")}}", "adapter": "{{AddressOf("hci0")}}" } },
        { "id": "probe", "role": "probe", "dialect": "health-thermometer",
          "connection": { "kind": "bluetooth", "address": "{{AddressOf("hci3")}}", "adapter": "{{AddressOf("hci2")}}" } },
        { "id": "scanner", "role": "scanner", "dialect": "line", "connection": { "kind": "keyboard", "path": {{JsonSerializer.Serialize(scannerPath)}} } }
        """);

    /// <summary>A HID scale and one on a serial line, a probe on a serial line, and a scanner that is a USB keyboard.</summary>
    public static void WriteWired(string folder) => Write(folder, $$"""
        { "id": "{{HidScale}}", "role": "scale", "dialect": "hid", "divisionGrams": 0.1, "connection": { "kind": "hid", "path": "{{UsbBench.HidScale}}" } },
        { "id": "{{SerialScale}}", "role": "scale", "dialect": "header-comma", "divisionGrams": 0.1, "connection": { "kind": "serial", "path": "{{UsbBench.SerialScale}}" } },
        { "id": "probe", "role": "probe", "dialect": "text", "connection": { "kind": "serial", "path": "{{UsbBench.Probe}}" } },
        { "id": "scanner", "role": "scanner", "dialect": "line", "connection": { "kind": "keyboard", "path": "{{UsbBench.Scanner}}" } }
        """, $$"""{ "kind": "gpio", "green": "{{Lamp.Green}}", "yellow": "{{Lamp.Yellow}}", "red": "{{Lamp.Red}}" }""");

    private static void Write(string folder, string devices, string lamp = """{ "kind": "none" }""")
    {
        Directory.CreateDirectory(folder);
        var today = DateTime.UtcNow.Date;
        File.WriteAllLines(Path.Combine(folder, Register), ["code,species,hatched", .. DaysOld.Select((days, index) => $"BX-000{index + 1},Psittacus erithacus,{today.AddDays(-days):yyyy-MM-dd}")]);
        File.WriteAllText(Path.Combine(folder, "station.json"), $$"""
            { "station": "bench", "store": "bench.db", "codes": { "pattern": "[A-Z]{2}-[0-9]{4}" }, "page": { "listen": "http://127.0.0.1:0" }, "answers": { "lamp": {{lamp}} },
              "devices": [ {{devices}} ] }
            """);
    }

    private static string Proof(int tenths) => $$"""{ "known": {{tenths / 10}}, "frame": "{{Convert.ToHexString(BowlAndPan.Frame(tenths))}}" }""";

    // As hciconfig shows them: the emulation numbers its controllers.
    private static string AddressOf(string adapter) => File.ReadAllText($"/tmp/address.{adapter}").Trim();
}
