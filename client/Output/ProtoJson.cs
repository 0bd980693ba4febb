using Google.Protobuf;

namespace CableCatalog.Client.Output;

/// <summary>Answers as protobuf JSON, zero and false written out so that scripts need not guess.</summary>
internal static class ProtoJson
{
    private static readonly JsonFormatter Formatter = new(
        JsonFormatter.Settings.Default.WithFormatDefaultValues(true).WithIndentation());

    private static readonly JsonFormatter OneLiner = new(JsonFormatter.Settings.Default.WithFormatDefaultValues(true));

    /// <summary>A message as JSON on one line.</summary>
    public static string OneLine(IMessage message) => OneLiner.Format(message);

    /// <summary>A message as JSON.</summary>
    public static string Write(IMessage message) => Formatter.Format(message);
}
