using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Protocol.Tests.Codes;

public sealed class CodeRulesTests
{
    [Theory]
    [InlineData("AM-0147", CodeKind.Chick)]
    [InlineData("am-0147", CodeKind.Unreadable)]
    [InlineData("AM-01471", CodeKind.Unreadable)]
    [InlineData("xAM-0147", CodeKind.Unreadable)]
    [InlineData("AM-0147\n", CodeKind.Unreadable)]
    [InlineData("", CodeKind.Unreadable)]
    [InlineData("!FED", CodeKind.Card)]
    [InlineData("!", CodeKind.Card)]
    public void A_line_is_a_chick_a_card_or_neither(string code, CodeKind kind) =>
        Assert.Equal(kind, Made("[A-Z]{2}-[0-9]{4}", CheckScheme.None).Classify(code));

    [Theory]
    [InlineData("AM-079X", CodeKind.Chick)]
    [InlineData("AM-0790", CodeKind.BadCheck)]
    [InlineData("AM-07", CodeKind.Unreadable)]
    [InlineData("!UNDO", CodeKind.Card)]
    public void A_misread_is_told_by_its_check_character(string code, CodeKind kind) =>
        Assert.Equal(kind, Made("[A-Z]{2}-[0-9]{3}[0-9X]", CheckScheme.Mod11Comma2).Classify(code));

    [Theory]
    [InlineData("A|AB", "AB", CodeKind.Chick)]
    [InlineData("A|AB", "ABC", CodeKind.Unreadable)]
    [InlineData("^A.$", "Ab", CodeKind.Chick)]
    public void The_pattern_is_matched_whole(string pattern, string code, CodeKind kind) =>
        Assert.Equal(kind, Made(pattern, CheckScheme.None).Classify(code));

    [Theory]
    [InlineData("", "is empty")]
    [InlineData("[A-Z", "no regular expression")]
    [InlineData("a)|(b", "no regular expression")]
    [InlineData("(?=A).*", "a look-ahead (?=")]
    public void A_bad_pattern_is_told_in_words(string pattern, string says)
    {
        Assert.False(CodeRules.TryCompile(pattern, CheckScheme.None, out var rules, out var fault));
        Assert.Null(rules);
        Assert.Contains(says, fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(" AM-0147  ", "AM-0147")]
    [InlineData("am 01", "am 01")]
    [InlineData("K\xE4thi", "K\u00E4thi")]
    [InlineData("\tA\x1D", "\tA\x1D")]
    public void A_scanned_line_is_Latin_1_without_the_blanks_around_it(string bytes, string text) =>
        Assert.Equal(text, CodeRules.Text(Wire.Bytes(bytes)));

    [Fact]
    public void Schemes_are_known_by_name()
    {
        Assert.Equal(
            [CheckScheme.None, CheckScheme.Mod37Comma2, CheckScheme.Mod97Comma10, CheckScheme.Mod11Comma2],
            CheckSchemes.Names.Select(name => CheckSchemes.TryParse(name, out var scheme) ? scheme : throw new InvalidOperationException(name)));
        Assert.False(CheckSchemes.TryParse("mod37,2", out _));
    }

    private static CodeRules Made(string pattern, CheckScheme scheme)
    {
        Assert.True(CodeRules.TryCompile(pattern, scheme, out var rules, out var fault), fault);
        return rules;
    }
}
