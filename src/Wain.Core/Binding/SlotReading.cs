using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Binding;

// What fills a slot of a fact, checked against the kind that the slot asks for.
public sealed partial class Evaluator
{
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

    /// <summary>A text in quotes, or one word without them.</summary>
    public string? Text(BoundFact fact, string slot)
    {
        fact.Used = true;
        if (!fact.Slots.TryGetValue(slot, out var text)) return null;
        // A bare word that names no value is itself the text: part_mark R2.
        if (text.Terms[0] is NameExpression { SingleWord: { } word } && fact.Scope.FindValue(word) is null) return word;
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
        if (value is not null) ReportOnce(fact, slot, new Finding(BindingFindings.WrongKind, $"A place of {size} lengths is expected here, such as {(size == 2 ? Say.Such("(14 in, 8 in)", "(350 mm, 200 mm)") : Say.Such("(-20 in, 0 in, 14 in)", "(-500 mm, 0 mm, 350 mm)"))}.", text.Span) { Subject = fact.Path });
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
        if (terms is [ChainExpression { Operands: [MeasureExpression from, MeasureExpression to], Operators: ['-'] }])
        {
            string written = $"{from.Span.Text} to {to.Span.Text}";
            ReportOnce(fact, slot, new Finding(BindingFindings.OutOfRange, $"\"{text.Span.Text}\" is one less the other. A range reads {written}.", text.Span) { Subject = fact.Path, Fixes = [new Fix(text.Span, written, $"write {written}")] });
            return (from.Value, to.Value);
        }
        if (range is ({ } low, { } high) && low.CompareTo(high) > 0)
        {
            var (begin, end) = (terms.Length == 4 ? terms[1].Span : terms[0].Span, terms[^1].Span);
            string turned = end.Text + text.Span.Source.Text[begin.End..end.Start] + begin.Text;
            ReportOnce(fact, slot, new Finding(BindingFindings.OutOfRange, $"The range ends at {end.Text}, below its beginning at {begin.Text}.", text.Span) { Subject = fact.Path, Fixes = [new Fix(begin.To(end), turned, $"write {turned}")] });
            // What was meant is plain, and what is held against it is no second mistake.
            return (high, low);
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
            if (text.Slot.Things.Contains("panel") && Unmirrored(name.Span, fact) is { } unmirrored)
            {
                ReportOnce(fact, slot, unmirrored);
                return null;
            }
            if (OneOfSeveral(name, fact.Scope) is { } several)
            {
                ReportOnce(fact, slot, several with { Subject = fact.Path });
                return null;
            }
            var nearest = Nearest(name.Span.Text, () => NamesOf(text.Slot.Things).Where(n => n != fact.Name));
            ReportOnce(fact, slot, new Finding(BindingFindings.UnknownName, $"There is no {kinds} named \"{name.Span.Text}\".{NearestName.Ask(nearest)}", name.Span) { Subject = fact.Path, Fixes = Fixing.Nearest(name.Span, nearest) });
        }
        else if (!rest.IsEmpty)
        {
            var inner = thing.Body.FirstOrDefault(f => f.Name is not null && f.Shape.NameSlot is not null && ShortName(f) == rest[0] && text.Slot.Things.Contains(f.Keyword));
            if (inner is not null && rest.Length == 1) { inner.Used = true; return inner; }
            var near = Nearest(rest[0], () => thing.Body.Where(f => f.Name is not null && f.Shape.NameSlot is not null && text.Slot.Things.Contains(f.Keyword)).Select(ShortName));
            ReportOnce(fact, slot, new Finding(BindingFindings.UnknownName, $"{thing.Name} has no {kinds} named \"{rest[0]}\".{NearestName.Ask(near)}", name.Span) { Subject = fact.Path, Fixes = rest.Length == 1 ? Fixing.Nearest(name.Span, near) : [] });
        }
        else
        {
            ReportOnce(fact, slot, new Finding(BindingFindings.WrongThing, $"\"{name.Span.Text}\" is {Article.With(thing.Keyword)}, and {Article.With(kinds)} is needed here.", name.Span) { Subject = fact.Path, Related = [new Related(thing.NameSpan, "declared here")] });
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
            if (Unmirrored(name.Parts[0].Name.Span, fact) is { } unmirrored)
            {
                ReportOnce(fact, slot, unmirrored);
                return null;
            }
            if ((KeyOfThing(name, fact) ?? LegAlone(name, fact, slot) ?? OneOfSeveral(name, fact.Scope)) is { } keyed)
            {
                ReportOnce(fact, slot, keyed with { Subject = fact.Path });
                return null;
            }
            var nearest = Nearest(name.Parts[0].Name.Text, () => NamesOf(["plan", "panel", "mirror", "level", "load"]));
            ReportOnce(fact, slot, new Finding(BindingFindings.UnknownName, $"There is nothing named \"{name.Parts[0].Name.Text}\".{NearestName.Ask(nearest)}", name.Span) { Subject = fact.Path, Fixes = Fixing.Nearest(name.Parts[0].Name.Span, nearest) });
            return null;
        }
        thing.Used = true;
        return (thing, rest);
    }

