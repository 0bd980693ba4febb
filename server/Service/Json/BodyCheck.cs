using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using CableCatalog.Service.Requests;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Json;

/// <summary>Whether a body is JSON, and has in it only what its message knows. The strict protobuf parser decides; what it
/// refuses is then looked for, so that all of it is told with its place.</summary>
internal ref struct BodyCheck
{
    private readonly ReadOnlySpan<byte> _body;
    private readonly Violations _violations;
    private Utf8JsonReader _reader;

    private BodyCheck(ReadOnlySpan<byte> body, Violations violations)
    {
        _body = body;
        _violations = violations;
        _reader = new Utf8JsonReader(body);
        _reader.Read();
    }

    /// <summary>Records what is wrong with a body.</summary>
    /// <param name="rule">What may be in it.</param>
    /// <param name="body">The body in UTF-8.</param>
    /// <param name="path">The path that the request was sent to.</param>
    /// <param name="violations">Where to.</param>
    public static void Check(JsonRule rule, byte[] body, string path, Violations violations)
    {
        if (SyntaxProblem(body) is { } problem)
        {
            violations.Add("body", "BAD_TEXT", problem);
            return;
        }

        if (FieldValue.TryParse(Encoding.UTF8.GetString(body), rule.BodyType!))
        {
            CheckName(rule, body, path, violations);
            return;
        }

        int before = violations.Count;
        var check = new BodyCheck(body, violations);
        check.Message(rule.BodyType!, rule.Body == "*" ? "" : rule.Body);
        if (violations.Count == before)
        {
            violations.Add("body", "BAD_TEXT", $"must be {rule.BodyType!.Name} as JSON; it cannot be read as that");
        }
    }

    // The path decides which resource is meant: whoever names another in the body has mistaken one of the two.
    private static void CheckName(JsonRule rule, byte[] body, string path, Violations violations)
    {
        foreach ((string field, _) in rule.PathVariables.Where(variable => variable.Field == $"{rule.Body}.name"))
        {
            using JsonDocument document = JsonDocument.Parse(body);
            if (document.RootElement.TryGetProperty("name", out JsonElement name)
                && name.GetString() is { Length: > 0 } said
                && rule.PathWith(_ => said) != path)
            {
                violations.Add(field, "BAD_NAME", $"must be the name in the path, or be left out; found {FieldValue.Shown(name.GetRawText())}");
            }
        }
    }

    private static string? SyntaxProblem(byte[] body)
    {
        if (body.AsSpan().Trim(" \t\r\n"u8).IsEmpty)
        {
            return "must be a JSON object; it is empty";
        }

        if (!Utf8.IsValid(body))
        {
            return "must be JSON in UTF-8; it has bytes in it that are none";
        }

        try
        {
            using JsonDocument document = JsonDocument.Parse(body, new JsonDocumentOptions { AllowDuplicateProperties = false });
            return document.RootElement.ValueKind == JsonValueKind.Object
                ? null
                : $"must be a JSON object, found {FieldValue.Shown(document.RootElement.GetRawText())}";
        }
        catch (JsonException bad)
        {
            // Its first sentence; the others are for whoever programs the reader.
            string said = bad.Message.Split(". ")[0];
            return bad.LineNumber is { } line
                ? $"must be JSON; line {line + 1}, column {bad.BytePositionInLine + 1}: {said}"
                : $"must be JSON: {said}";
        }
        catch (InvalidOperationException)
        {
            return "must be JSON; a name in it has half a character (an escape \\ud800 to \\udfff without its other half)";
        }
    }

    // The reader stands at the message's brace.
    private void Message(MessageDescriptor type, string path)
    {
        while (_reader.Read() && _reader.TokenType == JsonTokenType.PropertyName)
        {
            string name = _reader.GetString()!;
            IList<FieldDescriptor> known = type.Fields.InDeclarationOrder();
            FieldDescriptor? field = FieldNames.Find(name, known);
            string said = field?.Name ?? FieldValue.Shown(name);
            string at = path.Length == 0 ? said : $"{path}.{said}";
            if (field is null)
            {
                _violations.Add(
                    at,
                    "UNKNOWN_FIELD",
                    $"is no field of {type.Name} ({Place()}); {FieldNames.InsteadOf(name, known)}");
                _reader.Skip();
                continue;
            }

            _reader.Read();
            if (_reader.TokenType == JsonTokenType.Null)
            {
                continue;
            }

            if (field.IsRepeated && !field.IsMap)
            {
                List(field, at);
            }
            else
            {
                Value(field, at);
            }
        }
    }

    private void List(FieldDescriptor field, string path)
    {
        if (_reader.TokenType != JsonTokenType.StartArray)
        {
            string place = Place();
            _violations.Add(path, "UNKNOWN_VALUE", $"must be a list in [ ], found {FieldValue.Shown(Raw())} ({place})");
            return;
        }

        for (int index = 0; _reader.Read() && _reader.TokenType != JsonTokenType.EndArray; index++)
        {
            Value(field, $"{path}[{index}]");
        }
    }

    private void Value(FieldDescriptor field, string path)
    {
        if (FieldValue.HasFields(field) && _reader.TokenType == JsonTokenType.StartObject)
        {
            Message(field.MessageType, path);
            return;
        }

        string place = Place();
        string raw = Raw();
        if (!FieldValue.IsValid(field, raw))
        {
            _violations.Add(
                path, "UNKNOWN_VALUE", $"must be {FieldValue.Expected(field)}, found {FieldValue.Shown(raw)} ({place})");
        }
    }

    // The value that the reader stands at, whole; it then stands at its end.
    private string Raw()
    {
        int start = (int)_reader.TokenStartIndex;
        _reader.Skip();
        return Encoding.UTF8.GetString(_body[start..(int)_reader.BytesConsumed]);
    }

    private readonly string Place()
    {
        ReadOnlySpan<byte> before = _body[..(int)_reader.TokenStartIndex];
        int line = before.Count((byte)'\n') + 1;
        int column = Encoding.UTF8.GetCharCount(before[(before.LastIndexOf((byte)'\n') + 1)..]) + 1;
        return $"line {line}, column {column}";
    }
}
