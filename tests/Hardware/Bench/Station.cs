using System.Text.Json;

namespace CaptureAgent.Hardware.Bench;

/// <summary>The station of the bench: an invented nursery of two chicks, and a scale whose frame is described. Each radio device is reached through an adapter of its own, for an emulated controller mixes up the data of two connections.</summary>
internal static class Station
{
    public static void Write(string folder, string scannerPath)
    {
        var today = DateTime.UtcNow.Date;
        File.WriteAllText(Path.Combine(folder, "chicks.csv"), $"code,species,hatched\nBX-0001,Psittacus erithacus,{today.AddDays(-20):yyyy-MM-dd}\nBX-0002,Psittacus erithacus,{today.AddDays(-16):yyyy-MM-dd}\n");
        File.WriteAllText(Path.Combine(folder, "station.json"), $$"""
            {
              "station": "bench", "store": "bench.db",
              "codes": { "pattern": "[A-Z]{2}-[0-9]{4}" },
              "page": { "listen": "http://127.0.0.1:0" },
              "devices": [
                { "id": "scale", "role": "scale", "dialect": "frame", "divisionGrams": 0.1,
                  "frame": { "service": "fff0", "characteristic": "fff1", "minLength": 5, "begins": "a5", "value": { "offset": 1, "width": 2, "factor": 0.1, "unit": "g" },
                    "checksum": { "kind": "sum" },
                    "proof": [ {{Proof(0)}}, {{Proof(1000)}}, {{Proof(2000)}} ] },
                  "connection": { "kind": "bluetooth", "address": "{{AddressOf("hci1")}}", "adapter": "{{AddressOf("hci0")}}" } },
                { "id": "probe", "role": "probe", "dialect": "health-thermometer",
                  "connection": { "kind": "bluetooth", "address": "{{AddressOf("hci3")}}", "adapter": "{{AddressOf("hci2")}}" } },
                { "id": "scanner", "role": "scanner", "dialect": "line", "connection": { "kind": "keyboard", "path": {{JsonSerializer.Serialize(scannerPath)}} } }
              ]
            }
            """);
    }

    private static string Proof(int tenths) => $$"""{ "known": {{tenths / 10}}, "frame": "{{Convert.ToHexString(BowlAndPan.Frame(tenths))}}" }""";

    // As hciconfig shows them: the emulation numbers its controllers.
    private static string AddressOf(string adapter) => File.ReadAllText($"/tmp/address.{adapter}").Trim();
}
