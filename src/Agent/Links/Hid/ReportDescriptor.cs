namespace CaptureAgent.Agent.Links.Hid;

/// <summary>What has to be known of a HID report descriptor to make records of its reports (USB HID 1.11, 6.2.2).</summary>
internal static class ReportDescriptor
{
    private const byte LongItem = 0xFE, ReportId = 0x84, WithoutSize = 0xFC;

    /// <summary>Its reports begin with their id.</summary>
    public static bool HasReportIds(ReadOnlySpan<byte> descriptor)
    {
        for (var at = 0; at < descriptor.Length;)
        {
            var prefix = descriptor[at];
            if (prefix == LongItem)
            {
                if (at + 1 >= descriptor.Length)
                    return false;
                at += 3 + descriptor[at + 1];
                continue;
            }

            if ((prefix & WithoutSize) == ReportId)
                return true;
            var size = prefix & 3;
            at += 1 + (size == 3 ? 4 : size);
        }

        return false;
    }
}
