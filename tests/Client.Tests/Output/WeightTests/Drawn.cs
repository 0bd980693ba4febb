using System.Text;
using CableCatalog.Client.Output;
using Spectre.Console;

namespace CableCatalog.Client.Tests.Output;

/// <summary>What a terminal shows.</summary>
internal static class Drawn
{
    /// <summary>In a pipe, at 100 columns.</summary>
    public static string InAPipe(Action<IAnsiConsole> draw) => On(new Writer(Encoding.UTF8), false, 100, draw);

    /// <summary>On a screen of so many columns, without colours.</summary>
    public static string OnAScreen(int columns, Action<IAnsiConsole> draw) => On(new Writer(Encoding.UTF8), true, columns, draw);

    /// <summary>In a pipe that knows only ASCII.</summary>
    public static string InAscii(Action<IAnsiConsole> draw) => On(new Writer(Encoding.ASCII), false, 100, draw);

    private static string On(Writer output, bool isInteractive, int columns, Action<IAnsiConsole> draw)
    {
        using (output)
        {
            new Terminal(output, TextWriter.Null, isInteractive, columns, name => name == "NO_COLOR" ? "1" : null).Draw(draw);
            return output.ToString();
        }
    }

    private sealed class Writer : StringWriter
    {
        private readonly Encoding _encoding;

        public Writer(Encoding encoding)
        {
            _encoding = encoding;
            NewLine = "\n";
        }

        public override Encoding Encoding => _encoding;
    }
}
