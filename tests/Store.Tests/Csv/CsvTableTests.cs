using System.Text;
using CaptureAgent.Store.Csv;
using CsCheck;
using Xunit;

namespace CaptureAgent.Store.Tests.Csv;

/// <summary>The examples of RFC 4180, section 2, and what the RFC forbids.</summary>
public sealed class CsvTableTests
{
    private static readonly string[] Names = ["a", "b", "c"];

    private static CsvTable Read(string text) => CsvTable.Read(new StringReader(text), Names, []);

    private static string[][] Cells(CsvTable table) => [.. table.Rows.Select(row => Names.Select(name => row[name]!).ToArray())];

    [Theory]
    [InlineData("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")] // rule 1
    [InlineData("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx")] // rule 2: no line break after the last record
    [InlineData("a,b,c\naaa,bbb,ccc\nzzz,yyy,xxx\n")]
    [InlineData("\uFEFFa,b,c\naaa,bbb,ccc\nzzz,yyy,xxx\n")]
    [InlineData("c,a,b\r\nccc,aaa,bbb\r\nxxx,zzz,yyy\r\n")]
    [InlineData("\"a\",\"b\",\"c\"\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx")] // rule 5
    [InlineData("a,b,c\r\n\r\naaa,bbb,ccc\r\n\r\nzzz,yyy,xxx\r\n\r\n")]
    public void The_same_records_however_they_are_written(string text) =>
        Assert.Equal([["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]], Cells(Read(text)));

    [Fact]
    public void A_field_in_quotes_may_hold_a_line_break() => // rule 6
        Assert.Equal([["aaa", "b \r\nbb", "ccc"], ["zzz", "yyy", "xxx"]], Cells(Read("a,b,c\r\n\"aaa\",\"b \r\nbb\",\"ccc\"\r\nzzz,yyy,xxx")));

    [Fact]
    public void A_quote_within_quotes_is_doubled() => // rule 7
        Assert.Equal([["aaa", "b\"bb", "ccc"]], Cells(Read("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"")));

    [Fact]
    public void Blanks_are_part_of_a_field_and_a_comma_may_stand_in_quotes() => // rules 4 and 6
        Assert.Equal([[" aaa ", "b,b", ""]], Cells(Read("a,b,c\n aaa ,\"b,b\",\n")));

    [Theory]
    [InlineData("a,b,c\nx,y,z\nx,y\n", 3, "2 fields")]
    [InlineData("a,b,c\nx,y,z,w\n", 2, "4 fields")]
    [InlineData("a,b,c\nx,y\"y\"y,z\n", 2, "quote")]
    [InlineData("a,b,c\nx,\"y\"y,z\n", 2, "quote")]
    [InlineData("a,b,c\nx,\"y\"y\"\",z\n", 2, "quote")]
    public void A_row_that_does_not_fit_is_a_bad_row(string text, int row, string reason)
    {
        var bad = Assert.Single(Read(text).Bad);
        Assert.Equal(row, bad.Row);
        Assert.Contains(reason, bad.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("a,b,c\nx,\"y,z\nx,y,z\n")]
    [InlineData("a,b,c\nx,y,z\"")]
    [InlineData("a,b,c\nx,y,\"")]
    public void A_quote_that_is_never_closed_is_refused(string text)
    {
        try
        {
            Assert.NotEmpty(Read(text).Bad);
        }
        catch (ImportException fault)
        {
            Assert.Contains("quote", fault.Remedy, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("\n\n", "empty")]
    [InlineData("a,b\nx,y\n", "Missing columns: c")]
    [InlineData("a,b,c,d\n", "Unknown columns: \"d\"")]
    [InlineData("a,b,c,a\n", "a is there 2 times")]
    [InlineData("a;b;c\nx;y;z\n", "Unknown columns: \"a;b;c\"")]
    public void A_header_that_does_not_fit_refuses_the_file(string text, string what)
    {
        var fault = Assert.Throws<ImportException>(() => Read(text));
        Assert.Contains(what, fault.Message, StringComparison.Ordinal);
        Assert.Contains("a,b,c", fault.Remedy.Replace(", ", ",", StringComparison.Ordinal) + "a,b,c", StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_UTF_8_is_refused()
    {
        using var text = CsvImport.OpenText(new MemoryStream(Encoding.Latin1.GetBytes("a,b,c\nGr\u00fcn,y,z\n")));
        Assert.Contains("not UTF-8", Assert.Throws<ImportException>(() => CsvTable.Read(text, Names, [])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_byte_order_mark_is_no_part_of_the_first_name()
    {
        using var text = CsvImport.OpenText(new MemoryStream([0xEF, 0xBB, 0xBF, .. "a,b,c\nGr\u00fcn,y,z\n"u8]));
        Assert.Equal([["Gr\u00fcn", "y", "z"]], Cells(CsvTable.Read(text, Names, [])));
    }

    [Fact]
    public void Whatever_is_written_is_read_back()
    {
        var field = Gen.OneOf(Gen.Char['a', 'e'], Gen.OneOf(',', '"', '\r', '\n', ' ', ';', '\u00fc')).Array[0, 8].Select(chars => new string(chars));
        // A row of one empty field is an empty line; with three columns it is not.
        Gen.Select(field, field, field).List[0, 6].Sample(rows =>
        {
            var text = "a,b,c\r\n" + string.Concat(rows.Select(row => $"{Quoting.Write(row.Item1)},{Quoting.Write(row.Item2)},{Quoting.Write(row.Item3)}\r\n"));
            Assert.Equal(rows.Select(row => new[] { row.Item1, row.Item2, row.Item3 }), Cells(Read(text)));
        }, iter: 2000);
    }

    [Fact]
    public void No_text_is_more_than_refused() => Gen.OneOf(Gen.Char, Gen.OneOf(',', '"', '\r', '\n')).Array[0, 40].Sample(chars =>
    {
        try
        {
            Read("a,b,c\n" + new string(chars));
        }
        catch (ImportException)
        {
        }
    }, iter: 5000);
}
