namespace CaptureAgent.Store.Schema;

/// <summary>The tare after a weighing.</summary>
/// <remarks>The column <c>tare_after_milligrams</c> of the weighings stays empty: a weighing is on disk while the chick still lies on the pan.</remarks>
internal static class Version4
{
    public const string Sql = """
        CREATE TABLE tare_afters (
          seq                     INTEGER PRIMARY KEY AUTOINCREMENT,
          id                      BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          weighing                BLOB NOT NULL UNIQUE REFERENCES weighings (id),
          at                      INTEGER NOT NULL,
          zone                    TEXT NOT NULL,
          station                 TEXT NOT NULL,
          device                  TEXT NOT NULL CHECK (device <> ''),
          before_milligrams       INTEGER NOT NULL,
          after_milligrams        INTEGER NOT NULL,
          uncertainty_milligrams  INTEGER NOT NULL CHECK (uncertainty_milligrams >= 0),
          slip                    INTEGER NOT NULL CHECK (slip IN (0, 1)),
          drift_free_milligrams   INTEGER
        ) STRICT;
        CREATE TRIGGER tare_afters_no_update BEFORE UPDATE ON tare_afters BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER tare_afters_no_delete BEFORE DELETE ON tare_afters BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
