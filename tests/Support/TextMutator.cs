using System.Text;
using System.Text.RegularExpressions;

namespace CableCatalog.Tests.Fuzz;

/// <summary>Spoils texts the way people, editors and vandals do.</summary>
internal sealed partial class TextMutator(Random random)
{
    private static readonly string[] Awkward =
    [
        "", "NaN", ".nan", "-inf", ".inf", "Infinity", "1e308", "-1e308", "1e-320", "1e999999999", "-1", "0", "-0", "+0.0", "1e3", ".5", "5.",
        "9223372036854775808", "-2147483649", "79228162514264337593543950336", new('9', 400), new('9', 10_000), "1,5", "1,200,000.5", "0x1F",
        "1_000", "0o17", "null", "~", "true", "yes", "on", "''", "\"\"", "\"", "'", "[]", "{}", "[", "}", "{a: [", "- ", ": ", "? ", "2026-02-30",
        "9999-12-31", "0000-00-00", "2026-10-1", "2026-10-01T00:00:00Z", "12 in", "1e300 ft", "-5 lbf", "3 kg", "90 deg", "1/2 in", "4'6\"",
        "50 %", "USD", "-0.01 USD", "999999999999999.999999999 USD/ft", "1e400 USD", "grades/g1", "priceLists/autumn", "../plover-options.yaml",
        "/dev/null", "/dev/zero", "..", "-", "|", ">", "---", "...", "%YAML 9.9", "&a", "*a", "*", "&", "!", "!!binary", "!<tag:x>", "<<: *a",
        "\0", "\t", "\uFEFF", "\u2028", "\u0085", "\u200B", "\u202E", "\U0001F6A4", "\uD800", "\uDC00", "\\", "\\u0000", "\\ud800", "\x1b[2J",
        "=1+1", "\r", "\n", "\r\n", "# ", "//", new('x', 10_000), "name", "helm", "friction", "AND", "OR NOT", "(", ")", "=", "!=", ":", "<",
    ];

    private const string Laughs = "a: &a [x, x, x, x, x, x, x, x, x]\nb: &b [*a, *a, *a, *a, *a, *a, *a, *a, *a]\n"
        + "c: &c [*b, *b, *b, *b, *b, *b, *b, *b, *b]\nd: &d [*c, *c, *c, *c, *c, *c, *c, *c, *c]\ne: [*d, *d, *d, *d, *d, *d, *d, *d, *d]\n";

    /// <summary>Something that belongs nowhere.</summary>
    public string Word() => Awkward[random.Next(Awkward.Length)];

    /// <summary>A text spoilt in one to four places, mostly in one.</summary>
    public string Spoilt(string text)
    {
        for (int left = random.Next(3) == 0 ? random.Next(2, 5) : 1; left > 0; left--)
        {
            text = Once(text);
        }

        return text;
    }

    /// <summary>The bytes of a spoilt text; some of them spoilt themselves, some in another encoding.</summary>
    public byte[] SpoiltBytes(string text) => random.Next(8) switch
    {
        0 => Flipped(Encoding.UTF8.GetBytes(text)),
        1 => Flipped(Encoding.UTF8.GetBytes(Spoilt(text))),
        2 => Encoded(text),
        _ => Encoding.UTF8.GetBytes(Spoilt(text)),
    };

    /// <summary>Bytes with one to eight bits flipped, or with some of them cut out, put in or doubled.</summary>
    public byte[] Flipped(byte[] bytes)
    {
        byte[] copy = [.. bytes];
        for (int left = random.Next(1, 9); left > 0 && copy.Length > 0; left--)
        {
            copy[random.Next(copy.Length)] ^= (byte)(1 << random.Next(8));
        }

        int at = random.Next(copy.Length + 1);
        int upTo = random.Next(at, copy.Length + 1);
        return random.Next(6) switch
        {
            0 => copy[..at],
            1 => [.. copy[..at], .. copy[upTo..]],
            2 => [.. copy[..upTo], .. copy[at..]],
            3 => [.. copy[..at], .. Noise(random.Next(1, 20)), .. copy[at..]],
            _ => copy,
        };
    }

