using System.Buffers;
using Grpc.Core;

namespace CableCatalog.Service.InProcess;

/// <summary>A message as the bytes that a wire would carry, made and read as the contract's marshallers do.</summary>
internal static class MessageBytes
{
    /// <summary>Makes them.</summary>
    public static byte[] Of<T>(Marshaller<T> marshaller, T message)
    {
        var making = new Making();
        marshaller.ContextualSerializer(message, making);
        return making.Bytes;
    }

    /// <summary>Reads them.</summary>
    public static T Read<T>(Marshaller<T> marshaller, byte[] bytes) => marshaller.ContextualDeserializer(new Reading(bytes));

    private sealed class Making : SerializationContext
    {
        private ArrayBufferWriter<byte> _written = new();
        private byte[]? _whole;

        public byte[] Bytes => _whole ?? _written.WrittenSpan.ToArray();

        public override void SetPayloadLength(int payloadLength)
        {
            if (payloadLength > 0)
            {
                _written = new ArrayBufferWriter<byte>(payloadLength);
            }
        }

        public override IBufferWriter<byte> GetBufferWriter() => _written;

        public override void Complete()
        {
        }

        public override void Complete(byte[] payload) => _whole = payload;
    }

    private sealed class Reading(byte[] bytes) : DeserializationContext
    {
        public override int PayloadLength => bytes.Length;

        public override byte[] PayloadAsNewBuffer() => [.. bytes];

        public override ReadOnlySequence<byte> PayloadAsReadOnlySequence() => new(bytes);
    }
}
