using System.Globalization;
using System.Numerics;

namespace CaptureAgent.Agent.Tests.Metrology;

/// <summary>Univariate summary statistics of the NIST Statistical Reference Datasets (StRD, Information Technology Laboratory, public domain): values and certified figures.</summary>
/// <param name="Mean">Certified to 15 digits, like the other two.</param>
/// <param name="Deviation">Sample standard deviation.</param>
/// <param name="Lag1">Autocorrelation coefficient at lag 1.</param>
public sealed record StatisticalReferenceData(string Name, double[] Values, double Mean, double Deviation, double Lag1)
{
    /// <summary>Beam deflections; average difficulty is "lower", as for the next four.</summary>
    public static readonly StatisticalReferenceData Lew = new("Lew", Parse("""
        -213 -564 -35 -15 141 115 -420 -360 203 -338 -431 194 -220 -513 154 -125 -559 92 -21 -579
        -52 99 -543 -175 162 -457 -346 204 -300 -474 164 -107 -572 -8 83 -541 -224 180 -420 -374
        201 -236 -531 83 27 -564 -112 131 -507 -254 199 -311 -495 143 -46 -579 -90 136 -472 -338
        202 -287 -477 169 -124 -568 17 48 -568 -135 162 -430 -422 172 -74 -577 -13 92 -534 -243
        194 -355 -465 156 -81 -578 -64 139 -449 -384 193 -198 -538 110 -44 -577 -6 66 -552 -164
        161 -460 -344 205 -281 -504 134 -28 -576 -118 156 -437 -381 200 -220 -540 83 11 -568 -160
        172 -414 -408 188 -125 -572 -32 139 -492 -321 205 -262 -504 142 -83 -574 0 48 -571 -106
        137 -501 -266 190 -391 -406 194 -186 -553 83 -13 -577 -49 103 -515 -280 201 300 -506 131
        -45 -578 -80 138 -462 -361 201 -211 -554 32 74 -533 -235 187 -372 -442 182 -147 -566 25
        68 -535 -244 194 -351 -463 174 -125 -570 15 72 -550 -190 172 -424 -385 198 -218 -536 96
        """), -177.435000000000, 277.332168044316, -0.307304800605679);

    /// <summary>Three-digit lottery numbers.</summary>
    public static readonly StatisticalReferenceData Lottery = new("Lottery", Parse("""
        162 671 933 414 788 730 817 33 536 875 670 236 473 167 877 980 316 950 456 92
        517 557 956 954 104 178 794 278 147 773 437 435 502 610 582 780 689 562 964 791
        28 97 848 281 858 538 660 972 671 613 867 448 738 966 139 636 847 659 754 243
        122 455 195 968 793 59 730 361 574 522 97 762 431 158 429 414 22 629 788 999
        187 215 810 782 47 34 108 986 25 644 829 630 315 567 919 331 207 412 242 607
        668 944 749 168 864 442 533 805 372 63 458 777 416 340 436 140 919 350 510 572
        905 900 85 389 473 758 444 169 625 692 140 897 672 288 312 860 724 226 884 508
        976 741 476 417 831 15 318 432 241 114 799 955 833 358 935 146 630 830 440 642
        356 373 271 715 367 393 190 669 8 861 108 795 269 590 326 866 64 523 862 840
        219 382 998 4 628 305 747 247 34 747 729 645 856 974 24 568 24 694 608 480
        410 729 947 293 53 930 223 203 677 227 62 455 387 318 562 242 428 968
        """), 518.958715596330, 291.699727470969, -0.120948622967393);

    /// <summary>Filter transmittance, in the order of measurement.</summary>
    public static readonly StatisticalReferenceData Mavro = new("Mavro", Parse("""
        2.00180 2.00170 2.00180 2.00190 2.00180 2.00170 2.00150 2.00140 2.00150 2.00150
        2.00170 2.00180 2.00180 2.00190 2.00190 2.00210 2.00200 2.00160 2.00140 2.00130
        2.00130 2.00150 2.00150 2.00160 2.00150 2.00140 2.00130 2.00140 2.00150 2.00140
        2.00150 2.00160 2.00150 2.00160 2.00190 2.00200 2.00200 2.00210 2.00220 2.00230
        2.00240 2.00250 2.00270 2.00260 2.00260 2.00260 2.00270 2.00260 2.00250 2.00240
        """), 2.00185600000000, 0.000429123454003053, 0.937989183438248);