    /// <summary>A key behind a thing for one behind what belongs to it: <c>box[side]</c> is the name <c>box_left</c>, and the leg by key is <c>box.wall[side]</c>.</summary>
    private Finding? KeyOfThing(NameExpression name, BoundFact fact)
    {
        // Loops are unfolded by now: the key stands in the text alone.
        string written = name.Span.Text, made = name.Parts[0].Name.Text;
        if (written.IndexOf('[', StringComparison.Ordinal) is not (> 0 and var bracket) || !written.EndsWith(']') || ThingNamed(written[..bracket].TrimEnd()) is not { Name: { } thing } known) return null;
        string key = written[(bracket + 1)..^1].Trim(), word = made.StartsWith(thing + "_", StringComparison.Ordinal) ? made[(thing.Length + 1)..] : key;
        return new Finding(BindingFindings.UnknownName, $"There is nothing named \"{made}\": a key in square brackets makes part of a name.", name.Span)
        {
            Subject = fact.Path, Hint = $"For a leg or an edge of {thing} by its key let the key end the name of each, such as side_{word}, and write: {thing}.side[{key}]", Related = [new Related(known.NameSpan, $"{thing} is here")],
        };
    }

    /// <summary>A leg without the plan that it belongs to.</summary>
    private Finding? LegAlone(NameExpression name, BoundFact fact, string slot)
    {
        if (name.SingleWord is not { } leg || !fact.Slots.TryGetValue(slot, out var text) || text.Slot.Kind != "leg") return null;
        var plans = NamesOf(["plan"]).Where(p => ThingNamed(p)!.All("leg").Any(l => l.Name == leg)).Order(StringComparer.Ordinal).ToList();
        return plans.Count == 0 ? null : new Finding(BindingFindings.UnknownName, $"There is nothing named \"{leg}\". A leg is named with its plan, such as {plans[0]}.{leg}.", name.Span)
        {
            Fixes = [.. plans.Take(3).Select(p => new Fix(name.Span, $"{p}.{leg}", $"write {p}.{leg}"))],
        };
    }

    /// <summary>A group by the name of its place, or a name with a key behind a point or a wrong one: its parts go by both names with a _ between. Null where no parts are named so.</summary>
    private Finding? OneOfSeveral(NameExpression name, Scope scope)
    {
        var words = WholeName(name, scope);
        if (words.IsDefaultOrEmpty) return null;
        string first = words[0], joined = words.Length > 1 ? $"{first}_{words[1]}" : first;
        string Before(string whole) => whole.LastIndexOf('_') is > 0 and var at ? whole[..at] : whole;
        foreach (string place in (string[])[first, Before(first)])
        {
            var parts = AllNames().Where(n => n.StartsWith(place + "_", StringComparison.Ordinal) && ThingNamed(n)?.Scope.Placed is not null).Order(StringComparer.Ordinal).ToList();
            if (parts.Count == 0 || words.Length == 1 && NearestName.Of(first, AllNames()).Count > 0) continue;
            bool exact = words.Length > 1 && parts.Contains(joined);
            var span = exact ? name.Parts[0].Name.Span.To(name.Parts[1].Name.Span) : name.Parts[0].Name.Span;
            string? meant = exact ? joined : parts is [var only] ? only : NearestName.Of(joined, parts).FirstOrDefault();
            if (meant is not null && !exact && words.Length > 1 && NearestName.Of(joined, [meant]).Count > 0) span = name.Parts[0].Name.Span.To(name.Parts[1].Name.Span);
            string listed = parts.Count > 6 ? $"{string.Join(", ", parts.Take(6))} and {parts.Count - 6} more" : parts.Count == 1 ? parts[0] : $"{string.Join(", ", parts.SkipLast(1))} and {parts[^1]}";
            return new Finding(BindingFindings.UnknownName, $"There is nothing named \"{first}\"; there {(parts.Count == 1 ? "is" : "are")} {listed}.", name.Span)
            {
                Hint = "What a group or a repetition makes goes by the name of its place or its key, with a _ between.", Fixes = meant is null ? [] : [new Fix(span, meant, $"write {meant}")],
            };
        }
        return null;
    }

    /// <summary>The right side of a panel that stands on the left alone, or the other way round: its mirror was forgotten.</summary>
    private Finding? Unmirrored(Span name, BoundFact fact)
    {
        string other = Mirrors.OtherSide(name.Text);
        if (other == name.Text || ThingNamed(other) is not { Keyword: "panel" } original) return null;
        return new Finding(BindingFindings.UnknownName, $"There is no panel named \"{name.Text}\", and nothing mirrors {other}.", name)
        {
            Subject = fact.Path, Hint = $"If it is the same on the other side, write: mirror {other} as {name.Text}", Fixes = [Fixing.After(original, $"mirror {other} as {name.Text}")],
        };
    }

    /// <summary>Set by the binder: the thing of a name.</summary>
    internal Func<string, BoundFact?> ThingNamed { get; set; } = _ => null;

