using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Bus;

/// <summary>Writes the arguments of a call.</summary>
internal delegate void BusArguments(ref MessageWriter writer);

/// <summary>The properties of an object, by interface.</summary>
internal sealed class BusInterfaces : Dictionary<string, Dictionary<string, VariantValue>>
{
    public BusInterfaces()
        : base(StringComparer.Ordinal)
    {
    }
}

/// <summary>Reads the messages that the object tree is made from.</summary>
internal static class BusMessages
{
    /// <summary>a{oa{sa{sv}}}: the answer of GetManagedObjects.</summary>
    public static Dictionary<string, BusInterfaces> ReadObjects(Message message)
    {
        var objects = new Dictionary<string, BusInterfaces>(StringComparer.Ordinal);
        var reader = message.GetBodyReader();
        var end = reader.ReadDictionaryStart();
        while (reader.HasNext(end))
        {
            var path = reader.ReadObjectPathAsString();
            objects[path] = ReadInterfaces(ref reader);
        }

        return objects;
    }

    /// <summary>oa{sa{sv}}: InterfacesAdded.</summary>
    public static (string Path, BusInterfaces Interfaces) ReadAdded(Message message)
    {
        var reader = message.GetBodyReader();
        var path = reader.ReadObjectPathAsString();
        return (path, ReadInterfaces(ref reader));
    }

    /// <summary>oas: InterfacesRemoved.</summary>
    public static (string Path, string[] Interfaces) ReadRemoved(Message message)
    {
        var reader = message.GetBodyReader();
        var path = reader.ReadObjectPathAsString();
        return (path, reader.ReadArrayOfString());
    }

    /// <summary>sa{sv}as: PropertiesChanged.</summary>
    public static PropertyChange ReadChange(Message message)
    {
        var reader = message.GetBodyReader();
        var @interface = reader.ReadString();
        var set = reader.ReadDictionaryOfStringToVariantValue();
        return new(message.PathAsString ?? "", @interface, set, reader.ReadArrayOfString());
    }

    /// <summary>a{sv}: the answer of GetAll.</summary>
    public static Dictionary<string, VariantValue> ReadProperties(Message message) => message.GetBodyReader().ReadDictionaryOfStringToVariantValue();

    private static BusInterfaces ReadInterfaces(ref Reader reader)
    {
        var interfaces = new BusInterfaces();
        var end = reader.ReadDictionaryStart();
        while (reader.HasNext(end))
        {
            var name = reader.ReadString();
            interfaces[name] = reader.ReadDictionaryOfStringToVariantValue();
        }

        return interfaces;
    }
}

/// <summary>A PropertiesChanged signal.</summary>
internal readonly record struct PropertyChange(string Path, string Interface, Dictionary<string, VariantValue> Set, string[] Unset);
