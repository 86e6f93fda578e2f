using System.Diagnostics.Metrics;
using System.Globalization;
using System.Text;

namespace CaptureAgent.Agent.Page.Measuring;

/// <summary>Adds up what a meter reports and writes it in the Prometheus text exposition format, version 0.0.4.</summary>
/// <remarks>Names follow the OpenTelemetry rules for Prometheus: dots become underscores, the unit and <c>_total</c> are appended.</remarks>
internal sealed class Scrape : IDisposable
{
    public const string MediaType = "text/plain; version=0.0.4; charset=utf-8";

    private readonly Lock gate = new();

    private readonly MeterListener listener = new();

    private readonly SortedDictionary<string, Family> families = new(StringComparer.Ordinal);

    public Scrape(string meter)
    {
        listener.InstrumentPublished = (instrument, listening) =>
        {
            if (instrument.Meter.Name != meter)
                return;
            var family = FamilyOf(instrument);
            lock (gate)
                families.TryAdd(family.Name, family);
            listening.EnableMeasurementEvents(instrument, family);
        };
        listener.SetMeasurementEventCallback<long>((_, value, tags, state) => Add((Family)state!, value, tags));
        listener.SetMeasurementEventCallback<double>((_, value, tags, state) => Add((Family)state!, value, tags));
        listener.Start();
    }

    public override string ToString()
    {
        var text = new StringBuilder();
        lock (gate)
        {
            foreach (var family in families.Values)
                family.Write(text);
        }

        return text.ToString();
    }

    public void Dispose() => listener.Dispose();

    private void Add(Family family, double value, ReadOnlySpan<KeyValuePair<string, object?>> tags)
    {
        var labels = string.Join(',', tags.ToArray().Select(tag => $"{tag.Key}=\"{Escaped(tag.Value?.ToString() ?? "")}\""));
        lock (gate)
            family.Add(labels, value);
    }

    private static Family FamilyOf(Instrument instrument)
    {
        var name = instrument.Name.Replace('.', '_');
        return instrument is Histogram<double> histogram
            ? new($"{name}_seconds", instrument.Description ?? "", [.. histogram.Advice?.HistogramBucketBoundaries ?? []])
            : new($"{name}_total", instrument.Description ?? "", null);
    }

    private static string Escaped(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);

    /// <param name="Bounds">Of a histogram, rising; null: a counter.</param>
    private sealed record Family(string Name, string Help, double[]? Bounds)
    {
        private readonly SortedDictionary<string, (double Sum, long Count, long[] Buckets)> series = new(StringComparer.Ordinal);

        public void Add(string labels, double value)
        {
            var (sum, count, buckets) = series.TryGetValue(labels, out var known) ? known : (0, 0, new long[(Bounds?.Length ?? 0) + 1]);
            var bucket = 0;
            while (Bounds is not null && bucket < Bounds.Length && value > Bounds[bucket])
                bucket++;
            buckets[bucket]++;
            series[labels] = (sum + value, count + 1, buckets);
        }

        public void Write(StringBuilder text)
        {
            text.Append(CultureInfo.InvariantCulture, $"# HELP {Name} {Help}\n# TYPE {Name} {(Bounds is null ? "counter" : "histogram")}\n");
            foreach (var (labels, (sum, count, buckets)) in series)
            {
                if (Bounds is null)
                {
                    text.Append(CultureInfo.InvariantCulture, $"{Name}{Braced(labels)} {sum}\n");
                    continue;
                }

                var below = 0L;
                for (var i = 0; i <= Bounds.Length; i++)
                {
                    below += buckets[i];
                    var edge = i < Bounds.Length ? Bounds[i].ToString(CultureInfo.InvariantCulture) : "+Inf";
                    text.Append(CultureInfo.InvariantCulture, $"{Name}_bucket{Braced((labels.Length > 0 ? labels + "," : "") + $"le=\"{edge}\"")} {below}\n");
                }

                text.Append(CultureInfo.InvariantCulture, $"{Name}_sum{Braced(labels)} {sum}\n{Name}_count{Braced(labels)} {count}\n");
            }
        }

        private static string Braced(string labels) => labels.Length > 0 ? $"{{{labels}}}" : "";
    }
}
