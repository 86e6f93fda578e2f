namespace CaptureAgent.Agent.Trace;

/// <summary>Reads a trace (NDJSON) record by record, in the order of the file.</summary>
/// <remarks>A last line that was cut while it was written is passed over; anything else that is broken ends the reading with its line's number.</remarks>
internal sealed class TraceReader(Stream stream, string file, IReadOnlyList<string> devices)
{
    private const int FirstBuffer = 64 * 1024;

    /// <summary>No device sends this much at once; a file with such a line is no trace.</summary>
    private const int LongestLine = 16 * 1024 * 1024;

    private readonly TraceLine parser = new(devices);

    private byte[] buffer = new byte[FirstBuffer];
    private int start;
    private int end;
    private bool atEnd;
    private DateTimeOffset last = DateTimeOffset.MinValue;

    /// <summary>Number of the line read last, counted from 1.</summary>
    public long Line { get; private set; }

    /// <summary>Opens a trace file for reading.</summary>
    /// <exception cref="TraceException">It cannot be opened.</exception>
    public static FileStream Open(string path)
    {
        try
        {
            return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new TraceException(path, 0, failure is FileNotFoundException or DirectoryNotFoundException ? "there is no such file." : $"cannot be read: {failure.Message}");
        }
    }

    /// <exception cref="TraceException">A line is broken, names an unknown device, or goes back in time.</exception>
    public IEnumerable<TraceRecord> Read()
    {
        while (TakeLine(out var from, out var length))
        {
            Line++;
            if (Parse(from, length) is { } record)
                yield return record;
        }
    }

    private TraceRecord? Parse(int from, int length)
    {
        var line = buffer.AsSpan(from, length);
        if (Line == 1 && line is [0xEF, 0xBB, 0xBF, ..])
            line = line[3..];
        if (line.Trim(" \t\r"u8).IsEmpty)
            return null;

        // A file that was being written when the power went may end in zeros.
        var filled = line is [.., 0] && IsLast() ? line.TrimEnd((byte)0) : line;
        switch (parser.Read(filled, out var record, out var problem))
        {
            case TraceLine.Outcome.Record:
                break;
            case TraceLine.Outcome.Cut when IsLast():
                return null;
            case TraceLine.Outcome.Cut:
                throw new TraceException(file, Line, "the line ends too early, and it is not the last one.");
            default:
                throw new TraceException(file, Line, problem);
        }

        if (record!.At < last)
            throw new TraceException(file, Line, "'at' goes backwards; records stand in the order of time.");
        last = record.At;
        return record;
    }

    /// <summary>Nothing but blank lines follows.</summary>
    private bool IsLast()
    {
        while (true)
        {
            if (!buffer.AsSpan(start, end - start).Trim(" \t\r\n\0"u8).IsEmpty)
                return false;
            if (atEnd)
                return true;
            Fill();
        }
    }

    /// <summary>The line's place in the buffer, without its ending; the place holds until the next call.</summary>
    private bool TakeLine(out int from, out int length)
    {
        var searched = start;
        while (true)
        {
            var found = buffer.AsSpan(searched, end - searched).IndexOf((byte)'\n');
            if (found >= 0)
            {
                (from, length) = (start, searched + found - start);
                start = searched + found + 1;
                return true;
            }

            searched = end;
            if (atEnd)
            {
                (from, length) = (start, end - start);
                start = end;
                return length > 0;
            }

            if (start > 0)
                (searched, end, start) = Compact(searched);
            Fill();
        }
    }

    private (int Searched, int End, int Start) Compact(int searched)
    {
        buffer.AsSpan(start, end - start).CopyTo(buffer);
        return (searched - start, end - start, 0);
    }

    // Only ever adds behind what is there: the line taken last stays where it is.
    private void Fill()
    {
        if (end == buffer.Length)
        {
            if (buffer.Length >= LongestLine)
                throw new TraceException(file, Line + 1, "longer than any record of a trace; is this file one?");
            Array.Resize(ref buffer, buffer.Length * 2);
        }

        var count = stream.Read(buffer, end, buffer.Length - end);
        atEnd = count == 0;
        end += count;
    }
}
