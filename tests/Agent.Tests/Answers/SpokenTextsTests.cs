using CaptureAgent.Agent.Answers.Voice;
using CsCheck;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

public sealed class SpokenTextsTests
{
    [Theory]
    [InlineData("en", 9.2, "A M one four seven, one hundred eighty-six point four, up nine")]
    [InlineData("en", -9.2, "A M one four seven, one hundred eighty-six point four, down nine")]
    [InlineData("en", 0.4, "A M one four seven, one hundred eighty-six point four, up zero point four")]
    [InlineData("en", 0.0, "A M one four seven, one hundred eighty-six point four, no change")]
    [InlineData("es", 21.0, "A M uno cuatro siete, ciento ochenta y seis coma cuatro, sube veintiuno")]
    [InlineData("es", -1.0, "A M uno cuatro siete, ciento ochenta y seis coma cuatro, baja uno")]
    public void A_weight_is_said_with_code_and_gain(string language, double gain, string said) =>
        Assert.Equal(said, SpokenTexts.In(language).Of(new("weighed", "AM-0147", 186.4m, (decimal)gain)));

    [Fact]
    public void What_is_not_known_is_left_out() =>
        Assert.Equal("A M one four seven, one hundred eighty-six point four", SpokenTexts.In("en").Of(new("weighed", "AM-0147", 186.4m)));

    [Fact]
    public void A_refusal_says_why() =>
        Assert.Equal("refused. no code, scan it first", SpokenTexts.In("en").Of(new("refused") { Reasons = ["reason.no-code"] }));

    [Theory]
    [InlineData("AM-0147", "A M one four seven")]
    [InlineData("am0", "A M zero")]
    [InlineData("B-00", "B zero")]
    [InlineData("X1002/7", "X one zero zero two seven")]
    [InlineData("7-A.003", "seven A three")]
    public void Codes_are_spelled(string code, string said) => Assert.Equal(said, SpokenNumber.Spell(new EnglishNumbers(), code));

    // Common practice of American English, no source: no "and" after hundreds, a hyphen in 21 to 99.
    [Theory]
    [InlineData(0, "zero")]
    [InlineData(13, "thirteen")]
    [InlineData(40, "forty")]
    [InlineData(99, "ninety-nine")]
    [InlineData(186, "one hundred eighty-six")]
    [InlineData(2015, "two thousand fifteen")]
    public void English_numbers(int number, string said) => Assert.Equal(said, new EnglishNumbers().Cardinal(number, false));

    [Fact]
    public void All_languages_have_the_same_sentences() =>
        Assert.All(SpokenTexts.Languages.Select(SpokenTexts.In), texts => Assert.Equal(SpokenTexts.In("en").Keys.Order(), texts.Keys.Order()));

    [Theory]
    [InlineData("en")]
    [InlineData("es")]
    public void Every_sentence_can_be_said_with_and_without_what_an_event_knows(string language)
    {
        var texts = SpokenTexts.In(language);
        foreach (var key in texts.Keys.Where(key => key is not ("up" or "down")))
        {
            Assert.DoesNotContain('{', texts.Of(new(key, "AM-0147", 21m, -3m, "scale", 39.8m)));
            Assert.DoesNotContain(",,", texts.Of(new(key)), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void No_two_numbers_sound_the_same()
    {
        foreach (INumberWords words in new INumberWords[] { new EnglishNumbers(), new SpanishNumbers() })
        {
            Assert.Equal(20_000, Enumerable.Range(0, 20_000).Select(number => words.Cardinal(number, false)).Distinct().Count());
            Gen.Decimal[-1e6m, 1e6m].Sample(value => SpokenNumber.Of(words, value, 1).Length > 0);
        }
    }
}
