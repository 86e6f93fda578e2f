using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class PairingCardsTests
{
    private readonly StationOptions station = new()
    {
        Devices = [new() { Id = "probe", Role = "probe", Dialect = "health-thermometer" }, new() { Id = "scanner", Role = "scanner", Dialect = "line" }],
    };

    private readonly List<StationEvent> events = [];
    private DateTimeOffset now = new(2026, 3, 2, 5, 0, 0, TimeSpan.Zero);
    private int confirmed;

    [Fact]
    public void A_devices_question_is_said_with_its_number_and_the_card_answers_it()
    {
        var cards = NewCards();
        Send(cards, new(now, "probe", PairingQuestion.Confirm("042017").ToBytes(), PairingQuestion.Source));
        var alert = Assert.IsType<AlertEvent>(Assert.Single(events));
        Assert.Equal(("pairing", "probe"), (alert.Alert, alert.Device));
        Assert.Contains("should show 042017", alert.Text, StringComparison.Ordinal);

        Send(cards, new(now, "scanner", "AM-0147\r"u8.ToArray()));
        Assert.Equal(0, confirmed);
        Send(cards, new(now, "scanner", "!PAIR\r"u8.ToArray()));
        Assert.Equal(1, confirmed);
    }

    [Fact]
    public void A_number_to_be_entered_is_said()
    {
        Send(NewCards(), new(now, "probe", PairingQuestion.Display("000042").ToBytes(), PairingQuestion.Source));
        Assert.Contains("enter 000042 on it", Assert.IsType<AlertEvent>(Assert.Single(events)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_question_is_no_sign_that_the_device_measures()
    {
        var cards = NewCards();
        Send(cards, new(now, "probe", Link: LinkChange.Up));
        now += TimeSpan.FromSeconds(29);
        Send(cards, new(now, "probe", PairingQuestion.Confirm("1").ToBytes(), PairingQuestion.Source));
        cards.Expire(now + TimeSpan.FromSeconds(2), events);
        Assert.Contains(events, one => one is DeviceEvent { State: "silent" });
    }

    private PairingCards NewCards() => new(new StationCore(station, new Ledger([], [], [])), station.Codes.Cards.Pair, () => confirmed++);

    private void Send(PairingCards cards, TraceRecord record)
    {
        cards.Accept(record, events);
        now += TimeSpan.FromSeconds(1);
    }
}
