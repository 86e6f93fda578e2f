namespace CaptureAgent.Store.Schema;

/// <summary>Crops seen full, observations, chores and batches can be taken back, as weighings and feeds can; and what a probe's dips have shown of its lag.</summary>
/// <remarks>A table beside <c>undos</c>, whose CHECK could be changed only by making it anew. A batch is taken back by its first row.</remarks>
internal static class Version9
{
    public const string Sql = Undos + Standing + Lags + Triggers;

    private const string Undos = """
        CREATE TABLE note_undos (
          seq          INTEGER PRIMARY KEY AUTOINCREMENT,
          id           BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          at           INTEGER NOT NULL,
          zone         TEXT NOT NULL,
          station      TEXT NOT NULL,
          crop_mark    BLOB REFERENCES crop_marks (id),
          observation  BLOB REFERENCES observations (id),
          chore        BLOB REFERENCES chores (id),
          batch        BLOB REFERENCES batches (id),
          CONSTRAINT undoes_one_note CHECK ((crop_mark IS NOT NULL) + (observation IS NOT NULL) + (chore IS NOT NULL) + (batch IS NOT NULL) = 1)
        ) STRICT;
        CREATE INDEX note_undos_by_crop_mark ON note_undos (crop_mark) WHERE crop_mark IS NOT NULL;
        CREATE INDEX note_undos_by_observation ON note_undos (observation) WHERE observation IS NOT NULL;
        CREATE INDEX note_undos_by_chore ON note_undos (chore) WHERE chore IS NOT NULL;

        """;

    private const string Standing = """
        CREATE VIEW standing_crop_marks AS
          SELECT * FROM crop_marks c WHERE NOT EXISTS (SELECT 1 FROM note_undos u WHERE u.crop_mark = c.id);
        CREATE VIEW standing_observations AS
          SELECT * FROM observations o WHERE NOT EXISTS (SELECT 1 FROM note_undos u WHERE u.observation = o.id);
        CREATE VIEW standing_chores AS
          SELECT * FROM chores c WHERE NOT EXISTS (SELECT 1 FROM note_undos u WHERE u.chore = c.id);
        CREATE VIEW standing_batches AS
          SELECT * FROM batches b WHERE NOT EXISTS (
            SELECT 1 FROM note_undos u JOIN batches f ON f.id = u.batch WHERE f.station = b.station AND f.day = b.day AND f.number = b.number AND f.mixed_at = b.mixed_at);

        """;

    private const string Lags = """
        CREATE TABLE probe_lags (
          seq                    INTEGER PRIMARY KEY AUTOINCREMENT,
          id                     BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
          at                     INTEGER NOT NULL,
          zone                   TEXT NOT NULL,
          station                TEXT NOT NULL,
          device                 TEXT NOT NULL CHECK (device <> ''),
          constant_milliseconds  INTEGER NOT NULL CHECK (constant_milliseconds > 0),
          lags                   TEXT NOT NULL CHECK (lags <> '')
        ) STRICT;
        CREATE INDEX probe_lags_by_device ON probe_lags (device, at);

        """;

    private const string Triggers = """
        CREATE TRIGGER note_undos_no_update BEFORE UPDATE ON note_undos BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER note_undos_no_delete BEFORE DELETE ON note_undos BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER probe_lags_no_update BEFORE UPDATE ON probe_lags BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        CREATE TRIGGER probe_lags_no_delete BEFORE DELETE ON probe_lags BEGIN SELECT RAISE(ABORT, 'rows are only ever added'); END;
        """;
}
