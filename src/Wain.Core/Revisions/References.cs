using Wain.Core.Binding;
using Wain.Core.Syntax;

namespace Wain.Core.Revisions;

/// <summary>What the values of a fact hang on: named values, functions and things, each step away from the text.</summary>
internal static class References
{
    /// <summary>Named values and functions that a fact's own slots use, through each other.</summary>
    public static (List<NamedValue> Values, List<FunctionDefinition> Functions) ValuesOf(BoundFact fact)
    {
        var values = new List<NamedValue>();
        var functions = new List<FunctionDefinition>();
        var seen = new HashSet<object>();
        var open = new Stack<(Expression, Scope)>(fact.Slots.All.SelectMany(s => s.Terms).Select(t => (t, fact.Scope)));
        while (open.TryPop(out var next))
        {
            var (expression, scope) = next;
            if (expression is NameExpression name)
            {
                var value = name.SingleWord is { } word ? scope.FindValue(word) : name.Parts is [{ Keys.IsEmpty: true } key, { Name.Text: "value" }] ? scope.FindValue(Evaluator.KeyValueName(key.Name.Text)) : null;
                if (value is null || !seen.Add(value)) continue;
                values.Add(value);
                if (value.Expression is { } inner) open.Push((inner, value.Scope));
            }
            if (expression is CallExpression call && scope.FindFunction(call.Name.Text) is { } function && seen.Add(function))
            {
                functions.Add(function);
                open.Push((function.Syntax.Value, function.Scope));
            }
            foreach (var part in Parts(expression)) open.Push((part, scope));
        }
        return (values, functions);
    }

    /// <summary>The things at the top of the text that a fact and its block speak of.</summary>
    public static IEnumerable<BoundFact> ThingsOf(Spec spec, BoundFact fact)
    {
        var seen = new HashSet<BoundFact>();
        var facts = new Stack<BoundFact>([fact]);
        while (facts.TryPop(out var one))
        {
            foreach (var inner in one.Body) facts.Push(inner);
            if (one.MirrorOf is { } original && seen.Add(original)) yield return original;
            var (values, functions) = ValuesOf(one);
            var open = new Stack<(Expression, Scope)>(one.Slots.All.SelectMany(s => s.Terms).Select(t => (t, one.Scope)));
            foreach (var v in values) if (v.Expression is { } e) open.Push((e, v.Scope));
            foreach (var f in functions) open.Push((f.Syntax.Value, f.Scope));
            while (open.TryPop(out var next))
            {
                if (next.Item1 is NameExpression name && spec.Evaluator.FindThing(name, next.Item2, out _) is { } thing && FactChange.TopOf(thing) is var top && top != fact && seen.Add(top)) yield return top;
                foreach (var part in Parts(next.Item1)) open.Push((part, next.Item2));
            }
        }
    }

    internal static IEnumerable<Expression> Parts(Expression expression) => expression switch
    {
        ChainExpression chain => chain.Operands,
        NegateExpression negate => [negate.Operand],
        PowerExpression power => [power.Base, power.Exponent],
        CompareExpression compare => [compare.Left, compare.Right],
        JoinExpression join => join.Operands,
        NotExpression not => [not.Operand],
        ChoiceExpression choice => choice.Branches.SelectMany(b => new[] { b.Condition, b.Value }).Append(choice.Otherwise),
        CallExpression call => call.Arguments.Select(a => a.Value),
        PlaceExpression place => place.Items,
        _ => [],
    };
}
