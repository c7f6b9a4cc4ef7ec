using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Language;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>Reads a file that a spec uses: its text, or why it can't be had. The path is relative to the spec's folder, with forward slashes.</summary>
public delegate (SourceText? Source, string? Problem) IncludeReader(string path);

/// <summary>AST to bound spec: brings in the files used, unfolds loops, conditions and groups, and fits every fact to its shape.</summary>
public static class Binder
{
    /// <summary>A spec may unfold into this many facts.</summary>
    public const int FactLimit = 2_000_000;

    /// <summary>Files may use files this deep.</summary>
    public const int IncludeDepthLimit = 200;

    /// <summary>Binds a spec. Syntax findings of the files used are among its findings. Never throws on user text.</summary>
    /// <param name="given">Values set from outside, by name: they take the place of a <c>let</c> of the spec.</param>
    public static Spec Bind(SyntaxFile main, IncludeReader include, IReadOnlyDictionary<string, Expression>? given = null) => new Run(main, include, given).Finish();

    private sealed class Run
    {
        private readonly List<Finding> _findings = [];
        private readonly Spec _spec;
        private readonly Scope _top = new(null);
        private readonly List<(SetStatement Syntax, Scope Scope)> _sets = [];
        private readonly List<NamedValue> _values = [];
        private readonly List<FunctionDefinition> _functions = [];
        private readonly List<GroupDefinition> _groups = [];
        private readonly List<BoundFact> _facts = [];
        private readonly List<Requirement> _requirements = [];
        private readonly IReadOnlyDictionary<string, Expression> _given;
        private int _count;
        private int _groupDepth;

        public Run(SyntaxFile main, IncludeReader include, IReadOnlyDictionary<string, Expression>? given)
        {
            _given = given ?? new Dictionary<string, Expression>();
            var files = Includes.Collect(main, include, _findings);
            var evaluator = new Evaluator(n => _spec!.Find(n), Report);
            _spec = new Spec(main.Source, [.. files.Select(f => f.Source)], evaluator, _findings);
            evaluator.NamesOf = kinds => _spec.Things.Values.Where(t => kinds.Contains(t.Keyword)).Select(t => t.Name!);
            evaluator.AllNames = () => _spec.Things.Keys;
            evaluator.Unfolding = true;
            // Names first, over every file, since the order of declarations has no meaning; then what they decide.
            foreach (var file in files) Declare(file.Statements, _top);
            ApplySets();
            foreach (var file in files) Unfold(file.Statements, _top);
            evaluator.Unfolding = false;
        }

        public Spec Finish()
        {
            _spec.Facts = [.. _facts];
            _spec.Requirements = [.. _requirements];
            _spec.NamedValues = [.. _values];
            _spec.Functions = [.. _functions];
            _spec.Groups = [.. _groups];
            Mirrors.Fill(_spec, Report);
            return _spec;
        }

        // One mistake is told once, however often a loop or a second reader comes by it.
        private readonly HashSet<(string, Span, string)> _told = [];

        private void Report(Finding finding)
        {
            if (_told.Add((finding.Code, finding.Place, finding.Message))) _findings.Add(finding);
        }

        private void Declare(ImmutableArray<Statement> statements, Scope scope)
        {
            foreach (var statement in statements)
            {
                switch (statement)
                {
                    case LetStatement let:
                        var value = new NamedValue(let.Name.Text, let.Name.Span, let.Value, scope);
                        if (scope.Values.TryGetValue(let.Name.Text, out var first)) Twice(let.Name, first.Place);
                        else
                        {
                            scope.Values[let.Name.Text] = value;
                            _values.Add(value);
                        }
                        break;
                    case FunctionStatement function:
                        if (scope.Functions.TryGetValue(function.Name.Text, out var other)) Twice(function.Name, other.Syntax.Name.Span);
                        else if (BuiltInFunctions.Names.Contains(function.Name.Text)) Report(new Finding(BindingFindings.DoubleName, $"{function.Name.Text} is a function of the language; choose another name.", function.Name.Span));
                        else
                        {
                            var definition = new FunctionDefinition(function, scope);
                            scope.Functions[function.Name.Text] = definition;
                            _functions.Add(definition);
                        }
                        foreach (var doubled in function.Parameters.GroupBy(p => p.Text).Where(g => g.Count() > 1)) Twice(doubled.Last(), doubled.First().Span);
                        break;
                    case GroupStatement group:
                        if (scope.Groups.TryGetValue(group.Name.Text, out var same)) Twice(group.Name, same.Syntax.Name.Span);
                        else
                        {
                            var definition = new GroupDefinition(group, scope);
                            scope.Groups[group.Name.Text] = definition;
                            _groups.Add(definition);
                        }
                        break;
                    case SetStatement set: _sets.Add((set, scope)); break;
                }
            }
        }

