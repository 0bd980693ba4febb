using System.Globalization;
using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Keys for people and for spreadsheets.</summary>
internal static class KeySheet
{
    /// <summary>What stands before a key's id in its name.</summary>
    public const string Collection = "accessKeys/";

    private static readonly string[] Heading = ["key", "display_name", "role", "good", "create_time", "expire_time", "revoke_time"];

    /// <summary>Draws the keys that there are.</summary>
    public static void Draw(IAnsiConsole console, IReadOnlyCollection<AccessKey> keys)
    {
        if (keys.Count == 0)
        {
            console.WriteLine("There are no keys: nobody can change anything through the service. keys create makes one.");
            return;
        }

        TableMaker table = new TableMaker(console).Names("Key", keys.Select(Id))
            .Words("For").Names("Role", []).Words("Created").Words("Good");
        foreach (AccessKey key in keys)
        {
            table.Table.AddRow(new[]
            {
                Id(key), key.DisplayName, InWords(key.Role), Written(key.CreateTime),
                key.Good ? Until(key) : key.RevokeTime is null ? "expired" : $"revoked {Written(key.RevokeTime)}",
            }.Select(cell => new Text(cell)).ToArray());
        }

        console.Write(table.Table);
    }

    /// <summary>Writes the keys that there are.</summary>
    public static void Write(TextWriter writer, IEnumerable<AccessKey> keys) => CsvRows.Write(
        writer,
        Heading,
        keys.Select(key => new object?[]
        {
            Id(key), key.DisplayName, InWords(key.Role), key.Good ? "yes" : "no", Full(key.CreateTime), Full(key.ExpireTime),
            Full(key.RevokeTime),
        }));

    /// <summary>A role.</summary>
    public static string InWords(AccessRole role) => role switch
    {
        AccessRole.Administrator => "administrator",
        AccessRole.PriceEditor => "price editor",
        _ => "reader",
    };

    /// <summary>How long a key is good.</summary>
    public static string Until(AccessKey key) =>
        key.ExpireTime is null ? "for good" : $"until {Written(key.ExpireTime)}";

    private static string Id(AccessKey key) => key.Name[Collection.Length..];

    private static string Written(Timestamp time) =>
        time.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture) + " UTC";

    private static string? Full(Timestamp? time) => time?.ToDateTimeOffset().ToString("O", CultureInfo.InvariantCulture);
}
