using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace CaptureAgent.Agent.Tests.Hosting;

public sealed class StoreWatchTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("watch-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void What_another_program_registers_reaches_the_core_and_what_we_write_ourselves_does_not()
    {
        var path = Path.Combine(folder, "capture.db");
        using var store = CaptureStore.Open(path, TimeProvider.System);
        var round = new ReloadedRound();
        var watch = new StoreWatch(store, round, TimeProvider.System, NullLogger.Instance);
        var recorder = new Recorder(new DecisionStore(store), new DecisionRows("s", "Etc/UTC"), new NoEvents(), NullLogger.Instance);

        watch.Look(recorder);
        recorder.Take([new FeedEvent(new DateTimeOffset(2026, 3, 2, 5, 0, 0, TimeSpan.Zero), "AM-0147", 1, "in-range") { Id = Guid.NewGuid(), Day = new DateOnly(2026, 3, 2) }], default);
        watch.Look(recorder);
        Assert.Null(round.Fresh);

        using (var other = CaptureStore.Open(path, TimeProvider.System))
            other.Register(new Chick("AM-0147", "Ara macao", new DateOnly(2026, 2, 6)));
        watch.Look(recorder);

        Assert.Equal("Ara macao", round.Fresh?.Find("AM-0147")?.Species);
    }

    private sealed class ReloadedRound : IRound
    {
        public Ledger? Fresh { get; private set; }

        public DateTimeOffset? NextDeadline => null;

        public void Accept(TraceRecord record, List<StationEvent> events)
        {
        }

        public void Expire(DateTimeOffset now, List<StationEvent> events)
        {
        }

        public void Reload(Ledger fresh) => Fresh = fresh;
    }
}
