using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Syntax;

namespace Wain.Core.Revisions;

/// <summary>
/// A requirement of the spec by its meaning: names of values and calls of functions give way to what they stand for, and what holds no figure of the
/// design to its value, so that only the names of figures are left.
/// </summary>
internal static class RequirementContent
{
    private const int DepthLimit = 100;

    public static string Of(Spec spec, Requirement requirement, Func<string, string> nameNow) =>
        Text(new Reading(spec, nameNow), requirement.Syntax.Condition, requirement.Scope, null, 0) + (requirement.Syntax.Message is { } m ? " \"" + m + "\"" : "");

    private sealed record Reading(Spec Spec, Func<string, string> NameNow);

    private static string Text(Reading r, Expression expression, Scope scope, Dictionary<string, string>? given, int depth)
    {
        if (depth > DepthLimit) return FactContent.Even(expression.Span.Text);
        string Of(Expression e) => Text(r, e, scope, given, depth + 1);
        switch (expression)
        {
            case MeasureExpression measure: return Say(measure.Value);
            case NumberExpression number: return Say(new Units.Quantity(number.Value, Units.Dimension.None));
            case NameExpression { SingleWord: { } word } when given?.GetValueOrDefault(word) is { } argument: return argument;
            case NameExpression { SingleWord: { } word } when scope.FindValue(word) is { Expression: { } inner } value:
                return given is null && Constant(r, expression, scope) is { } known ? known : Text(r, inner, value.Scope, null, depth + 1);
            case NameExpression name:
                var words = r.Spec.Evaluator.WholeName(name, scope);
                return words.IsDefaultOrEmpty ? name.Span.Text : string.Join('.', words.Skip(1).Prepend(scope.FindThing(words[0]) is { } whole ? r.NameNow(whole) : words[0]));
            case CallExpression call when scope.FindFunction(call.Name.Text) is { } function && call.Arguments.Length == function.Syntax.Parameters.Length:
                var bound = new Dictionary<string, string>(StringComparer.Ordinal);
                for (int i = 0; i < call.Arguments.Length; i++) bound[call.Arguments[i].Name?.Text ?? function.Syntax.Parameters[i].Text] = Of(call.Arguments[i].Value);
                return given is null && Constant(r, call, scope) is { } result ? result : Text(r, function.Syntax.Value, function.Scope, bound, depth + 1);
            case CallExpression call: return call.Name.Text + "(" + string.Join(", ", call.Arguments.Select(a => Of(a.Value))) + ")";
            case ChainExpression chain:
                if (given is null && Constant(r, chain, scope) is { } sum) return sum;
                return "(" + string.Concat(chain.Operands.Select((o, i) => (i == 0 ? "" : " " + chain.Operators[i - 1] + " ") + Of(o))) + ")";
            case NegateExpression negate: return "-" + Of(negate.Operand);
            case PowerExpression power: return Of(power.Base) + "^" + Of(power.Exponent);
            case CompareExpression compare: return Of(compare.Left) + " " + compare.Operator + " " + Of(compare.Right);
            case JoinExpression join: return "(" + string.Join(join.All ? " and " : " or ", join.Operands.Select(Of)) + ")";
            case NotExpression not: return "not " + Of(not.Operand);
            case ChoiceExpression choice: return string.Concat(choice.Branches.Select(b => $"if {Of(b.Condition)} then {Of(b.Value)} else ")) + Of(choice.Otherwise);
            default: return FactContent.Even(expression.Span.Text);
        }
    }

    private static string? Constant(Reading r, Expression expression, Scope scope) =>
        !SpeaksOfThings(r.Spec, expression, scope) && r.Spec.Evaluator.Evaluate(expression, scope) is QuantityValue q ? Say(q.Quantity) : null;

    private static bool SpeaksOfThings(Spec spec, Expression expression, Scope scope)
    {
        var seen = new HashSet<object>();
        var open = new Stack<(Expression, Scope)>([(expression, scope)]);
        while (open.TryPop(out var next))
        {
            if (next.Item1 is NameExpression name)
            {
                if (name.SingleWord is { } word && next.Item2.FindValue(word) is { } value)
                {
                    if (value.Expression is { } inner && seen.Add(value)) open.Push((inner, value.Scope));
                }
                else if (name.Parts.Length > 1 || spec.Evaluator.FindThing(name, next.Item2, out _) is not null) return true;
            }
            if (next.Item1 is CallExpression call && next.Item2.FindFunction(call.Name.Text) is { } function && seen.Add(function)) open.Push((function.Syntax.Value, function.Scope));
            foreach (var part in References.Parts(next.Item1)) open.Push((part, next.Item2));
        }
        return false;
    }

    private static string Say(Units.Quantity q) => q.Value.ToString("E8", CultureInfo.InvariantCulture) + " " + q.Dimension.Describe();
}
