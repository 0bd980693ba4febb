using System.Text.RegularExpressions;
using Superpower;
using Superpower.Model;
using Superpower.Parsers;
using Superpower.Tokenizers;

namespace CableCatalog.Service.Requests.Filtering;

/// <summary>What a filter is made of.</summary>
internal enum FilterToken
{
    /// <summary>"(".</summary>
    Open,

    /// <summary>")".</summary>
    Close,

    /// <summary>"=", "!=", "&lt;" and so on.</summary>
    Comparison,

    /// <summary>"-" where no number follows.</summary>
    Minus,

    /// <summary>A text in quotes.</summary>
    Quoted,

    /// <summary>A field, a value without quotes, or AND, OR, NOT.</summary>
    Word,
}

/// <summary>A filter as it is written.</summary>
internal abstract record FilterTree
{
    private FilterTree()
    {
    }

    /// <summary>All of them.</summary>
    public sealed record All(IReadOnlyList<FilterTree> Parts) : FilterTree;

    /// <summary>Any of them.</summary>
    public sealed record Any(IReadOnlyList<FilterTree> Parts) : FilterTree;

    /// <summary>Not that.</summary>
    public sealed record Not(FilterTree Part) : FilterTree;

    /// <summary>A field against a value.</summary>
    public sealed record Comparison(Token<FilterToken> Field, string Operator, Token<FilterToken> Value) : FilterTree;
}

/// <summary>The grammar of filters.</summary>
/// <remarks>AIP-160 (https://google.aip.dev/160), where OR binds more tightly than AND. Left out: words without a field, and AND left out
/// between two comparisons, since a slip of the keys would read as either.</remarks>
internal static partial class FilterGrammar
{
    /// <summary>From a text to its parts.</summary>
    public static Tokenizer<FilterToken> Tokenizer { get; } = new TokenizerBuilder<FilterToken>()
        .Ignore(Span.WhiteSpace)
        .Match(Character.EqualTo('('), FilterToken.Open)
        .Match(Character.EqualTo(')'), FilterToken.Close)
        .Match(Matching(Comparisons()), FilterToken.Comparison)
        .Match(Matching(QuotedTexts()), FilterToken.Quoted)
        .Match(Matching(Words()), FilterToken.Word)
        .Match(Character.EqualTo('-'), FilterToken.Minus)
        .Build();

    private static readonly TokenListParser<FilterToken, Token<FilterToken>> Name =
        Token.EqualTo(FilterToken.Word).Where(token => !IsKeyword(token)).Named("a field");

    private static readonly TokenListParser<FilterToken, Token<FilterToken>> Value = Token.EqualTo(FilterToken.Quoted)
        .Or(Token.EqualTo(FilterToken.Word).Where(token => !IsKeyword(token)))
        .Named("a value");

    private static readonly TokenListParser<FilterToken, FilterTree> Comparison =
        from field in Name
        from comparison in Token.EqualTo(FilterToken.Comparison).Named("one of = != < <= > >= :")
        from value in Value
        select (FilterTree)new FilterTree.Comparison(field, comparison.ToStringValue(), value);

    private static readonly TokenListParser<FilterToken, FilterTree> Simple =
        (from open in Token.EqualTo(FilterToken.Open)
         from inner in Superpower.Parse.Ref(() => Expression!)
         from close in Token.EqualTo(FilterToken.Close).Named("AND, OR or )")
         select inner).Or(Comparison);

    private static readonly TokenListParser<FilterToken, FilterTree> Term =
        (from not in Token.EqualTo(FilterToken.Minus).Or(Keyword("NOT"))
         from part in Simple.Named("a field or (")
         select (FilterTree)new FilterTree.Not(part)).Or(Simple).Named("a field, NOT or (");

    private static readonly TokenListParser<FilterToken, FilterTree> Factor = Term
        .AtLeastOnceDelimitedBy(Keyword("OR"))
        .Select(parts => parts.Length == 1 ? parts[0] : new FilterTree.Any(parts));

    private static readonly TokenListParser<FilterToken, FilterTree> Expression = Factor
        .AtLeastOnceDelimitedBy(Keyword("AND"))
        .Select(parts => parts.Length == 1 ? parts[0] : new FilterTree.All(parts));

    /// <summary>From the parts to what they say.</summary>
    public static TokenListParser<FilterToken, FilterTree> Whole { get; } = Expression.AtEnd();

    private static TokenListParser<FilterToken, Token<FilterToken>> Keyword(string word) =>
        Token.EqualToValue(FilterToken.Word, word).Named(word);

    private static bool IsKeyword(Token<FilterToken> token) => token.ToStringValue() is "AND" or "OR" or "NOT";

    private static TextParser<TextSpan> Matching(Regex pattern) => input =>
        pattern.Match(input.Source!, input.Position.Absolute) is { Success: true } match
            ? Result.Value(input.First(match.Length), input, input.Skip(match.Length))
            : Result.Empty<TextSpan>(input);

    [GeneratedRegex(@"\G(?:!=|<=|>=|[=<>:])")]
    private static partial Regex Comparisons();

    [GeneratedRegex("""\G(?:"(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*')""", RegexOptions.Singleline)]
    private static partial Regex QuotedTexts();

    // A time, which has colons in it; a number, which may begin with a minus; a name, which may have a * for anything.
    [GeneratedRegex(@"\G(?:\d{4}-\d\d-\d\dT[\d:.]+(?:Z|[+-]\d\d:\d\d)?|-?\.?\d[\w.*/+-]*|[\p{L}_*][\w.*/-]*)")]
    private static partial Regex Words();
}
