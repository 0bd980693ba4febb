using Google.Protobuf;

namespace CableCatalog.Service.Tests.Telemetry;

/// <summary>A protobuf message read without its description: fields by number.</summary>
internal sealed class Wire
{
    private readonly List<(int Field, object Value)> _fields = [];

    private Wire()
    {
    }

    /// <summary>Reads one.</summary>
    public static Wire Read(byte[] bytes)
    {
        var message = new Wire();
        var input = new CodedInputStream(bytes);
        while (input.ReadTag() is var tag && tag != 0)
        {
            object value = WireFormat.GetTagWireType(tag) switch
            {
                WireFormat.WireType.Varint => input.ReadInt64(),
                WireFormat.WireType.Fixed64 => input.ReadSFixed64(),
                WireFormat.WireType.Fixed32 => (long)input.ReadSFixed32(),
                WireFormat.WireType.LengthDelimited => input.ReadBytes().ToByteArray(),
                _ => throw new InvalidDataException("OTLP has no groups."),
            };
            message._fields.Add((WireFormat.GetTagFieldNumber(tag), value));
        }

        return message;
    }

    /// <summary>The messages in a field.</summary>
    public IEnumerable<Wire> All(int field) => Of(field).OfType<byte[]>().Select(Read);

    /// <summary>The text in a field.</summary>
    public string? Text(int field) =>
        Of(field).OfType<byte[]>().LastOrDefault() is { } bytes ? System.Text.Encoding.UTF8.GetString(bytes) : null;

    /// <summary>The integer in a field.</summary>
    public long? Whole(int field) => Of(field).OfType<long>().Select(value => (long?)value).LastOrDefault();

    /// <summary>The double in a field.</summary>
    public double? Double(int field) => Whole(field) is { } bits ? BitConverter.Int64BitsToDouble(bits) : null;

    private IEnumerable<object> Of(int field) => _fields.Where(one => one.Field == field).Select(one => one.Value);
}
