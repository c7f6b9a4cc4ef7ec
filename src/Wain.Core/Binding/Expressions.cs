using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Binding;

// Arithmetic, comparisons and choices, with kinds checked throughout.
public sealed partial class Evaluator
{
    /// <summary>The value of an expression, or null if it has none; why not is reported.</summary>
    internal Value? Evaluate(Expression expression, Scope scope)
    {
        // Brackets nest at most some hundred deep between two looks at the stack.
        if ((++_depth & 15) == 0)
        {
            try { return DeepStack.Run(() => EvaluateHere(expression, scope)); }
            finally { _depth--; }
        }
        try { return EvaluateHere(expression, scope); }
        finally { _depth--; }
    }

    private Value? EvaluateHere(Expression expression, Scope scope)
    {
        if (++_steps > StepLimit)
        {
            if (_steps == StepLimit + 1) _report(new Finding(BindingFindings.TooLong, $"More than {StepLimit:N0} steps of evaluation; the spec unfolds without end.", expression.Span));
            return null;
        }
        switch (expression)
        {
            case MeasureExpression measure: return new QuantityValue(measure.Value);
            case NumberExpression number: return new QuantityValue(new Quantity(number.Value, Dimension.None));
            case TextExpression text: return new TextValue(text.Value);
            case NameExpression name: return Name(name, scope);
            case NegateExpression negate: return Evaluate(negate.Operand, scope) is { } v ? Need(v, negate.Operand) is { } n ? new QuantityValue(n.Negate()) : null : null;
            case ChainExpression chain: return Chain(chain, scope);
            case PowerExpression power: return Power(power, scope);
            case CompareExpression compare: return Compare(compare, scope);
            case NotExpression not: return Truth(not.Operand, scope) is { } t ? new TruthValue(!t) : null;
            case JoinExpression join:
                bool all = join.All;
                foreach (var operand in join.Operands)
                {
                    if (Truth(operand, scope) is not { } truth) return null;
                    // The rest may hang on it: width > 0 in and area / width > 3 in.
                    if (truth != all) return new TruthValue(truth);
                }
                return new TruthValue(all);
            case ChoiceExpression choice: return Choice(choice, scope);
            case PlaceExpression place:
                var items = ImmutableArray.CreateBuilder<Quantity>();
                foreach (var item in place.Items)
                {
                    if (Evaluate(item, scope) is not { } value || Need(value, item) is not { } quantity) return null;
                    items.Add(quantity);
                }
                return new PlaceValue(items.ToImmutable());
            case CallExpression call: return Call(call, scope);
            case BrokenExpression: return null;
            case DateExpression date: return new TextValue(date.Value.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
            default: throw new InvalidOperationException($"unknown expression {expression.GetType().Name}");
        }
    }

    private Value? Choice(ChoiceExpression choice, Scope scope)
    {
        // Every way out must be of one kind, also those not taken today; as far as that can be seen without computing them.
        Dimension? kind = null;
        foreach (var way in choice.Branches.Select(b => b.Value).Append(choice.Otherwise))
        {
            if (KindOf(way, scope) is not { } found) continue;
            if (kind is { } known && known != found)
            {
                _report(new Finding(BindingFindings.KindsDiffer, $"One way of this choice gives {known.Describe()}, another {found.Describe()}.", way.Span));
                return null;
            }
            kind = found;
        }
        foreach (var (condition, then) in choice.Branches)
        {
            if (Truth(condition, scope) is not { } truth) return null;
            if (truth) return Evaluate(then, scope);
        }
        return Evaluate(choice.Otherwise, scope);
    }

    private static Dimension? KindOf(Expression expression, Scope scope)
    {
        switch (expression)
        {
            case MeasureExpression measure: return measure.Value.Dimension;
            case NumberExpression: return Dimension.None;
            case NegateExpression negate: return KindOf(negate.Operand, scope);
            case NameExpression { SingleWord: { } word }: return scope.FindValue(word) is { Done: true, Value: QuantityValue known } ? known.Quantity.Dimension : null;
            case ChainExpression chain when chain.Operators[0] is '+' or '-': return KindOf(chain.Operands[0], scope);
            case ChainExpression chain:
                var kind = KindOf(chain.Operands[0], scope);
                for (int i = 0; i < chain.Operators.Length && kind is not null; i++)
                {
                    kind = KindOf(chain.Operands[i + 1], scope) is { } next ? Dimension.Multiply(kind.Value, chain.Operators[i] == '*' ? next : next.Inverse()) : null;
                }
                return kind;
            default: return null;
        }
    }

    internal bool? Truth(Expression expression, Scope scope)
    {
        switch (Evaluate(expression, scope))
        {
            case TruthValue truth: return truth.Truth;
            case null: return null;
            default:
                _report(new Finding(BindingFindings.WrongKind, $"A condition is expected here, such as width > {Say.Such("60 in", "1500 mm")}.", expression.Span));
                return null;
        }
    }

    private Quantity? Need(Value value, Expression expression)
    {
        if (value is QuantityValue q) return q.Quantity;
        _report(new Finding(BindingFindings.WrongKind, $"A number is expected here, and \"{expression.Span.Text}\" is {Describe(value)}.", expression.Span));
        return null;
    }

    private static string Describe(Value value) => value switch
    {
        TruthValue => "a condition",
        TextValue => "a text",
        WordValue => "a word",
        PlaceValue => "a place",
        QuantityValue q => q.Quantity.Dimension.Describe(),
        _ => "something else",
    };

    private Value? Chain(ChainExpression chain, Scope scope)
    {
        var first = Evaluate(chain.Operands[0], scope);
        if (first is null || Need(first, chain.Operands[0]) is not { } total) return null;
        for (int i = 0; i < chain.Operators.Length; i++)
        {
            var operand = chain.Operands[i + 1];
            var value = Evaluate(operand, scope);
            if (value is null || Need(value, operand) is not { } next) return null;
            Quantity? result = chain.Operators[i] switch
            {
                '+' or '-' => Add(total, next, chain.Operators[i] == '-', operand),
                '*' => Multiply(total, next, operand),
                _ => Divide(total, next, operand),
            };
            if (result is not { } r) return null;
            if (!r.IsFinite)
            {
                _report(new Finding(BindingFindings.Overflow, "This grows too large to be held.", chain.Span));
                return null;
            }
            total = r;
        }
        return new QuantityValue(total);
    }

    private Quantity? Add(Quantity a, Quantity b, bool subtract, Expression operand)
    {
        b = InCurrencyOf(a, b);
        Dimension? kind = SumKind(a.Dimension, b.Dimension, subtract);
        if (kind is null)
        {
            string verb = subtract ? "subtracted from" : "added to";
            string money = a.Dimension.Money == 1 && b.Dimension.Money == 1 ? " Two currencies add only at a stated rate and date." : "";
            _report(new Finding(BindingFindings.KindsDiffer, $"{Capital(b.Dimension.Describe())} can't be {verb} {a.Dimension.Describe()}.{money}", operand.Span));
            return null;
        }
        return Units.Quantity.Add(a, subtract ? b.Negate() : b, kind.Value);
    }

    /// <summary>The second amount in the currency of the first, if the spec states a rate; else as it is.</summary>
    private Quantity InCurrencyOf(Quantity a, Quantity b)
    {
        if (a.Dimension.Currency is not { } wanted || b.Dimension.Currency is not { } have || wanted == have || a.Dimension != b.Dimension with { Currency = wanted } || a.Dimension.Money != 1) return b;
        foreach (var rate in Exchanges())
        {
            if (Quantity(rate, "money") is not { } money || Quantity(rate, "value") is not { } value) continue;
            if (money.Dimension.Currency == wanted && value.Dimension.Currency == have) (money, value) = (value, money);
            else if (money.Dimension.Currency != have || value.Dimension.Currency != wanted) continue;
            if (money.Inverse() is { } inverse) return Units.Quantity.Multiply(Units.Quantity.Multiply(b, value, Dimension.None), inverse, a.Dimension);
        }
        return b;
    }

    // A difference may be added to a temperature on a scale; two temperatures have a difference and no sum.
    private static Dimension? SumKind(Dimension a, Dimension b, bool subtract)
    {
        if (a.OnScale && b.OnScale) return subtract && a == b ? Dimension.OfTemperatureDifference : null;
        if (a.OnScale && b == Dimension.OfTemperatureDifference) return a;
        if (b.OnScale && a == Dimension.OfTemperatureDifference) return subtract ? null : b;
        return a == b ? a : null;
    }

    private Quantity? Multiply(Quantity a, Quantity b, Expression operand)
    {
        if (Dimension.Multiply(a.Dimension, b.Dimension) is { } kind) return Units.Quantity.Multiply(a, b, kind);
        string why = a.Dimension.OnScale || b.Dimension.OnScale ? " Multiply a difference of temperatures instead, such as 10 F_diff." : "";
        _report(new Finding(BindingFindings.KindsDiffer, $"{Capital(a.Dimension.Describe())} and {b.Dimension.Describe()} can't be multiplied or divided.{why}", operand.Span));
        return null;
    }

    private Quantity? Divide(Quantity a, Quantity b, Expression operand)
    {
        if (b.Inverse() is not { } inverse)
        {
            _report(new Finding(BindingFindings.DivideByZero, $"\"{operand.Span.Text}\" is zero, and nothing can be divided by it.", operand.Span));
            return null;
        }
        return Multiply(a, inverse, operand);
    }

    private Value? Power(PowerExpression power, Scope scope)
    {
        if (Evaluate(power.Base, scope) is not { } b || Need(b, power.Base) is not { } value) return null;
        if (Evaluate(power.Exponent, scope) is not { } e || Need(e, power.Exponent) is not { } exponent) return null;
        if (!exponent.Dimension.IsNone || exponent.Value != Math.Round(exponent.Value) || Math.Abs(exponent.Value) > 1000)
        {
            _report(new Finding(BindingFindings.WrongKind, "An exponent is a whole number, at most 1000; use sqrt( ) for roots.", power.Exponent.Span));
            return null;
        }
        int n = (int)exponent.Value;
        if (!value.Dimension.IsNone && Math.Abs(n) > 6)
        {
            _report(new Finding(BindingFindings.WrongKind, "A quantity with a unit may be raised to the sixth power at most.", power.Exponent.Span));
            return null;
        }
        var result = Units.Quantity.Count(1);
        for (int i = 0; i < Math.Abs(n); i++) if (Multiply(result, value, power.Base) is { } next) result = next; else return null;
        if (n < 0)
        {
            if (result.Inverse() is not { } inverse)
            {
                _report(new Finding(BindingFindings.DivideByZero, "Zero has no negative power.", power.Span));
                return null;
            }
            result = inverse;
        }
        if (!result.IsFinite)
        {
            _report(new Finding(BindingFindings.Overflow, "This grows too large to be held.", power.Span));
            return null;
        }
        return new QuantityValue(result);
    }

    private Value? Compare(CompareExpression compare, Scope scope)
    {
        // side == left: the key of a loop against a word that stands for itself, also where something else is called left.
        var left = IsBareWord(compare.Left, scope) ? null : Evaluate(compare.Left, scope);
        var right = left is WordValue or TextValue && IsBareWord(compare.Right, scope) ? BareWord(compare.Right, scope) : Evaluate(compare.Right, scope);
        if (IsBareWord(compare.Left, scope)) left = right is WordValue or TextValue ? BareWord(compare.Left, scope) : Evaluate(compare.Left, scope);
        if (left is null || right is null) return null;
        if (left is WordValue or TextValue && right is WordValue or TextValue)
        {
            string a = left is WordValue w ? w.Word : ((TextValue)left).Text, b = right is WordValue v ? v.Word : ((TextValue)right).Text;
            if (compare.Operator == "==") return new TruthValue(a == b);
            if (compare.Operator == "!=") return new TruthValue(a != b);
        }
        if (Need(left, compare.Left) is not { } x || Need(right, compare.Right) is not { } y) return null;
        y = InCurrencyOf(x, y);
        if (x.Dimension != y.Dimension)
        {
            _report(new Finding(BindingFindings.KindsDiffer, $"{Capital(x.Dimension.Describe())} can't be compared with {y.Dimension.Describe()}.", compare.Span));
            return null;
        }
        int order = x.CompareTo(y);
        return new TruthValue(compare.Operator switch
        {
            "==" => order == 0,
            "!=" => order != 0,
            "<" => order < 0,
            "<=" => order <= 0,
            ">" => order > 0,
            _ => order >= 0,
        });
    }

    private static bool IsBareWord(Expression expression, Scope scope) => expression is NameExpression { SingleWord: { } word } && scope.FindValue(word) is null;

    // What a group is told by name it knows by its whole name.
    private static WordValue BareWord(Expression expression, Scope scope) => ((NameExpression)expression).SingleWord is var word && scope.FindThing(word!) is { } whole ? new WordValue(whole) : new WordValue(word!);
}
