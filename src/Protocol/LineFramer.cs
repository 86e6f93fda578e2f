using System.Buffers;

namespace CaptureAgent.Protocol;

/// <summary>Cuts a byte stream into lines, however the stream was split or merged on its way. Knows nothing of what the lines mean.</summary>
/// <remarks>
/// Bytes are pushed, then lines are taken until there are none. A line ends with CR, LF or ETX, and with Tab if that is
/// asked for; since empty lines are skipped, CR LF and LF CR are one ending. NUL bytes are dropped, and so is an STX that
/// stands before a line (it only pairs the ETX). A line longer than the limit is given up: it is counted and dropped up to
/// the next ending. Nothing is allocated after construction.
/// </remarks>
public sealed class LineFramer
{
    public const int DefaultMaxLength = 128;

    private const byte Nul = 0x00;
    private const byte Stx = 0x02;

    private static readonly SearchValues<byte> Stops = SearchValues.Create("\0\x03\n\r"u8);
    private static readonly SearchValues<byte> StopsAndTab = SearchValues.Create("\0\x03\t\n\r"u8);

    private readonly SearchValues<byte> stops;
    private readonly byte[] pending;
    private int length;
    private bool givenUp;

    /// <param name="tabEnds">Whether a Tab ends a line, as it does for many scanners.</param>
    /// <param name="maxLength">The longest line that is given out, in bytes, NUL bytes not counted.</param>
    public LineFramer(bool tabEnds = false, int maxLength = DefaultMaxLength)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(maxLength);
        TabEnds = tabEnds;
        stops = tabEnds ? StopsAndTab : Stops;
        pending = new byte[maxLength];
    }

    public bool TabEnds { get; }

    /// <summary>Lines given up because they were longer than the limit.</summary>
    public long Overflows { get; private set; }

    /// <summary>Forgets a half line, as after a link was lost.</summary>
    public void Reset()
    {
        length = 0;
        givenUp = false;
    }

    /// <summary>Takes bytes off the front of <paramref name="bytes"/> until a line is complete; false when they ran out first.
    /// The line is valid until the next call, and no longer than the bytes behind <paramref name="bytes"/>. Empty lines are skipped.</summary>
    public bool TryTakeLine(ref ReadOnlySpan<byte> bytes, out ReadOnlySpan<byte> line)
    {
        while (!bytes.IsEmpty)
        {
            var stop = bytes.IndexOfAny(stops);
            if (stop < 0)
            {
                Keep(bytes);
                bytes = default;
                break;
            }

            var piece = bytes[..stop];
            var ends = bytes[stop] != Nul;
            bytes = bytes[(stop + 1)..];
            if (!ends)
                Keep(piece);
            else if (TryEnd(piece, out line))
                return true;
        }

        line = default;
        return false;
    }

    private bool TryEnd(ReadOnlySpan<byte> piece, out ReadOnlySpan<byte> line)
    {
        line = default;
        if (length == 0 && !givenUp)
        {
            // The usual case: the whole line lies in what was pushed, so it is given out where it lies.
            piece = piece.TrimStart(Stx);
            if (piece.Length > pending.Length)
                Overflows++;
            else
                line = piece;
            return !line.IsEmpty;
        }

        Keep(piece);
        if (!givenUp)
            line = pending.AsSpan(0, length);
        Reset();
        return !line.IsEmpty;
    }

    private void Keep(ReadOnlySpan<byte> piece)
    {
        if (givenUp)
            return;
        if (length == 0)
            piece = piece.TrimStart(Stx);
        if (piece.Length > pending.Length - length)
        {
            Overflows++;
            givenUp = true;
            return;
        }

        piece.CopyTo(pending.AsSpan(length));
        length += piece.Length;
    }
}