    private byte[] Noise(int count)
    {
        byte[] noise = new byte[count];
        random.NextBytes(noise);
        return noise;
    }

    private byte[] Encoded(string text)
    {
        Encoding encoding = random.Next(5) switch
        {
            0 => Encoding.Unicode,
            1 => Encoding.BigEndianUnicode,
            2 => Encoding.UTF32,
            3 => Encoding.Latin1,
            _ => Encoding.UTF8,
        };
        return [.. random.Next(2) == 0 ? encoding.GetPreamble() : [], .. encoding.GetBytes(text + "\u00E9")];
    }

    private string Once(string text)
    {
        int at = random.Next(text.Length + 1);
        switch (random.Next(24))
        {
            case 0:
                return WithLines(text, lines => lines.RemoveAt(random.Next(lines.Count)));
            case 1:
                return WithLines(text, lines => lines.Insert(random.Next(lines.Count), lines[random.Next(lines.Count)]));
            case 2:
                return WithLines(text, lines =>
                {
                    (int one, int other) = (random.Next(lines.Count), random.Next(lines.Count));
                    (lines[one], lines[other]) = (lines[other], lines[one]);
                });
            case 3:
                return WithLines(text, lines =>
                {
                    int line = random.Next(lines.Count);
                    lines[line] = random.Next(4) switch
                    {
                        0 => lines[line].TrimStart(),
                        1 => "\t" + lines[line],
                        _ => new string(' ', random.Next(1, 9)) + lines[line],
                    };
                });
            case 4:
                return text[..at];
            case 5:
                return text[at..];
            case 6:
                return text.Insert(at, Word());
            case 7:
                return text.Insert(at, ((char)random.Next(0x2100)).ToString());
            case 8:
                return at < text.Length ? $"{text[..at]}{(char)(text[at] ^ (1 << random.Next(7)))}{text[(at + 1)..]}" : text;
            case 9:
                int depth = random.Next(4) == 0 ? 20_000 : random.Next(2, 130);
                return text.Insert(at, string.Concat(Enumerable.Repeat(random.Next(3) switch { 0 => "[", 1 => "{a: ", _ => "{\"a\":" }, depth)));
            case 10:
                return random.Next(20) == 0 ? text + Laughs : text.Insert(at, Word());
            case 11:
                return random.Next(100) == 0 ? text.Insert(at, Long()) : text.Replace("\n", "\r\n", StringComparison.Ordinal);
            case 12:
                return random.Next(40) == 0
                    ? WithLines(text, lines => lines.InsertRange(
                        random.Next(lines.Count), Enumerable.Repeat(lines[random.Next(lines.Count)], 1001)))
                    : text.ToUpperInvariant();
            default:
                return WithWords(text, random.Next(4));
        }
    }

    // One line of about one or five million letters, or a million lines.
    private string Long()
    {
        string again = random.Next(6) switch { 0 => "7", 1 => ",", 2 => "x: ", 3 => "[7, ", 4 => "\"a b", _ => "- 7\n" };
        return string.Concat(Enumerable.Repeat(again, (random.Next(2) == 0 ? 5 << 20 : 900_000) / again.Length));
    }

    private string WithWords(string text, int how)
    {
        // Of a text of millions of letters, somewhere in it.
        const int MostLooked = 50_000;
        if (text.Length > MostLooked)
        {
            int at = random.Next(text.Length - MostLooked);
            return $"{text[..at]}{WithWords(text[at..(at + MostLooked)], how)}{text[(at + MostLooked)..]}";
        }

        MatchCollection words = Words().Matches(text);
        if (words.Count == 0)
        {
            return text + Word();
        }

        Match word = words[random.Next(words.Count)];
        string instead = how switch
        {
            0 => words[random.Next(words.Count)].Value,
            1 => "",
            _ => Word(),
        };
        return $"{text[..word.Index]}{instead}{text[(word.Index + word.Length)..]}";
    }

    private static string WithLines(string text, Action<List<string>> change)
    {
        List<string> lines = [.. text.Split('\n')];
        change(lines);
        return string.Join('\n', lines);
    }

    [GeneratedRegex(@"-?[\w.]+|[^\s\w]")]
    private static partial Regex Words();
}
