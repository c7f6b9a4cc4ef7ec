using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Figures;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Revisions;

/// <summary>
/// Finds the lines of the spec behind a change. The lines of the thing itself come first; only if none of them says something else are those of what
/// it refers to looked at, and so on outward. A line that reads the same and means something else hands on to the named value that it uses.
/// </summary>
internal sealed class Causes
{
    private const int Most = 6;

    private static readonly string[] NotShape = ["money", "date", "text", "density", "mass", "areal_mass", "time"];

    private readonly Compilation _old;
    private readonly Compilation _now;
    private readonly Renames _renames;
    private readonly ILookup<BoundFact, FactChange> _byTop;
    private readonly Dictionary<string, NamedValue> _oldValues;
    private readonly Dictionary<string, string> _back;
    private readonly Dictionary<BoundFact, IReadOnlyList<BoundFact>> _things = [];
    private readonly Dictionary<string, (IReadOnlyList<string> Inputs, IReadOnlyList<FactChange> Facts)> _behind = new(StringComparer.Ordinal);

    public Causes(Compilation old, Compilation now, Renames renames, List<FactChange> changes)
    {
        (_old, _now, _renames) = (old, now, renames);
        All = changes;
        _back = renames.All.ToDictionary(r => r.Value, r => r.Key, StringComparer.Ordinal);
        _byTop = changes.SelectMany(c => new[] { c.Old, c.New }.OfType<BoundFact>().Select(f => (Top: FactChange.TopOf(f), Change: c))).ToLookup(x => x.Top, x => x.Change);
        _oldValues = old.Spec.NamedValues.GroupBy(v => v.Scope.Prefix + v.Name, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
    }

    public List<FactChange> All { get; }

    /// <summary>Lines behind a change of a thing.</summary>
    /// <param name="shape">True to leave out what can't change a shape or a place, such as prices.</param>
    public ImmutableArray<Cause> Of(BoundFact? old, BoundFact? now, bool shape)
    {
        var seen = new HashSet<BoundFact>();
        var ring = new List<(Spec Spec, BoundFact Fact)>();
        if (now is not null && seen.Add(FactChange.TopOf(now))) ring.Add((_now.Spec, FactChange.TopOf(now)));
        if (old is not null && seen.Add(FactChange.TopOf(old))) ring.Add((_old.Spec, FactChange.TopOf(old)));
        while (ring.Count > 0)
        {
            var changes = ring.SelectMany(r => _byTop[r.Fact]).Distinct().Where(c => !shape || c.Slots.Count == 0 || !c.Slots.All(NotShape.Contains)).ToList();
            if (changes.Count > 0) return Lines(changes);
            ring = [.. ring.SelectMany(r => Things(r.Spec, r.Fact).Where(seen.Add).Select(t => (r.Spec, t)))];
        }
        // A change that reaches a thing by another way, such as a mirror that is no more, still has its lines.
        return Lines(All.Where(c => !shape || c.Slots.Count == 0 || !c.Slots.All(NotShape.Contains)));
    }

    /// <summary>Named values that come to something else, wherever they are used; for a side that can't be placed.</summary>
    public IEnumerable<Cause> ChangedValues()
    {
        foreach (var value in _now.Spec.NamedValues)
            if (_oldValues.TryGetValue(value.Scope.Prefix + value.Name, out var was) && IsOther(was, value)) yield return new Cause(value.Name, Line(was.Origin), Line(value.Origin));
    }

    /// <summary>Lines of the changed values that a fact or its block uses.</summary>
    public ImmutableArray<Cause> ChangedValuesOf(BoundFact fact)
    {
        var lines = ImmutableArray.CreateBuilder<Cause>();
        var open = new Stack<BoundFact>([fact]);
        while (open.TryPop(out var next))
        {
            foreach (var inner in next.Body) open.Push(inner);
            foreach (var value in References.ValuesOf(next).Values)
                if (_oldValues.TryGetValue(value.Scope.Prefix + value.Name, out var was) && IsOther(was, value)) lines.Add(new Cause(value.Name, Line(was.Origin), Line(value.Origin)));
        }
        return [.. lines.Distinct().Take(Most)];
    }

    private bool IsOther(NamedValue was, NamedValue value) =>
        was.Expression is not null && value.Expression is not null && FactContent.Even(was.Expression.Span.Text) != FactContent.Even(value.Expression.Span.Text) && !SameValue(was, value);

    /// <summary>Lines behind a figure, by way of the figures that it comes from.</summary>
    public ImmutableArray<Cause> OfFigure(string name)
    {
        if (_now.Design is null || _old.Design is null) return [];
        var changes = new List<FactChange>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var open = new Queue<string>([name]);
        while (open.TryDequeue(out string? next))
        {
            if (!seen.Add(next) || seen.Count > 5000) continue;
            var (inputs, facts) = BehindFigure(next);
            foreach (string input in inputs) open.Enqueue(input);
            foreach (var fact in facts) if (!changes.Contains(fact)) changes.Add(fact);
        }
        return Lines(changes.Count > 0 ? changes : All.Where(c => FactChange.TopOf((c.New ?? c.Old)!).Keyword is "camper" or "default").ToList() is { Count: > 0 } settings ? settings : All.Where(c => c.Slots.Count == 0 || !c.Slots.All(k => k is "text" or "date")));
    }

    /// <summary>One step back from a figure: the inputs that differ, or, where none does, the changed facts near the thing that it belongs to. Many figures come by the same ones.</summary>
    private (IReadOnlyList<string> Inputs, IReadOnlyList<FactChange> Facts) BehindFigure(string name)
    {
        if (!_behind.TryGetValue(name, out var behind)) _behind[name] = behind = Find();
        return behind;

        (IReadOnlyList<string>, IReadOnlyList<FactChange>) Find()
        {
            var (a, b) = (FigureBefore(name), _now.Design!.Figures.Find(name));
            if (a is not null && IsSame(a, b)) return ([], []);
            var inputs = (b?.Inputs ?? []).Concat((a?.Inputs ?? []).Select(NowName)).Distinct(StringComparer.Ordinal).Where(i => !IsSame(FigureBefore(i), _now.Design.Figures.Find(i))).ToList();
            if (inputs.Count > 0) return (inputs, []);
            string top = name.Split('.')[0];
            return ([], [.. ChangesNear(_old.Spec.Find(_back.GetValueOrDefault(top, top)), _now.Spec.Find(top))]);
        }
    }

    private Figure? FigureBefore(string name) => _old.Design!.Figures.Find(OldName(name));

    private IEnumerable<FactChange> ChangesNear(BoundFact? old, BoundFact? now)
    {
        var seen = new HashSet<BoundFact>();
        var ring = new[] { (_now.Spec, now), (_old.Spec, old) }.Where(r => r.Item2 is not null).Select(r => (r.Spec, Fact: FactChange.TopOf(r.Item2!))).Where(r => seen.Add(r.Fact)).ToList();
        while (ring.Count > 0)
        {
            var changes = ring.SelectMany(r => _byTop[r.Fact]).Distinct().ToList();
            if (changes.Count > 0) return changes;
            ring = [.. ring.SelectMany(r => Things(r.Spec, r.Fact).Where(seen.Add).Select(t => (r.Spec, t)))];
        }
        return [];
    }

    private static bool IsSame(Figure? a, Figure? b) => a is null ? b is null : b is not null && a.Value.CompareTo(b.Value) == 0 && Same(a.Low, b.Low) && Same(a.High, b.High);

    private static bool Same(Units.Quantity? a, Units.Quantity? b) => a is null ? b is null : b is not null && a.Value.CompareTo(b.Value) == 0;

    private string OldName(string name)
    {
        if (_back.Count == 0) return name;
        string top = name.Split('.')[0];
        return _back.TryGetValue(top, out string? was) ? was + name[top.Length..] : name;
    }

    private string NowName(string name)
    {
        if (_back.Count == 0) return name;
        string top = name.Split('.')[0];
        return _renames.Now(top) + name[top.Length..];
    }

    private IReadOnlyList<BoundFact> Things(Spec spec, BoundFact fact)
    {
        if (!_things.TryGetValue(fact, out var things)) _things[fact] = things = [.. References.ThingsOf(spec, fact)];
        return things;
    }

    /// <summary>The lines of some changed facts, or of the named values behind them.</summary>
    public ImmutableArray<Cause> Lines(IEnumerable<FactChange> changes, int most = Most)
    {
        var lines = changes.SelectMany(c => Of(c, [])).Distinct().ToList();
        // Lines that read the same are told only where no other is behind the change.
        var others = lines.Where(c => c.Old?.Text != c.New?.Text).ToList();
        return [.. (others.Count > 0 ? others : lines).Take(most)];
    }

    private IEnumerable<Cause> Of(FactChange change, HashSet<FactChange> seen)
    {
        if (!seen.Add(change)) yield break;
        if (change.Old is not { } old || change.New is not { } now)
        {
            yield return new Cause(change.Path, change.Old is { } o ? Line(o.Span) : null, change.New is { } n ? Line(n.Span) : null);
            yield break;
        }
        bool reads = Head(old) != Head(now);
        if (reads) yield return new Cause(change.Path, Line(old.Span), Line(now.Span));
        bool found = false;
        var (values, functions) = References.ValuesOf(now);
        // What a group is given and the values of a loop are of this place alone, so they are looked for in the same line of before.
        var own = References.ValuesOf(old).Values;
        foreach (var value in values)
        {
            var was = own.Find(v => v.Name == value.Name) ?? _oldValues.GetValueOrDefault(value.Scope.Prefix + value.Name);
            if (was is null || !IsOther(was, value)) continue;
            found = true;
            yield return new Cause(value.Name, Line(was.Origin), Line(value.Origin));
        }
        foreach (var function in functions)
        {
            var was = _old.Spec.Functions.FirstOrDefault(f => f.Syntax.Name.Text == function.Syntax.Name.Text);
            if (was is null || FactContent.Even(was.Syntax.Span.Text) == FactContent.Even(function.Syntax.Span.Text)) continue;
            found = true;
            yield return new Cause(function.Syntax.Name.Text, Line(was.Syntax.Span), Line(function.Syntax.Span));
        }
        if (reads || found) yield break;
        // The line reads the same and speaks of a thing that is another now, such as the top of a panel that moved: that thing's lines are behind it.
        foreach (var thing in References.ThingsOf(_now.Spec, now))
        {
            if (thing == FactChange.TopOf(now)) continue;
            foreach (var cause in _byTop[thing].SelectMany(c => Of(c, seen)))
            {
                found = true;
                yield return cause;
            }
        }
        if (found) yield break;
        yield return Between(change.Path, old, now);
    }

    /// <summary>The lines of two facts. Where one of many, by a group or a loop, reads the same, those that place it may say something else, such as another name.</summary>
    public static Cause Between(string subject, BoundFact old, BoundFact now)
    {
        var own = new Cause(subject, Line(old.Span), Line(now.Span));
        return own.Old!.Text != own.New!.Text ? own
            : Placings(old.Scope).Zip(Placings(now.Scope)).Select(p => new Cause(subject, Line(p.First), Line(p.Second))).FirstOrDefault(c => c.Old!.Text != c.New!.Text) ?? own;
    }

    private static IEnumerable<Span> Placings(Scope? scope)
    {
        for (; scope is not null; scope = scope.Outer) if (scope.Placed is { } at) yield return at;
    }

    private bool SameValue(NamedValue a, NamedValue b) =>
        (_old.Spec.Evaluator.ValueOf(a), _now.Spec.Evaluator.ValueOf(b)) switch
        {
            (QuantityValue x, QuantityValue y) => x.Quantity.Dimension == y.Quantity.Dimension && x.Quantity.CompareTo(y.Quantity) == 0,
            var (x, y) => Equals(x, y),
        };

    private static string Head(BoundFact fact) => fact.Keyword + " " + string.Join(' ', fact.Syntax.Clauses.SelectMany(c => c).Select(e => FactContent.Even(e.Span.Text)));

    public static SpecLine Line(Span span) => new(span.Source.Path, span.Line, FactContent.Even(span.Source.Line(span.Line)));
}
