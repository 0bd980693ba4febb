using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Bands;
using Google.Rpc;

namespace CableCatalog.Service.Requests;

/// <summary>What is wrong with a request, by field path. Reading goes on after a violation, so that the caller hears of all
/// at once; whatever was read is used only when there is none.</summary>
internal sealed class Violations
{
    // Details travel in trailers, which clients cap at 8 to 16 KiB.
    private const int MostReported = 20;

    private readonly List<BadRequest.Types.FieldViolation> _found = [];

    /// <summary>How many have been found.</summary>
    public int Count => _found.Count;

    /// <summary>Records one.</summary>
    public void Add(string field, string reason, string description) =>
        _found.Add(new BadRequest.Types.FieldViolation { Field = field, Reason = reason, Description = description });

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
        Number($"{field}.low", band.Low, range);
        Number($"{field}.likely", band.Likely, range);
        Number($"{field}.high", band.High, range);
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

    /// <summary>Checks the length of a text.</summary>
    public string Text(string field, string value, int least, int most)
    {
        if (value.Length < least || value.Length > most || value.Any(char.IsControl))
        {
            Add(field, "BAD_TEXT", $"must be {least} to {most} characters on one line");
        }

        return value;
    }

    /// <summary>Refuses the request where anything was found.</summary>
    /// <exception cref="InvalidRequestException">Something was.</exception>
    public void ThrowIfAny()
    {
        if (_found.Count > 0)
        {
            throw new InvalidRequestException(_found.Take(MostReported), _found.Count);
        }
    }
}

/// <summary>The caller's request is wrong.</summary>
internal sealed class InvalidRequestException(IEnumerable<BadRequest.Types.FieldViolation> reported, int count)
    : Exception($"{count} field(s) of the request are wrong")
{
    /// <summary>The violations.</summary>
    public BadRequest Details { get; } = new() { FieldViolations = { reported } };

    /// <summary>A request that is wrong in one field.</summary>
    public static InvalidRequestException For(string field, string reason, string description) =>
        new([new BadRequest.Types.FieldViolation { Field = field, Reason = reason, Description = description }], 1);
}
