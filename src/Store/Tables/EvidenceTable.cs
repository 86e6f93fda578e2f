using System.IO.Compression;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The raw samples behind a weighing, compressed with Brotli (RFC 7932).</summary>
internal sealed class EvidenceTable(SqliteConnection connection) : IDisposable
{
    // 2^18 bytes of window hold any one placing; quality 5 is the knee of speed against size (common practice, no source).
    private const int Quality = 5, Window = 18;

    private readonly Statement insert = new(connection,
        "INSERT INTO evidence (weighing, format, compression, length, samples) VALUES ($1, $2, 'brotli', $3, $4)", 4);

    // An adopted row was never on the pan itself: its evidence is that of the row it replaces.
    private readonly Statement find = new(connection, """
        SELECT e.format, e.length, e.samples FROM weighings w
        JOIN evidence e ON e.weighing = w.seq
          OR (w.origin = 'adopted' AND e.weighing = (SELECT o.seq FROM weighings o WHERE o.id = w.replaces))
        WHERE w.id = $1
        """, 1);

    public void Add(long weighing, Evidence evidence)
    {
        var packed = new byte[BrotliEncoder.GetMaxCompressedLength(evidence.Samples.Length)];
        if (!BrotliEncoder.TryCompress(evidence.Samples.Span, packed, out var length, Quality, Window))
            throw new InvalidOperationException("The samples could not be compressed.");
        insert.Run(weighing, evidence.Format, (long)evidence.Samples.Length, packed[..length]);
    }

    /// <returns>Null if the weighing has none.</returns>
    /// <exception cref="InvalidDataException">The samples in the file cannot be unpacked.</exception>
    public Evidence? Find(Guid weighing)
    {
        foreach (var evidence in find.Rows(Unpack, Columns.Key(weighing)))
            return evidence;
        return null;
    }

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
    }
}
