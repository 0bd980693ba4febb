using System.Globalization;
using CableCatalog.Service.Grades;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Google.Type;

namespace CableCatalog.Service.Requests.Filtering;

/// <summary>What kind of value a field has: how it is compared, read and written.</summary>
/// <param name="InWords">What is expected of a value, for people: "a number".</param>
/// <param name="Of">From a field's value in a message, never null, to what is compared; null: it counts as not set.</param>
/// <param name="Read">From a text to what is compared; null: it is no such value.</param>
/// <param name="Write">To a text that <paramref name="Read"/> reads back to the last bit.</param>
internal sealed record ValueKind(
    string InWords, Func<object, IComparable?> Of, Func<string, IComparable?> Read, Func<IComparable, string> Write)
{
    private static readonly string[] TimeFormats = ["yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'"];

    /// <summary>Text, compared letter by letter.</summary>
    public static ValueKind Text { get; } = new("a text", value => (string)value, text => text, value => (string)value);

    /// <summary>A finite number.</summary>
    public static ValueKind Number { get; } = new(
        "a number",
        value => Convert.ToDouble(value, CultureInfo.InvariantCulture),
        text => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number)
            ? number
            : null,
        value => ((double)value).ToString("R", CultureInfo.InvariantCulture));

    private static ValueKind Amount { get; } = new(
        "an amount of money without its currency, such as 60.50",
        value => MoneyMapping.AmountOf((Money)value),
        text => decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal amount) ? amount : null,
        value => ((decimal)value).ToString(CultureInfo.InvariantCulture));

    private static ValueKind Day { get; } = new(
        "a date such as 2026-10-01",
        value => DateMapping.Read(new Violations(), "", (Date)value),
        text => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null,
        value => ((DateOnly)value).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));

    private static ValueKind Time { get; } = new(
        "a time of RFC 3339 such as 2026-11-28T12:00:00Z",
        value => ((Timestamp)value).ToDateTimeOffset(),
        text => DateTimeOffset.TryParseExact(
            text, TimeFormats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset time)
            ? time
            : null,
        value => ((DateTimeOffset)value).ToString("yyyy-MM-dd'T'HH:mm:ss.fffffffzzz", CultureInfo.InvariantCulture));

    /// <summary>Whether values are greater or less than others.</summary>
    public bool IsOrdered { get; private init; } = true;

    /// <summary>The kind of a field.</summary>
    public static ValueKind OfField(FieldDescriptor field) => field.FieldType switch
    {
        FieldType.String => Text,
        FieldType.Double => Number,
        FieldType.Enum => Named(field.EnumType),
        FieldType.Message when field.MessageType.FullName == Money.Descriptor.FullName => Amount,
        FieldType.Message when field.MessageType.FullName == Date.Descriptor.FullName => Day,
        FieldType.Message when field.MessageType.FullName == Timestamp.Descriptor.FullName => Time,
        _ => throw new ArgumentException($"{field.FullName} cannot be compared", nameof(field)),
    };

    /// <summary>Compares two values of one kind; texts whatever the machine's language.</summary>
    public static int Compare(IComparable one, IComparable other) => one is string text
        ? string.CompareOrdinal(text, (string)other)
        : one.CompareTo(other);

    // What all names of an enum begin with is that of its first value without UNSPECIFIED.
    private static ValueKind Named(EnumDescriptor type)
    {
        string prefix = type.Values[0].Name.Replace("UNSPECIFIED", "", StringComparison.Ordinal);
        Dictionary<string, int> numbers = type.Values
            .SelectMany(value => new[] { (value.Name, value.Number), (Name: value.Name[prefix.Length..], value.Number) })
            .ToDictionary(one => one.Name, one => one.Number, StringComparer.Ordinal);
        return new ValueKind(
            $"one of {string.Join(", ", type.Values.Select(value => value.Name[prefix.Length..]))}",
            value => (int)value,
            text => numbers.TryGetValue(text, out int number) ? number : null,
            value => type.FindValueByNumber((int)value)?.Name ?? type.Values[0].Name)
        {
            IsOrdered = false,
        };
    }
}
