using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Json;

/// <summary>What the contract says of its services, rpcs, messages and fields, by their full names.</summary>
/// <remarks>Generated code leaves comments out; the project that generates it embeds what protoc says of each file.</remarks>
internal static class ContractComments
{
    private const string Suffix = ".protoset";

    /// <summary>Reads them.</summary>
    /// <param name="files">The files of the contract, as generated.</param>
    public static IReadOnlyDictionary<string, string> Read(IEnumerable<FileDescriptor> files)
    {
        Dictionary<string, FileDescriptorProto> commented = Embedded().ToDictionary(file => file.Name);
        var inOrder = new List<ByteString>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (FileDescriptor file in files)
        {
            AddAfterItsImports(file);
        }

        var comments = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (FileDescriptor file in FileDescriptor.BuildFromByteStrings(inOrder))
        {
            foreach (IDescriptor descriptor in file.Services.SelectMany(AllOf).Concat(file.EnumTypes.SelectMany(AllOf))
                .Concat(file.MessageTypes.SelectMany(AllOf)))
            {
                if (DeclarationOf(descriptor)?.LeadingComments is { Length: > 0 } written)
                {
                    comments.Add(descriptor.FullName, OneParagraph(written));
                }
            }
        }

        return comments;

        void AddAfterItsImports(FileDescriptor file)
        {
            if (seen.Add(file.Name))
            {
                foreach (FileDescriptor import in file.Dependencies)
                {
                    AddAfterItsImports(import);
                }

                inOrder.Add(commented.GetValueOrDefault(file.Name)?.ToByteString() ?? file.SerializedData);
            }
        }
    }

    private static IEnumerable<FileDescriptorProto> Embedded()
    {
        System.Reflection.Assembly contract = typeof(V1.Grade).Assembly;
        foreach (string name in contract.GetManifestResourceNames().Where(n => n.EndsWith(Suffix, StringComparison.Ordinal)))
        {
            using Stream stream = contract.GetManifestResourceStream(name)!;
            yield return FileDescriptorSet.Parser.ParseFrom(stream).File.Single();
        }
    }

    private static IEnumerable<IDescriptor> AllOf(ServiceDescriptor service) => [service, .. service.Methods];

    private static IEnumerable<IDescriptor> AllOf(EnumDescriptor type) => [type, .. type.Values];

    private static IEnumerable<IDescriptor> AllOf(MessageDescriptor type) =>
    [
        type,
        .. type.Fields.InDeclarationOrder(),
        .. type.EnumTypes.SelectMany(AllOf),
        .. type.NestedTypes.SelectMany(AllOf),
    ];

    private static DescriptorDeclaration? DeclarationOf(IDescriptor descriptor) => descriptor switch
    {
        ServiceDescriptor service => service.Declaration,
        MethodDescriptor method => method.Declaration,
        MessageDescriptor message => message.Declaration,
        EnumDescriptor type => type.Declaration,
        EnumValueDescriptor value => value.Declaration,
        FieldDescriptor field => field.Declaration,
        _ => null,
    };

    private static string OneParagraph(string written) =>
        string.Join(' ', written.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
}