    /// <summary>Set by the binder: all names of things of some kinds, for suggestions.</summary>
    internal Func<IEnumerable<string>, IEnumerable<string>> NamesOf { get; set; } = _ => [];

    internal Func<IEnumerable<string>> AllNames { get; set; } = () => [];

    /// <summary>Set by the binder: true for a name whose declaration could not be read, or that may stand in a file that could not.</summary>
    internal Func<string, bool> MayBeMissing { get; set; } = _ => false;

    /// <summary>Set by the binder: the units that the spec shows.</summary>
    internal Func<Say> Shown { get; set; } = () => Say.Usual;

    internal Say Say => Shown();

    /// <summary>Set by the binder: the rates between currencies that the spec states.</summary>
    internal Func<IEnumerable<BoundFact>> Exchanges { get; set; } = () => [];

    // Each suggestion looks through all names, so a spec with thousands of slips is told no more of them.
    private int _suggestions;

    private IReadOnlyList<string> Nearest(string name, Func<IEnumerable<string>> candidates) => ++_suggestions > 200 ? [] : NearestName.Of(name, candidates());

    public Span SlotSpan(BoundFact fact, string slot) => fact.Slots.TryGetValue(slot, out var text) ? text.Span : fact.HeadSpan;

    private static string ShortName(BoundFact fact) => fact.Name!.Contains('.') ? fact.Name[(fact.Name.LastIndexOf('.') + 1)..] : fact.Name;

    // Bare numbers that are told already.
    private readonly HashSet<Span> _bare = [];

    /// <summary>Where a let that is used as a measure states a bare number.</summary>
    private static ImmutableArray<Related> Bare(BoundFact fact, Expression used) =>
        used is NameExpression { SingleWord: { } word } && fact.Scope.FindValue(word) is { Given: false, Expression: NumberExpression { Span: var number } } ? [new Related(number, $"{word} has no unit")] : [];

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
            ReportOnce(fact, slot, new Finding(BindingFindings.OutOfRange, $"{Capital(KindNames.Words(kind))} is never less than nothing here, and this is {QuantityText.Show(q.Quantity, Requirements.UnitIn(expression))}.", expression.Span) { Subject = fact.Path, Fixes = Fixing.WithoutMinus(expression) });
            return null;
        }
        if (q.Quantity.Value == 0 && KindNames.NeverNothing(kind) && q.Quantity.Dimension == KindNames.Of(kind))
        {
            ReportOnce(fact, slot, new Finding(BindingFindings.OutOfRange, $"{Capital(slot)} of \"{fact.Keyword}\" is nothing here.", expression.Span) { Subject = fact.Path, Hint = "If there are none, take the line out.", Fixes = kind == "some" && expression is NumberExpression ? [new Fix(expression.Span, "1", "write 1 or more"), Fixing.TakeOut(fact)] : [Fixing.TakeOut(fact)] });
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
                ReportOnce(fact, slot, new Finding(BindingFindings.ForceFromMass, $"{expression.Span.Text} is a mass; its weight is taken as the force.", expression.Span) { Subject = fact.Path, Fixes = Fixing.AsForce(expression) });
                return new QuantityValue(Units.Quantity.Multiply(q.Quantity, new Quantity(Rational.Of(980665, 100000)!.Value, Dimension.None), wanted));
            }
            if (wanted == Dimension.OfPressure && q.Quantity.Dimension == Dimension.OfMassPerArea)
            {
                ReportOnce(fact, slot, new Finding(BindingFindings.ForceFromMass, $"{expression.Span.Text} is a mass by area; its weight is taken as the pressure.", expression.Span) { Subject = fact.Path, Fixes = Fixing.AsForce(expression) });
                return new QuantityValue(Units.Quantity.Multiply(q.Quantity, new Quantity(Rational.Of(980665, 100000)!.Value, Dimension.None), wanted));
            }
        }
        string hint = q.Quantity.Dimension.IsNone ? KindNames.Units(kind, Say) is { } units ? $" A bare number has no unit: write {units} after it." : kind == "money" ? " Write the currency after it, such as 42 USD." : ""
            : kind == "money" && q.Quantity.Dimension.Money == 1 ? " Write the price of a whole one, as it is sold." : kind is "density" or "massperarea" or "massperlength" ? $" Its unit is {KindNames.Units(kind, Say)}." : "";
        var bare = Bare(fact, expression);
        // A let without its unit is one mistake, however often it is used.
        if (bare is [var stated] && !_bare.Add(stated.Place)) return null;
        string? number = bare is [var at] ? at.Place.Text : expression is NumberExpression ? expression.Span.Text : null;
        ReportOnce(fact, slot, new Finding(BindingFindings.WrongKind, $"{Capital(KindNames.Words(kind))} is expected here, and this is {q.Quantity.Dimension.Describe()}.{hint}", expression.Span)
        {
            Subject = fact.Path, Related = bare,
            Fixes = number is not null && KindNames.Units(kind, Say) is { } words && $"{number} {words.Split(' ', ',')[0]}" is var measure ? [new Fix(bare is [var place] ? place.Place : expression.Span, measure, $"write {measure}")] : [],
        });
        return null;
    }
}
