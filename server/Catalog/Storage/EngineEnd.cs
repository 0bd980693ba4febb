using System.Collections;
using System.Diagnostics.CodeAnalysis;
using System.Reflection;
using LiteDB.Engine;

namespace CableCatalog.Catalog.Storage;

/// <summary>Closes a LiteDB engine for good, in whatever state a failure has left it.</summary>
/// <remarks>A transaction that met damage or a refusing disk may throw when it is disposed; LiteDB 5.0.21 swallows that, and
/// the transaction's finalizer then throws it once more, which would end the process. LiteDB offers no way to reach such a
/// transaction, so this goes through its private parts.</remarks>
internal static class EngineEnd
{
    private const BindingFlags Any = BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic;
    private static readonly FieldInfo Monitor = Required(typeof(LiteEngine).GetField("_monitor", Any));
    private static readonly FieldInfo Transactions = Required(Monitor.FieldType.GetField("_transactions", Any));

    /// <summary>Closes the engine; its files too.</summary>
    [SuppressMessage("Usage", "CA1816", Justification = "The transactions cannot do it themselves: that is the defect.")]
    internal static void Close(LiteEngine engine)
    {
        engine.Dispose();
        foreach (object transaction in ((IDictionary)Transactions.GetValue(Monitor.GetValue(engine))!).Values)
        {
            GC.SuppressFinalize(transaction);
        }
    }

    private static FieldInfo Required(FieldInfo? field) =>
        field ?? throw new MissingFieldException("LiteDB has changed: see how it ends a failed transaction now");
}
