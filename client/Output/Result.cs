using Google.Protobuf;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A command's result, in the form that was asked for.</summary>
internal static class Result
{
    /// <summary>Writes it.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="format">In which form.</param>
    /// <param name="answer">The service's answer.</param>
    /// <param name="csv">Writes it as rows.</param>
    /// <param name="table">Draws it for people.</param>
    public static void Write(
        Terminal terminal, OutputFormat format, IMessage answer, Action<TextWriter> csv, Action<IAnsiConsole> table)
    {
        switch (format)
        {
            case OutputFormat.Json:
                terminal.Out.WriteLine(ProtoJson.Write(answer));
                break;
            case OutputFormat.Csv:
                csv(terminal.Out);
                break;
            default:
                terminal.Draw(table);
                break;
        }
    }
}
