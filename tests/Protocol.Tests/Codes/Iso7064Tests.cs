using CaptureAgent.Protocol.Codes;
using CsCheck;

namespace CaptureAgent.Protocol.Tests.Codes;

public sealed class Iso7064Tests
{
    [Theory]
    // ISO/IEC 7064:2003, examples of the pure systems (0794 and 079 for MOD 11-2, 794 for MOD 97-10 and
    // G123489654321 for MOD 37-2), from memory; the first, second and last stand in public test vectors too.
    [InlineData(CheckScheme.Mod11Comma2, "0794", "0")]
    [InlineData(CheckScheme.Mod11Comma2, "079", "X")]
    [InlineData(CheckScheme.Mod97Comma10, "794", "44")]
    [InlineData(CheckScheme.Mod37Comma2, "G123489654321", "Y")]
    // The invented researcher of the ORCID documentation, from memory.
    [InlineData(CheckScheme.Mod11Comma2, "0000-0002-1825-009", "7")]
    // The sample account of ISO 13616 (GB82 WEST 1234 5698 7654 32), country moved to the end, from memory.
    [InlineData(CheckScheme.Mod97Comma10, "WEST12345698765432GB", "82")]
    // The sample creditor reference of ISO 11649 (RF18 5390 0754 7034), prefix moved to the end, from memory.
    [InlineData(CheckScheme.Mod97Comma10, "539007547034RF", "18")]
    // Long digit strings as national bank numbers use them; public test vectors for MOD 97-10.
    [InlineData(CheckScheme.Mod97Comma10, "99991234567890121414", "90")]
    [InlineData(CheckScheme.Mod97Comma10, "4354111611551114", "31")]
    public void Published_examples_are_met(CheckScheme scheme, string body, string check)
    {
        Assert.Equal(check, Iso7064.Compute(scheme, body));
        Assert.True(Iso7064.Verify(scheme, body + check));
    }

    [Fact]
    public void A_published_number_with_its_check_digits_is_right() =>
        Assert.True(Iso7064.Verify(CheckScheme.Mod97Comma10, "08686001256515001121751")); // public test vector

    [Theory]
    [InlineData(CheckScheme.Mod11Comma2)]
    [InlineData(CheckScheme.Mod97Comma10)]
    [InlineData(CheckScheme.Mod37Comma2)]
    public void What_is_computed_verifies_and_a_misread_or_swap_does_not(CheckScheme scheme)
    {
        // ISO/IEC 7064: the pure systems find all single substitutions and all transpositions of neighbours.
        var alphabet = scheme == CheckScheme.Mod37Comma2 ? "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ" : "0123456789";
        Gen.Select(Gen.Char[alphabet].Array[1, 12], Gen.Int[0, 11], Gen.Char[alphabet]).Sample((body, at, other) =>
        {
            at %= body.Length;
            var code = new string(body) + Iso7064.Compute(scheme, body);
            Assert.True(Iso7064.Verify(scheme, code));

            var misread = code.ToCharArray();
            misread[at] = other;
            Assert.Equal(other == body[at], Iso7064.Verify(scheme, misread));

            var swapped = code.ToCharArray();
            (swapped[at], swapped[at + 1]) = (swapped[at + 1], swapped[at]);
            Assert.Equal(code[at] == code[at + 1], Iso7064.Verify(scheme, swapped));
        }, iter: 20_000);
    }

    [Theory]
    [InlineData(CheckScheme.Mod37Comma2, "g123489654321y")]
    [InlineData(CheckScheme.Mod37Comma2, "G1234-8965.43/21Y")]
    [InlineData(CheckScheme.Mod11Comma2, "AM-079X")]
    [InlineData(CheckScheme.Mod11Comma2, "am-079x")]
    [InlineData(CheckScheme.Mod97Comma10, "7-9.4/44")]
    public void Separators_carry_no_value_and_case_does_not_matter(CheckScheme scheme, string code) =>
        Assert.True(Iso7064.Verify(scheme, code));

    [Theory]
    [InlineData(CheckScheme.Mod37Comma2, "G123489654321Z")]
    [InlineData(CheckScheme.Mod37Comma2, "G123489654321Y-")]
    [InlineData(CheckScheme.Mod37Comma2, "1")]
    [InlineData(CheckScheme.Mod11Comma2, "AM-1")] // a check character without a digit to check
    [InlineData(CheckScheme.Mod11Comma2, "079Y")]
    [InlineData(CheckScheme.Mod97Comma10, "01")]
    [InlineData(CheckScheme.Mod97Comma10, "794-4")]
    [InlineData(CheckScheme.Mod97Comma10, "7944A")]
    [InlineData(CheckScheme.Mod97Comma10, "")]
    public void A_code_without_its_check_characters_is_wrong(CheckScheme scheme, string code) =>
        Assert.False(Iso7064.Verify(scheme, code));

    [Fact]
    public void Every_check_character_of_MOD_37_2_occurs_the_star_too() =>
        Assert.Equal(37, Enumerable.Range(0, 5000).Select(n => Iso7064.Compute(CheckScheme.Mod37Comma2, $"{n}")).Distinct().Count());

    [Fact]
    public void Nothing_is_computed_of_nothing()
    {
        Assert.Null(Iso7064.Compute(CheckScheme.Mod37Comma2, "-./"));
        Assert.Null(Iso7064.Compute(CheckScheme.Mod11Comma2, "ABC"));
        Assert.Null(Iso7064.Compute(CheckScheme.None, "123"));
    }
}
