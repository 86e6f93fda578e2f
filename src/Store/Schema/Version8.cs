namespace CaptureAgent.Store.Schema;

/// <summary>What was changed by hand, by whom and why; and the devices that may use the page.</summary>
/// <remarks>Of codes and tokens only the SHA-256 is kept: who reads the file cannot use them.</remarks>
internal static class Version8
{
    public const string Sql = """
        CREATE TABLE hand_entries (
          seq       INTEGER PRIMARY KEY AUTOINCREMENT,
          at        INTEGER NOT NULL,
          who       TEXT NOT NULL CHECK (who <> ''),
          reason    TEXT NOT NULL CHECK (reason <> ''),
          weighing  BLOB REFERENCES weighings (id),
          undone    BLOB CHECK (length(undone) = 16),
          chick     TEXT CHECK (chick <> ''),
          CHECK ((weighing IS NOT NULL) + (undone IS NOT NULL) + (chick IS NOT NULL) = 1)
        ) STRICT;
        CREATE INDEX hand_entries_by_weighing ON hand_entries (weighing) WHERE weighing IS NOT NULL;
        CREATE INDEX hand_entries_by_undone ON hand_entries (undone) WHERE undone IS NOT NULL;
        CREATE INDEX hand_entries_by_chick ON hand_entries (chick) WHERE chick IS NOT NULL;
        CREATE TABLE pairing_codes (
          seq         INTEGER PRIMARY KEY AUTOINCREMENT,
          id          BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          hash        BLOB NOT NULL CHECK (length(hash) = 32),
          role        TEXT NOT NULL CHECK (role IN ('look', 'keeper')),
          made_at     INTEGER NOT NULL,
          expires_at  INTEGER NOT NULL
        ) STRICT;
        CREATE TABLE pairings (
          seq         INTEGER PRIMARY KEY AUTOINCREMENT,
          id          BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          code        BLOB NOT NULL UNIQUE REFERENCES pairing_codes (id),
          token_hash  BLOB NOT NULL UNIQUE CHECK (length(token_hash) = 32),
          name        TEXT NOT NULL CHECK (name <> ''),
          at          INTEGER NOT NULL
        ) STRICT;
        CREATE TABLE pairing_ends (
          pairing  BLOB NOT NULL UNIQUE REFERENCES pairings (id),
          at       INTEGER NOT NULL,
          who      TEXT NOT NULL CHECK (who <> '')
        ) STRICT;
        CREATE VIEW paired AS
          SELECT p.seq, p.id, p.name, c.role, p.at, p.token_hash, e.at AS ended_at
          FROM pairings p JOIN pairing_codes c ON c.id = p.code LEFT JOIN pairing_ends e ON e.pairing = p.id;
        CREATE TRIGGER hand_entries_no_update BEFORE UPDATE ON hand_entries BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER hand_entries_no_delete BEFORE DELETE ON hand_entries BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER pairing_codes_no_update BEFORE UPDATE ON pairing_codes BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER pairing_codes_no_delete BEFORE DELETE ON pairing_codes BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER pairings_no_update BEFORE UPDATE ON pairings BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER pairings_no_delete BEFORE DELETE ON pairings BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER pairing_ends_no_update BEFORE UPDATE ON pairing_ends BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER pairing_ends_no_delete BEFORE DELETE ON pairing_ends BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
