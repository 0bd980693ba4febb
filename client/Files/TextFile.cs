using System.Text;

namespace CableCatalog.Client.Files;

/// <summary>Reads a file of text that a person named; "-" is standard input.</summary>
internal static class TextFile
{
    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The text of a file, without a byte order mark.</summary>
    /// <param name="file">Its name.</param>
    /// <param name="mostBytes">The most that is read, a whole number of MiB.</param>
    /// <param name="problems">Where a file that is missing, a folder, forbidden, too large or not text is reported.</param>
    /// <returns>Null where there is a problem.</returns>
    public static string? Read(string file, int mostBytes, ProblemList problems)
    {
        try
        {
            byte[]? bytes = Bytes(file, mostBytes, problems);
            return bytes is null ? null : Decode(bytes, problems);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            problems.Add(WhyUnreadable(e));
            return null;
        }
    }

    /// <summary>Why a file could not be read, for people.</summary>
    internal static string WhyUnreadable(Exception e) => e switch
    {
        FileNotFoundException or DirectoryNotFoundException => "there is no such file; check the name and the folder",
        UnauthorizedAccessException => "you are not allowed to read this file; ask its owner, or copy it",
        ArgumentException or NotSupportedException => "this is not the name of a file",
        _ => "the file cannot be read; check the disk or the device it is on",
    };

    private static byte[]? Bytes(string file, int mostBytes, ProblemList problems)
    {
        if (Directory.Exists(file))
        {
            problems.Add("this is a folder; name a file in it");
            return null;
        }

        using Stream stream = file == "-" ? Console.OpenStandardInput() : File.OpenRead(file);

        // A length is known for files only; the loop below bounds pipes, devices and files that grow.
        bool tooLarge = stream.CanSeek && stream.Length > mostBytes;
        var buffer = new MemoryStream();
        var chunk = new byte[64 * 1024];
        while (!tooLarge && stream.Read(chunk) is var read and > 0)
        {
            buffer.Write(chunk, 0, read);
            tooLarge = buffer.Length > mostBytes;
        }

        if (tooLarge)
        {
            problems.Add($"the file is larger than {mostBytes >> 20} MiB, so it is not what is expected here; check the name");
            return null;
        }

        return buffer.ToArray();
    }

    private static string? Decode(byte[] bytes, ProblemList problems)
    {
        try
        {
            string text = StrictUtf8.GetString(bytes);
            if (!text.Contains('\0', StringComparison.Ordinal))
            {
                return text.TrimStart('\uFEFF');
            }
        }
        catch (DecoderFallbackException)
        {
            // Said below, as for any other file that is not text.
        }

        problems.Add("this is not a file of plain text; save it as UTF-8 text");
        return null;
    }
}