        private void Twice(Word name, Span first) =>
            Report(new Finding(BindingFindings.DoubleName, $"\"{name.Text}\" is declared twice.", name.Span) { Subject = name.Text, Related = [new Related(first, "first declared here")] });

        private void ApplySets()
        {
            var done = new Dictionary<string, Span>(StringComparer.Ordinal);
            foreach (var (set, scope) in _sets)
            {
                if (done.TryGetValue(set.Name.Text, out var first)) Report(new Finding(BindingFindings.Set, $"\"{set.Name.Text}\" is set twice.", set.Span) { Related = [new Related(first, "first set here")] });
                else if (!scope.Values.TryGetValue(set.Name.Text, out var value)) Report(new Finding(BindingFindings.Set, $"There is no \"let {set.Name.Text}\" for this to replace.{NearestName.Ask(NearestName.Of(set.Name.Text, scope.Values.Keys))}", set.Name.Span));
                else if (value.Place.Source == set.Span.Source) Report(new Finding(BindingFindings.Set, $"\"let {set.Name.Text}\" stands in this very file; change it there.", set.Name.Span) { Related = [new Related(value.Place, "declared here")] });
                else
                {
                    value.Expression = set.Value;
                    value.Origin = set.Value.Span;
                    done[set.Name.Text] = set.Name.Span;
                }
            }
            foreach (var (name, expression) in _given)
            {
                if (_top.Values.TryGetValue(name, out var value))
                {
                    value.Expression = expression;
                    value.Origin = expression.Span;
                }
                else Report(new Finding(BindingFindings.Set, $"There is no \"let {name}\" to set.{NearestName.Ask(NearestName.Of(name, _top.Values.Keys))}", expression.Span));
            }
        }

        private bool Spend(Span place)
        {
            if (++_count <= FactLimit) return true;
            if (_count == FactLimit + 1) Report(new Finding(BindingFindings.TooLong, $"The spec unfolds into more than {FactLimit:N0} facts.", place));
            return false;
        }

        private void Unfold(ImmutableArray<Statement> statements, Scope scope)
        {
            foreach (var statement in statements) UnfoldOne(statement, scope, null, SettingBlocks.Spec, _facts);
        }

        /// <summary>Unfolds one statement in a block of the given shape, adding the facts that it gives.</summary>
        private void UnfoldOne(Statement statement, Scope scope, BoundFact? parent, BlockShape block, List<BoundFact> into)
        {
            if (!Spend(statement.Span)) return;
            switch (statement)
            {
                case RequireStatement require: _requirements.Add(new Requirement(require, scope)); break;
                case IfStatement condition:
                    foreach (var branch in condition.Branches)
                    {
                        if (_spec.Evaluator.Truth(branch.Condition, scope) is not { } truth) return;
                        if (!truth) continue;
                        UnfoldBlock(branch.Body, scope, parent, block, into);
                        return;
                    }
                    UnfoldBlock(condition.Otherwise, scope, parent, block, into);
                    break;
                case ForStatement loop: UnfoldLoop(loop, scope, parent, block, into); break;
                case Fact fact: UnfoldFact(fact, scope, parent, block, into); break;
                case LetStatement or FunctionStatement or GroupStatement or SetStatement: break;
            }
        }

        private void UnfoldBlock(ImmutableArray<Statement> body, Scope scope, BoundFact? parent, BlockShape block, List<BoundFact> into)
        {
            bool declares = body.Any(s => s is LetStatement or FunctionStatement or GroupStatement or SetStatement);
            var inner = scope;
            if (declares)
            {
                inner = new Scope(scope, scope.Prefix);
                Declare(body, inner);
            }
            foreach (var statement in body) UnfoldOne(statement, inner, parent, block, into);
        }

        private void UnfoldLoop(ForStatement loop, Scope scope, BoundFact? parent, BlockShape block, List<BoundFact> into)
        {
            if (loop.Keyword.Text != "in")
            {
                Report(new Finding(SyntaxFindings.Unexpected, $"\"{loop.Keyword.Text}\" can't stand here; a repetition reads like this: for {loop.Name.Text} in left, right {{ ... }}.", loop.Keyword.Span));
                return;
            }
            var seen = new Dictionary<string, Span>(StringComparer.Ordinal);
            foreach (var key in loop.Keys)
            {
                if (!Spend(key.Name.Span)) return;
                if (!seen.TryAdd(key.Name.Text, key.Name.Span))
                {
                    Twice(key.Name, seen[key.Name.Text]);
                    continue;
                }
                var inner = new Scope(scope, scope.Prefix);
                inner.Values[loop.Name.Text] = new NamedValue(loop.Name.Text, loop.Name.Span, null, inner) { Value = new WordValue(key.Name.Text), Done = true, Used = true };
                if (key.Value is not null)
                {
                    string name = loop.Name.Text + "_value";
                    inner.Values[name] = new NamedValue(name, key.Name.Span, key.Value, scope) { Used = true };
                }
                UnfoldBlock(loop.Body, inner, parent, block, into);
            }
        }

