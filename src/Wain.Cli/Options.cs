using System.Globalization;

namespace Wain.Cli;

/// <summary>The command line can't be understood, or a file can't be had: exit code 2.</summary>
public sealed class UsageError(string message) : Exception(message);

/// <summary>An option that a command takes: with a value, or a bare word.</summary>
public sealed record OptionShape(string Name, string? Value, string Meaning, bool Many = false);

/// <summary>A command: how it is called, what it does, examples, and the code.</summary>
public sealed record Command(string Name, string Arguments, string Summary, OptionShape[] Options, string[] Examples, Func<Options, TextWriter, TextWriter, int> Run);

/// <summary>The words after a command, sorted into arguments and options.</summary>
public sealed class Options
{
    private readonly Dictionary<string, List<string>> _values = new(StringComparer.Ordinal);

    public List<string> Arguments { get; } = [];

    /// <summary>Options that every command takes that reads a spec.</summary>
    public static readonly OptionShape[] Common =
    [
        new("--as", "people|lines|json|sarif", "how findings are shown"),
        new("--set", "NAME=VALUE", "gives a let of the spec another value for this run", Many: true),
        new("--warnings-are-errors", null, "a warning counts as an error"),
    ];

    public static Options Parse(Command command, string[] args)
    {
        var options = new Options();
        bool onlyArguments = false;
        for (int i = 0; i < args.Length; i++)
        {
            string arg = args[i];
            if (onlyArguments || !arg.StartsWith("--", StringComparison.Ordinal))
            {
                options.Arguments.Add(arg);
                continue;
            }
            if (arg == "--")
            {
                onlyArguments = true;
                continue;
            }
            string name = arg;
            string? value = null;
            int equals = arg.IndexOf('=');
            if (equals > 0) (name, value) = (arg[..equals], arg[(equals + 1)..]);
            var shape = command.Options.FirstOrDefault(o => o.Name == name)
                ?? throw new UsageError($"{command.Name} has no option {name}.{Core.Text.NearestName.Ask(Core.Text.NearestName.Of(name, command.Options.Select(o => o.Name)))}");
            if (shape.Value is null && value is not null) throw new UsageError($"{name} takes no value.");
            if (shape.Value is not null && value is null)
            {
                if (++i >= args.Length) throw new UsageError($"{name} needs a value: {name} {shape.Value}");
                value = args[i];
            }
            if (!options._values.TryGetValue(name, out var list)) options._values[name] = list = [];
            if (list.Count > 0 && !shape.Many) throw new UsageError($"{name} is given twice.");
            list.Add(value ?? "");
        }
        return options;
    }

    public bool Has(string name) => _values.ContainsKey(name);

    public string? Value(string name) => _values.TryGetValue(name, out var list) ? list[^1] : null;

    public IReadOnlyList<string> Values(string name) => _values.TryGetValue(name, out var list) ? list : [];

    public int Whole(string name, int otherwise)
    {
        if (Value(name) is not { } text) return otherwise;
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int value) ? value : throw new UsageError($"{name} takes a whole number, not \"{text}\".");
    }

    /// <summary>The word given to an option that takes one of a few.</summary>
    public string Choice(string name, string otherwise, params string[] choices)
    {
        string value = Value(name) ?? otherwise;
        return choices.Contains(value) ? value : throw new UsageError($"{name} takes one of {string.Join(", ", choices)}; \"{value}\" is none of them.");
    }
}
