using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>Pairing codes, the devices paired with them, and the ends of those.</summary>
internal sealed class PairingTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, name, role, at, ended_at";

    private readonly Statement addCode = new(connection,
        "INSERT INTO pairing_codes (id, hash, role, made_at, expires_at) VALUES ($1, $2, $3, $4, $5)", 5);

    private readonly Statement openCode = new(connection, """
        SELECT id FROM pairing_codes c WHERE hash = $1 AND expires_at > $2 AND made_at <= $2
          AND NOT EXISTS (SELECT 1 FROM pairings p WHERE p.code = c.id) ORDER BY seq DESC LIMIT 1
        """, 2);

    private readonly Statement addDevice = new(connection,
        "INSERT INTO pairings (id, code, token_hash, name, at) VALUES ($1, $2, $3, $4, $5)", 5);

    private readonly Statement byToken = new(connection, $"SELECT {Names} FROM paired WHERE token_hash = $1 AND ended_at IS NULL", 1);

    private readonly Statement byId = new(connection, $"SELECT {Names} FROM paired WHERE id = $1", 1);

    private readonly Statement all = new(connection, $"SELECT {Names} FROM paired ORDER BY seq", 0);

    private readonly Statement end = new(connection, """
        INSERT INTO pairing_ends (pairing, at, who) SELECT id, $2, $3 FROM pairings WHERE id = $1
        ON CONFLICT (pairing) DO NOTHING
        """, 3);

    public void Add(PairingCode code) => addCode.Run(
        Columns.Key(code.Id), code.Hash.ToArray(), Word(code.Role), Columns.Microseconds(code.MadeAt), Columns.Microseconds(code.ExpiresAt));

    /// <summary>Null if no code with this hash is open at the moment.</summary>
    public PairedDevice? Pair(ReadOnlyMemory<byte> codeHash, ReadOnlyMemory<byte> tokenHash, Guid id, string name, DateTimeOffset at)
    {
        var codes = openCode.Rows(row => Columns.Id(row, 0), codeHash.ToArray(), Columns.Microseconds(at)).ToList();
        if (codes.Count == 0)
            return null;
        addDevice.Run(Columns.Key(id), Columns.Key(codes[0]), tokenHash.ToArray(), name, Columns.Microseconds(at));
        return byId.Rows(Map, Columns.Key(id)).Single();
    }

    public PairedDevice? Find(ReadOnlyMemory<byte> tokenHash) => byToken.Rows(Map, tokenHash.ToArray()).SingleOrDefault();

    public IReadOnlyList<PairedDevice> All() => [.. all.Rows(Map)];

    /// <returns>False if there is no such device, or it has been ended before.</returns>
    public bool End(Guid id, DateTimeOffset at, string who) => end.Run(Columns.Key(id), Columns.Microseconds(at), who) == 1;

    private static string Word(PageRole role) => role == PageRole.Keeper ? "keeper" : "look";

    private static PairedDevice Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), row.GetString(1), row.GetString(2) == "keeper" ? PageRole.Keeper : PageRole.Look,
        Columns.Moment(row.GetInt64(3)), Columns.Integer(row, 4) is { } ended ? Columns.Moment(ended) : null);

    public void Dispose()
    {
        foreach (var statement in (ReadOnlySpan<Statement>)[addCode, openCode, addDevice, byToken, byId, all, end])
            statement.Dispose();
    }
}
