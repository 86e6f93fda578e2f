using System.Globalization;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>How moments, days and ids stand in a column.</summary>
internal static class Columns
{
    /// <summary>UTC microseconds since 1970-01-01; a finer part is cut off.</summary>
    public static long Microseconds(DateTimeOffset at) =>
        (long)Math.Floor((at.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks) / (decimal)TimeSpan.TicksPerMicrosecond);

    public static object? Microseconds(DateTimeOffset? at) => at is { } moment ? Microseconds(moment) : null;

    public static DateTimeOffset Moment(long microseconds) =>
        DateTimeOffset.UnixEpoch.AddTicks(microseconds * TimeSpan.TicksPerMicrosecond);

    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static byte[] Key(Guid id) => id.ToByteArray(bigEndian: true);

    public static Guid Id(SqliteDataReader row, int column) => new(row.GetFieldValue<byte[]>(column), bigEndian: true);

    public static string? Text(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetString(column);

    public static long? Integer(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetInt64(column);

    public static int? Small(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetInt32(column);

    public static DateOnly? Date(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : Day(row.GetString(column));
}
