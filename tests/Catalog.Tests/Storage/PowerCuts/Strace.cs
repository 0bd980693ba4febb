using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>Runs a process under strace and reads what it did below a folder, and the revisions that it printed.</summary>
/// <remarks>A call that changes files and is not known here is an error: nothing goes past unseen.</remarks>
internal static partial class Strace
{
    // Whatever can change a file, a name or a descriptor.
    private const string Calls =
        "/^(open|creat|close|dup|.*write|.*writev.*|.*truncate|fallocate|.*sync.*|.*rename.*|.*link.*|mk.*|rmdir|sendfile|splice|"
        + "copy_file_range|mmap|ioctl|io_uring.*).*";

    /// <summary>Runs a command to its end.</summary>
    /// <param name="folder">Below which calls are of interest; a full path.</param>
    /// <param name="command">The program and its arguments.</param>
    internal static IReadOnlyList<SystemCall> Run(string folder, string[] command)
    {
        string trace = Path.GetTempFileName();
        string told = Path.GetTempFileName();
        try
        {
            var start = new ProcessStartInfo("strace",
                ["-f", "--seccomp-bpf", "-y", "-xx", "-s", "4194304", "-e", "trace=" + Calls, "-o", trace, "--",
                    "sh", "-c", "exec \"$@\" > \"$0\"", told, .. command])
            {
                RedirectStandardError = true,
            };
            using Process process = Process.Start(start)!;
            string said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0
                ? [.. Read(File.ReadLines(trace), folder, told)]
                : throw new InvalidOperationException($"strace ended with {process.ExitCode}: {said}");
        }
        catch (Win32Exception cause)
        {
            throw new InvalidOperationException("strace is not installed: apt-get install strace", cause);
        }
        finally
        {
            File.Delete(trace);
            File.Delete(told);
        }
    }

    private static IEnumerable<SystemCall> Read(IEnumerable<string> lines, string folder, string told)
    {
        string inFolder = Hex(folder);
        string toReader = $"<{Hex(told)}>, ";
        foreach (string call in Joined(lines, toReader))
        {
            if (call.StartsWith("write(", StringComparison.Ordinal) && call.Contains(toReader, StringComparison.Ordinal))
            {
                yield return new SystemCall.Acknowledge(
                    long.Parse(Text(call.Split(", ")[1]), NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture));
            }
            else if (call.Contains(inFolder, StringComparison.Ordinal) && Parse(call) is { } parsed)
            {
                yield return parsed;
            }
        }
    }

    // A call during which another thread made one stands on two lines. It counts from where it ended; an acknowledgement counts
    // from where it began.
    private static IEnumerable<string> Joined(IEnumerable<string> lines, string toReader)
    {
        const string Unfinished = " <unfinished ...>";
        const string Resumed = " resumed>";
        var begun = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (string line in lines)
        {
            string[] parts = line.Split(' ', 2, StringSplitOptions.TrimEntries);
            (string thread, string call) = (parts[0], parts[1]);
            if (call.EndsWith(Unfinished, StringComparison.Ordinal))
            {
                string half = call[..^Unfinished.Length];
                if (half.Contains(toReader, StringComparison.Ordinal))
                {
                    yield return half;
                }
                else
                {
                    begun[thread] = half;
                }
            }
            else if (!call.StartsWith("<... ", StringComparison.Ordinal))
            {
                yield return call;
            }
            else if (begun.Remove(thread, out string? half))
            {
                yield return half + call[(call.IndexOf(Resumed, StringComparison.Ordinal) + Resumed.Length)..];
            }
        }
    }

    private static SystemCall? Parse(string call)
    {
        Match match = Call().Match(call);
        if (!match.Success || match.Groups["result"].Value.StartsWith('-'))
        {
            return match.Success ? null : throw new NotSupportedException($"not a call: {call[..Math.Min(call.Length, 200)]}");
        }

        string name = match.Groups["name"].Value;
        string[] given = match.Groups["given"].Value.Split(", ");
        int result = name == "mmap" ? 0 : int.Parse(match.Groups["result"].Value, CultureInfo.InvariantCulture);
        return name switch
        {
            "openat" => new SystemCall.Open(
                Text(given[1]),
                result,
                given[2].Contains("O_CREAT", StringComparison.Ordinal),
                given[2].Contains("O_TRUNC", StringComparison.Ordinal)),
            "close" => new SystemCall.Close(Descriptor(given[0])),
            "pwrite64" => new SystemCall.Write(
                Descriptor(given[0]),
                PathOf(given[0]),
                long.Parse(given[3], CultureInfo.InvariantCulture),
                result == Bytes(given[1]).Length ? Bytes(given[1]) : throw new NotSupportedException("a write in part")),
            "ftruncate" => new SystemCall.Truncate(
                Descriptor(given[0]), PathOf(given[0]), long.Parse(given[1], CultureInfo.InvariantCulture)),
            "fsync" or "fdatasync" => new SystemCall.Flush(Descriptor(given[0]), PathOf(given[0])),
            "rename" => new SystemCall.Rename(Text(given[0]), Text(given[1])),
            "unlink" => new SystemCall.Remove(Text(given[0])),
            "mkdir" => new SystemCall.MakeFolder(Text(given[0])),

            // These only ask, or map a file to be read.
            "readlink" or "readlinkat" or "ioctl" => null,
            "mmap" when !given[2].Contains("PROT_WRITE", StringComparison.Ordinal) => null,
            "mmap" when given[3].Contains("MAP_PRIVATE", StringComparison.Ordinal) => null,
            _ => throw new NotSupportedException($"a call that no model here knows: {call[..Math.Min(call.Length, 200)]}"),
        };
    }

    private static int Descriptor(string given) =>
        int.Parse(given[..given.IndexOf('<', StringComparison.Ordinal)], CultureInfo.InvariantCulture);

    private static string PathOf(string given) => Text(given[(given.IndexOf('<', StringComparison.Ordinal) + 1)..]);

    private static string Text(string given) => Encoding.UTF8.GetString(Bytes(given));

    // "\x41\x42" or \x41\x42>.
    private static byte[] Bytes(string given) => given.EndsWith("...", StringComparison.Ordinal)
        ? throw new NotSupportedException("strace has cut a text")
        : Convert.FromHexString(given.Trim('"', '>').Replace("\\x", string.Empty, StringComparison.Ordinal));

    private static string Hex(string text) =>
        string.Concat(Encoding.UTF8.GetBytes(text).Select(one => "\\x" + Convert.ToHexStringLower([one])));

    [GeneratedRegex(@"^(?<name>\w+)\((?<given>.*)\)\s+= (?<result>-?\d+|0x[0-9a-f]+)", RegexOptions.ExplicitCapture)]
    private static partial Regex Call();
}
