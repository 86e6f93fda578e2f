namespace CaptureAgent.Store.Schema;

/// <summary>The checks of the scales with a known mass.</summary>
internal static class Version3
{
    public const string Sql = """
        CREATE TABLE scale_checks (
          seq                     INTEGER PRIMARY KEY AUTOINCREMENT,
          id                      BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          at                      INTEGER NOT NULL,
          zone                    TEXT NOT NULL,
          station                 TEXT NOT NULL,
          device                  TEXT NOT NULL CHECK (device <> ''),
          milligrams              INTEGER NOT NULL,
          uncertainty_milligrams  INTEGER NOT NULL CHECK (uncertainty_milligrams >= 0),
          expected_milligrams     INTEGER NOT NULL CHECK (expected_milligrams > 0),
          tolerance_milligrams    INTEGER NOT NULL CHECK (tolerance_milligrams > 0)
        ) STRICT;
        CREATE INDEX scale_checks_by_device ON scale_checks (device, at);
        CREATE TRIGGER scale_checks_no_update BEFORE UPDATE ON scale_checks BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER scale_checks_no_delete BEFORE DELETE ON scale_checks BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
