using Microsoft.Extensions.Configuration;

namespace CaptureAgent.Agent.Configuration;

/// <summary>Looks at every key before anything is bound: a binder stops at its first fault, a keeper wants them all.</summary>
internal sealed class KeyCheck
{
    private readonly List<ConfigurationFault> faults = [];

    private readonly HashSet<string> refused = new(StringComparer.OrdinalIgnoreCase);

    public IReadOnlyList<ConfigurationFault> Faults => faults;

    /// <summary>Keys (as <c>devices[0].id</c>) that a misspelt key was probably meant to be; that they are missing needs no second fault.</summary>
    public HashSet<string> Meant { get; } = new(StringComparer.OrdinalIgnoreCase);

    public void Look(IConfiguration configuration) => LookAtGroup(configuration, "", StationKeys.Root);

    /// <summary>The configuration without what was refused, so that the rest can be bound and judged as well.</summary>
    public IConfigurationRoot Remainder(IConfiguration configuration) => new ConfigurationBuilder()
        .AddInMemoryCollection(configuration.AsEnumerable().Where(pair => pair.Value is not null && !IsRefused(pair.Key)))
        .Build();

    /// <summary><c>devices:0:id</c> as people write it: <c>devices[0].id</c>.</summary>
    public static string Readable(string path) => path.Split(':').Aggregate(
        "", (whole, part) => part.All(char.IsAsciiDigit) ? $"{whole}[{part}]" : whole.Length == 0 ? part : $"{whole}.{part}");

    private void Look(IConfigurationSection section, KeyShape shape)
    {
        switch (shape)
        {
            case KeyGroup group when IsEmpty(section) || section.GetChildren().Any():
                LookAtGroup(section, section.Path, group);
                break;
            case KeyGroup group:
                Refuse(section, $"must be a group of keys: {Names(group)}.");
                break;
            case KeyList list:
                LookAtList(section, list);
                break;
            case KeyValue value when section.GetChildren().Any():
                Refuse(section, $"must be {value.Allowed}, not a group or a list.");
                break;
            case KeyValue value when section.Value is null:
                Refuse(section, $"null is no value; leave the key out, or give {value.Allowed}.");
                break;
            case KeyValue value when !value.Fits(section.Value):
                Refuse(section, $"must be {value.Allowed}.");
                break;
        }
    }

    private void LookAtGroup(IConfiguration parent, string path, KeyGroup group)
    {
        foreach (var child in parent.GetChildren())
        {
            if (group.Keys.TryGetValue(child.Key, out var shape))
            {
                Look(child, shape);
                continue;
            }

            var meant = NearestWord.Of(child.Key, group.Keys.Keys);
            if (meant is not null)
                Meant.Add(Readable(path.Length == 0 ? meant : $"{path}:{meant}"));
            Refuse(child, "unknown key. " + (meant is null ? "" : $"Did you mean '{meant}'? ") + $"Allowed here: {Names(group)}.");
        }
    }

    private void LookAtList(IConfigurationSection section, KeyList list)
    {
        if (!section.GetChildren().Any() && !IsEmpty(section))
        {
            Refuse(section, "must be a list, in [ ].");
            return;
        }

        if (section.GetChildren().Any(child => !child.Key.All(char.IsAsciiDigit)))
        {
            Refuse(section, "must be a list, in [ ], not a group of keys.");
            return;
        }

        foreach (var item in section.GetChildren())
            Look(item, list.Item);
    }

    private void Refuse(IConfigurationSection section, string problem)
    {
        refused.Add(section.Path);
        faults.Add(new ConfigurationFault(Readable(section.Path), section.Value, problem));
    }

    private bool IsRefused(string path) =>
        refused.Any(start => path.StartsWith(start, StringComparison.OrdinalIgnoreCase) && (path.Length == start.Length || path[start.Length] == ':'));

    // An empty group or list comes through the JSON provider as an empty text, null as no value.
    private static bool IsEmpty(IConfigurationSection section) => string.IsNullOrEmpty(section.Value);

    private static string Names(KeyGroup group) => string.Join(", ", group.Keys.Keys);
}
