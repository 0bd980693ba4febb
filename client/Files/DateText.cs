using System.Globalization;
using System.Text.Json.Nodes;
using Google.Type;

namespace CableCatalog.Client.Files;

/// <summary>Days as people write them: "2026-10-01" (ISO 8601).</summary>
internal static class DateText
{
    private const string Pattern = "yyyy-MM-dd";

    /// <summary>A day.</summary>
    public static readonly Form Day = new(Read, value => JsonValue.Create(Written((Date)value)));

    /// <summary>A text as a day; null where it is none.</summary>
    public static Date? Parse(string text) =>
        DateOnly.TryParseExact(text.Trim(), Pattern, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day)
            ? new Date { Year = day.Year, Month = day.Month, Day = day.Day }
            : null;

    /// <summary>A day as text.</summary>
    public static string Written(Date day) =>
        string.Create(CultureInfo.InvariantCulture, $"{day.Year:0000}-{day.Month:00}-{day.Day:00}");

    private static object? Read(FieldValue field) =>
        field.Scalar("a day such as 2026-10-01") is not { } text
            ? null
            : Parse(text) ?? field.Fail($"\"{Wording.Shown(text)}\" is not a day; write it as 2026-10-01 (year-month-day)");
}
