using System.Collections;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.Requests;

/// <summary>Field masks over any message: what to change of a resource (AIP-134), what to return of it (AIP-157).</summary>
/// <remarks>The library's own merge cannot clear an optional number, and sets one that is not set, so the copying is done here.</remarks>
internal static class FieldMasks
{
    // The same in every resource.
    private static readonly string[] NotTheCallers = ["name", "etag", "revision", "create_time", "update_time"];

    /// <summary>The fields of a resource that a caller may set.</summary>
    public static IEnumerable<string> Settable(MessageDescriptor type) =>
        type.Fields.InDeclarationOrder().Select(field => field.Name).Except(NotTheCallers);

    /// <summary>The fields of a resource that are set, of those that a caller may set: what to change where no mask says.</summary>
    public static IReadOnlyList<string> SetIn(IMessage resource) =>
        [.. Settable(resource.Descriptor).Where(name => IsSet(resource.Descriptor.FindFieldByName(name), resource))];

    /// <summary>The paths to change: those of the mask; "*" for all.</summary>
    /// <param name="mask">The mask; null or empty: none.</param>
    /// <param name="type">The resource.</param>
    /// <param name="field">The field path of the mask.</param>
    /// <returns>Null where there is no mask.</returns>
    /// <exception cref="InvalidRequestException">A path is unknown, or is the catalogue's to write.</exception>
    public static IReadOnlyList<string>? ToChange(FieldMask? mask, MessageDescriptor type, string field) =>
        Paths(mask, type, field, [.. Settable(type)], "fields that a caller may set");

    /// <summary>The paths to return: those of the mask.</summary>
    /// <param name="mask">The mask; null or empty: none.</param>
    /// <param name="type">The resource.</param>
    /// <param name="field">The field path of the mask.</param>
    /// <returns>Null where there is no mask.</returns>
    /// <exception cref="InvalidRequestException">A path is unknown.</exception>
    public static IReadOnlyList<string>? ToRead(FieldMask? mask, MessageDescriptor type, string field = "read_mask") =>
        Paths(mask, type, field, [.. type.Fields.InDeclarationOrder().Select(known => known.Name)], "fields of the resource");

    /// <summary>A copy of one message with the masked fields taken from another; those unset there are cleared.</summary>
    public static T Apply<T>(T current, T changed, IReadOnlyList<string> paths)
        where T : IMessage<T>
    {
        T result = current.Clone();
        foreach (string path in paths)
        {
            Copy(changed, result, path.Split('.'));
        }

        return result;
    }

    /// <summary>Only the masked fields of a message; all of it where there is no mask.</summary>
    public static T Only<T>(T message, IReadOnlyList<string>? paths)
        where T : IMessage<T>, new() => paths is null ? message : Apply(new T(), message, paths);

    /// <summary>Whether a field is set. One without presence is where it differs from its default.</summary>
    public static bool IsSet(FieldDescriptor field, IMessage message) => field.HasPresence
        ? field.Accessor.HasValue(message)
        : !Equals(field.Accessor.GetValue(message), field.Accessor.GetValue(Empty(message.Descriptor)));

    private static IReadOnlyList<string>? Paths(
        FieldMask? mask, MessageDescriptor type, string field, string[] all, string inWords)
    {
        if (mask is null || mask.Paths.Count == 0)
        {
            return null;
        }

        if (mask.Paths is ["*"])
        {
            return all;
        }

        var violations = new Violations();
        string expected = $"must be {inWords}: {string.Join(", ", all)}";
        foreach ((int index, string path) in mask.Paths.Index())
        {
            if (!FieldMask.IsValid(type, path) || !all.Contains(path.Split('.')[0]))
            {
                violations.Add($"{field}.paths[{index}]", "UNKNOWN_FIELD", expected);
            }
        }

        violations.ThrowIfAny();

        // A message has room for hundreds of thousands of paths; each is gone through for every resource.
        return [.. mask.Paths.Distinct()];
    }

    private static void Copy(IMessage from, IMessage to, ReadOnlySpan<string> path)
    {
        FieldDescriptor field = to.Descriptor.FindFieldByName(path[0]);
        if (path.Length > 1)
        {
            var source = (IMessage?)field.Accessor.GetValue(from);
            var target = (IMessage?)field.Accessor.GetValue(to);
            if (target is null && source is null)
            {
                return;
            }

            if (target is null)
            {
                target = Empty(field.MessageType);
                field.Accessor.SetValue(to, target);
            }

            Copy(source ?? Empty(field.MessageType), target, path[1..]);
        }
        else if (field.IsRepeated)
        {
            var target = (IList)field.Accessor.GetValue(to);
            target.Clear();
            foreach (object element in (IList)field.Accessor.GetValue(from))
            {
                target.Add(element);
            }
        }
        else if (IsSet(field, from))
        {
            field.Accessor.SetValue(to, field.Accessor.GetValue(from));
        }
        else
        {
            field.Accessor.Clear(to);
        }
    }

    private static IMessage Empty(MessageDescriptor type) => type.Parser.ParseFrom(ByteString.Empty);
}
