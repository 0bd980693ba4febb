using Microsoft.Extensions.DependencyInjection;

namespace CableCatalog.Service.Doors;

/// <summary>What a <see cref="Door"/> needs.</summary>
internal static class DoorServices
{
    /// <summary>Registers it.</summary>
    /// <param name="services">Where.</param>
    /// <param name="settings">Who is let in.</param>
    /// <param name="rates">How many calls each caller may make; not disposed of with the services.</param>
    public static IServiceCollection AddDoor(this IServiceCollection services, DoorSettings settings, CallRates rates) =>
        services.AddSingleton(settings).AddSingleton(rates);
}
