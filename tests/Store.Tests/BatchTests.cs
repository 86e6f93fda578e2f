using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Store.Tests;

/// <summary>Batches and checks of probes: added, never changed.</summary>
public sealed class BatchTests : IDisposable
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 6, 10, 0, TimeSpan.Zero);

    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static BatchRow Batch(string state = "in-range") => new(
        Guid.NewGuid(), 3, new DateOnly(2026, 3, 2), At, "Etc/UTC", "east-room", "probe", state, At.AddMinutes(-2), At.AddMinutes(18), 39_800, At.AddMinutes(7), true, 5200);

    private static ProbeCheckRow Check() => new(Guid.NewGuid(), At, "Etc/UTC", "east-room", "probe", "ice", 300, 0, 1000);

    [Fact]
    public void What_was_added_is_read_back_and_the_same_row_again_changes_nothing()
    {
        using var store = folder.Open();
        var (batch, check) = (Batch(), Check());
        store.Add(batch);
        store.Add(batch);
        store.Add(check);
        store.Add(check);
        Assert.Equal(batch, Assert.Single(store.Batches(At.AddMinutes(-1))));
        Assert.Equal(check, Assert.Single(store.ProbeChecks()));
        Assert.Empty(store.Batches(At.AddSeconds(1)));
    }

    [Fact]
    public void An_unmeasured_batch_has_no_temperature()
    {
        using var store = folder.Open();
        var row = Batch("unmeasured") with { Device = null, Millicelsius = null, BelowBandAt = null, ProbeChecked = false, ConstantMilliseconds = null };
        store.Add(row);
        Assert.Equal(row, Assert.Single(store.Batches(At)));
    }

    [Theory]
    [InlineData("UPDATE batches SET state = 'stop'")]
    [InlineData("DELETE FROM batches")]
    [InlineData("UPDATE probe_checks SET millicelsius = 0")]
    [InlineData("DELETE FROM probe_checks")]
    public void Rows_are_only_ever_added(string sql)
    {
        using (var store = folder.Open())
        {
            store.Add(Batch());
            store.Add(Check());
        }

        Assert.Contains("only ever added", Assert.Throws<SqliteException>(() => folder.Run(sql)).Message, StringComparison.Ordinal);
    }
}
