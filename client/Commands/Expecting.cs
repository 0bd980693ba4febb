using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.Client.Units;

namespace CableCatalog.Client.Commands;

/// <summary>What is expected of a value on the command line, and the one sentence for a value that is something else.</summary>
internal static class Expecting
{
    /// <summary>Takes only these words; they complete in a shell.</summary>
    public static Option<T> OneOf<T>(this Option<T> option, params string[] words)
    {
        option.CompletionSources.Add(words);
        option.Validators.Add(result => CheckWord(result, option.Name, words));
        return option;
    }

    /// <summary>Takes only these words; they complete in a shell.</summary>
    public static Argument<T> OneOf<T>(this Argument<T> argument, params string[] words)
    {
        argument.CompletionSources.Add(words);
        argument.Validators.Add(result => CheckWord(result, argument.Name, words));
        return argument;
    }

    /// <summary>Reads a whole number of a range, both ends allowed.</summary>
    public static Func<ArgumentResult, int> WholeNumber(string name, int least, int most) => result =>
    {
        string text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        if (int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int number)
            && number >= least && number <= most)
        {
            return number;
        }

        result.AddError($"{name} {Wording.Shown(text)}: a whole number from {least} to {most} is expected.");
        return 0;
    };

    /// <summary>Reads a quantity with its unit; its range is the service's to check.</summary>
    public static Func<ArgumentResult, double?> Quantity(string name, QuantityKind kind) => result =>
    {
        string text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        ParsedQuantity parsed = QuantityText.Parse(text, kind);
        if (parsed.Problem is null)
        {
            return parsed.Si;
        }

        result.AddError($"{name} {Wording.Shown(text)} {parsed.Problem}.");
        return null;
    };

    private static void CheckWord(SymbolResult result, string name, string[] words)
    {
        foreach (string word in result.Tokens.Select(token => token.Value).Where(word => !words.Contains(word)))
        {
            result.AddError($"{name} {Wording.Shown(word)}: {Wording.OneOf(words)} is expected.");
        }
    }
}
