using System.Globalization;

namespace CaptureAgent.Store.Tests;

/// <summary>Rows to put into a store.</summary>
internal static class Rows
{
    public static readonly DateOnly Monday = new(2026, 3, 2);

    public static DateTimeOffset At(string time) =>
        DateTimeOffset.Parse($"2026-03-02T{time}Z", CultureInfo.InvariantCulture);

    public static WeighingRow Accepted(string chick, decimal grams, DateOnly? day = null, Guid? replaces = null, DateTimeOffset? at = null) => new(
        Guid.NewGuid(), chick, at ?? At("05:41:10.125"), "Etc/UTC", day ?? Monday, (long)(grams * 1000), 110, 8200,
        Verdict.Accepted, [], null, 24, Origin.Captured, "east-room", "scale", replaces);

    public static WeighingRow Rejected(string? chick, decimal? grams, params string[] reasons) => new(
        Guid.NewGuid(), chick, At("05:43"), "Etc/UTC", Monday, (long?)(grams * 1000), null, null,
        Verdict.Rejected, reasons, "Weigh it before the feed.", null, Origin.Captured, "east-room", "scale");

    public static FeedRow Feed(string chick, string time = "05:50") =>
        new(Guid.NewGuid(), chick, At(time), "Etc/UTC", Monday, 3, "in-range", "east-room");

    public static UndoRow Undo(Guid undone) => new(Guid.NewGuid(), At("05:55"), "Etc/UTC", undone, "east-room");

    public static TareAfterRow TareAfter(Guid weighing, long? driftFree = 186_350) =>
        new(Guid.NewGuid(), weighing, At("05:42"), "Etc/UTC", "east-room", "scale", 8200, 8300, 41, false, driftFree);

    /// <summary>All of a row in one text, lists included, so that rows compare by value.</summary>
    public static string Text(WeighingRow row) => $"{row with { Reasons = [] }} [{string.Join(';', row.Reasons)}]";

    public static IEnumerable<string> Texts(IEnumerable<WeighingRow> rows) => rows.Select(Text);
}
