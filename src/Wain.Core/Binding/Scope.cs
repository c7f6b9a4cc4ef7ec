using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>A name for a value: a <c>let</c>, a parameter, or the key of a loop.</summary>
internal sealed class NamedValue(string name, Span place, Expression? expression, Scope scope)
{
    public string Name { get; } = name;

    public Span Place { get; } = place;

    public Expression? Expression { get; set; } = expression;

    public Scope Scope { get; set; } = scope;

    /// <summary>Where the expression stands: another place than that of the name once <c>set</c> has replaced it.</summary>
    public Span Origin { get; set; } = expression?.Span ?? place;

    public Value? Value { get; set; }

    public bool Done { get; set; }

    /// <summary>The key of a loop or a word given to a group: stands for a word and not for a number.</summary>
    public string? Word => Done && Expression is null && Value is WordValue word ? word.Word : null;

    public bool Used { get; set; }

    /// <summary>True for what is set from outside the spec's own text; not told as unused.</summary>
    public bool Given { get; set; }
}

internal sealed record FunctionDefinition(FunctionStatement Syntax, Scope Scope)
{
    public bool Used { get; set; }
}

internal sealed record GroupDefinition(GroupStatement Syntax, Scope Scope)
{
    public bool Used { get; set; }
}

/// <summary>Names that hold in one part of a spec, inside those of the part around it.</summary>
internal sealed class Scope(Scope? outer, string prefix = "")
{
    public Scope? Outer { get; } = outer;

    /// <summary>What goes before every name declared here: "port_locker_" inside a group placed as port_locker.</summary>
    public string Prefix { get; } = prefix;

    /// <summary>What made this part of the spec one of many: the line that places a group, the key of a loop; null elsewhere.</summary>
    public Span? Placed { get; init; }

    /// <summary>Where the group stands that this is the inside of: what is declared here is seen there under the name of the place and its own.</summary>
    public Scope? Around { get => field ?? Outer?.Around; init; }

    // Made when first needed: every turn of a loop has a scope, and most hold one name.
    private Dictionary<string, NamedValue>? _values;
    private Dictionary<string, FunctionDefinition>? _functions;
    private Dictionary<string, GroupDefinition>? _groups;
    private Dictionary<string, string>? _things;

    public Dictionary<string, NamedValue> Values => _values ??= new(StringComparer.Ordinal);

    public Dictionary<string, FunctionDefinition> Functions => _functions ??= new(StringComparer.Ordinal);

    public Dictionary<string, GroupDefinition> Groups => _groups ??= new(StringComparer.Ordinal);

    /// <summary>Names of things declared here, as written, to their whole names.</summary>
    public Dictionary<string, string> Things => _things ??= new(StringComparer.Ordinal);

    public NamedValue? FindValue(string name)
    {
        for (var scope = this; scope is not null; scope = scope.Outer) if (scope._values is { } values && values.TryGetValue(name, out var value)) return value;
        return null;
    }

    public FunctionDefinition? FindFunction(string name)
    {
        for (var scope = this; scope is not null; scope = scope.Outer) if (scope._functions is { } functions && functions.TryGetValue(name, out var function)) return function;
        return null;
    }

    public GroupDefinition? FindGroup(string name)
    {
        for (var scope = this; scope is not null; scope = scope.Outer) if (scope._groups is { } groups && groups.TryGetValue(name, out var group)) return group;
        return null;
    }

    /// <summary>What a thing goes by here: within a group its own name there, not the one that the place of the group gives it. Null if another of that name hides it.</summary>
    public string? NameFor(string whole)
    {
        for (var scope = this; scope is { Prefix.Length: > 0 }; scope = scope.Outer)
            foreach (var (name, thing) in scope._things ?? [])
                if (thing == whole && FindThing(name) == whole) return name;
        return FindThing(whole) == whole ? whole : null;
    }

    /// <summary>The whole name of a thing, as seen from here: the innermost declaration wins.</summary>
    public string? FindThing(string name)
    {
        for (var scope = this; scope is not null; scope = scope.Outer) if (scope._things is { } things && things.TryGetValue(name, out var whole)) return whole;
        return null;
    }
}