    /// <summary>Speed of light in air, thousands of km/s.</summary>
    public static readonly StatisticalReferenceData Michelso = new("Michelso", Parse("""
        299.85 299.74 299.90 300.07 299.93 299.85 299.95 299.98 299.98 299.88
        300.00 299.98 299.93 299.65 299.76 299.81 300.00 300.00 299.96 299.96
        299.96 299.94 299.96 299.94 299.88 299.80 299.85 299.88 299.90 299.84
        299.83 299.79 299.81 299.88 299.88 299.83 299.80 299.79 299.76 299.80
        299.88 299.88 299.88 299.86 299.72 299.72 299.62 299.86 299.97 299.95
        299.88 299.91 299.85 299.87 299.84 299.84 299.85 299.84 299.84 299.84
        299.89 299.81 299.81 299.82 299.80 299.77 299.76 299.74 299.75 299.76
        299.91 299.92 299.89 299.86 299.88 299.72 299.84 299.85 299.85 299.78
        299.89 299.84 299.78 299.81 299.76 299.81 299.79 299.81 299.82 299.85
        299.87 299.87 299.81 299.74 299.81 299.94 299.95 299.80 299.81 299.87
        """), 299.852400000000, 0.0790105478190518, 0.535199668621283);

    /// <summary>The first 5,000 digits of pi, made here by Machin's formula; the data set has a 3 for the 957th digit where pi has an 8, and its certified figures with it.</summary>
    public static readonly StatisticalReferenceData PiDigits = new("PiDigits", DigitsOfPi(5000), 4.53480000000000, 2.86733906028871, -0.00355099287237972);

    /// <summary>"Average" difficulty, like the next; the last two are "higher".</summary>
    public static readonly StatisticalReferenceData NumAcc1 = new("NumAcc1", [10000001, 10000003, 10000002], 10000002, 1, -0.5);

    public static readonly StatisticalReferenceData NumAcc2 = Alternating("NumAcc2", 1.2, 1.1, 1.3);
    public static readonly StatisticalReferenceData NumAcc3 = Alternating("NumAcc3", 1000000.2, 1000000.1, 1000000.3);
    public static readonly StatisticalReferenceData NumAcc4 = Alternating("NumAcc4", 10000000.2, 10000000.1, 10000000.3);

    public static readonly StatisticalReferenceData[] All = [Lew, Lottery, Mavro, Michelso, PiDigits, NumAcc1, NumAcc2, NumAcc3, NumAcc4];

    public override string ToString() => Name;

    private static StatisticalReferenceData Alternating(string name, double middle, double low, double high) =>
        new(name, [middle, .. Enumerable.Range(0, 1000).Select(i => i % 2 == 0 ? low : high)], middle, 0.1, -0.999);

    private static double[] Parse(string text) =>
        [.. text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries).Select(value => double.Parse(value, CultureInfo.InvariantCulture))];

    private static double[] DigitsOfPi(int count)
    {
        // pi = 16 arctan(1/5) - 4 arctan(1/239), with ten digits to spare for the rounding of the terms.
        var one = BigInteger.Pow(10, count + 9);
        var pi = 16 * Arctan(5, one) - 4 * Arctan(239, one);
        double[] digits = [.. pi.ToString(CultureInfo.InvariantCulture).Take(count).Select(digit => (double)(digit - '0'))];
        digits[956] = 3;
        return digits;
    }

    private static BigInteger Arctan(int inverse, BigInteger one)
    {
        var power = one / inverse;
        var sum = power;
        for (var n = 3; !power.IsZero; n += 2)
        {
            power /= -inverse * inverse;
            sum += power / n;
        }

        return sum;
    }
}
