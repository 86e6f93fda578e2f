namespace CaptureAgent.Store.Schema;

/// <summary>The batches of formula, and the checks of the probes.</summary>
internal static class Version7
{
    public const string Sql = """
        CREATE TABLE batches (
          seq             INTEGER PRIMARY KEY AUTOINCREMENT,
          id              BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          number          INTEGER NOT NULL CHECK (number > 0),
          day             TEXT NOT NULL,
          at              INTEGER NOT NULL,
          zone            TEXT NOT NULL,
          station         TEXT NOT NULL,
          device          TEXT,
          state           TEXT NOT NULL CHECK (state IN ('unmeasured', 'warming', 'too-cold', 'one-reading', 'in-range', 'too-hot', 'stop', 'stir', 'discard')),
          mixed_at        INTEGER NOT NULL,
          discard_at      INTEGER NOT NULL CHECK (discard_at >= mixed_at),
          millicelsius    INTEGER,
          below_band_at   INTEGER,
          probe_checked   INTEGER NOT NULL CHECK (probe_checked IN (0, 1)),
          constant_milliseconds INTEGER CHECK (constant_milliseconds > 0)
        ) STRICT;
        CREATE INDEX batches_by_time ON batches (at);
        CREATE TRIGGER batches_no_update BEFORE UPDATE ON batches BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER batches_no_delete BEFORE DELETE ON batches BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TABLE probe_checks (
          seq                     INTEGER PRIMARY KEY AUTOINCREMENT,
          id                      BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          at                      INTEGER NOT NULL,
          zone                    TEXT NOT NULL,
          station                 TEXT NOT NULL,
          device                  TEXT NOT NULL CHECK (device <> ''),
          kind                    TEXT NOT NULL CHECK (kind IN ('ice', 'boil', 'reference')),
          millicelsius            INTEGER NOT NULL,
          expected_millicelsius   INTEGER NOT NULL,
          tolerance_millicelsius  INTEGER NOT NULL CHECK (tolerance_millicelsius > 0)
        ) STRICT;
        CREATE INDEX probe_checks_by_device ON probe_checks (device, at);
        CREATE TRIGGER probe_checks_no_update BEFORE UPDATE ON probe_checks BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER probe_checks_no_delete BEFORE DELETE ON probe_checks BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
