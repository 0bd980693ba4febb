using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using Google.Protobuf;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>For each rpc that changes the catalogue, a request that would: over <see cref="TestGrades.All"/>, the list "autumn" and the
/// key "spare".</summary>
internal static class ValidWrites
{
    public static IReadOnlyDictionary<string, IMessage> ByMethod { get; } = new Dictionary<string, IMessage>
    {
        ["GradeCatalog/CreateGrade"] = new CreateGradeRequest { GradeId = "newcomer", Grade = TestGrades.New("newcomer", 0.1, 50) },
        ["GradeCatalog/UpdateGrade"] = new UpdateGradeRequest { Grade = Dearer("g1") },
        ["GradeCatalog/BatchUpdateGrades"] = new BatchUpdateGradesRequest
        {
            Requests = { new UpdateGradeRequest { Grade = Dearer("g2") }, new UpdateGradeRequest { Grade = Dearer("g3") } },
        },
        ["GradeCatalog/DeleteGrade"] = new DeleteGradeRequest { Name = "grades/g4" },
        ["PriceLists/CreatePriceList"] = new CreatePriceListRequest { PriceListId = "winter", PriceList = TestLists.New() },
        ["PriceLists/UpdatePriceList"] = new UpdatePriceListRequest { PriceList = Renamed("Late autumn") },
        ["PriceLists/BatchUpdatePriceLists"] = new BatchUpdatePriceListsRequest
        {
            Requests = { new UpdatePriceListRequest { PriceList = Renamed("Very late autumn") } },
        },
        ["PriceLists/DeletePriceList"] = new DeletePriceListRequest { Name = "priceLists/autumn" },
        ["AccessKeys/CreateAccessKey"] = new CreateAccessKeyRequest
        {
            AccessKeyId = "made-by-a-call",
            AccessKey = new AccessKey { DisplayName = "Made by a call", Role = AccessRole.Administrator },
        },
        ["AccessKeys/RevokeAccessKey"] = new RevokeAccessKeyRequest { Name = "accessKeys/spare" },
    };

    /// <summary>A price and nothing else, so that a price editor may send it.</summary>
    private static Grade Dearer(string id) => new()
    {
        Name = $"grades/{id}",
        Price = new Price(TestGrades.New(id, 0.1, 1).Price) { Base = TestGrades.Usd(777) },
    };

    private static PriceList Renamed(string name)
    {
        PriceList list = TestLists.New();
        (list.Name, list.DisplayName) = ("priceLists/autumn", name);
        return list;
    }
}
