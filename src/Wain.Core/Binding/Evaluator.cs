using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Wain.Core.Findings;
using Wain.Core.Language;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Binding;

/// <summary>Answers for the figures that later passes compute: <c>floor.top</c>, <c>rear_wall.area</c>, <c>total.weight</c>.</summary>
/// <param name="thing">What the first word names, or null if it is a word such as <c>total</c>.</param>
/// <param name="path">The words after it, or the whole path if there is no thing.</param>
/// <returns>The value; null if this source knows no such figure. A figure that it knows but could not compute is reported by the source.</returns>
public delegate (bool Known, Value? Value) FigureSource(BoundFact? thing, ImmutableArray<string> path, Span at);

/// <summary>
/// Evaluates expressions when they are asked for, each named value once, and finds circles with their whole chain. One of these lives as long as
/// one compilation; passes add the figures that they compute.
/// </summary>
public sealed class Evaluator
{
    /// <summary>Functions may call functions this deep. A figure may depend on figures far deeper than that.</summary>
    public const int CallDepthLimit = 200;

    private readonly Action<Finding> _report;
    private readonly Func<string, BoundFact?> _find;
    private readonly List<FigureSource> _sources = [];
    private readonly List<(string Name, Span Place)> _chain = [];
    private int _callDepth;
    private int _depth;
    private long _steps;

    internal Evaluator(Func<string, BoundFact?> find, Action<Finding> report)
    {
        _find = find;
        _report = report;
    }

    /// <summary>More evaluation steps than this end the run with an error.</summary>
    public long StepLimit { get; init; } = 5_000_000;

    /// <summary>True while declarations unfold, when no figure of a panel is known yet.</summary>
    internal bool Unfolding { get; set; }

    /// <summary>True if the panels were not placed, so that any figure of them is unknown and none is told as missing.</summary>
    internal bool FiguresUnknown { get; set; }

    public void AddSource(FigureSource source) => _sources.Add(source);

    public void Report(Finding finding) => _report(finding);

    // ---- reading slots -------------------------------------------------------------------------------------------------------------

