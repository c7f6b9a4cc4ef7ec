using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>The lets, functions and groups that a spec declares, each in its scope, and what is set in the place of a let.</summary>
internal sealed class Declarations(Spec spec, Scope top, Action<Finding> report)
{
    private readonly List<(SetStatement Syntax, Scope Scope)> _sets = [];

    public List<NamedValue> Values { get; } = [];

    public List<FunctionDefinition> Functions { get; } = [];

    public List<GroupDefinition> Groups { get; } = [];

    /// <summary>Takes in what a block of statements declares, so that its order has no meaning.</summary>
    public void Add(ImmutableArray<Statement> statements, Scope scope)
    {
        foreach (var statement in statements)
        {
            switch (statement)
            {
                case LetStatement let:
                    if (scope.Values.TryGetValue(let.Name.Text, out var first)) Twice(let.Name, first.Place);
                    else
                    {
                        var value = new NamedValue(let.Name.Text, let.Name.Span, let.Value, scope);
                        scope.Values[let.Name.Text] = value;
                        Values.Add(value);
                    }
                    break;
                case FunctionStatement function:
                    if (scope.Functions.TryGetValue(function.Name.Text, out var other)) Twice(function.Name, other.Syntax.Name.Span);
                    else if (BuiltInFunctions.Names.Contains(function.Name.Text)) report(new Finding(BindingFindings.DoubleName, $"{function.Name.Text} is a function of the language; choose another name.", function.Name.Span));
                    else
                    {
                        var definition = new FunctionDefinition(function, scope);
                        scope.Functions[function.Name.Text] = definition;
                        Functions.Add(definition);
                    }
                    DoubledParameters(function.Parameters);
                    break;
                case GroupStatement group:
                    if (scope.Groups.TryGetValue(group.Name.Text, out var same)) Twice(group.Name, same.Syntax.Name.Span);
                    else
                    {
                        var definition = new GroupDefinition(group, scope);
                        scope.Groups[group.Name.Text] = definition;
                        Groups.Add(definition);
                    }
                    DoubledParameters(group.Parameters);
                    break;
                case SetStatement set when scope == top: _sets.Add((set, scope)); break;
                case SetStatement set: report(new Finding(BindingFindings.Set, "\"set\" stands at the top of a file, outside of any block.", set.Span)); break;
                case BrokenStatement broken: spec.Broken.Add(broken.Name.Text); break;
            }
        }
    }

    private void DoubledParameters(ImmutableArray<Word> parameters)
    {
        foreach (var doubled in parameters.GroupBy(p => p.Text).Where(g => g.Count() > 1)) Twice(doubled.ElementAt(1), doubled.First().Span);
    }

    /// <summary>Tells that a name is declared a second time.</summary>
    public void Twice(Word name, Span first) =>
        report(new Finding(BindingFindings.DoubleName, $"\"{name.Text}\" is declared twice.", name.Span) { Subject = name.Text, Related = [new Related(first, "first declared here")] });

    /// <summary>Puts the values that another file sets, and then those given from outside, in the place of the lets that they name.</summary>
    public void Replace(IReadOnlyDictionary<string, Expression>? given)
    {
        var done = new Dictionary<string, Span>(StringComparer.Ordinal);
        foreach (var (set, scope) in _sets)
        {
            if (done.TryGetValue(set.Name.Text, out var first)) report(new Finding(BindingFindings.Set, $"\"{set.Name.Text}\" is set twice.", set.Span) { Related = [new Related(first, "first set here")] });
            else if (!scope.Values.TryGetValue(set.Name.Text, out var value))
            {
                if (spec.NamesMissing) continue;
                var nearest = NearestName.Of(set.Name.Text, scope.Values.Keys);
                report(new Finding(BindingFindings.Set, $"There is no \"let {set.Name.Text}\" for this to replace.{NearestName.Ask(nearest)}", set.Name.Span)
                {
                    Hint = $"To name a new value, write let {set.Name.Text} = ...",
                    Fixes = nearest.Count > 0 ? Fixing.Nearest(set.Name.Span, nearest) : [new Fix(new Span(set.Span.Source, set.Span.Start, "set".Length), "let", "write let")],
                });
            }
            else if (value.Place.Source == set.Span.Source) report(new Finding(BindingFindings.Set, $"\"let {set.Name.Text}\" stands in this very file; change it there.", set.Name.Span) { Related = [new Related(value.Place, "declared here")] });
            else
            {
                value.Expression = set.Value;
                value.Origin = set.Value.Span;
                done[set.Name.Text] = set.Name.Span;
            }
        }
        foreach (var (name, expression) in given ?? new Dictionary<string, Expression>())
        {
            if (top.Values.TryGetValue(name, out var value))
            {
                value.Expression = expression;
                value.Origin = expression.Span;
                value.Given = true;
            }
            else report(new Finding(BindingFindings.Set, $"There is no \"let {name}\" to set.{NearestName.Ask(NearestName.Of(name, top.Values.Keys))}", expression.Span));
        }
    }
}
