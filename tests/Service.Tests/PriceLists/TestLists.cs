using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Service.Tests.PriceLists;

/// <summary>Invented price lists.</summary>
internal static class TestLists
{
    public static PriceList New() => new()
    {
        DisplayName = "Autumn",
        CurrencyCode = "USD",
        ValidFrom = Day(2026, 9, 1),
        ValidUntil = Day(2027, 2, 28),
        TaxShare = 0.0825,
        Labour = new LabourRates { PerHour = TestGrades.Usd(84), ReplaceHours = 0.75, RerouteHours = 2, TestHours = 0.33 },
        Fittings = TestGrades.Usd(4, 800_000_000),
        OtherGradesMargin = 0.22,
        Grades =
        {
            new ListedGrade { Grade = "grades/g3", Margin = 0.18 },
            new ListedGrade
            {
                Grade = "grades/g9",
                OwnPrice = new OwnPrice { Base = TestGrades.Usd(128), PerMetre = TestGrades.Usd(31, 500_000_000), Fittings = TestGrades.Usd(12) },
                Breaks = { new PriceBreak { FromQuantity = 5, Discount = 0.06 } },
            },
        },
        Breaks = { new PriceBreak { FromQuantity = 3, Discount = 0.04 } },
    };

    public static Date Day(int year, int month, int day) => new() { Year = year, Month = month, Day = day };

    /// <summary>Puts a list into the catalogue of a service.</summary>
    public static async Task<PriceList> PutAsync(this ServiceFixture service, string id, PriceList list)
    {
        list.Name = $"priceLists/{id}";
        return await service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest { PriceList = list, AllowMissing = true });
    }
}
