using System.Buffers.Binary;
using System.Globalization;
using CaptureAgent.Store;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Benchmarks.GrowthFits;

/// <summary>A store with many simulated chicks, filled past the agent: one transaction, no sync, day by day as a nursery would.</summary>
internal static class RegisterFile
{
    private static readonly DateOnly First = new(2020, 1, 1);

    public static void Fill(string path, int chicks, int weightsEach)
    {
        CaptureStore.Open(path, TimeProvider.System).Dispose();
        using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Pooling = false }.ToString());
        connection.Open();
        Execute(connection, "PRAGMA synchronous = OFF; PRAGMA cache_size = -400000; BEGIN");
        using var register = Command(connection, "INSERT INTO register (code, species, hatched, recorded_at) VALUES ($1, 'Ara macao', $2, 0)", 2);
        using var weighing = Command(connection, """
            INSERT INTO weighings (id, chick, zone, day, milligrams, verdict, reasons, origin, station)
            VALUES ($1, $2, 'Etc/UTC', $3, $4, 'accepted', '', 'imported', 'register')
            """, 4);
        var series = new (int Day, int Milligrams)[chicks][];
        for (var i = 0; i < chicks; i++)
        {
            // Hatched over five years.
            var hatched = i % 1800;
            Run(register, Code(i), Text(hatched));
            var (ages, grams) = SimulatedChicks.Chick(i, weightsEach);
            series[i] = [.. ages.Zip(grams, (age, weight) => (hatched + (int)age, (int)Math.Round(weight * 1000)))];
        }

        var id = new byte[16];
        var next = new int[chicks];
        var written = 0L;
        for (var day = 0; written < (long)chicks * weightsEach; day++)
        {
            var date = Text(day);
            for (var i = 0; i < chicks; i++)
            {
                if (next[i] >= weightsEach || series[i][next[i]].Day != day)
                    continue;
                BinaryPrimitives.WriteInt64BigEndian(id, ++written);
                Run(weighing, id, Code(i), date, series[i][next[i]++].Milligrams);
            }
        }

        Execute(connection, "COMMIT; PRAGMA wal_checkpoint(TRUNCATE)");
    }

    private static string Code(int i) => string.Create(CultureInfo.InvariantCulture, $"C-{i:000000}");

    private static string Text(int day) => First.AddDays(day).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static SqliteCommand Command(SqliteConnection connection, string sql, int parameters)
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        for (var i = 1; i <= parameters; i++)
            command.Parameters.Add(new SqliteParameter($"${i}", DBNull.Value));
        command.Prepare();
        return command;
    }

    private static void Run(SqliteCommand command, params ReadOnlySpan<object> values)
    {
        for (var i = 0; i < values.Length; i++)
            command.Parameters[i].Value = values[i];
        command.ExecuteNonQuery();
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
