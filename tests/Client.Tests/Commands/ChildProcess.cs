using System.Diagnostics;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>The program as people run it: a process of its own.</summary>
internal sealed class ChildProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process _process;
    private readonly Task<string> _error;

    private ChildProcess(Process process) => (_process, _error) = (process, process.StandardError.ReadToEndAsync());

    /// <summary>The id of the process.</summary>
    public int Id => _process.Id;

    /// <summary>How long it has computed.</summary>
    public TimeSpan Computed
    {
        get
        {
            _process.Refresh();
            return _process.TotalProcessorTime;
        }
    }

    /// <summary>The program file.</summary>
    public static string Program => Path.Combine(AppContext.BaseDirectory, "cablecatalog.dll");

    /// <summary>Starts a command.</summary>
    /// <param name="variables">Set beside the variables of this process, but for the program's own, which are taken away.</param>
    /// <param name="args">The command.</param>
    public static ChildProcess Start(IReadOnlyDictionary<string, string> variables, params string[] args)
    {
        var start = new ProcessStartInfo("dotnet", [Program, .. args])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (string own in start.Environment.Keys.Where(name => name.StartsWith("CABLECATALOG_", StringComparison.Ordinal)).ToArray())
        {
            start.Environment.Remove(own);
        }

        start.Environment.Remove("OTEL_EXPORTER_OTLP_PROTOCOL");
        foreach ((string name, string value) in variables)
        {
            start.Environment[name] = value;
        }

        return new ChildProcess(Process.Start(start)!);
    }

    /// <summary>Waits until it has ended, and reads nothing of what it said.</summary>
    public async Task<int> CodeAsync()
    {
        await _process.WaitForExitAsync().WaitAsync(Patience);
        return _process.ExitCode;
    }

    /// <summary>Closes the pipe that its result is read from.</summary>
    public void StopReading() => _process.StandardOutput.BaseStream.Close();

    /// <summary>Runs a command to its end.</summary>
    public static async Task<Ran> RunAsync(IReadOnlyDictionary<string, string> variables, string input, params string[] args)
    {
        using ChildProcess child = Start(variables, args);
        await child._process.StandardInput.WriteAsync(input);
        child._process.StandardInput.Close();
        string output = await child._process.StandardOutput.ReadToEndAsync().WaitAsync(Patience);
        return new Ran(await child.CodeAsync(), output, await child._error);
    }

    /// <summary>The next line of its result.</summary>
    public async Task<string> ReadLineAsync() =>
        await _process.StandardOutput.ReadLineAsync().WaitAsync(Patience) ?? throw new InvalidOperationException(await _error);

    /// <summary>Asks it to end, as a service manager does, and waits until it has.</summary>
    public async Task<Ran> TerminateAsync()
    {
        await AskToEndAsync();
        return await EndedAsync();
    }

    /// <summary>Asks it to end, as a service manager does.</summary>
    public async Task AskToEndAsync()
    {
        using var kill = Process.Start("kill", ["-TERM", $"{Id}"]);
        await kill.WaitForExitAsync();
    }

    /// <summary>Waits until it has ended.</summary>
    public async Task<Ran> EndedAsync() =>
        new(await CodeAsync(), await _process.StandardOutput.ReadToEndAsync(), await _error);

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            _process.WaitForExit();
        }

        _process.Dispose();
    }
}
