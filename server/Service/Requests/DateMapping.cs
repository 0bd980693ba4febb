namespace CableCatalog.Service.Requests;

/// <summary>Between google.type.Date and a whole date.</summary>
internal static class DateMapping
{
    /// <summary>Reads a whole date; anything else is a violation.</summary>
    public static DateOnly? Read(Violations violations, string field, Google.Type.Date? date)
    {
        if (date is { Year: >= 1 and <= 9999, Month: >= 1 and <= 12, Day: >= 1 }
            && date.Day <= DateTime.DaysInMonth(date.Year, date.Month))
        {
            return new DateOnly(date.Year, date.Month, date.Day);
        }

        violations.Add(field, "BAD_DATE", "must be a whole date: year, month and day");
        return null;
    }

    /// <summary>Writes a date.</summary>
    public static Google.Type.Date Write(DateOnly date) => new() { Year = date.Year, Month = date.Month, Day = date.Day };
}
