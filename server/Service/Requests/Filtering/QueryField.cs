using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Requests.Filtering;

/// <summary>A field of a message that can be asked for by its path.</summary>
internal sealed class QueryField
{
    private readonly FieldDescriptor[] _path;

    private QueryField(string name, FieldDescriptor[] path)
    {
        (Name, _path) = (name, path);
        Kind = ValueKind.OfField(path[^1]);
    }

    /// <summary>What it is called: its path, or "id".</summary>
    public string Name { get; }

    /// <summary>The kind of its value.</summary>
    public ValueKind Kind { get; }

    /// <summary>A field by its path; "id" is what stands after the slash in "name".</summary>
    public static QueryField Of(MessageDescriptor type, string path)
    {
        var fields = new List<FieldDescriptor>();
        foreach (string name in (path == "id" ? "name" : path).Split('.'))
        {
            FieldDescriptor field = (fields.Count == 0 ? type : fields[^1].MessageType).FindFieldByName(name)
                ?? throw new ArgumentException($"{type.FullName} has no {path}", nameof(path));
            fields.Add(field);
        }

        return new QueryField(path, [.. fields]);
    }

    /// <summary>Its value in a message, or null where it is not set. One without presence always has a value.</summary>
    public IComparable? Value(IMessage message) => Holder(message) is { } holder && Raw(holder) is { } raw
        ? Name == "id" ? ((string)raw)[(((string)raw).IndexOf('/', StringComparison.Ordinal) + 1)..] : Kind.Of(raw)
        : null;

    /// <summary>Whether it is set. One without presence is where it differs from its default.</summary>
    public bool IsSet(IMessage message) => Holder(message) is { } holder && FieldMasks.IsSet(_path[^1], holder);

    private IMessage? Holder(IMessage message)
    {
        IMessage? holder = message;
        foreach (FieldDescriptor field in _path.AsSpan()[..^1])
        {
            holder = holder is null ? null : (IMessage?)field.Accessor.GetValue(holder);
        }

        return holder;
    }

    private object? Raw(IMessage holder) =>
        _path[^1].HasPresence && !_path[^1].Accessor.HasValue(holder) ? null : _path[^1].Accessor.GetValue(holder);
}

/// <summary>The fields of a message that can be asked for, in the order in which they are told.</summary>
/// <param name="type">The message.</param>
/// <param name="paths">Their paths.</param>
internal sealed class QueryFields(MessageDescriptor type, params IEnumerable<string> paths)
{
    private readonly QueryField[] _all = [.. paths.Select(path => QueryField.Of(type, path))];

    /// <summary>All of them, for people.</summary>
    public string InWords => string.Join(", ", _all.Select(one => one.Name));

    /// <summary>A field by its name, or null.</summary>
    public QueryField? Find(string name) => Array.Find(_all, field => field.Name == name);

    /// <summary>What to say of a name that is none of theirs.</summary>
    public string Instead(string name) => NearWord.To(name, [.. _all.Select(one => one.Name)]) is { } near
        ? $"\"{name}\" is no field; did you mean {near}?"
        : $"\"{name}\" is no field";
}
