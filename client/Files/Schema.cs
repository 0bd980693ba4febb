using System.Collections;
using System.Text.Json.Nodes;
using CableCatalog.Service.Requests;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace CableCatalog.Client.Files;

/// <summary>A key of a file and the field of a message it stands for.</summary>
/// <param name="Key">As people write it.</param>
/// <param name="Name">The field's name in the contract.</param>
/// <param name="Form">How its value is written.</param>
/// <param name="Missing">For a key that must be there: what it is for and an example line. Null for others.</param>
internal sealed record SchemaField(string Key, string Name, Form Form, (string What, string Example)? Missing)
{
    /// <summary>For a key that stands for one field or another by how its value is written: whether it is this one. Null: it
    /// is.</summary>
    public Func<FileNode, bool>? Takes { get; init; }

    /// <summary>A key that must be there.</summary>
    public static SchemaField Required(string key, string name, Form form, string what, string example) =>
        new(key, name, form, (what, example));

    /// <summary>A key that may be left out.</summary>
    public static SchemaField Optional(string key, string name, Form form) => new(key, name, form, null);
}

/// <summary>How a message is written in files: as a group of keys.</summary>
internal sealed class Schema
{
    private readonly MessageDescriptor message;
    private readonly string[] keys;

    /// <summary>Makes a schema; a field that the message does not have is a mistake in the code.</summary>
    public Schema(MessageDescriptor message, IReadOnlyList<SchemaField> fields)
    {
        this.message = message;
        Fields = fields;
        keys = [.. fields.Select(f => f.Key).Distinct()];
        if (fields.FirstOrDefault(f => message.FindFieldByName(f.Name) is null) is { } unknown)
        {
            throw new ArgumentException($"{message.Name} has no field {unknown.Name}", nameof(fields));
        }
    }

    /// <summary>The keys, in the order in which they are written.</summary>
    public IReadOnlyList<SchemaField> Fields { get; }

    /// <summary>Reads a group of keys into a new message. Only for use where no problem was reported.</summary>
    public object? Read(FieldValue group)
    {
        if (group.Node is not MappingNode mapping)
        {
            return group.Node is UnreadNode
                ? null
                : group.Fail($"expected a group of keys ({string.Join(", ", keys)}); found {group.Node.InWords}");
        }

        IMessage read = message.Parser.ParseFrom(ByteString.Empty);
        int maskBefore = group.Reading.Mask?.Count ?? 0;
        foreach (FileEntry entry in mapping.Entries)
        {
            ReadEntry(read, entry, group);
        }

        SchemaField[] left = [.. Fields.Where(f => !mapping.Entries.Any(e => Keys.Normal(e.Key) == f.Key))];
        if (group.Reading.Mask is { } mask)
        {
            ReplaceByWhole(mask, maskBefore, left, group);
        }
        else
        {
            ReportMissing(left, mapping, group);
        }

        return read;
    }

    /// <summary>A message as a group of keys; what is absent in the message is left out.</summary>
    public JsonObject Write(IMessage value)
    {
        var group = new JsonObject();
        foreach (SchemaField field in Fields)
        {
            FieldDescriptor descriptor = message.FindFieldByName(field.Name);
            object? fieldValue = descriptor.Accessor.GetValue(value);
            if (!IsAbsent(descriptor, value, fieldValue))
            {
                group.Add(field.Key, field.Form.Write(fieldValue));
            }
        }

        return group;
    }

    /// <summary>Reports a key that the group does not have.</summary>
    public static void ReportUnknown(FileEntry entry, IReadOnlyList<string> known, ProblemList problems) => problems.Add(
        entry.KeyPlace,
        $"\"{Wording.Shown(entry.Key)}\" is not known here; {Wording.InsteadOf(Keys.Normal(entry.Key), known)}");

    private void ReadEntry(IMessage read, FileEntry entry, FieldValue group)
    {
        string key = Keys.Normal(entry.Key);
        SchemaField[] ways = [.. Fields.Where(f => f.Key == key)];
        if ((ways.FirstOrDefault(f => f.Takes?.Invoke(entry.Value) == true) ?? ways.FirstOrDefault()) is not { } field)
        {
            ReportUnknown(entry, keys, group.Reading.Problems);
            return;
        }

        FieldValue value = group.Inner(entry.Value, entry.Key, field.Name);
        bool clears = group.Reading.Mask is not null && field.Missing is null && entry.Value is ScalarNode { IsNothing: true };
        if (clears || !field.Form.MarksOwnPaths)
        {
            group.Reading.Mask?.Add(value.Path);
        }

        if (!clears && field.Form.Read(value) is { } fieldValue)
        {
            Set(read, field.Name, fieldValue);
        }
    }

    private void Set(IMessage read, string name, object value)
    {
        FieldDescriptor descriptor = message.FindFieldByName(name);
        if (!descriptor.IsRepeated)
        {
            descriptor.Accessor.SetValue(read, value);
            return;
        }

        var list = (IList)descriptor.Accessor.GetValue(read);
        foreach (object item in (IEnumerable)value)
        {
            list.Add(item);
        }
    }

    // Where every key of an inner group is written, the group as a whole is: a path into a message that the grade does not
    // have yet would say less.
    private static void ReplaceByWhole(List<string> mask, int before, SchemaField[] left, FieldValue group)
    {
        if (group.Path.Length > 0 && left.Length == 0)
        {
            mask.RemoveRange(before, mask.Count - before);
            mask.Add(group.Path);
        }
    }

    // A misspelt key is reported where it stands; to call the one it is meant for missing would say it twice.
    private void ReportMissing(SchemaField[] left, MappingNode mapping, FieldValue group)
    {
        string?[] meant =
        [
            .. mapping.Entries.Select(e => Keys.Normal(e.Key)).Except(keys).Select(key => NearWord.To(key, keys)),
        ];
        foreach (SchemaField field in left.Where(f => !meant.Contains(f.Key)))
        {
            if (field.Missing is var (what, example))
            {
                group.FailAt(mapping.Place, $"\"{field.Key}\" is missing ({what}); add for example \"{example}\"");
            }
        }
    }

    private static bool IsAbsent(FieldDescriptor descriptor, IMessage message, object? value) =>
        descriptor.HasPresence
            ? !descriptor.Accessor.HasValue(message)
            : value is "" or IList { Count: 0 } || (descriptor.FieldType == FieldType.Enum && Convert.ToInt32(value, null) == 0);
}
