using System.Buffers.Binary;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Tones;

namespace CaptureAgent.Agent.Tests.Answers;

/// <summary>A tone as an ear has it: measured on the samples of the rendered WAV file, knowing nothing of how it was made.</summary>
internal sealed class Heard
{
    private const int HopMilliseconds = 5, WindowMilliseconds = 36;

    private readonly double[] samples;

    private readonly int rate;

    private Heard(double[] samples, int rate) => (this.samples, this.rate) = (samples, rate);

    public static Heard Of(Answer answer) => OfFile(Wave.File(ToneBook.Samples(answer), 1));

    public static Heard OfFile(byte[] wave)
    {
        var samples = new double[(wave.Length - 44) / 2];
        for (var i = 0; i < samples.Length; i++)
            samples[i] = BinaryPrimitives.ReadInt16LittleEndian(wave.AsSpan(44 + 2 * i)) / (double)short.MaxValue;
        return new(samples, BinaryPrimitives.ReadInt32LittleEndian(wave.AsSpan(24)));
    }

    public double Peak => samples.Max(Math.Abs);

    /// <summary>Level of the loudest 125 ms in dB below full scale.</summary>
    public double Level
    {
        get
        {
            var window = rate / 8;
            var most = 0.0;
            for (var start = 0; start < Math.Max(1, samples.Length - window); start += rate / 200)
                most = Math.Max(most, samples.Skip(start).Take(window).Sum(x => x * x));
            return 10 * Math.Log10(most / window);
        }
    }

    /// <summary>When something begins, in milliseconds: where the envelope rises through a quarter of its greatest value, having been below a tenth.</summary>
    public IReadOnlyList<double> Onsets
    {
        get
        {
            var envelope = Envelope();
            var top = envelope.Max();
            List<double> onsets = [];
            var isOn = false;
            for (var i = 0; i < envelope.Length; i++)
            {
                if (!isOn && envelope[i] > top / 4)
                    onsets.Add(i * HopMilliseconds);
                isOn = envelope[i] > top / 4 || (isOn && envelope[i] > top / 10);
            }

            return onsets;
        }
    }

    /// <summary>Milliseconds during which it is above a quarter of its greatest envelope.</summary>
    public double Sounding
    {
        get
        {
            var envelope = Envelope();
            return HopMilliseconds * envelope.Count(x => x > envelope.Max() / 4);
        }
    }

    /// <summary>The pitch about which the sound's energy lies, in hertz, and over how many octaves it spreads (standard deviation).</summary>
    public (double Centre, double Octaves) Timbre
    {
        get
        {
            double sum = 0, mean = 0, square = 0;
            for (var k = 0; k < 96; k++)
            {
                var octave = k / 12.0;
                var power = Power(60 * Math.Pow(2, octave), 0, samples.Length);
                (sum, mean, square) = (sum + power, mean + power * octave, square + power * octave * octave);
            }

            mean /= sum;
            return (60 * Math.Pow(2, mean), Math.Sqrt(square / sum - mean * mean));
        }
    }

    /// <summary>How strongly the loudness flutters at this many hertz, against its mean: 0 is smooth, 1 is on and off.</summary>
    public double Flutter(double hertz, double fromMilliseconds, double length)
    {
        var (start, count) = (Count(fromMilliseconds), Count(length));
        double re = 0, im = 0, sum = 0;
        for (var i = start; i < start + count; i++)
        {
            var power = samples[i] * samples[i];
            var turn = 2 * Math.PI * hertz * i / rate;
            (re, im, sum) = (re + power * Math.Cos(turn), im + power * Math.Sin(turn), sum + power);
        }

        return 2 * Math.Sqrt(re * re + im * im) / sum;
    }

    /// <summary>The strongest pitch of a stretch, to a semitone.</summary>
    public double Pitch(double fromMilliseconds, double length) => Enumerable.Range(0, 60).Select(k => 100 * Math.Pow(2, k / 12.0))
        .MaxBy(hertz => Power(hertz, Count(fromMilliseconds), Count(length)));

    /// <summary>Power at one pitch (Goertzel, Amer. Math. Monthly 65, 1958, 34-35).</summary>
    public double Power(double hertz, int start, int count)
    {
        var factor = 2 * Math.Cos(2 * Math.PI * hertz / rate);
        double last = 0, before = 0;
        for (var i = start; i < Math.Min(samples.Length, start + count); i++)
            (last, before) = (samples[i] + factor * last - before, last);
        return (last * last + before * before - factor * last * before) / count / count;
    }

    /// <summary>As ears without treble have it: nothing above 2 kHz (two first-order filters; a tenth at some 6 kHz).</summary>
    public Heard WithoutTreble()
    {
        var step = 1 - Math.Exp(-2 * Math.PI * 2000 / rate);
        double first = 0, second = 0;
        return new([.. samples.Select(x =>
        {
            first += step * (x - first);
            return second += step * (first - second);
        })], rate);
    }

    private double[] Envelope()
    {
        var (hop, window) = (Count(HopMilliseconds), Count(WindowMilliseconds));
        return [.. Enumerable.Range(0, samples.Length / hop).Select(i => Math.Sqrt(samples.Skip(i * hop).Take(window).Sum(x => x * x) / window))];
    }

    private int Count(double milliseconds) => (int)(milliseconds * rate / 1000);
}
