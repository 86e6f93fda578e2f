using System.Buffers;
using System.Text;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Events;

/// <summary>One golden line for every type of event.</summary>
public sealed class EventJsonTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 5, 41, 10, 125, TimeSpan.Zero);

    [Fact]
    public void An_accepted_weighing_has_the_line_of_the_contract()
    {
        var weighing = new WeighingEvent(At, "AM-0147", 186.4m, 0.11m, "accepted", [], null, 8.2m, 24, "scale")
        {
            Id = Guid.NewGuid(),
            Day = new DateOnly(2026, 3, 2),
            Evidence = new Evidence("test", new byte[] { 1 }),
        };

        Assert.Equal(
            """{"at":"2026-03-02T05:41:10.125Z","event":"weighing","chick":"AM-0147","grams":186.4,"uncertaintyGrams":0.11,"verdict":"accepted","reasons":[],"remedy":null,"tareGrams":8.2,"ageDays":24,"device":"scale","fits":null,"replaces":null,"gainGrams":null,"budget":null,"crop":null}""",
            Line(weighing));
    }

    [Fact]
    public void A_rejected_weighing_gives_its_reasons_and_what_to_do()
    {
        var weighing = new WeighingEvent(At, null, 204.900m, null, "rejected", ["after-feed", "already-weighed"], "Don't + \"wait\" – 2 h.", null, null, "scale");

        Assert.Equal(
            """{"at":"2026-03-02T05:41:10.125Z","event":"weighing","chick":null,"grams":204.900,"uncertaintyGrams":null,"verdict":"rejected","reasons":["after-feed","already-weighed"],"remedy":"Don't + \"wait\" – 2 h.","tareGrams":null,"ageDays":null,"device":"scale","fits":null,"replaces":null,"gainGrams":null,"budget":null,"crop":null}""",
            Line(weighing));
    }

    [Fact]
    public void A_weighing_carries_what_speaks_for_food_in_the_crop()
    {
        var crop = new CropEvidence(0.031, "weight-and-clock", 9.5, 0, 4, null, 190.2m, 4.1m, -2.0, "Text.");
        var weighing = new WeighingEvent(At, "AM-0147", 186.4m, 0.11m, "accepted", [], null, 8.2m, 24, "scale") { Crop = crop };

        Assert.Contains(
            """
            "crop":{"foodProbability":0.031,"basis":"weight-and-clock","hoursSinceFeed":9.5,"feedsToday":0,"emptyingHours":4,"lastIntakeGrams":null,"expectedGrams":190.2,"expectedDeviationGrams":4.1,"excessPercent":-2,"text":"Text."}
            """,
            Line(weighing), StringComparison.Ordinal);
    }

    [Fact]
    public void A_weighing_stored_later_says_when()
    {
        var weighing = new WeighingEvent(At, "AM-0147", 0.0001m, 0.11m, "accepted", [], null, 0m, 24, "scale") { StoredAt = At.AddSeconds(9) };

        var line = Line(weighing);

        Assert.Contains("""
            "storedAt":"2026-03-02T05:41:19.125Z"
            """, line, StringComparison.Ordinal);
        Assert.Contains("\"grams\":0.0001,", line, StringComparison.Ordinal);
        Assert.StartsWith("""{"at":"2026-03-02T05:41:10.125Z","event":"weighing",""", line, StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Others => new()
    {
        { "feed", """{"at":"2026-03-02T05:41:10.125Z","event":"feed","chick":"AM-0147","batch":3,"batchState":"in-range","way":"card"}""" },
        { "intake", """{"at":"2026-03-02T05:41:10.125Z","event":"intake","chick":"AM-0147","grams":18.5,"uncertaintyGrams":0.15,"percentOfWeight":9.93}""" },
        { "crop", """{"at":"2026-03-02T05:41:10.125Z","event":"crop","chick":"AM-0147"}""" },
        { "chore", """{"at":"2026-03-02T05:41:10.125Z","event":"chore","chore":"wash"}""" },
        { "due", """{"at":"2026-03-02T05:41:10.125Z","event":"due","due":"feed","chick":"AM-0147","dueAt":"2026-03-02T05:41:10.125Z","text":"Due."}""" },
        { "finding", """{"at":"2026-03-02T05:41:10.125Z","event":"finding","chick":"AM-0147","finding":"too-good","severity":"look","text":"Look.","grams":204.9,"expectedGrams":190.2,"lowGrams":183.1,"highGrams":197.5}""" },
        { "undo", """{"at":"2026-03-02T05:41:10.125Z","event":"undo","chick":"AM-0147","undone":"weighing","observation":null,"chore":null}""" },
        { "check", """{"at":"2026-03-02T05:41:10.125Z","event":"check","device":"scale","grams":200.131,"expectedGrams":200,"errorGrams":0.131,"toleranceGrams":0.1,"ok":false,"text":"Off.","uncertaintyGrams":0.07}""" },
        { "tare-after", """{"at":"2026-03-02T05:41:10.125Z","event":"tare-after","device":"scale","chick":"AM-0147","tareGrams":8.2,"afterGrams":9.4,"changeGrams":1.2,"uncertaintyGrams":0.041,"slip":true,"driftFreeGrams":null}""" },
        { "device", """{"at":"2026-03-02T05:41:10.125Z","event":"device","device":"scale","state":"up","detail":null,"cause":null}""" },
        { "alert", """{"at":"2026-03-02T05:41:10.125Z","event":"alert","alert":"not-stored","chick":"AM-0147","device":null,"text":"Full."}""" },
        { "probe", """{"at":"2026-03-02T05:41:10.125Z","event":"probe","device":"probe","celsius":39.8,"uncertaintyCelsius":0.2,"settled":true,"shownCelsius":39.8}""" },
        { "batch", """{"at":"2026-03-02T05:41:10.125Z","event":"batch","batch":3,"state":"in-range","celsius":39.8,"discardAt":"2026-03-02T06:01:10.125Z","belowBandAt":null,"device":"probe","mixedAt":"2026-03-02T05:41:10.125Z","inRangeSince":null,"belowBandSoonest":null,"belowBandLatest":null,"chicksInTime":12,"probeChecked":false,"probeCheckedAt":null}""" },
        { "scan", """{"at":"2026-03-02T05:41:10.125Z","event":"scan","device":"scanner","code":"AM-0147","taken":"chick","text":null}""" },
        { "tare", """{"at":"2026-03-02T05:41:10.125Z","event":"tare","device":"scale","grams":8.2,"uncertaintyGrams":0.05}""" },
        { "placed", """{"at":"2026-03-02T05:41:10.125Z","event":"placed","device":"scale","chick":null}""" },
        { "lifted", """{"at":"2026-03-02T05:41:10.125Z","event":"lifted","device":"scale","chick":"AM-0147"}""" },
    };

    [Theory]
    [MemberData(nameof(Others))]
    public void Every_other_event_has_its_golden_line(string name, string expected)
    {
        StationEvent station = name switch
        {
            "feed" => new FeedEvent(At, "AM-0147", 3, "in-range"),
            "intake" => new IntakeEvent(At, "AM-0147", 18.5m, 0.15m, 9.93m) { FeedId = Guid.NewGuid() },
            "crop" => new CropEvent(At, "AM-0147"),
            "chore" => new ChoreEvent(At, "wash"),
            "due" => new DueEvent(At, "feed", "AM-0147", At, "Due."),
            "finding" => new FindingEvent(At, "AM-0147", FindingKinds.TooGood, Severities.Look, "Look.", 204.9m, 190.2m, 183.1m, 197.5m),
            "undo" => new UndoEvent(At, "AM-0147", "weighing") { UndoneId = Guid.NewGuid() },
            "check" => new CheckEvent(At, "scale", 200.131m, 200m, 0.131m, 0.1m, false, "Off.") { UncertaintyGrams = 0.07m },
            "device" => new DeviceEvent(At, "scale", "up", null),
            "alert" => new AlertEvent(At, "not-stored", "AM-0147", null, "Full."),
            "probe" => new ProbeEvent(At, "probe", 39.8m, 0.2m, true, 39.8m),
            "batch" => new BatchEvent(At, 3, "in-range", 39.8m, At.AddMinutes(20), null) { Device = "probe", MixedAt = At, ChicksInTime = 12 },
            "scan" => new ScanEvent(At, "scanner", "AM-0147", "chick", null),
            "tare-after" => new TareAfterEvent(At, "scale", "AM-0147", 8.2m, 9.4m, 1.2m, 0.041m, true, null) { Id = Guid.NewGuid(), WeighingId = Guid.NewGuid() },
            "tare" => new TareEvent(At, "scale", 8.2m, 0.05m),
            "placed" => new PlacedEvent(At, "scale", null),
            _ => new LiftedEvent(At, "scale", "AM-0147"),
        };

        Assert.Equal(name, station.Name);
        Assert.Equal(expected, Line(station));
    }

    [Fact]
    public void Every_event_type_can_be_written()
    {
        var types = typeof(StationEvent).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(StationEvent)) && !type.IsAbstract);

        Assert.All(types, type => Assert.NotNull(EventJsonContext.Default.GetTypeInfo(type)));
    }

    [Theory]
    [InlineData(0, "2026-03-02T05:41:10.125Z")]
    [InlineData(10, "2026-03-02T05:41:10.125001Z")]
    [InlineData(1, "2026-03-02T05:41:10.1250001Z")]
    public void A_moment_has_milliseconds_and_finer_digits_only_where_there_are_any(long ticks, string expected)
    {
        var elsewhere = At.AddTicks(ticks).ToOffset(TimeSpan.FromHours(2));

        Assert.StartsWith($$"""{"at":"{{expected}}",""", Line(new PlacedEvent(elsewhere, "scale", null)), StringComparison.Ordinal);
    }

    private static string Line(StationEvent station)
    {
        var output = new ArrayBufferWriter<byte>();
        EventJson.Write(output, station);
        var text = Encoding.UTF8.GetString(output.WrittenSpan);
        Assert.EndsWith("\n", text, StringComparison.Ordinal);
        return text[..^1];
    }
}
