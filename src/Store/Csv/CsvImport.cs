using System.Text;

namespace CaptureAgent.Store.Csv;

/// <summary>Import of the register and of weights. All or nothing, unless bad rows are to be skipped.</summary>
public static class CsvImport
{
    /// <summary>Columns <c>code,species,hatched[,clutch,brooder,band,left,note]</c>. Weighings from before the registration are adopted.</summary>
    /// <exception cref="ImportException">The file as a whole cannot be read.</exception>
    /// <exception cref="StoreException">The store cannot be written.</exception>
    public static ImportResult Register(CaptureStore store, TextReader text, ImportOptions options) => RegisterImport.Run(store, text, options);

    /// <summary>Columns <c>chick,date,grams[,at,verdict,reasons,uncertaintyGrams,tareGrams,ageDays,remedy,state]</c>.</summary>
    /// <exception cref="ImportException">The file as a whole cannot be read.</exception>
    /// <exception cref="StoreException">The store cannot be written.</exception>
    public static ImportResult Weights(CaptureStore store, TextReader text, ImportOptions options) => new WeightsImport(store, options).Run(text);

    /// <summary>A reader that refuses what is not UTF-8, instead of putting question marks in its place. Closes the stream.</summary>
    public static StreamReader OpenText(Stream stream) =>
        new(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true, throwOnInvalidBytes: true), detectEncodingFromByteOrderMarks: false);
}
