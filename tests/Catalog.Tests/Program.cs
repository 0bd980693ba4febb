using System.Globalization;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Tests.Storage;

namespace CableCatalog.Catalog.Tests;

/// <summary>The other process of the tests, to be traced or killed: STORE PLACE JOB [COUNT]. It prints what was acknowledged, a
/// line each.</summary>
internal static class Program
{
    private static int Main(string[] args)
    {
        (string store, string place, string job) = (args[0], args[1], args[2]);
        int count = args.Length > 3 ? int.Parse(args[3], CultureInfo.InvariantCulture) : int.MaxValue;
        switch (job)
        {
            case ChildJob.Create:
                using (LiteCatalogStore made =
                    LiteCatalogStore.Create(place, TestGrades.Some(count), "test child", TimeProvider.System))
                {
                    TestChild.Tell(made.Current.Revision);
                }

                return 0;
            case ChildJob.Own:
                using (LiteCatalogStore owned = LiteCatalogStore.Open(place, "test child", TimeProvider.System))
                {
                    owned.TakeOwnership();
                    TestChild.Tell(owned.Current.Revision);
                }

                return 0;
            case ChildJob.Rename:
                using (ICatalogStore renamed = TestChild.Open(store, place))
                {
                    for (int i = 0; i < count; i++)
                    {
                        TestChild.Tell(renamed.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None).Revision);
                    }
                }

                return 0;
            case ChildJob.Insist:
                using (ICatalogStore insisted = TestChild.Open(store, place))
                {
                    for (int i = 0; i < count; i++)
                    {
                        try
                        {
                            TestChild.Tell(insisted.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None).Revision);
                        }
                        catch (CatalogStoreException refused)
                        {
                            TestChild.Tell($"{refused.Fault}");
                        }
                    }
                }

                return 0;
            case ChildJob.Contend:
                using (ICatalogStore contended = TestChild.Open(store, place))
                {
                    Contention.WriteForEver(contended, count);
                }

                return 0;
            default:
                return 2;
        }
    }
}
