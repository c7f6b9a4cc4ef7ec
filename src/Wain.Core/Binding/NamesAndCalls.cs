using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Binding;

// What a name stands for, and what a call gives.
public sealed partial class Evaluator
{
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
            var alike = path.IsEmpty ? [] : Nearest($"{thing.Name}.{string.Join('.', path)}", () => FigureNames().Where(f => f.StartsWith(thing.Name + ".", StringComparison.Ordinal)));
            string? written = alike.Count > 0 && scope.NameFor(thing.Name!) is { } own ? own + alike[0][thing.Name!.Length..] : null;
            _report(new Finding(BindingFindings.UnknownName, path.IsEmpty ? $"\"{name.Span.Text}\" is {Article.With(thing.Keyword)}, not a number." : $"{thing.Name} has no figure named \"{string.Join('.', path)}\".{NearestName.Ask(alike)}", name.Span) { Fixes = written is null ? [] : [new Fix(name.Span, written, $"write {written}")] });
            return null;
        }
        if (MayBeMissing(name.Parts[0].Name.Text)) return null;
        if (OneOfSeveral(name, scope) is { } several)
        {
            _report(several);
            return null;
        }
        var near = name.Parts.Length > 1 ? Nearest(string.Join('.', path), FigureNames) : [];
        if (near.Count > 0)
        {
            _report(new Finding(BindingFindings.UnknownName, $"There is no figure named \"{name.Span.Text}\".{NearestName.Ask(near)}", name.Span) { Fixes = [new Fix(name.Span, near[0], $"write {near[0]}")] });
            return null;
        }
        var nearest = Nearest(name.Parts[0].Name.Text, () => AllNames().Concat(NamesInScope(scope)));
        _report(new Finding(BindingFindings.UnknownName, $"There is nothing named \"{name.Parts[0].Name.Text}\".{NearestName.Ask(nearest)}", name.Span) { Fixes = [.. nearest.Take(1).Select(n => new Fix(name.Parts[0].Name.Span, n, $"write {n}"))] });
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
        // A range, such as the gap that a seal closes, is no one figure.
        if (slot is null || slot.Kind.StartsWith("bounds_", StringComparison.Ordinal) || !fact.Slots.TryGetValue(slot.Name, out var text)) return null;
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
                        _report(NoKey(name, part, k, scope));
                        return default;
                }
            }
            words.Add(text);
        }
        return words.ToImmutable();
    }

    /// <summary>A word in square brackets that no loop and no group knows here: a key misspelled, or one of the names that the loop made, written as in the loop.</summary>
    private Finding NoKey(NameExpression name, NamePart part, Word key, Scope scope)
    {
        string whole = $"{part.Name.Text}_{key.Text}";
        bool made = part.Keys.Length == 1 && scope.FindThing(whole) is not null;
        var keys = NearestName.Of(key.Text, NamesInScope(scope).Where(n => scope.FindValue(n)?.Word is not null));
        var span = part.Name.Span.To(key.Span);
        return new Finding(BindingFindings.UnknownName, $"\"{key.Text}\" is not the key of a loop or the word of a parameter{(made ? " here" : "")}.{(made ? "" : NearestName.Ask(keys))}", key.Span)
        {
            Hint = made || !NamesInScope(scope).Any(n => scope.FindValue(n)?.Word is not null) ? $"Outside of its loop it goes by its whole name, {whole}." : null,
            Fixes = made && name.Span.Source.Text.IndexOf(']', key.Span.End) is > 0 and var end ? [new Fix(new Span(span.Source, span.Start, end + 1 - span.Start), whole, $"write {whole}")] : Fixing.Nearest(key.Span, keys),
        };
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
            _report(new Finding(BindingFindings.Call, $"There is no function named \"{call.Name.Text}\".{NearestName.Ask(nearest)} If a place was meant, put a blank before the bracket.", call.Name.Span) { Fixes = Fixing.Nearest(call.Name.Span, nearest) });
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
}
