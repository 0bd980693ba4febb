using CableCatalog.Service.Requests;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.Grades;

/// <summary>Field masks over a grade (AIP-134).</summary>
/// <remarks>The library's own merge cannot clear an optional number, so the copying is done here.</remarks>
internal static class GradeMask
{
    private static readonly string[] NotTheCallers = ["name", "etag", "revision", "create_time", "update_time"];

    /// <summary>The paths to change: those of the mask; "*" for all; without a mask, the fields that are set.</summary>
    /// <exception cref="InvalidRequestException">A path is unknown, or is the catalogue's to write.</exception>
    public static IReadOnlyList<string> Paths(FieldMask? mask, V1.Grade grade, string field)
    {
        string[] all = [.. V1.Grade.Descriptor.Fields.InDeclarationOrder().Select(f => f.Name).Except(NotTheCallers)];
        if (mask is null || mask.Paths.Count == 0)
        {
            return [.. all.Where(name => IsSet(V1.Grade.Descriptor.FindFieldByName(name), grade))];
        }

        if (mask.Paths is ["*"])
        {
            return all;
        }

        var violations = new Violations();
        foreach ((int index, string path) in mask.Paths.Index())
        {
            if (!FieldMask.IsValid(V1.Grade.Descriptor, path) || NotTheCallers.Contains(path.Split('.')[0]))
            {
                violations.Add(
                    $"{field}.paths[{index}]",
                    "UNKNOWN_FIELD",
                    $"must be fields that a caller may set: {string.Join(", ", all)}");
            }
        }

        violations.ThrowIfAny();
        return mask.Paths;
    }

    /// <summary>A copy of one grade with the masked fields taken from another; those unset there are cleared.</summary>
    public static V1.Grade Apply(V1.Grade current, V1.Grade changed, IReadOnlyList<string> paths)
    {
        V1.Grade result = current.Clone();
        foreach (string path in paths)
        {
            Copy(changed, result, path.Split('.'));
        }

        return result;
    }

    private static void Copy(IMessage? from, IMessage to, ReadOnlySpan<string> path)
    {
        FieldDescriptor field = to.Descriptor.FindFieldByName(path[0]);
        if (path.Length > 1)
        {
            if (field.Accessor.GetValue(to) is not IMessage inner)
            {
                inner = field.MessageType.Parser.ParseFrom(ByteString.Empty);
                field.Accessor.SetValue(to, inner);
            }

            Copy((IMessage?)(from is null ? null : field.Accessor.GetValue(from)), inner, path[1..]);
        }
        else if (from is not null && IsSet(field, from))
        {
            field.Accessor.SetValue(to, field.Accessor.GetValue(from));
        }
        else
        {
            field.Accessor.Clear(to);
        }
    }

    // A field without presence counts as set where it differs from its default.
    private static bool IsSet(FieldDescriptor field, IMessage message) => field.HasPresence
        ? field.Accessor.HasValue(message)
        : !Equals(
            field.Accessor.GetValue(message),
            field.Accessor.GetValue(message.Descriptor.Parser.ParseFrom(ByteString.Empty)));
}
