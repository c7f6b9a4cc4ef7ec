using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Units;

namespace Wain.Core.Binding;

/// <summary>The builder's own rules, judged when every figure is known.</summary>
internal static class Requirements
{
    public static void Check(Spec spec)
    {
        foreach (var (syntax, scope) in spec.Requirements)
        {
            if (spec.Evaluator.Truth(syntax.Condition, scope) is not false) continue;
            var told = new List<string>();
            Tell(syntax.Condition, scope, spec.Evaluator, spec.Say, told);
            string figures = told.Count > 0 ? string.Join("; ", told) : $"{syntax.Condition.Span.Text} is not so";
            spec.Evaluator.Report(new Finding(BindingFindings.RequireFalse, syntax.Message is { } why ? $"{why}: {figures}." : $"The requirement is not met: {figures}.", syntax.Condition.Span) { Subject = "require" });
        }
    }

    // The comparisons that are false, each with its two figures and what they are apart.
    private static void Tell(Expression condition, Scope scope, Evaluator evaluator, Say say, List<string> told)
    {
        switch (condition)
        {
            case JoinExpression join:
                foreach (var part in join.Operands) if (evaluator.Truth(part, scope) is false) Tell(part, scope, evaluator, say, told);
                break;
            case CompareExpression compare when evaluator.Evaluate(compare.Left, scope) is QuantityValue left && evaluator.Evaluate(compare.Right, scope) is QuantityValue right:
                string? unit = UnitIn(compare.Right) ?? UnitIn(compare.Left);
                string wanted = compare.Operator switch { "<" => "less than", "<=" => "at most", ">" => "more than", ">=" => "at least", "==" => "the same as", _ => "other than" };
                string bound = QuantityText.Show(right.Quantity, unit, say);
                if (compare.Right is NameExpression) bound = $"{compare.Right.Span.Text}, {bound}";
                string apart = left.Quantity.Dimension == right.Quantity.Dimension && !left.Quantity.Dimension.OnScale && compare.Operator is not "!="
                    ? $", off by {QuantityText.Show(new Quantity(Math.Abs(left.Quantity.Value - right.Quantity.Value), left.Quantity.Dimension), unit, say)}" : "";
                told.Add($"{compare.Left.Span.Text} is {QuantityText.Show(left.Quantity, unit, say)} and should be {wanted} {bound}{apart}");
                break;
            case NotExpression not: told.Add($"{not.Operand.Span.Text} is so"); break;
        }
    }

    /// <summary>The unit that stands in an expression first; null if none does.</summary>
    internal static string? UnitIn(Expression expression) => expression switch
    {
        MeasureExpression measure => measure.Unit,
        NegateExpression negate => UnitIn(negate.Operand),
        ChainExpression chain => chain.Operands.Select(UnitIn).FirstOrDefault(u => u is not null),
        _ => null,
    };
}
