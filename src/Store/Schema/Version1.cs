namespace CaptureAgent.Store.Schema;

/// <summary>The first layout of the record.</summary>
/// <remarks>
/// Masses are integer milligrams, moments are UTC microseconds since 1970-01-01, days are ISO dates (the nursery day),
/// ids are the 16 bytes of a UUID in network order. Rows of the record are only ever added: triggers refuse the rest,
/// for every program that opens the file.
/// </remarks>
internal static class Version1
{
    public const string Sql = Register + Weighings + Evidence + Feeds + Undos + States + Triggers;

    private const string Register = """
        CREATE TABLE register (
          seq          INTEGER PRIMARY KEY AUTOINCREMENT,
          code         TEXT NOT NULL CHECK (code <> ''),
          species      TEXT,
          hatched      TEXT CHECK (hatched GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
          clutch       TEXT,
          brooder      TEXT,
          band         TEXT,
          left_on      TEXT CHECK (left_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
          note         TEXT,
          recorded_at  INTEGER NOT NULL
        ) STRICT;
        CREATE INDEX register_by_code ON register (code, seq);
        CREATE VIEW chicks AS
          SELECT * FROM register r WHERE NOT EXISTS (SELECT 1 FROM register n WHERE n.code = r.code AND n.seq > r.seq);

        """;

    private const string Weighings = """
        CREATE TABLE weighings (
          seq                     INTEGER PRIMARY KEY AUTOINCREMENT,
          id                      BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          chick                   TEXT CHECK (chick <> ''),
          at                      INTEGER,
          zone                    TEXT NOT NULL,
          day                     TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
          milligrams              INTEGER,
          uncertainty_milligrams  INTEGER CHECK (uncertainty_milligrams >= 0),
          tare_milligrams         INTEGER,
          tare_after_milligrams   INTEGER,
          verdict                 TEXT NOT NULL CHECK (verdict IN ('accepted', 'rejected')),
          reasons                 TEXT NOT NULL,
          remedy                  TEXT,
          age_days                INTEGER,
          origin                  TEXT NOT NULL CHECK (origin IN ('captured', 'imported', 'adopted')),
          station                 TEXT NOT NULL,
          device                  TEXT,
          replaces                BLOB REFERENCES weighings (id),
          grams_decimals          INTEGER,
          uncertainty_decimals    INTEGER,
          tare_decimals           INTEGER,
          CHECK (verdict = 'rejected' OR (chick IS NOT NULL AND coalesce(milligrams, 0) > 0)),
          CHECK (replaces IS NULL OR replaces <> id)
        ) STRICT;
        CREATE INDEX weighings_by_chick ON weighings (chick, day);
        CREATE INDEX weighings_by_day ON weighings (day);
        CREATE INDEX weighings_by_replaced ON weighings (replaces) WHERE replaces IS NOT NULL;

        """;

    private const string Evidence = """
        CREATE TABLE evidence (
          weighing     INTEGER PRIMARY KEY REFERENCES weighings (seq),
          format       TEXT NOT NULL,
          compression  TEXT NOT NULL CHECK (compression IN ('brotli')),
          length       INTEGER NOT NULL CHECK (length >= 0),
          samples      BLOB NOT NULL
        ) STRICT;

        """;

    private const string Feeds = """
        CREATE TABLE feeds (
          seq          INTEGER PRIMARY KEY AUTOINCREMENT,
          id           BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          chick        TEXT NOT NULL CHECK (chick <> ''),
          at           INTEGER NOT NULL,
          zone         TEXT NOT NULL,
          day          TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
          batch        INTEGER,
          batch_state  TEXT,
          station      TEXT NOT NULL
        ) STRICT;
        CREATE INDEX feeds_by_time ON feeds (at);

        """;

    private const string Undos = """
        CREATE TABLE undos (
          seq       INTEGER PRIMARY KEY AUTOINCREMENT,
          id        BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          at        INTEGER NOT NULL,
          zone      TEXT NOT NULL,
          weighing  BLOB REFERENCES weighings (id),
          feed      BLOB REFERENCES feeds (id),
          station   TEXT NOT NULL,
          CONSTRAINT undoes_one_row CHECK ((weighing IS NULL) <> (feed IS NULL))
        ) STRICT;
        CREATE INDEX undos_by_weighing ON undos (weighing) WHERE weighing IS NOT NULL;
        CREATE INDEX undos_by_feed ON undos (feed) WHERE feed IS NOT NULL;

        """;

    /// <summary>A row that was taken back replaces nothing: the row before it stands again.</summary>
    private const string States = """
        CREATE VIEW weighing_states AS
          SELECT w.*, CASE
            WHEN EXISTS (SELECT 1 FROM undos u WHERE u.weighing = w.id) THEN 'taken-back'
            WHEN EXISTS (SELECT 1 FROM weighings r WHERE r.replaces = w.id
                         AND NOT EXISTS (SELECT 1 FROM undos u WHERE u.weighing = r.id)) THEN 'replaced'
            ELSE 'stands' END AS state
          FROM weighings w;
        CREATE VIEW standing_feeds AS
          SELECT * FROM feeds f WHERE NOT EXISTS (SELECT 1 FROM undos u WHERE u.feed = f.id);

        """;

    private const string Triggers = """
        CREATE TRIGGER register_no_update BEFORE UPDATE ON register BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER register_no_delete BEFORE DELETE ON register BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER weighings_no_update BEFORE UPDATE ON weighings BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER weighings_no_delete BEFORE DELETE ON weighings BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER evidence_no_update BEFORE UPDATE ON evidence BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER evidence_no_delete BEFORE DELETE ON evidence BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER feeds_no_update BEFORE UPDATE ON feeds BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER feeds_no_delete BEFORE DELETE ON feeds BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER undos_no_update BEFORE UPDATE ON undos BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER undos_no_delete BEFORE DELETE ON undos BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
