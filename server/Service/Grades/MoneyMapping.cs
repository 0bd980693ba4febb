using CableCatalog.Economics.Prices;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Grades;

/// <summary>Between google.type.Money and exact decimal money.</summary>
internal static class MoneyMapping
{
    private const decimal NanosPerUnit = 1_000_000_000m;
    private const decimal MostAmount = 1_000_000m;

    /// <summary>Reads an amount that is 0 to 1000000.</summary>
    public static Money? Read(Violations violations, string field, Google.Type.Money? money)
    {
        if (money is null)
        {
            violations.Missing(field, "an amount and its currency; it may be 0");
            return null;
        }

        int before = violations.Count;
        if (!Money.IsCurrency(money.CurrencyCode))
        {
            violations.Add($"{field}.currency_code", "BAD_CURRENCY", "must be three capital letters such as USD");
        }

        decimal amount = AmountOf(money);
        if (money.Nanos is < 0 or > 999_999_999 || amount is < 0 or > MostAmount)
        {
            violations.Add(field, "OUT_OF_RANGE", "must be 0 to 1000000, with at most nine decimals");
        }

        return violations.Count > before ? null : new Money(amount, money.CurrencyCode);
    }

    /// <summary>The amount, whatever its currency.</summary>
    public static decimal AmountOf(Google.Type.Money money) => money.Units + (money.Nanos / NanosPerUnit);

    /// <summary>Writes an amount of at most nine decimals.</summary>
    public static Google.Type.Money Write(Money money)
    {
        decimal units = decimal.Truncate(money.Amount);
        return new Google.Type.Money
        {
            CurrencyCode = money.Currency,
            Units = (long)units,
            Nanos = (int)((money.Amount - units) * NanosPerUnit),
        };
    }
}
