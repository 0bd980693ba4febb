using System.Globalization;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Bands;
using Google.Rpc;

namespace CableCatalog.Service.Requests;

/// <summary>What is wrong with a request, by field path. Reading goes on after a violation, so that the caller hears of all
/// at once; whatever was read is used only when there is none.</summary>
internal sealed class Violations
{
    // Details travel in trailers as base64, beside a message; clients cap trailers at 8 to 16 KiB.
    private const int MostReported = 20;
    private const int MostReportedBytes = 4 << 10;

    private readonly List<BadRequest.Types.FieldViolation> _reported = [];
    private int _reportedBytes;

    /// <summary>How many have been found.</summary>
    public int Count { get; private set; }

    /// <summary>Records one; beyond those that are reported, only counts it.</summary>
    public void Add(string field, string reason, string description)
    {
        Count++;
        if (_reported.Count >= MostReported || _reportedBytes >= MostReportedBytes)
        {
            return;
        }

        var violation = new BadRequest.Types.FieldViolation { Field = field, Reason = reason, Description = description };
        _reportedBytes += violation.CalculateSize();
        if (_reported.Count == 0 || _reportedBytes < MostReportedBytes)
        {
            _reported.Add(violation);
        }
    }

    /// <summary>Does something that may refuse, and takes over what it complains of.</summary>
    public T? Try<T>(Func<T?> read)
        where T : class
    {
        try
        {
            return read();
        }
        catch (InvalidRequestException invalid)
        {
            foreach (BadRequest.Types.FieldViolation violation in invalid.Details.FieldViolations)
            {
                Add(violation.Field, violation.Reason, violation.Description);
            }

            Count += invalid.Count - invalid.Details.FieldViolations.Count;
            return null;
        }
    }

    /// <summary>Records that a field is missing.</summary>
    public void Missing(string field, string what) => Add(field, "REQUIRED", $"must be given: {what}");

    /// <summary>Checks a number against its range.</summary>
    public double Number(string field, double value, ValidRange range)
    {
        if (!range.Contains(value))
        {
            Add(field, "OUT_OF_RANGE", $"must be {range.InWords}");
        }

        return value;
    }

    /// <summary>Checks a number for which 0 is valid, so that its absence must not be taken for 0.</summary>
    public double RequiredNumber(string field, bool isSet, double value, ValidRange range)
    {
        if (!isSet)
        {
            Missing(field, range.InWords);
            return 0;
        }

        return Number(field, value, range);
    }

    /// <summary>Checks a number that may be absent.</summary>
    public double? Number(string field, bool isSet, double value, ValidRange range) =>
        isSet ? Number(field, value, range) : null;

    /// <summary>Checks a band; absent: null.</summary>
    public Band? Band(string field, V1.Band? band, ValidRange range)
    {
        if (band is null)
        {
            return null;
        }

        int before = Count;
        RequiredNumber($"{field}.low", band.HasLow, band.Low, range);
        RequiredNumber($"{field}.likely", band.HasLikely, band.Likely, range);
        RequiredNumber($"{field}.high", band.HasHigh, band.High, range);
        if (Count > before)
        {
            return null;
        }

        if (!Mechanics.Bands.Band.IsOrdered(band.Low, band.Likely, band.High))
        {
            Add(field, "OUT_OF_ORDER", "must have low <= likely <= high");
            return null;
        }

        return new Band(band.Low, band.Likely, band.High);
    }

    /// <summary>Checks a text for people: its length, and that it is one line that shows as it is written.</summary>
    public string Text(string field, string value, int least, int most)
    {
        if (value.AsSpan().Trim().Length < least || value.Length > most || HasUnseen(value))
        {
            Add(field, "BAD_TEXT", $"must be {least} to {most} characters on one line");
        }

        return value;
    }

    /// <summary>Reads each element of a list. Those that are refused are left out: the caller sees that there are violations
    /// before it uses any.</summary>
    /// <param name="field">The field path of the list.</param>
    /// <param name="written">The list.</param>
    /// <param name="least">How many there must be.</param>
    /// <param name="most">How many there may be.</param>
    /// <param name="inWords">What is expected of the list, for people: "1 to 10 loads to move".</param>
    /// <param name="read">Reads an element at its field path.</param>
    public TRead[] Each<TWritten, TRead>(
        string field,
        IReadOnlyCollection<TWritten> written,
        int least,
        int most,
        string inWords,
        Func<TWritten, string, TRead?> read)
        where TRead : class
    {
        if (written.Count < least || written.Count > most)
        {
            Add(field, "BAD_COUNT", $"must be {inWords}");
            return [];
        }

        var all = new List<TRead>(written.Count);
        int index = 0;
        foreach (TWritten element in written)
        {
            if (read(element, $"{field}[{index++}]") is { } one)
            {
                all.Add(one);
            }
        }

        return [.. all];
    }

    /// <summary>Requires that no two elements of a list have one name.</summary>
    /// <param name="field">The field path of the list.</param>
    /// <param name="names">The names in its order.</param>
    /// <param name="others">What the others are, for people: "other loads".</param>
    public void DistinctNames(string field, IEnumerable<string> names, string others)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach ((int index, string name) in names.Index())
        {
            if (!seen.Add(name))
            {
                Add($"{field}[{index}].display_name", "DUPLICATE", $"must differ from the names of the {others}");
            }
        }
    }

    private static bool HasUnseen(string value)
    {
        foreach (char c in value)
        {
            if (char.GetUnicodeCategory(c) is UnicodeCategory.Control or UnicodeCategory.Format
                or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Refuses the request where anything was found.</summary>
    /// <exception cref="InvalidRequestException">Something was.</exception>
    public void ThrowIfAny()
    {
        if (Count > 0)
        {
            throw new InvalidRequestException(_reported, Count);
        }
    }
}

/// <summary>The caller's request is wrong.</summary>
internal sealed class InvalidRequestException(IEnumerable<BadRequest.Types.FieldViolation> reported, int count)
    : Exception($"{count} field(s) of the request are wrong")
{
    /// <summary>How many violations there are, reported or not.</summary>
    public int Count { get; } = count;

    /// <summary>The violations that are reported.</summary>
    public BadRequest Details { get; } = new() { FieldViolations = { reported } };

    /// <summary>A request that is wrong in one field.</summary>
    public static InvalidRequestException For(string field, string reason, string description) =>
        new([new BadRequest.Types.FieldViolation { Field = field, Reason = reason, Description = description }], 1);
}