        private void UnfoldFact(Fact syntax, Scope scope, BoundFact? parent, BlockShape block, List<BoundFact> into)
        {
            if (block.ListOf is not null)
            {
                AddListItem(syntax, scope, parent, block, into);
                return;
            }
            if (!block.AllByKeyword.TryGetValue(syntax.Head.Text, out var shapes))
            {
                var nearest = NearestName.Of(syntax.Head.Text, block.ByKeyword.Keys);
                string where = block == SettingBlocks.Spec ? "at the top of a spec" : $"in a {block.Name} block";
                string elsewhere = nearest.Count > 0 ? "" : block == SettingBlocks.Spec ? "" : SettingBlocks.Spec.ByKeyword.ContainsKey(syntax.Head.Text) ? " It belongs at the top of the spec: is a } missing above?" : "";
                Report(new Finding(BindingFindings.UnknownFact, $"\"{syntax.Head.Text}\" means nothing {where}.{NearestName.Ask(nearest)}{elsewhere}", syntax.Head.Span)
                {
                    Subject = parent?.Path ?? "",
                    Hint = nearest.Count == 0 ? $"Here may stand: {string.Join(", ", block.ByKeyword.Keys.Order(StringComparer.Ordinal))}." : null,
                    Fixes = [.. nearest.Take(1).Select(n => new Fix(syntax.Head.Span, n, $"write {n}"))],
                });
                return;
            }
            var shape = FactReader.Choose(shapes, syntax);
            var fact = new BoundFact(shape, syntax, scope, parent) { HeadSpan = HeadOf(syntax) };
            FactReader.Read(fact, Report);
            if (shape.NameSlot is { } nameSlot && fact.Slots.TryGetValue(nameSlot.Name, out var given) && given.Terms[0] is NameExpression name)
            {
                if (!Name(fact, name, scope, parent, into)) return;
            }
            else if (shape.NameSlot is not null) return;
            else if (!shape.Many && into.FirstOrDefault(f => ReferenceEquals(f.Shape, shape)) is { } first && !(parent is null && shape.Keyword is "accept" or "mirror" or "joint" or "built"))
            {
                Report(new Finding(BindingFindings.FactTwice, $"\"{shape.Keyword}\" is stated twice here.", syntax.Head.Span) { Subject = fact.Path, Related = [new Related(first.Syntax.Head.Span, "first stated here")] });
            }
            if (shape.Keyword == "use" && parent is null) return;
            if (shape.Keyword == "place" && parent is null)
            {
                PlaceGroup(fact, scope);
                return;
            }
            ReadBody(fact, syntax, scope, shape);
            into.Add(fact);
        }

        private static Span HeadOf(Fact syntax)
        {
            if (syntax.Body is null) return syntax.Span;
            var last = syntax.Clauses.LastOrDefault();
            return last.IsDefaultOrEmpty ? syntax.Head.Span : syntax.Head.Span.To(last[^1].Span);
        }

        private void AddListItem(Fact syntax, Scope scope, BoundFact? parent, BlockShape block, List<BoundFact> into)
        {
            if (syntax.Clauses.Length > 0 || syntax.Body is not null)
            {
                Report(new Finding(BindingFindings.UnexpectedWords, $"This block is a list: one {block.ListOf} a line, and nothing else.", syntax.Span) { Subject = parent?.Path ?? "" });
                return;
            }
            var item = new BoundFact(ListItemShape(block.ListOf!), syntax, scope, parent) { HeadSpan = syntax.Span };
            item.Slots["item"] = new SlotText(item.Shape.Slots.First(), [new NameExpression(syntax.Head.Span, [new NamePart(syntax.Head, [])])]);
            if (into.Any(f => f.Syntax.Head.Text == syntax.Head.Text)) Report(new Finding(BindingFindings.FactTwice, $"\"{syntax.Head.Text}\" stands twice in this list.", syntax.Head.Span));
            into.Add(item);
        }

        private static readonly Dictionary<string, FactShape> ListItems = new(StringComparer.Ordinal);

        private static FactShape ListItemShape(string kind)
        {
            lock (ListItems) return ListItems.TryGetValue(kind, out var shape) ? shape : ListItems[kind] = Shape.Fact($"item <item:{kind}>", "One of the list.", many: true);
        }