    /// <summary>The quantity in a slot, checked against the slot's kind; null if the slot is empty or wrong (then it is reported, once).</summary>
    public Quantity? Quantity(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text)) return null;
        return Memo(fact, slot, () => QuantityOf(text.Terms[0], text.Slot.Kind, fact, slot)) is QuantityValue q ? q.Quantity : null;
    }

    /// <summary>A length in millimetres.</summary>
    public double? Length(BoundFact fact, string slot) => Quantity(fact, slot)?.Millimetres;

    /// <summary>An angle in radians.</summary>
    public double? Angle(BoundFact fact, string slot) => Quantity(fact, slot)?.Radians;

    /// <summary>A bare number, or any quantity in base units.</summary>
    public double? Number(BoundFact fact, string slot) => Quantity(fact, slot)?.Value;

    public string? Text(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text)) return null;
        return text.Terms[0] is TextExpression t ? t.Value : Memo(fact, slot, () => Evaluate(text.Terms[0], fact.Scope)) switch
        {
            TextValue v => v.Text,
            WordValue w => w.Word,
            _ => null,
        };
    }

    public DateOnly? Date(BoundFact fact, string slot)
    {
        fact.Used = true;
        return fact.Slots.TryGetValue(slot, out var text) && text.Terms[0] is DateExpression d ? d.Value : null;
    }

    /// <summary>A place in millimetres, of two or three coordinates.</summary>
    public ImmutableArray<double>? Place(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text)) return null;
        var value = Memo(fact, slot, () => Evaluate(text.Terms[0], fact.Scope));
        int size = text.Slot.Kind == "place2" ? 2 : 3;
        if (value is PlaceValue place && place.Items.Length == size && place.Items.All(i => i.Dimension == Dimension.OfLength)) return [.. place.Items.Select(i => i.Millimetres)];
        if (value is not null) ReportOnce(fact, slot, new Finding(BindingFindings.WrongKind, $"A place of {size} lengths is expected here, such as {(size == 2 ? "(14 in, 8 in)" : "(-20 in, 0 in, 14 in)")}.", text.Span) { Subject = fact.Path });
        return null;
    }

    /// <summary>A range: either end may be open.</summary>
    public (Quantity? Low, Quantity? High)? Bounds(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text)) return null;
        var terms = text.Terms;
        string? first = terms[0] is NameExpression n ? n.SingleWord : null;
        Quantity? Read(int i, string key) => Memo(fact, slot + key, () => QuantityOf(terms[i], text.Slot.Kind, fact, slot)) is QuantityValue q ? q.Quantity : null;
        (Quantity?, Quantity?) range = (first, terms.Length) switch
        {
            ("at", 3) when ((NameExpression)terms[1]).SingleWord == "least" => (Read(2, ".low"), null),
            ("at" or "up", 3) => (null, Read(2, ".high")),
            ("between" or "from", 4) => (Read(1, ".low"), Read(3, ".high")),
            (_, 3) => (Read(0, ".low"), Read(2, ".high")),
            _ => (Read(0, ".low"), Read(0, ".low")),
        };
        if (range is ({ } low, { } high) && low.CompareTo(high) > 0)
        {
            ReportOnce(fact, slot, new Finding(BindingFindings.OutOfRange, "The range ends below its beginning.", text.Span) { Subject = fact.Path });
        }
        return range;
    }

    /// <summary>Several lengths in millimetres; for lap depths, empty means half.</summary>
    public ImmutableArray<double> Lengths(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text)) return [];
        var lengths = ImmutableArray.CreateBuilder<double>();
        for (int i = 0; i < text.Terms.Length; i++)
        {
            if (text.Terms[i] is NameExpression { SingleWord: "and" or "half" }) continue;
            int index = i;
            if (Memo(fact, $"{slot}.{i}", () => QuantityOf(text.Terms[index], text.Slot.Kind, fact, slot)) is QuantityValue q) lengths.Add(q.Quantity.Millimetres);
        }
        return lengths.ToImmutable();
    }

    /// <summary>The thing that a slot names, of one of the kinds that it takes.</summary>
    public BoundFact? Thing(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text) || text.Terms[0] is not NameExpression name) return null;
        var thing = FindThing(name, fact.Scope, out var rest);
        if (thing is not null && rest.IsEmpty && text.Slot.Things.Contains(thing.Keyword)) { thing.Used = true; return thing; }
        if (thing is not null && rest.IsEmpty && thing.Keyword == "mirror" && text.Slot.Things.Contains(thing.MirrorOf?.Keyword ?? "")) return thing;
        string kinds = string.Join(" or ", text.Slot.Things);
        if (thing is null)
        {
            if (MayBeMissing(name.Parts[0].Name.Text)) return null;
            var nearest = Nearest(name.Span.Text, () => NamesOf(text.Slot.Things));
            ReportOnce(fact, slot, new Finding(BindingFindings.UnknownName, $"There is no {kinds} named \"{name.Span.Text}\".{NearestName.Ask(nearest)}", name.Span) { Subject = fact.Path, Fixes = [.. nearest.Take(1).Select(n => new Fix(name.Span, n, $"write {n}"))] });
        }
        else if (!rest.IsEmpty)
        {
            var inner = thing.Body.FirstOrDefault(f => f.Name is not null && f.Shape.NameSlot is not null && ShortName(f) == rest[0] && text.Slot.Things.Contains(f.Keyword));
            if (inner is not null && rest.Length == 1) { inner.Used = true; return inner; }
            ReportOnce(fact, slot, new Finding(BindingFindings.UnknownName, $"{thing.Name} has no {kinds} named \"{rest[0]}\".", name.Span) { Subject = fact.Path });
        }
        else
        {
            ReportOnce(fact, slot, new Finding(BindingFindings.WrongThing, $"\"{name.Span.Text}\" is a {thing.Keyword}, and a {kinds} is needed here.", name.Span) { Subject = fact.Path, Related = [new Related(thing.NameSpan, "declared here")] });
        }
        return null;
    }

    /// <summary>A thing and the words after it, for slots such as <c>bunk.left_nose</c> and <c>floor.top</c>.</summary>
    public (BoundFact Thing, ImmutableArray<string> Words)? PathOf(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text) || text.Terms[0] is not NameExpression name) return null;
        var thing = FindThing(name, fact.Scope, out var rest);
        if (thing is null)
        {
            if (MayBeMissing(name.Parts[0].Name.Text)) return null;
            var nearest = Nearest(name.Parts[0].Name.Text, () => NamesOf(["plan", "panel", "mirror", "level", "load"]));
            ReportOnce(fact, slot, new Finding(BindingFindings.UnknownName, $"There is nothing named \"{name.Parts[0].Name.Text}\".{NearestName.Ask(nearest)}", name.Span) { Subject = fact.Path });
            return null;
        }
        thing.Used = true;
        return (thing, rest);
    }

    /// <summary>Set by the binder: all names of things of some kinds, for suggestions.</summary>
    internal Func<IEnumerable<string>, IEnumerable<string>> NamesOf { get; set; } = _ => [];

    internal Func<IEnumerable<string>> AllNames { get; set; } = () => [];

    /// <summary>Set by the binder: true for a name whose declaration could not be read, or that may stand in a file that could not.</summary>
    internal Func<string, bool> MayBeMissing { get; set; } = _ => false;

    /// <summary>Set by the binder: the rates between currencies that the spec states.</summary>
    internal Func<IEnumerable<BoundFact>> Exchanges { get; set; } = () => [];

    // Each suggestion looks through all names, so a spec with thousands of slips is told no more of them.
    private int _suggestions;

    private IReadOnlyList<string> Nearest(string name, Func<IEnumerable<string>> candidates) => ++_suggestions > 200 ? [] : NearestName.Of(name, candidates());

    public Span SlotSpan(BoundFact fact, string slot) => fact.Slots.TryGetValue(slot, out var text) ? text.Span : fact.HeadSpan;

    private static string ShortName(BoundFact fact) => fact.Name!.Contains('.') ? fact.Name[(fact.Name.LastIndexOf('.') + 1)..] : fact.Name;

    // ---- memory, circles -----------------------------------------------------------------------------------------------------------

    private readonly Dictionary<(BoundFact, string), Value?> _memo = [];
    private readonly HashSet<(BoundFact, string)> _reported = [];
    private readonly HashSet<(BoundFact, string)> _busy = [];

    private void ReportOnce(BoundFact fact, string slot, Finding finding)
    {
        if (_reported.Add((fact, slot))) _report(finding);
    }

    private Value? Memo(BoundFact fact, string slot, Func<Value?> compute)
    {
        var key = (fact, slot);
        if (_memo.TryGetValue(key, out var known)) return known;
        if (!_busy.Add(key))
        {
            ReportCircle($"{fact.Path}.{slot}", SlotSpan(fact, slot));
            return null;
        }
        var value = Within($"{fact.Path} ({slot})", SlotSpan(fact, slot), compute);
        _busy.Remove(key);
        _memo[key] = value;
        return value;
    }

    /// <summary>
    /// Computes a named figure as a step of the chain that circles are told by. A pass that computes figures on demand wraps each in this and keeps the
    /// result itself. Goes on with a fresh stack when this one runs short, so that a long chain of figures is no danger.
    /// </summary>
    public T Within<T>(string name, Span place, Func<T> compute)
    {
        _chain.Add((name, place));
        try { return DeepStack.Run(compute); }
        finally
        {
            _chain.RemoveAt(_chain.Count - 1);
        }
    }

    /// <summary>Tells a circle, from the place where the name was first asked for, with the whole chain.</summary>
    public void ReportCircle(string name, Span place)
    {
        int start = _chain.FindLastIndex(c => c.Place == place);
        if (start < 0) start = _chain.FindLastIndex(c => c.Name == name);
        if (start < 0) start = 0;
        var chain = _chain.Skip(start).ToList();
        // A circle of thousands is told by its two ends.
        var names = chain.Select(c => c.Name).ToList();
        if (names.Count > 60) names = [.. names.Take(40), $"{names.Count - 50} more", .. names.TakeLast(10)];
        string told = string.Join(", which needs ", names) + $", which needs {(chain.Count > 0 ? chain[0].Name : name)}";
        var finding = new Finding(BindingFindings.Circle, $"A circle: {told}.", place) { Related = [.. chain.Where(c => c.Place != place).Take(20).Select(c => new Related(c.Place, $"{c.Name} is here"))] };
        _report(finding);
    }

    // ---- expressions ---------------------------------------------------------------------------------------------------------------

    private Value? QuantityOf(Expression expression, string kind, BoundFact fact, string slot)
    {
        var value = Evaluate(expression, fact.Scope);
        if (value is null) return null;
        if (value is not QuantityValue q)
        {
            ReportOnce(fact, slot, new Finding(BindingFindings.WrongKind, $"{Capital(KindNames.Words(kind))} is expected here, and this is {Describe(value)}.", expression.Span) { Subject = fact.Path });
            return null;
        }
        if (q.Quantity.Value < 0 && KindNames.NeverNegative(kind))
        {
            ReportOnce(fact, slot, new Finding(BindingFindings.OutOfRange, $"{Capital(KindNames.Words(kind))} is never less than nothing here, and this is {QuantityText.Show(q.Quantity)}.", expression.Span) { Subject = fact.Path });
            return null;
        }
        if (kind == "same")
        {
            var main = fact.Shape.Slots.First(s => s.Kind is not ("same" or "text"));
            kind = main.Kind;
        }
        if (kind == "any") return value;
        if (kind == "money")
        {
            if (q.Quantity.Dimension.Money == 1 && q.Quantity.Dimension == Dimension.OfMoney(q.Quantity.Dimension.Currency!)) return value;
        }
        else if (KindNames.Of(kind) is { } wanted)
        {
            if (q.Quantity.Dimension == wanted) return value;
            if (wanted == Dimension.OfForce && q.Quantity.Dimension == Dimension.OfMass)
            {
                ReportOnce(fact, slot, new Finding(BindingFindings.ForceFromMass, $"{expression.Span.Text} is a mass; its weight is taken as the force.", expression.Span) { Subject = fact.Path });
                return new QuantityValue(Units.Quantity.Multiply(q.Quantity, new Quantity(Rational.Of(980665, 100000)!.Value, Dimension.None), wanted));
            }
            if (wanted == Dimension.OfPressure && q.Quantity.Dimension == Dimension.OfMassPerArea)
            {
                ReportOnce(fact, slot, new Finding(BindingFindings.ForceFromMass, $"{expression.Span.Text} is a mass by area; its weight is taken as the pressure.", expression.Span) { Subject = fact.Path });
                return new QuantityValue(Units.Quantity.Multiply(q.Quantity, new Quantity(Rational.Of(980665, 100000)!.Value, Dimension.None), wanted));
            }
        }
        string hint = q.Quantity.Dimension.IsNone && KindNames.Of(kind) == Dimension.OfLength ? " A bare number has no unit: write in, ft or mm after it." : "";
        ReportOnce(fact, slot, new Finding(BindingFindings.WrongKind, $"{Capital(KindNames.Words(kind))} is expected here, and this is {q.Quantity.Dimension.Describe()}.{hint}", expression.Span) { Subject = fact.Path });
        return null;
    }

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
                _report(new Finding(BindingFindings.WrongKind, "A condition is expected here, such as width > 60 in.", expression.Span));
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
        // side == left: the key of a loop against a word that stands for itself.
        var left = IsBareWord(compare.Left, scope) ? null : Evaluate(compare.Left, scope);
        var right = left is WordValue or TextValue && IsBareWord(compare.Right, scope) ? new WordValue(((NameExpression)compare.Right).SingleWord!) : Evaluate(compare.Right, scope);
        if (IsBareWord(compare.Left, scope)) left = right is WordValue or TextValue ? new WordValue(((NameExpression)compare.Left).SingleWord!) : Evaluate(compare.Left, scope);
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

    private static bool IsBareWord(Expression expression, Scope scope) => expression is NameExpression { SingleWord: { } word } && scope.FindValue(word) is null && scope.FindThing(word) is null;

    /// <summary>The name in a scope of what a key of a loop stands for: no name that a spec can spell.</summary>
    internal static string KeyValueName(string key) => key + ".value";

    private Value? Name(NameExpression name, Scope scope)
    {
        if (name.SingleWord is { } word && scope.FindValue(word) is { } value) return ValueOf(value);
        // A key of a loop may carry a value of its own: shelf.value.
        if (name.Parts is [{ Keys.IsEmpty: true } key, { Name.Text: "value", Keys.IsEmpty: true }] && scope.FindValue(KeyValueName(key.Name.Text)) is { } carried) return ValueOf(carried);
        var thing = FindThing(name, scope, out var rest);
        var path = thing is null ? WholeName(name, scope) : rest;
        if (path.IsDefault) return null;
        if (Unfolding && thing is not null)
        {
            if (!thing.Conditional && thing.Shape.Body is not null && path.Length > 0 && FactFigure(thing, path) is { } early) return early;
            _report(new Finding(BindingFindings.Depends, $"\"{name.Span.Text}\" is known only after the panels are placed, and this decides which panels there are.", name.Span));
            return null;
        }
        foreach (var source in _sources)
        {
            var (known, found) = source(thing, path, name.Span);
            if (known) return found;
        }
        if (thing is not null && FactFigure(thing, path) is { } stated) return stated;
        if (FiguresUnknown && (thing is not null || path.Length > 1)) return null;
        if (thing is not null)
        {
            _report(new Finding(BindingFindings.UnknownName, path.IsEmpty ? $"\"{name.Span.Text}\" is a {thing.Keyword}, not a number." : $"{thing.Name} has no figure named \"{string.Join('.', path)}\".", name.Span));
            return null;
        }
        if (MayBeMissing(name.Parts[0].Name.Text)) return null;
        var nearest = Nearest(name.Parts[0].Name.Text, () => AllNames().Concat(NamesInScope(scope)));
        _report(new Finding(BindingFindings.UnknownName, $"There is nothing named \"{name.Parts[0].Name.Text}\".{NearestName.Ask(nearest)}", name.Span) { Fixes = name.Parts.Length == 1 ? [.. nearest.Take(1).Select(n => new Fix(name.Span, n, $"write {n}"))] : [] });
        return null;
    }

    /// <summary>A figure that is a fact of the thing itself: <c>truck.cargo_rating</c>, <c>ply.size.width</c>.</summary>
    private Value? FactFigure(BoundFact thing, ImmutableArray<string> path)
    {
        var fact = thing;
        int i = 0;
        while (i < path.Length && fact.Body.FirstOrDefault(f => (f.Name is not null ? ShortName(f) : f.Keyword) == path[i]) is { } inner)
        {
            fact = inner;
            i++;
        }
        if (fact == thing && !path.IsEmpty && thing.MirrorOf is { } original) return FactFigure(original, path);
        if (fact == thing && path.IsEmpty) return thing.Keyword == "level" ? Memo(thing, "at", () => QuantityOf(thing.Slots.All[^1].Terms[0], "level", thing, "at")) : null;
        var slot = i == path.Length ? fact.Shape.Slots.FirstOrDefault(s => fact.Slots.ContainsKey(s.Name) && s.Kind is not "new") : i == path.Length - 1 ? fact.Shape.Slots.FirstOrDefault(s => s.Name == path[i]) : null;
        if (slot is null || !fact.Slots.TryGetValue(slot.Name, out var text)) return null;
        fact.Used = true;
        if (KindNames.Of(slot.Kind) is null && slot.Kind is not ("money" or "any" or "same"))
        {
            return slot.Kind == "text" || !slot.Choices.IsEmpty || slot.Kind == "word" ? new WordValue(fact.Word(slot.Name) ?? Text(fact, slot.Name) ?? "") : null;
        }
        return Memo(fact, slot.Name, () => QuantityOf(text.Terms[0], slot.Kind, fact, slot.Name));
    }

    internal Value? ValueOf(NamedValue named)
    {
        named.Used = true;
        if (named.Done) return named.Value;
        if (named.Expression is null) return named.Value;
        if (_busyValues.Contains(named))
        {
            ReportCircle(named.Name, named.Place);
            return null;
        }
        _busyValues.Add(named);
        named.Value = Within(named.Name, named.Place, () => Evaluate(named.Expression, named.Scope));
        _busyValues.Remove(named);
        named.Done = true;
        return named.Value;
    }

    private readonly HashSet<NamedValue> _busyValues = [];

    private static IEnumerable<string> NamesInScope(Scope scope)
    {
        for (var s = scope; s is not null; s = s.Outer!) foreach (var name in s.Values.Keys) yield return name;
    }

    /// <summary>The thing that a path begins with, and the words after it. Keys in square brackets are joined with underscores.</summary>
    internal BoundFact? FindThing(NameExpression name, Scope scope, out ImmutableArray<string> rest)
    {
        var words = WholeName(name, scope);
        rest = [];
        if (words.IsDefaultOrEmpty) return null;
        string? whole = scope.FindThing(words[0]);
        if (whole is null || _find(whole) is not { } thing) return null;
        thing.Referenced = true;
        rest = words.RemoveAt(0);
        return thing;
    }

    /// <summary>The words of a path with the keys of loops filled in; default if a key is no word.</summary>
    internal ImmutableArray<string> WholeName(NameExpression name, Scope scope)
    {
        var words = ImmutableArray.CreateBuilder<string>(name.Parts.Length);
        foreach (var part in name.Parts)
        {
            string text = part.Name.Text;
            if (words.Count == 0 && part.Keys.IsEmpty && scope.FindValue(text) is { } key && key.Word is { } whole)
            {
                key.Used = true;
                text = whole;
            }
            foreach (var k in part.Keys)
            {
                switch (scope.FindValue(k.Text) is { } value ? ValueOf(value) : null)
                {
                    case WordValue word: text += "_" + word.Word; break;
                    case QuantityValue q when q.Quantity.Dimension.IsNone && q.Quantity.Exact is { Denominator: var d } exact && d == 1: text += "_" + exact; break;
                    default:
                        _report(new Finding(BindingFindings.UnknownName, $"\"{k.Text}\" is not the key of a loop or the word of a parameter.", k.Span));
                        return default;
                }
            }
            words.Add(text);
        }
        return words.ToImmutable();
    }

    private Value? Call(CallExpression call, Scope scope)
    {
        var arguments = ImmutableArray.CreateBuilder<Value>();
        if (scope.FindFunction(call.Name.Text) is { } function)
        {
            function.Used = true;
            var parameters = function.Syntax.Parameters;
            var (values, wrong) = Arguments.Match(call.Name.Text, parameters, call.Arguments);
            if (wrong is not null)
            {
                _report(new Finding(BindingFindings.Call, wrong, call.Span) { Related = [new Related(function.Syntax.Name.Span, "defined here")] });
                return null;
            }
            if (_callDepth >= CallDepthLimit)
            {
                _report(new Finding(BindingFindings.TooLong, $"Functions call functions more than {CallDepthLimit} deep; {call.Name.Text} may call itself.", call.Span));
                return null;
            }
            var inner = new Scope(function.Scope, function.Scope.Prefix);
            for (int i = 0; i < parameters.Length; i++)
            {
                if (Evaluate(values[i], scope) is not { } value) return null;
                inner.Values[parameters[i].Text] = new NamedValue(parameters[i].Text, parameters[i].Span, null, inner) { Value = value, Done = true, Used = true };
            }
            _callDepth++;
            try { return Within(call.Name.Text, call.Span, () => Evaluate(function.Syntax.Value, inner)); }
            finally { _callDepth--; }
        }
        foreach (var argument in call.Arguments)
        {
            if (argument.Name is { } named)
            {
                _report(new Finding(BindingFindings.Call, $"The values of {call.Name.Text} have no names; leave out \"{named.Text} =\".", named.Span));
                return null;
            }
            if (Evaluate(argument.Value, scope) is not { } value) return null;
            arguments.Add(value);
        }
        var (known, result, problem) = BuiltInFunctions.Call(call.Name.Text, arguments.ToImmutable());
        if (!known)
        {
            if (MayBeMissing(call.Name.Text)) return null;
            var nearest = NearestName.Of(call.Name.Text, BuiltInFunctions.Names.Concat(FunctionsInScope(scope)));
            _report(new Finding(BindingFindings.Call, $"There is no function named \"{call.Name.Text}\".{NearestName.Ask(nearest)} If a place was meant, put a blank before the bracket.", call.Name.Span));
        }
        else if (problem is not null) _report(new Finding(BindingFindings.Call, problem, call.Span));
        else if (result is QuantityValue { Quantity.IsFinite: false })
        {
            _report(new Finding(BindingFindings.Overflow, "This grows too large to be held.", call.Span));
            return null;
        }
        return result;
    }

    private static IEnumerable<string> FunctionsInScope(Scope scope)
    {
        for (var s = scope; s is not null; s = s.Outer!) foreach (var name in s.Functions.Keys) yield return name;
    }

    internal static string Count(int n, string noun) => n == 1 ? $"one {noun}" : $"{n} {noun}s";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
