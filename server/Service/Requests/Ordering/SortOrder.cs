using CableCatalog.Service.Requests.Filtering;
using Google.Protobuf;

namespace CableCatalog.Service.Requests.Ordering;

/// <summary>In which order messages are asked for (AIP-132): by fields, and ties by id.</summary>
internal sealed class SortOrder : IComparer<SortKey>
{
    private const int MostCharacters = 2000;

    private readonly (QueryField Field, bool Falling)[] _by;

    private SortOrder((QueryField Field, bool Falling)[] by) => _by = by;

    /// <summary>Whether it is by id alone.</summary>
    public bool IsById => _by.Length == 0;

    /// <summary>How many fields it is by, without the id.</summary>
    public int Count => _by.Length;

    /// <summary>Reads an order: "price.base desc, id".</summary>
    /// <param name="fields">The fields there are.</param>
    /// <param name="text">The order; empty: by id.</param>
    /// <exception cref="InvalidRequestException">It is none; the column and what was expected are told.</exception>
    public static SortOrder Read(QueryFields fields, string text)
    {
        if (text.Length > MostCharacters)
        {
            throw InvalidRequestException.For("order_by", "BAD_ORDER", $"must be at most {MostCharacters} characters; it has {text.Length}");
        }

        if (string.IsNullOrWhiteSpace(text))
        {
            return new SortOrder([]);
        }

        var by = new List<(QueryField Field, bool Falling)>();
        int start = 0;
        foreach (string part in text.Split(','))
        {
            int at = start + part.Length - part.TrimStart().Length;
            start += part.Length + 1;
            string[] words = part.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
            QueryField? field = words.Length == 0 ? null : fields.Find(words[0]);
            string? wrong = (words, field) switch
            {
                ([], _) => "must have a field here",
                (_, null) => $"must have a field here: {fields.Instead(words[0])}",
                ([_, not ("asc" or "desc"), ..] or { Length: > 2 }, _) => $"must have desc or a comma after {words[0]}",
                _ when by.Exists(one => one.Field == field) => $"must name {words[0]} once",
                _ => null,
            };
            if (wrong is not null)
            {
                throw InvalidRequestException.For("order_by", "BAD_ORDER", $"{wrong} (column {at + 1}); the fields are {fields.InWords}");
            }

            by.Add((field!, words is [_, "desc"]));
        }

        return new SortOrder([.. by]);
    }

    /// <summary>Where a message stands in this order.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="message">The message; may be null in an order by id alone.</param>
    public SortKey KeyOf(string id, IMessage? message) => new([.. _by.Select(one => one.Field.Value(message!))], id);

    /// <inheritdoc/>
    public int Compare(SortKey? x, SortKey? y)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        foreach ((int place, (_, bool falling)) in _by.Index())
        {
            int order = (x.Values[place], y.Values[place]) switch
            {
                (null, null) => 0,
                (null, _) => 1,
                (_, null) => -1,
                ({ } one, { } other) => falling ? ValueKind.Compare(other, one) : ValueKind.Compare(one, other),
            };
            if (order != 0)
            {
                return order;
            }
        }

        return string.CompareOrdinal(x.Id, y.Id);
    }

    /// <summary>The parts of a key for a token.</summary>
    public IEnumerable<string> Write(SortKey key) =>
    [
        .. _by.Select((one, place) => key.Values[place] is { } value ? $"={Uri.EscapeDataString(one.Field.Kind.Write(value))}" : "-"),
        key.Id,
    ];

    /// <summary>Reads the parts of a key.</summary>
    /// <returns>Null where they are none.</returns>
    public SortKey? Read(IReadOnlyList<string> parts)
    {
        var values = new IComparable?[_by.Length];
        foreach ((int place, (QueryField field, _)) in _by.Index())
        {
            if (parts[place] == "-")
            {
                continue;
            }

            values[place] = parts[place] is ['=', .. var text] ? field.Kind.Read(Uri.UnescapeDataString(text)) : null;
            if (values[place] is null)
            {
                return null;
            }
        }

        return new SortKey(values, parts[^1]);
    }
}

/// <summary>Where a message stands in an order.</summary>
/// <param name="Values">Its values of the fields in order; null: not set.</param>
/// <param name="Id">Its id, by which ties go.</param>
internal sealed record SortKey(IReadOnlyList<IComparable?> Values, string Id);
