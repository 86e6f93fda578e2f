namespace CaptureAgent.Agent.Commands;

/// <summary>A file that the user named to write into.</summary>
internal static class OutputFile
{
    /// <exception cref="InputException">It cannot be written.</exception>
    public static void Write(string path, byte[] content)
    {
        try
        {
            File.WriteAllBytes(path, content);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException($"{path} cannot be written: {failure.Message}");
        }
    }
}
