using System.Text.RegularExpressions;
using Google.Api;
using Google.Protobuf.Reflection;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;
using Microsoft.AspNetCore.Http;
using Endpoint = Microsoft.AspNetCore.Http.Endpoint;

namespace CableCatalog.Service.Json;

/// <summary>Where an rpc is found in HTTP, and where in a request its fields stand.</summary>
/// <remarks>google.api.HttpRule: https://google.aip.dev/127.</remarks>
/// <param name="Method">The rpc.</param>
/// <param name="Verb">"GET", "POST", "PATCH" or "DELETE".</param>
/// <param name="Template">The path: "/v1/{grade.name=grades/*}".</param>
/// <param name="Body">The field that the body holds; "*": the whole request; empty: no body.</param>
internal sealed partial record JsonRule(MethodDescriptor Method, string Verb, string Template, string Body)
{
    /// <summary>The message in the body, or null.</summary>
    public MessageDescriptor? BodyType => Body switch
    {
        "" => null,
        "*" => Method.InputType,
        _ => Method.InputType.FindFieldByName(Body).MessageType,
    };

    /// <summary>The fields that are given as query parameters: those that are neither in the path nor in the body.</summary>
    public IEnumerable<FieldDescriptor> QueryFields => Body == "*"
        ? []
        : Method.InputType.Fields.InDeclarationOrder().Where(known =>
            known.Name != Body && !PathVariables.Any(variable => variable.Field.Split('.')[0] == known.Name));

    /// <summary>The variables of the path: the field and the pattern of its value, "grades/*".</summary>
    public IEnumerable<(string Field, string Pattern)> PathVariables =>
        Variable().Matches(Template).Select(match => (match.Groups["field"].Value, match.Groups["pattern"].Value));

    /// <summary>The path with each variable written in another way.</summary>
    public string PathWith(Func<string, string> write) =>
        Variable().Replace(Template, match => write(match.Groups["pattern"].Value));

    /// <summary>The rule that an endpoint follows, or null where it is of no rpc.</summary>
    public static JsonRule? Of(Endpoint endpoint)
    {
        if (endpoint.Metadata.GetMetadata<GrpcJsonTranscodingMetadata>() is not { } known)
        {
            return null;
        }

        HttpRule rule = known.HttpRule;
        (string verb, string template) = rule.PatternCase switch
        {
            HttpRule.PatternOneofCase.Get => (HttpMethods.Get, rule.Get),
            HttpRule.PatternOneofCase.Post => (HttpMethods.Post, rule.Post),
            HttpRule.PatternOneofCase.Patch => (HttpMethods.Patch, rule.Patch),
            HttpRule.PatternOneofCase.Put => (HttpMethods.Put, rule.Put),
            HttpRule.PatternOneofCase.Delete => (HttpMethods.Delete, rule.Delete),
            _ => throw new InvalidOperationException($"{known.MethodDescriptor.FullName} has a rule of no known verb."),
        };
        return new JsonRule(known.MethodDescriptor, verb, template, rule.Body);
    }

    [GeneratedRegex(@"\{(?<field>[a-z_.]+)=(?<pattern>[^}]+)\}")]
    private static partial Regex Variable();
}
