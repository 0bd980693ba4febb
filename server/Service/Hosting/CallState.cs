using Grpc.Core;
using Microsoft.AspNetCore.Http;

namespace CableCatalog.Service.Hosting;

/// <summary>What is noted of a call while it goes on, one value of a type: with its request where it came over HTTP.</summary>
internal static class CallState
{
    /// <summary>Notes it with a call.</summary>
    public static void Note<T>(this ServerCallContext context, T value)
        where T : class => context.UserState[typeof(T)] = value;

    /// <summary>Notes it with a request; its call finds it too.</summary>
    public static void Note<T>(this HttpContext context, T? value)
        where T : class => context.Items[typeof(T)] = value;

    /// <summary>What was noted with a call or its request; null: nothing.</summary>
    public static T? Noted<T>(this ServerCallContext context)
        where T : class => context.UserState.TryGetValue(typeof(T), out object? value) ? value as T : null;

    /// <summary>What was noted with a request or its call; null: nothing.</summary>
    public static T? Noted<T>(this HttpContext context)
        where T : class => context.Items.TryGetValue(typeof(T), out object? value) ? value as T : null;
}
