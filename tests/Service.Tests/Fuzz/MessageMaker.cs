using System.Collections;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>Messages that nobody meant: a valid one changed in a few places, or one made from its descriptor alone.</summary>
/// <param name="random">The chance of it.</param>
/// <param name="known">Messages whose parts may be put in the place of others of their type.</param>
internal sealed class MessageMaker(Random random, ILookup<MessageDescriptor, IMessage> known)
{
    private const int DeepestMade = 6;

    // More than the service receives.
    private const int MostBytes = 5 << 20;

    private static readonly double[] Numbers =
    [
        double.NaN, double.PositiveInfinity, double.NegativeInfinity, 0, -0.0, double.Epsilon, -1e-320, 1e308, -1e308, double.MaxValue, -1, 1,
        1e-9, 1e-3, 0.05, 0.5, 0.999999, 2, 3.15, 10, 100, 1e3, 1e6, Math.PI, Math.Tau,
    ];

    private static readonly long[] WholeNumbers =
        [0, 1, -1, 2, 7, 50, 366, 1000, 1001, 2026, int.MaxValue, int.MinValue, long.MaxValue, long.MinValue, 999_999_999, 1_000_000_000];

    private static readonly string[] Texts =
    [
        "", " ", "a", new('x', 201), new('y', 10_000), "\0", "a\u0007b", "line\nbreak", "\uD800", "\uDFFF tail", "\uFEFFname", "\u202Egnp", "\U0001F6A4",
        "grades/g1", "grades/g9", "grades/none", "grades/", "grades/*", "grades/G1", "grades/g1/x", "priceLists/fuzzed", "priceLists/none",
        "accessKeys/spare", "accessKeys/", "USD", "NOK", "usd", "gear reducer", "raise", "lower", "display_name", "price.base", "friction", "*",
        "etag", "name", "price.base.units", "friction desc", "id = \"g1\"", "price.base > 30 AND NOT friction.likely < 0.1", "id:g*", "(((((",
        "r1", "0b9e6c1e-0001-4a00-8000-000000000001", "not-a-uuid", "AAAA", "MTAwIDE", "%00", "../x", "'; --", "{}", "1e999",
    ];

    /// <summary>A valid message changed in one to five places, mostly in one.</summary>
    public IMessage Changed(IMessage valid)
    {
        IMessage message = Copy(valid);
        for (int left = random.Next(3) == 0 ? random.Next(2, 6) : 1; left > 0; left--)
        {
            IMessage[] parts = [.. PartsOf(message)];
            Change(parts[random.Next(parts.Length)], message);
        }

        return message;
    }

    /// <summary>A message made from its descriptor.</summary>
    public IMessage Made(MessageDescriptor type, int depth = 0)
    {
        IMessage message = type.Parser.ParseFrom(ByteString.Empty);
        foreach (FieldDescriptor field in type.Fields.InDeclarationOrder().Where(_ => random.Next(DeepestMade) >= depth))
        {
            if (field.IsRepeated)
            {
                var list = (IList)field.Accessor.GetValue(message);
                for (int left = random.Next(4); left > 0; left--)
                {
                    list.Add(Value(field, message, depth));
                }
            }
            else
            {
                field.Accessor.SetValue(message, Value(field, message, depth));
            }
        }

        return message;
    }

    /// <summary>Every message within one, itself first.</summary>
    public static IEnumerable<IMessage> PartsOf(IMessage message) => message.Descriptor.Fields.InDeclarationOrder()
        .Where(field => field.FieldType == FieldType.Message && !field.IsMap)
        .SelectMany(field => field.Accessor.GetValue(message) switch
        {
            IMessage one => [one],
            IEnumerable many => many.Cast<IMessage>(),
            _ => [],
        })
        .SelectMany(PartsOf)
        .Prepend(message);

    /// <summary>A message of the same bytes.</summary>
    public static IMessage Copy(IMessage message) => message.Descriptor.Parser.ParseFrom(message.ToByteString());

