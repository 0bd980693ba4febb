using Google.Protobuf;
using Superpower.Model;

namespace CableCatalog.Service.Requests.Filtering;

/// <summary>Which messages are asked for (AIP-160).</summary>
/// <remarks>A field that is not set matches no comparison. A comparison is true or false and nothing between, so NOT turns that round.</remarks>
internal sealed class Filter
{
    private const int MostCharacters = 2000;
    private const int MostDepth = 20;

    private readonly QueryFields _fields;
    private readonly Func<IMessage, bool> _matches;

    private Filter(QueryFields fields, string text)
    {
        _fields = fields;
        _matches = Bind(Parse(text));
    }

    /// <summary>Reads a filter.</summary>
    /// <param name="fields">The fields there are.</param>
    /// <param name="text">The filter.</param>
    /// <returns>Null where it is empty.</returns>
    /// <exception cref="InvalidRequestException">It is none; the column and what was expected are told.</exception>
    public static Filter? Read(QueryFields fields, string text)
    {
        if (text.Length > MostCharacters)
        {
            throw InvalidRequestException.For("filter", "BAD_FILTER", $"must be at most {MostCharacters} characters; it has {text.Length}");
        }

        return string.IsNullOrWhiteSpace(text) ? null : new Filter(fields, text);
    }

    /// <summary>Whether it is one of those that are asked for.</summary>
    public bool Matches(IMessage message) => _matches(message);

    private FilterTree Parse(string text)
    {
        Result<TokenList<FilterToken>> tokens = FilterGrammar.Tokenizer.TryTokenize(text);
        if (!tokens.HasValue)
        {
            string found = text[tokens.ErrorPosition.Absolute..];
            throw Wrong(
                tokens.ErrorPosition.Absolute,
                found[0] is '"' or '\'' ? "must have a quote at the end of the text that begins here" : $"must not have {Shown(found[..1])} here");
        }

        int depth = 0;
        foreach (Token<FilterToken> token in tokens.Value)
        {
            depth += token.Kind switch { FilterToken.Open => 1, FilterToken.Close => -1, _ => 0 };
            if (depth > MostDepth)
            {
                throw Wrong(token.Position.Absolute, $"must be at most {MostDepth} parentheses deep");
            }
        }

        TokenListParserResult<FilterToken, FilterTree> tree = FilterGrammar.Whole(tokens.Value);
        if (tree.HasValue)
        {
            return tree.Value;
        }

        // Where a whole filter is followed by something, the parser expects nothing in particular.
        string expected = tree.Expectations is { Length: > 0 } some ? string.Join(" or ", some) : "AND, OR or the end";
        Token<FilterToken>? next = tree.Remainder.IsAtEnd ? null : tree.Remainder.ConsumeToken().Value;
        throw Wrong(
            next?.Position.Absolute ?? text.Length,
            $"must have {expected} here, found {(next is { } token2 ? Shown(token2.ToStringValue()) : "the end")}");
    }

    private Func<IMessage, bool> Bind(FilterTree tree)
    {
        switch (tree)
        {
            case FilterTree.All all:
                Func<IMessage, bool>[] each = [.. all.Parts.Select(Bind)];
                return message => Array.TrueForAll(each, part => part(message));
            case FilterTree.Any any:
                Func<IMessage, bool>[] some = [.. any.Parts.Select(Bind)];
                return message => Array.Exists(some, part => part(message));
            case FilterTree.Not not:
                Func<IMessage, bool> inner = Bind(not.Part);
                return message => !inner(message);
            default:
                return Bind((FilterTree.Comparison)tree);
        }
    }

    private Func<IMessage, bool> Bind(FilterTree.Comparison comparison)
    {
        string name = comparison.Field.ToStringValue();
        QueryField field = _fields.Find(name)
            ?? throw Wrong(comparison.Field.Position.Absolute, $"must have a field here: {_fields.Instead(name)}");
        int at = comparison.Value.Position.Absolute;
        string written = comparison.Value.ToStringValue();
        TextPattern pattern = TextPattern.Read(written) ?? throw Wrong(
            at, "may have a * at either end of a text and not within it; in quotes, \\* is a * that is meant as it is");
        if (comparison.Operator == ":" && pattern.IsAnything)
        {
            return field.IsSet;
        }

        if (field.Kind == ValueKind.Text)
        {
            return comparison.Operator switch
            {
                ":" => message => field.Value(message) is string text && text.Contains(pattern.Text, StringComparison.OrdinalIgnoreCase),
                "=" => message => field.Value(message) is string text && pattern.Matches(text),
                "!=" => message => field.Value(message) is string text && !pattern.Matches(text),
                _ when pattern.HasStar => throw Wrong(at, $"must have no * after {comparison.Operator}; it goes with = and !="),
                _ => Compared(field, comparison.Operator, pattern.Text),
            };
        }

        IComparable value = (pattern.HasStar ? null : field.Kind.Read(pattern.Text))
            ?? throw Wrong(at, $"must have {field.Kind.InWords} for {name} here, found {Shown(written)}");
        return field.Kind.IsOrdered || comparison.Operator is "=" or "!=" or ":"
            ? Compared(field, comparison.Operator, value)
            : throw Wrong(at, $"must have = or != before the value of {name}, not {comparison.Operator}");
    }

    private static Func<IMessage, bool> Compared(QueryField field, string comparison, IComparable value)
    {
        Func<int, bool> holds = comparison switch
        {
            "=" or ":" => order => order == 0,
            "!=" => order => order != 0,
            "<" => order => order < 0,
            "<=" => order => order <= 0,
            ">" => order => order > 0,
            _ => order => order >= 0,
        };
        return message => field.Value(message) is { } found && holds(ValueKind.Compare(found, value));
    }

    private InvalidRequestException Wrong(int at, string description) => InvalidRequestException.For(
        "filter", "BAD_FILTER", $"{description} (column {at + 1}); the fields are {_fields.InWords}");

    private static string Shown(string found) => found.Length <= 40 ? found : $"{found[..37]}...";
}
