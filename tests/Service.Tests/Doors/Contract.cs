using System.Reflection;
using System.Text.RegularExpressions;
using CableCatalog.V1;
using Google.Api;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>What the contract has, found from its own descriptors.</summary>
internal static partial class Contract
{
    /// <summary>Every rpc of every service of the generated assembly.</summary>
    public static IReadOnlyList<MethodDescriptor> Methods { get; } =
    [
        .. typeof(GradeCatalog).Assembly.GetTypes()
            .Select(type => type.GetProperty("Descriptor", BindingFlags.Public | BindingFlags.Static))
            .Where(property => property?.PropertyType == typeof(ServiceDescriptor))
            .Select(property => (ServiceDescriptor)property!.GetValue(null)!)
            .SelectMany(service => service.Methods),
    ];

    /// <summary>"GradeCatalog/GetGrade".</summary>
    public static string ShortName(this MethodDescriptor method) => $"{method.Service.Name}/{method.Name}";

    /// <summary>The request of HTTP that carries a message to an rpc; null where it is not offered over HTTP.</summary>
    /// <remarks>google.api.HttpRule, https://google.aip.dev/127: path, then body, and the rest in the query.</remarks>
    public static HttpRequestMessage? HttpOf(this MethodDescriptor method, IMessage message)
    {
        if (method.GetOptions()?.GetExtension(AnnotationsExtensions.Http) is not { } rule)
        {
            return null;
        }

        (HttpMethod verb, string template) = rule.PatternCase switch
        {
            HttpRule.PatternOneofCase.Get => (HttpMethod.Get, rule.Get),
            HttpRule.PatternOneofCase.Post => (HttpMethod.Post, rule.Post),
            HttpRule.PatternOneofCase.Patch => (HttpMethod.Patch, rule.Patch),
            HttpRule.PatternOneofCase.Delete => (HttpMethod.Delete, rule.Delete),
            _ => throw new InvalidOperationException($"{method.FullName} has a verb that this test does not know."),
        };
        string path = Variable().Replace(template, match =>
            ValueAt(message, match.Groups["field"].Value.Split('.')) is { Length: > 0 } value
                ? value
                : match.Groups["pattern"].Value.Replace("*", "no-such", StringComparison.Ordinal));
        var request = new HttpRequestMessage(verb, $"{path}{(rule.Body == "*" ? "" : Query(message, rule))}");
        if (rule.Body.Length > 0)
        {
            IMessage? body = rule.Body == "*"
                ? message
                : (IMessage?)message.Descriptor.FindFieldByName(rule.Body).Accessor.GetValue(message);
            request.Content = new StringContent(
                body is null ? "{}" : JsonFormatter.Default.Format(body), System.Text.Encoding.UTF8, "application/json");
        }

        return request;
    }

    // Texts alone: no request of these tests has another field there.
    private static string Query(IMessage message, HttpRule rule) => string.Concat(message.Descriptor.Fields.InDeclarationOrder()
        .Where(field => field.FieldType == FieldType.String && !field.IsRepeated && !Variable().Matches(rule.ToString())
            .Any(match => match.Groups["field"].Value == field.Name))
        .Select(field => (field.JsonName, Value: (string)field.Accessor.GetValue(message)))
        .Where(pair => pair.Value.Length > 0)
        .Select((pair, index) => $"{(index == 0 ? '?' : '&')}{pair.JsonName}={Uri.EscapeDataString(pair.Value)}"));

    private static string? ValueAt(IMessage message, ReadOnlySpan<string> path) =>
        message.Descriptor.FindFieldByName(path[0]).Accessor.GetValue(message) switch
        {
            IMessage inner => ValueAt(inner, path[1..]),
            var value => value as string,
        };

    [GeneratedRegex(@"\{(?<field>[a-z_.]+)=(?<pattern>[^}]+)\}")]
    private static partial Regex Variable();
}
