using CaptureAgent.Agent.Answers.Voice;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

/// <summary>
/// Spanish numbers against published rules: Real Academia Española, Español al día, "Veintiuna personas, veintiuno por ciento"
/// (un before masculine nouns: veintiún, treinta y un; not before a preposition); Wikilengua, "Número cardinal", after
/// Ortografía de la lengua española (2010), p. 670 (the words of 0 to 32, the hundreds, the thousands in two words);
/// Nueva gramática de la lengua española as cited in El Espectador, Gazapera, 14 August 2023 (mil asks for un: doscientos un mil).
/// </summary>
public sealed class SpanishNumbersTests
{
    private static readonly SpanishNumbers Spanish = new();

    [Fact]
    public void Zero_to_thirty_two_are_those_of_the_published_list()
    {
        string[] list =
        [
            "cero", "uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve", "diez", "once", "doce", "trece", "catorce", "quince",
            "dieciséis", "diecisiete", "dieciocho", "diecinueve", "veinte", "veintiuno", "veintidós", "veintitrés", "veinticuatro", "veinticinco",
            "veintiséis", "veintisiete", "veintiocho", "veintinueve", "treinta", "treinta y uno", "treinta y dos",
        ];

        Assert.Equal(list, Enumerable.Range(0, list.Length).Select(number => Spanish.Cardinal(number, false)));
    }

    [Theory]
    [InlineData(1, "un")]
    [InlineData(21, "veintiún")]
    [InlineData(31, "treinta y un")]
    [InlineData(101, "ciento un")]
    [InlineData(22, "veintidós")]
    public void Before_a_masculine_noun_uno_loses_its_o(int number, string said) => Assert.Equal(said, Spanish.Cardinal(number, beforeNoun: true));

    [Theory]
    [InlineData(100, "cien")]
    [InlineData(101, "ciento uno")]
    [InlineData(186, "ciento ochenta y seis")]
    [InlineData(200, "doscientos")]
    [InlineData(500, "quinientos")]
    [InlineData(777, "setecientos setenta y siete")]
    [InlineData(999, "novecientos noventa y nueve")]
    [InlineData(1000, "mil")]
    [InlineData(1101, "mil ciento uno")]
    [InlineData(2000, "dos mil")]
    [InlineData(21_000, "veintiún mil")]
    [InlineData(31_000, "treinta y un mil")]
    [InlineData(201_000, "doscientos un mil")]
    [InlineData(100_000, "cien mil")]
    public void Hundreds_and_thousands_follow_the_rules(int number, string said) => Assert.Equal(said, Spanish.Cardinal(number, false));

    [Theory]
    [InlineData(21, 0, "veintiún gramos")]
    [InlineData(1, 0, "un gramo")]
    [InlineData(21.5, 1, "veintiuno coma cinco gramos")]
    [InlineData(186.4, 1, "ciento ochenta y seis coma cuatro gramos")]
    [InlineData(-0.5, 1, "menos cero coma cinco gramos")]
    public void The_noun_follows_with_its_number(double grams, int decimals, string said) =>
        Assert.Equal(said, SpokenNumber.Of(Spanish, (decimal)grams, decimals, ("gramo", "gramos")));

    [Fact]
    public void Where_the_country_says_punto_it_is_punto() =>
        Assert.Equal("treinta y nueve punto ocho", SpokenNumber.Of(new SpanishNumbers("punto"), 39.8m, 1));
}