    private void Change(IMessage part, IMessage whole)
    {
        IList<FieldDescriptor> fields = part.Descriptor.Fields.InDeclarationOrder();
        if (fields.Count == 0)
        {
            return;
        }

        // What is set is changed more often than what is not.
        FieldDescriptor[] set = [.. fields.Where(field => IsSet(field, part))];
        FieldDescriptor field = set.Length > 0 && random.Next(4) > 0 ? set[random.Next(set.Length)] : fields[random.Next(fields.Count)];
        if (field.IsRepeated)
        {
            ChangeList(field, (IList)field.Accessor.GetValue(part), whole);
        }
        else if (random.Next(4) == 0)
        {
            field.Accessor.Clear(part);
        }
        else if (field.FieldType == FieldType.Double && random.Next(2) == 0)
        {
            field.Accessor.SetValue(part, (double)field.Accessor.GetValue(part) * 3 * random.NextDouble());
        }
        else
        {
            field.Accessor.SetValue(part, Value(field, whole, depth: 2));
        }
    }

    private void ChangeList(FieldDescriptor field, IList list, IMessage whole)
    {
        int at = list.Count == 0 ? 0 : random.Next(list.Count);
        switch (random.Next(7))
        {
            case 0:
                list.Clear();
                break;
            case 1 when list.Count > 0:
                list.RemoveAt(at);
                break;
            case 2 when list.Count > 0:
                list.Insert(at, Another(list[at]!));
                break;
            case 3 when list.Count > 0:
                int fits = MostBytes / Math.Max(1, (list[at] as IMessage)?.CalculateSize() ?? 1);
                for (int most = random.Next(12) switch { 0 => 200_000, < 6 => 50, _ => 1001 }; list.Count < Math.Min(most, fits);)
                {
                    list.Add(Another(list[at]!));
                }

                break;
            case 4 when list.Count > 0:
                list[at] = Value(field, whole, depth: 2);
                break;
            default:
                list.Insert(at, Value(field, whole, depth: 2));
                break;
        }
    }

    private static object Another(object item) => item is IMessage message ? Copy(message) : item;

    private object Value(FieldDescriptor field, IMessage whole, int depth) => field.FieldType switch
    {
        FieldType.Double => Numbers[random.Next(Numbers.Length)],
        FieldType.Float => (float)Numbers[random.Next(Numbers.Length)],
        FieldType.Bool => random.Next(2) == 0,
        FieldType.String => Text(whole),
        FieldType.Bytes => ByteString.CopyFromUtf8(Text(whole)),
        FieldType.Enum => Enum.ToObject(field.EnumType.ClrType, random.Next(4) == 0 ? 99 - random.Next(200) : random.Next(field.EnumType.Values.Count + 1)),
        FieldType.Message or FieldType.Group => Message(field.MessageType, depth),
        FieldType.Int32 or FieldType.SInt32 or FieldType.SFixed32 => unchecked((int)WholeNumber()),
        FieldType.UInt32 or FieldType.Fixed32 => unchecked((uint)WholeNumber()),
        FieldType.UInt64 or FieldType.Fixed64 => unchecked((ulong)WholeNumber()),
        _ => WholeNumber(),
    };

    private long WholeNumber() => WholeNumbers[random.Next(WholeNumbers.Length)];

    // Sometimes a text that stands elsewhere in the same message: the id of another thing, a token, a name.
    private string Text(IMessage whole)
    {
        if (random.Next(3) > 0)
        {
            return Texts[random.Next(Texts.Length)];
        }

        string[] here =
        [
            .. PartsOf(whole).SelectMany(part => part.Descriptor.Fields.InDeclarationOrder()
                .Where(field => field.FieldType == FieldType.String && !field.IsRepeated)
                .Select(field => (string)field.Accessor.GetValue(part))),
        ];
        string text = here.Length == 0 ? "" : here[random.Next(here.Length)];
        int at = random.Next(text.Length + 1);
        return random.Next(3) == 0 ? text[..at] + "x" + text[at..] : text;
    }

    private IMessage Message(MessageDescriptor type, int depth)
    {
        IMessage[] alike = [.. known[type]];
        return random.Next(3) switch
        {
            0 when alike.Length > 0 => Copy(alike[random.Next(alike.Length)]),
            1 => type.Parser.ParseFrom(ByteString.Empty),
            _ => Made(type, depth + 1),
        };
    }

    private static bool IsSet(FieldDescriptor field, IMessage part) => field.Accessor.GetValue(part) switch
    {
        IList list => list.Count > 0,
        null => false,
        string text => text.Length > 0,
        _ when field.HasPresence => field.Accessor.HasValue(part),
        _ => true,
    };
}