        private bool Name(BoundFact fact, NameExpression name, Scope scope, BoundFact? parent, List<BoundFact> into)
        {
            var words = _spec.Evaluator.WholeName(name, scope);
            if (words.IsDefault) return false;
            if (words.Length != 1)
            {
                Report(new Finding(BindingFindings.UnexpectedWords, "A name is one word; a point stands between a thing and what belongs to it.", name.Span));
                return false;
            }
            fact.NameSpan = name.Span;
            if (parent is not null)
            {
                fact.Name = words[0];
                if (into.FirstOrDefault(f => f.Name == fact.Name && f.Shape == fact.Shape) is { } first) Twice(new Word(fact.Name, name.Span), first.NameSpan);
                return true;
            }
            fact.Name = scope.Prefix + words[0];
            if (_spec.Things.TryGetValue(fact.Name, out var other))
            {
                Twice(new Word(fact.Name, name.Span), other.NameSpan);
                return false;
            }
            if (_top.Values.TryGetValue(fact.Name, out var value))
            {
                Twice(new Word(fact.Name, name.Span), value.Place);
                return false;
            }
            _spec.Things[fact.Name] = fact;
            // Seen by the whole spec under its whole name, and inside its group also under its short one.
            _top.Things[fact.Name] = fact.Name;
            for (var s = scope; s is not null && s.Prefix == scope.Prefix && s != _top; s = s.Outer) s.Things[words[0]] = fact.Name;
            return true;
        }

        private void ReadBody(BoundFact fact, Fact syntax, Scope scope, FactShape shape)
        {
            if (syntax.Body is { } body)
            {
                if (shape.Body is null)
                {
                    Report(new Finding(BindingFindings.NoBlock, $"\"{shape.Keyword}\" takes no block here. It reads: {shape.Reading}.", syntax.Head.Span) { Subject = fact.Path });
                    return;
                }
                var facts = new List<BoundFact>();
                UnfoldBlock(body, scope, fact, shape.Body, facts);
                fact.Body = [.. facts];
            }
            else if (shape.Body is not null && !BlockMayBeLeftOut(shape.Keyword))
            {
                Report(new Finding(BindingFindings.NoBlock, $"\"{shape.Keyword}\" needs a block in braces. It reads: {shape.Reading}.", syntax.Head.Span) { Subject = fact.Path });
            }
        }

        // What may be said whole on one line: a derived plan, a plain copy, a zone by its extent, a butt joint.
        private static bool BlockMayBeLeftOut(string keyword) => keyword is "plan" or "mirror" or "zone" or "frame" or "splice" or "camper" or "joint";

        private void PlaceGroup(BoundFact fact, Scope scope)
        {
            if (!fact.Slots.TryGetValue("group", out var text) || fact.Name is null) return;
            _spec.Things.Remove(fact.Name);
            var (name, arguments, span) = text.Terms[0] switch
            {
                CallExpression call => (call.Name, call.Arguments, call.Span),
                NameExpression word => (word.Parts[0].Name, [], word.Span),
                _ => throw new InvalidOperationException("a group is called by name"),
            };
            if (scope.FindGroup(name.Text) is not { } group)
            {
                Report(new Finding(BindingFindings.UnknownName, $"There is no group named \"{name.Text}\".{NearestName.Ask(NearestName.Of(name.Text, _groups.Select(g => g.Syntax.Name.Text)))}", name.Span));
                return;
            }
            group.Used = true;
            var parameters = group.Syntax.Parameters;
            if (arguments.Length != parameters.Length || arguments.Any(a => a.Name is { } n && parameters.All(p => p.Text != n.Text)))
            {
                Report(new Finding(BindingFindings.Call, $"{name.Text} takes {Evaluator.Count(parameters.Length, "value")}: {name.Text}({string.Join(", ", parameters.Select(p => p.Text))}).", span) { Related = [new Related(group.Syntax.Name.Span, "defined here")] });
                return;
            }
            if (++_groupDepth > IncludeDepthLimit)
            {
                Report(new Finding(BindingFindings.TooLong, $"Groups place groups more than {IncludeDepthLimit} deep; {name.Text} may place itself.", span));
                _groupDepth--;
                return;
            }
            var inner = new Scope(group.Scope, fact.Name + "_");
            for (int i = 0; i < parameters.Length; i++)
            {
                var argument = arguments.FirstOrDefault(a => a.Name?.Text == parameters[i].Text) ?? arguments[i];
                var value = new NamedValue(parameters[i].Text, parameters[i].Span, argument.Value, scope) { Used = true };
                // A bare word that names nothing is itself the value, so that a group can be told a side or a stack.
                if (argument.Value is NameExpression { SingleWord: { } word } && scope.FindValue(word) is null) value = new NamedValue(parameters[i].Text, parameters[i].Span, null, scope) { Value = new WordValue(word), Done = true, Used = true };
                inner.Values[parameters[i].Text] = value;
            }
            Declare(group.Syntax.Body, inner);
            foreach (var statement in group.Syntax.Body) UnfoldOne(statement, inner, null, SettingBlocks.Spec, _facts);
            _groupDepth--;
        }
    }
}
