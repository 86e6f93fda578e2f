using Tmds.DBus.Protocol;

namespace CaptureAgent.Simulators.Bluetooth.Bus;

/// <summary>Properties by interface.</summary>
public sealed class ExportedInterfaces : Dictionary<string, Dictionary<string, VariantValue>>;

/// <summary>Objects that are served on a bus: org.freedesktop.DBus.ObjectManager and Properties of the D-Bus specification.</summary>
/// <param name="managerPath">The path whose ObjectManager tells of them.</param>
public sealed class ExportedObjects(DBusConnection connection, string managerPath)
{
    private const string Manager = "org.freedesktop.DBus.ObjectManager", Properties = "org.freedesktop.DBus.Properties";

    private readonly SortedDictionary<string, ExportedInterfaces> objects = new(StringComparer.Ordinal);

    public bool Has(string path)
    {
        lock (objects)
            return objects.ContainsKey(path);
    }

    public VariantValue? Get(string path, string @interface, string property)
    {
        lock (objects)
            return objects.TryGetValue(path, out var all) && all.TryGetValue(@interface, out var some) && some.TryGetValue(property, out var value) ? value : (VariantValue?)null;
    }

    public IReadOnlyList<string> Below(string path)
    {
        lock (objects)
            return [.. objects.Keys.Where(one => one.StartsWith(path + "/", StringComparison.Ordinal))];
    }

    public void Add(string path, ExportedInterfaces interfaces)
    {
        lock (objects)
            objects[path] = interfaces;
        Signal(managerPath, Manager, "InterfacesAdded", "oa{sa{sv}}", (ref MessageWriter writer) =>
        {
            writer.WriteObjectPath(path);
            Write(ref writer, interfaces);
        });
    }

    public void Remove(string path)
    {
        string[] interfaces;
        lock (objects)
        {
            if (!objects.Remove(path, out var had))
                return;
            interfaces = [.. had.Keys];
        }

        Signal(managerPath, Manager, "InterfacesRemoved", "oas", (ref MessageWriter writer) =>
        {
            writer.WriteObjectPath(path);
            writer.WriteArray(interfaces);
        });
    }

    public void Set(string path, string @interface, params (string Name, VariantValue Value)[] changes)
    {
        if (!SetUnsaid(path, @interface, changes))
            return;
        Signal(path, Properties, "PropertiesChanged", "sa{sv}as", (ref MessageWriter writer) =>
        {
            writer.WriteString(@interface);
            writer.WriteDictionary(changes.ToDictionary(one => one.Name, one => one.Value));
            writer.WriteArray(Array.Empty<string>());
        });
    }

    /// <summary>Changes what is answered and tells nobody; false if there is no such object.</summary>
    public bool SetUnsaid(string path, string @interface, params (string Name, VariantValue Value)[] changes)
    {
        lock (objects)
        {
            if (!objects.TryGetValue(path, out var all) || !all.TryGetValue(@interface, out var properties))
                return false;
            foreach (var (name, value) in changes)
                properties[name] = value;
            return true;
        }
    }

    /// <summary>Answers what is asked of ObjectManager and Properties; false if it is something else.</summary>
    public bool TryAnswer(MethodContext context)
    {
        var request = context.Request;
        switch (request.InterfaceAsString, request.MemberAsString)
        {
            case (Manager, "GetManagedObjects"):
                AnswerObjects(context);
                return true;
            case (Properties, "GetAll"):
                AnswerAll(context, request.PathAsString!);
                return true;
            default:
                return false;
        }
    }

    public static void Done(MethodContext context)
    {
        using var writer = context.CreateReplyWriter(null!);
        context.Reply(writer.CreateMessage());
    }

    private static void Write(ref MessageWriter writer, ExportedInterfaces interfaces)
    {
        var start = writer.WriteDictionaryStart();
        foreach (var (name, properties) in interfaces)
        {
            writer.WriteDictionaryEntryStart();
            writer.WriteString(name);
            writer.WriteDictionary(properties);
        }

        writer.WriteDictionaryEnd(start);
    }

    private void AnswerObjects(MethodContext context)
    {
        var writer = context.CreateReplyWriter("a{oa{sa{sv}}}");
        try
        {
            lock (objects)
            {
                var start = writer.WriteDictionaryStart();
                foreach (var (path, interfaces) in objects)
                {
                    writer.WriteDictionaryEntryStart();
                    writer.WriteObjectPath(path);
                    Write(ref writer, interfaces);
                }

                writer.WriteDictionaryEnd(start);
            }

            context.Reply(writer.CreateMessage());
        }
        finally
        {
            writer.Dispose();
        }
    }

    private void AnswerAll(MethodContext context, string path)
    {
        var @interface = context.Request.GetBodyReader().ReadString();
        using var writer = context.CreateReplyWriter("a{sv}");
        lock (objects)
        {
            writer.WriteDictionary(objects.TryGetValue(path, out var all) && all.TryGetValue(@interface, out var properties)
                ? properties
                : new Dictionary<string, VariantValue>());
        }

        context.Reply(writer.CreateMessage());
    }

    private void Signal(string path, string @interface, string member, string signature, Arguments arguments)
    {
        var writer = connection.GetMessageWriter();
        try
        {
            writer.WriteSignalHeader(null, path, @interface, member, signature);
            arguments(ref writer);
            connection.TrySendMessage(writer.CreateMessage());
        }
        finally
        {
            writer.Dispose();
        }
    }

    private delegate void Arguments(ref MessageWriter writer);
}
