using System.IO.Compression;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The raw samples behind a weighing, compressed with Brotli (RFC 7932).</summary>
internal sealed class EvidenceTable(SqliteConnection connection) : IDisposable
{
    // 2^18 bytes of window hold any one placing; quality 5 is the knee of speed against size (common practice, no source).
    private const int Quality = 5, Window = 18;

    private readonly Statement insert = new(connection,
        "INSERT INTO evidence (weighing, format, compression, length, samples, force_micrograms, momentum_micrograms, still_micrograms) VALUES ($1, $2, 'brotli', $3, $4, $5, $6, $7)", 7);

    // A row that was adopted or judged again was never on the pan itself: its evidence is that of the row it replaces, and so on.
    private readonly Statement find = new(connection, """
        WITH RECURSIVE line (seq, origin, replaces, step) AS (
          SELECT seq, origin, replaces, 0 FROM weighings WHERE id = $1
          UNION ALL
          SELECT o.seq, o.origin, o.replaces, line.step + 1 FROM line JOIN weighings o ON o.id = line.replaces
          WHERE line.origin IN ('adopted', 'rejudged'))
        SELECT e.format, e.length, e.samples FROM line JOIN evidence e ON e.weighing = line.seq ORDER BY line.step LIMIT 1
        """, 1);

    private readonly Statement motions = new(connection, """
        SELECT w.id, w.chick, w.day, w.device, w.milligrams, e.force_micrograms, e.momentum_micrograms, e.still_micrograms
        FROM weighing_states w JOIN evidence e ON e.weighing = w.seq
        WHERE w.day >= $1 AND w.verdict = 'accepted' AND w.state = 'stands' AND e.force_micrograms IS NOT NULL ORDER BY w.day, w.at, w.seq
        """, 1);

    public void Add(long weighing, Evidence evidence)
    {
        var packed = new byte[BrotliEncoder.GetMaxCompressedLength(evidence.Samples.Length)];
        if (!BrotliEncoder.TryCompress(evidence.Samples.Span, packed, out var length, Quality, Window))
            throw new InvalidOperationException("The samples could not be compressed.");
        insert.Run(weighing, evidence.Format, (long)evidence.Samples.Length, packed[..length],
            evidence.Motion?.ForceMicrograms, evidence.Motion?.MomentumMicrograms, evidence.Motion?.StillMicrograms);
    }

    /// <returns>Null if the weighing has none.</returns>
    /// <exception cref="InvalidDataException">The samples in the file cannot be unpacked.</exception>
    public Evidence? Find(Guid weighing)
    {
        foreach (var evidence in find.Rows(Unpack, Columns.Key(weighing)))
            return evidence;
        return null;
    }

    /// <summary>How the chicks moved from a nursery day on, oldest first.</summary>
    public IReadOnlyList<MotionRow> Motions(DateOnly from) => [.. motions.Rows(Moved, Columns.Day(from))];

    private static MotionRow Moved(SqliteDataReader row) => new(
        Columns.Id(row, 0), row.GetString(1), Columns.Day(row.GetString(2)), Columns.Text(row, 3), row.GetInt64(4), new EvidenceMotion(row.GetInt64(5), row.GetInt64(6), row.GetInt64(7)));

    private static Evidence Unpack(SqliteDataReader row)
    {
        var samples = new byte[row.GetInt32(1)];
        if (!BrotliDecoder.TryDecompress(row.GetFieldValue<byte[]>(2), samples, out var length) || length != samples.Length)
            throw new InvalidDataException("the samples of a weighing cannot be unpacked");
        return new(row.GetString(0), samples);
    }

    public void Dispose()
    {
        insert.Dispose();
        find.Dispose();
        motions.Dispose();
    }
}
