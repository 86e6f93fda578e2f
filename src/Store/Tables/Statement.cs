using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>One prepared statement, kept for the life of its connection. Parameters are <c>$1</c>, <c>$2</c>… in order.</summary>
internal sealed class Statement : IDisposable
{
    private readonly SqliteCommand command;

    public Statement(SqliteConnection connection, string sql, int parameters)
    {
        command = connection.CreateCommand();
        command.CommandText = sql;
        for (var i = 1; i <= parameters; i++)
            command.Parameters.Add(new SqliteParameter($"${i}", DBNull.Value));
        command.Prepare();
    }

    /// <returns>How many rows were added.</returns>
    public int Run(params ReadOnlySpan<object?> values)
    {
        Bind(values);
        return command.ExecuteNonQuery();
    }

    public IEnumerable<T> Rows<T>(Func<SqliteDataReader, T> map, params ReadOnlySpan<object?> values)
    {
        Bind(values);
        return Read(map);
    }

    private IEnumerable<T> Read<T>(Func<SqliteDataReader, T> map)
    {
        using var reader = command.ExecuteReader();
        while (reader.Read())
            yield return map(reader);
    }

    private void Bind(ReadOnlySpan<object?> values)
    {
        for (var i = 0; i < values.Length; i++)
            command.Parameters[i].Value = values[i] ?? DBNull.Value;
    }

    public void Dispose() => command.Dispose();
}
