using System.Text.Json;
using System.Text.Json.Nodes;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace CableCatalog.Client.Files;

/// <summary>Writes a tree as YAML for people: groups of single values inside others stand on one line in braces.</summary>
internal static class YamlText
{
    /// <summary>Writes a tree; <see cref="YamlTree"/> reads the same values.</summary>
    public static void Write(TextWriter writer, JsonObject root)
    {
        var settings = new EmitterSettings().WithBestWidth(int.MaxValue).WithNewLine("\n").WithIndentedSequences();
        var emitter = new Emitter(writer, settings);
        emitter.Emit(new StreamStart());
        emitter.Emit(new DocumentStart(null, null, isImplicit: true));
        Emit(emitter, root, mayBeOneLine: false);
        emitter.Emit(new DocumentEnd(isImplicit: true));
        emitter.Emit(new StreamEnd());
    }

    private static void Emit(Emitter emitter, JsonNode node, bool mayBeOneLine)
    {
        switch (node)
        {
            case JsonObject group:
                bool oneLine = mayBeOneLine && group.All(e => e.Value is JsonValue);
                emitter.Emit(new MappingStart(
                    AnchorName.Empty, TagName.Empty, true, oneLine ? MappingStyle.Flow : MappingStyle.Block));
                foreach ((string key, JsonNode? value) in group)
                {
                    emitter.Emit(new Scalar(key));
                    Emit(emitter, value!, mayBeOneLine: true);
                }

                emitter.Emit(new MappingEnd());
                break;
            case JsonArray list:
                emitter.Emit(new SequenceStart(AnchorName.Empty, TagName.Empty, true, SequenceStyle.Block));
                foreach (JsonNode? item in list)
                {
                    Emit(emitter, item!, mayBeOneLine: false);
                }

                emitter.Emit(new SequenceEnd());
                break;
            default:
                emitter.Emit(Value(node));
                break;
        }
    }

    private static Scalar Value(JsonNode value)
    {
        if (value.GetValueKind() == JsonValueKind.Number)
        {
            return new Scalar(value.ToJsonString());
        }

        string text = value.GetValue<string>();
        bool plainWouldDiffer = new ScalarNode(default, text, IsPlain: true).IsNothing
            || text.Trim() != text
            || text.Any(c => char.IsControl(c) || c is '\u2028' or '\u2029' or '\uFEFF');
        ScalarStyle style = plainWouldDiffer ? ScalarStyle.DoubleQuoted : ScalarStyle.Any;
        return new Scalar(AnchorName.Empty, TagName.Empty, text, style, isPlainImplicit: true, isQuotedImplicit: true);
    }
}
