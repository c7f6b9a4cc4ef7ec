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
    public const int FactLimit = 1_000_000;

    /// <summary>Files may use files, and groups may place groups, this deep.</summary>
    public const int DepthLimit = 200;

    /// <summary>The version of the language that this program reads.</summary>
    public const int LanguageVersion = 1;

    /// <summary>Findings of one code beyond this many are counted and not told.</summary>
    public const int FindingLimit = 1000;

    /// <summary>Binds a spec. Syntax findings of the files used are among its findings. Never throws on user text.</summary>
    /// <param name="given">Values set from outside, by name: they take the place of a <c>let</c> of the spec.</param>
    /// <param name="parse">How files are parsed; null for <see cref="SpecParser.Parse"/>.</param>
    public static Spec Bind(SyntaxFile main, IncludeReader include, IReadOnlyDictionary<string, Expression>? given = null, Func<SourceText, Stage<SyntaxFile>>? parse = null) =>
        new Run(main, include, given, parse ?? SpecParser.Parse).Finish();

    private sealed class Run
    {
        private readonly List<Finding> _findings = [];
        private readonly Spec _spec;
        private readonly Scope _top = new(null);
        private readonly Declarations _declared;
        private readonly List<Requirement> _requirements = [];
        private readonly Queue<(Statement Statement, Scope Scope, Sink Into)> _later = new();
        private int _count;
        private int _groupDepth;
        private bool _groupsTooDeep;
        private bool _conditional;

        public Run(SyntaxFile main, IncludeReader include, IReadOnlyDictionary<string, Expression>? given, Func<SourceText, Stage<SyntaxFile>> parse)
        {
            bool allRead = Includes.Collect(main, include, parse, _findings, out var files);
            var evaluator = new Evaluator(n => _spec!.Find(n), Report);
            _spec = new Spec(main.Source, [.. files.Select(f => f.Source)], evaluator, _findings) { NamesMissing = !allRead };
            evaluator.ThingNamed = name => _spec.Things.GetValueOrDefault(name);
            evaluator.NamesOf = kinds => _spec.Things.Values.Where(t => kinds.Contains(t.Keyword)).Select(t => t.Name!);
            evaluator.AllNames = () => _spec.Things.Keys;
            evaluator.MayBeMissing = name => _spec.NamesMissing || _spec.Broken.Contains(name) || char.IsAsciiDigit(name[0]);
            evaluator.Exchanges = () => ExchangeRates.Of(_spec);
            var shown = Shown(files);
            evaluator.Shown = () => shown;
            evaluator.Unfolding = true;
            if (main.Statements.IsEmpty && SaysNothing(main.Source)) Report(new Finding(BindingFindings.Nothing, $"{main.Source.Path} says nothing.", new Span(main.Source, 0, Math.Min(1, main.Source.Text.Length))) { Hint = "wain new FOLDER writes a small spec to begin from." });
            _declared = new Declarations(_spec, _top, Report);
            // Names first, over every file, since the order of declarations has no meaning; then what they decide.
            foreach (var file in files) _declared.Add(file.Statements, _top);
            _declared.Replace(given);
            var facts = new Sink();
            foreach (var file in files) foreach (var statement in file.Statements) UnfoldOne(statement, _top, null, SettingBlocks.Spec, facts);
            _conditional = true;
            while (_later.TryDequeue(out var next)) UnfoldOne(next.Statement, next.Scope, null, SettingBlocks.Spec, next.Into);
            _spec.Top = _top;
            _spec.Facts = FactOrder.Of(facts.Facts());
            foreach (var fact in _spec.Facts) _ = fact.Body;
            evaluator.Unfolding = false;
        }

        /// <summary>The units that the camper block shows, known before any fact is bound.</summary>
        private static Say Shown(IEnumerable<SyntaxFile> files)
        {
            var camper = files.SelectMany(f => f.Statements).OfType<Fact>().Where(f => f.Head.Text == "camper" && f.Body is not null).SelectMany(f => f.Body!.Value.OfType<Fact>()).ToList();
            bool Says(string keyword, string style) => camper.Any(f => f.Head.Text == keyword && f.Clauses is [[NameExpression { SingleWord: { } word }, ..], ..] && word == style);
            return new(Says("lengths", "millimetres"), Says("weights", "kilograms"));
        }

        // What could not be read says something, and is told by the parser.
        private static bool SaysNothing(SourceText source)
        {
            foreach (var line in source.Text.AsSpan().EnumerateLines())
                if (line.Trim() is { Length: > 0 } words && !words.StartsWith("--", StringComparison.Ordinal)) return false;
            return true;
        }

        public Spec Finish()
        {
            _spec.Requirements = [.. _requirements];
            _spec.NamedValues = [.. _declared.Values];
            _spec.Functions = [.. _declared.Functions];
            _spec.Groups = [.. _declared.Groups];
            foreach (var fact in _spec.All("written"))
            {
                if (_spec.Evaluator.Number(fact, "version") is { } version && version != LanguageVersion) Report(new Finding(BindingFindings.Version, $"The spec was written for version {version} of the language, and this program reads version {LanguageVersion}.", fact.Span));
            }
            Mirrors.Fill(_spec, Report);
            return _spec;
        }

        // One mistake is told once, however often a loop or a second reader comes by it. A name that each key of a loop makes wrong is one mistake too.
        private readonly HashSet<(string, Span, string)> _told = [];
        private readonly Dictionary<string, int> _toldOf = new(StringComparer.Ordinal);

        private void Report(Finding finding)
        {
            int count = _toldOf.GetValueOrDefault(finding.Code);
            if (count > FindingLimit || !_told.Add((finding.Code, finding.Place, finding.Info == BindingFindings.UnknownName ? "" : finding.Message))) return;
            _toldOf[finding.Code] = count + 1;
            _findings.Add(count < FindingLimit ? finding : new Finding(finding.Info, $"There are more of these; only the first {FindingLimit:N0} are listed.", finding.Place));
        }

        private bool Spend(Span place)
        {
            if (++_count <= FactLimit) return true;
            if (_count == FactLimit + 1) Report(new Finding(BindingFindings.TooLong, $"The spec unfolds into more than {FactLimit:N0} facts.", place));
            return false;
        }

        /// <summary>Unfolds one statement in a block of the given shape, adding the facts that it gives.</summary>
        private void UnfoldOne(Statement statement, Scope scope, BoundFact? parent, BlockShape block, Sink into)
        {
            if (!Spend(statement.Span)) return;
            switch (statement)
            {
                case RequireStatement require: _requirements.Add(new Requirement(require, scope)); break;
                // At the top, what a condition or a name may hang on is declared first, wherever it stands.
                case IfStatement or ForStatement when parent is null && !_conditional: _later.Enqueue((statement, scope, into.Reserve())); break;
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
            }
        }

        private void UnfoldBlock(ImmutableArray<Statement> body, Scope scope, BoundFact? parent, BlockShape block, Sink into)
        {
            var inner = scope;
            if (body.Any(s => s is LetStatement or FunctionStatement or GroupStatement or SetStatement or BrokenStatement))
            {
                inner = new Scope(scope, scope.Prefix);
                _declared.Add(body, inner);
            }
            DeepStack.Run(() =>
            {
                foreach (var statement in body) UnfoldOne(statement, inner, parent, block, into);
                return true;
            });
        }

        private void UnfoldLoop(ForStatement loop, Scope scope, BoundFact? parent, BlockShape block, Sink into)
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
                    _declared.Twice(key.Name, seen[key.Name.Text]);
                    continue;
                }
                var inner = new Scope(scope, scope.Prefix) { Placed = key.Name.Span };
                inner.Values[loop.Name.Text] = new NamedValue(loop.Name.Text, loop.Name.Span, null, inner) { Value = new WordValue(key.Name.Text), Done = true, Used = true };
                if (key.Value is not null) inner.Values[Evaluator.KeyValueName(loop.Name.Text)] = new NamedValue(loop.Name.Text + ".value", key.Name.Span, key.Value, scope) { Used = true };
                UnfoldBlock(loop.Body, inner, parent, block, into);
            }
        }

        private void UnfoldFact(Fact syntax, Scope scope, BoundFact? parent, BlockShape block, Sink into)
        {
            if (block.ListOf is not null)
            {
                AddListItem(syntax, scope, parent, block, into);
                return;
            }
            if (!block.AllByKeyword.TryGetValue(syntax.Head.Text, out var shapes))
            {
                Unknown(syntax, parent, block);
                return;
            }
            var shape = FactReader.Choose(shapes, syntax);
            var fact = new BoundFact(shape, syntax, scope, parent) { HeadSpan = HeadOf(syntax), Conditional = _conditional };
            FactReader.Read(fact, _spec.Evaluator, Report);
            if (parent is null && shape.Keyword is "use")
            {
                if (scope != _top || _conditional) Report(new Finding(BindingFindings.Include, "\"use\" stands at the top of a file, outside of any if, for or group: which files there are can't hang on a value.", syntax.Span));
                return;
            }
            if (shape.NameSlot is { } nameSlot)
            {
                if (!fact.Slots.TryGetValue(nameSlot.Name, out var given) || given.Terms[0] is not NameExpression name || !Name(fact, name, scope, parent, into)) return;
            }
            else if (shape.Each is { } each)
            {
                var words = fact.Slots.TryGetValue(each, out var told) && told.Terms[0] is NameExpression which ? _spec.Evaluator.WholeName(which, scope) : default;
                if (!words.IsDefaultOrEmpty && into.Claim(shape.Instead is { } other ? block.ByKeyword[other] : shape, string.Join('.', words), fact) is { } first)
                {
                    string said = $"\"{shape.Keyword} {string.Join('.', words)}\"";
                    Report(new Finding(BindingFindings.FactTwice, first.Keyword == shape.Keyword ? $"{said} is stated twice here." : $"{said} is stated here beside \"{first.Keyword} {string.Join('.', words)}\": one of the two holds.", syntax.Head.Span) { Subject = fact.Path, Related = [new Related(first.Syntax.Head.Span, "first stated here")] });
                }
            }
            else if (!shape.Many || parent is null && shape.Keyword == "accept")
            {
                // A joint is known by its two edges, in each place of its group, and what is built by its panel; any other fact stands once.
                string key = parent is null && shape.Keyword is "joint" or "built" or "accept" ? scope.Prefix + string.Join(' ', fact.Slots.All.Select(s => WordsOf(s.Terms[0])).Order(StringComparer.Ordinal)) : "";
                if (into.Claim(shape, key, fact) is { } first) Report(new Finding(BindingFindings.FactTwice, $"\"{(key.Length > 0 ? fact.HeadSpan.Text : shape.Keyword)}\" is stated twice here.", syntax.Head.Span) { Subject = fact.Path, Related = [new Related(first.Syntax.Head.Span, "first stated here")] });
            }
            if (shape.Keyword == "place" && parent is null)
            {
                PlaceGroup(fact, scope, into);
                return;
            }
            if (parent is null) fact.Unread = () => _spec.Evaluator.Within(fact.Path, fact.HeadSpan, () => { ReadBody(fact, syntax, scope, shape); _likenesses.Fill(fact, _spec.Evaluator); return true; });
            else ReadBody(fact, syntax, scope, shape);
            into.Add(fact);
        }

        private static string WordsOf(Expression term) => term is NameExpression name ? string.Join('.', name.Parts.Select(p => p.Name.Text)) : "";

        private readonly Likenesses _likenesses = new();
        private readonly HashSet<BoundFact> _leftOpen = [];

        private void Unknown(Fact syntax, BoundFact? parent, BlockShape block)
        {
            // A file of something else is one mistake, and looking for what each of its words may mean would take minutes.
            if (_toldOf.GetValueOrDefault(BindingFindings.UnknownFact.Code) > FindingLimit) return;
            string word = syntax.Head.Text;
            bool atTop = block == SettingBlocks.Spec;
            var nearest = NearestName.Of(word, block.ByKeyword.Keys);
            bool fromTop = !atTop && SettingBlocks.Spec.ByKeyword.ContainsKey(word);
            if ((atTop || fromTop) && syntax.Clauses is [[NameExpression { SingleWord: { } lost }, ..], ..]) _spec.Broken.Add(lost);
            // A value without its let, which the parser tells where it meets the sign.
            if (atTop && syntax.Clauses.IsEmpty && syntax.Body is null && syntax.Span.Source.Text.AsSpan(syntax.Span.End).TrimStart(' ') is ['=', not '=', ..])
            {
                _spec.Broken.Add(word);
                return;
            }
            // One brace too few puts all that follows in the wrong block; that is one mistake.
            if (fromTop && nearest.Count == 0 && !_leftOpen.Add(parent!)) return;
            string elsewhere = fromTop && nearest.Count == 0 ? " It belongs at the top of the spec: is a } missing above?" : "";
            var homes = atTop && nearest.Count == 0 ? SettingBlocks.Spec.Facts.Where(f => f.Body?.ByKeyword.ContainsKey(word) == true).Select(f => f.Keyword).Distinct().Take(4).ToList() : [];
            if (homes.Count > 0) elsewhere = $" It belongs in a block such as {string.Join(", ", homes)}.";
            var said = nearest.Count > 0 ? [] : SpokenWords.Of(block.Name, word).Where(block.ByKeyword.ContainsKey).ToList();
            Report(new Finding(BindingFindings.UnknownFact, $"\"{word}\" means nothing {(atTop ? "at the top of a spec" : $"in {Article.With(block.Name)} block")}.{NearestName.Ask(nearest)}{elsewhere}", syntax.Head.Span)
            {
                Subject = parent?.Path ?? "",
                Hint = said.Count > 0 ? $"It reads: {string.Join("; or: ", said.Select(k => block.ByKeyword[k].Reading))}." : nearest.Count == 0 && homes.Count == 0 ? $"Here may stand: {string.Join(", ", block.ByKeyword.Keys.Order(StringComparer.Ordinal))}." : null,
                Fixes = [.. nearest.Take(1).Select(n => new Fix(syntax.Head.Span, n, $"write {n}"))],
            });
        }

        private static Span HeadOf(Fact syntax)
        {
            if (syntax.Body is null) return syntax.Span;
            var last = syntax.Clauses.LastOrDefault();
            return last.IsDefaultOrEmpty ? syntax.Head.Span : syntax.Head.Span.To(last[^1].Span);
        }

        private void AddListItem(Fact syntax, Scope scope, BoundFact? parent, BlockShape block, Sink into)
        {
            if (syntax.Clauses.Length > 0 || syntax.Body is not null)
            {
                Report(new Finding(BindingFindings.UnexpectedWords, $"This block is a list: one {block.ListOf} a line, and nothing else.", syntax.Span) { Subject = parent?.Path ?? "" });
                return;
            }
            var item = new BoundFact(ListItemShape(block.ListOf!), syntax, scope, parent) { HeadSpan = syntax.Span };
            var words = _spec.Evaluator.WholeName(new NameExpression(syntax.Head.Span, [new NamePart(syntax.Head, [])]), scope);
            if (words.IsDefault) return;
            item.Slots.Add(new SlotText(item.Shape.Slots.First(), [new NameExpression(syntax.Head.Span, [new NamePart(new Word(words[0], syntax.Head.Span), [])])]));
            if (into.Claim(item.Shape, words[0], item) is { } first) Report(new Finding(BindingFindings.FactTwice, $"\"{words[0]}\" stands twice in this list.", syntax.Head.Span) { Related = [new Related(first.Span, "first listed here")] });
            into.Add(item);
        }

        private static readonly System.Collections.Concurrent.ConcurrentDictionary<string, FactShape> ListItems = new(StringComparer.Ordinal);

        private static FactShape ListItemShape(string kind) => ListItems.GetOrAdd(kind, k => Shape.Fact($"item <item:{k}>", "One of the list.", many: true));

        private bool Name(BoundFact fact, NameExpression name, Scope scope, BoundFact? parent, Sink into)
        {
            if (name.SingleWord is not { } word)
            {
                Report(new Finding(BindingFindings.UnexpectedWords, "A name is one word; a point stands between a thing and what belongs to it.", name.Span));
                return false;
            }
            fact.NameSpan = name.Span;
            fact.Name = parent is null ? scope.Prefix + word : word;
            if (parent is not null)
            {
                // A panel's zones and openings share their names: members and figures are named after both.
                var family = fact.Keyword == "zone" && parent.Shape.Body?.ByKeyword.GetValueOrDefault("opening") is { } opening ? opening : fact.Shape;
                if (into.Claim(family, word, fact) is { } other) _declared.Twice(new Word(word, name.Span), other.NameSpan);
                return true;
            }
            if (_spec.Things.TryGetValue(fact.Name, out var same))
            {
                _declared.Twice(new Word(fact.Name, name.Span), same.NameSpan);
                return false;
            }
            if (_top.Values.TryGetValue(fact.Name, out var value))
            {
                _declared.Twice(new Word(fact.Name, name.Span), value.Place);
                return false;
            }
            _spec.Things[fact.Name] = fact;
            // Seen by the whole spec under its whole name, and inside each group around it also under what that group's own place does not add to it.
            _top.Things[fact.Name] = fact.Name;
            for (var group = scope; group is not null; group = group.Around)
                for (var s = group; s is not null && s.Prefix == group.Prefix && s != _top; s = s.Outer) s.Things[fact.Name[group.Prefix.Length..]] = fact.Name;
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
                var facts = new Sink();
                UnfoldBlock(body, scope, fact, shape.Body, facts);
                fact.Body = shape.Body.IsSequence ? facts.Facts() : FactOrder.Of(facts.Facts());
            }
            else if (shape.Body is not null && !BlockMayBeLeftOut(shape.Keyword))
            {
                Report(new Finding(BindingFindings.NoBlock, $"\"{shape.Keyword}\" needs a block in braces. It reads: {shape.Reading}.", syntax.Head.Span) { Subject = fact.Path });
            }
        }

        // What may be said whole on one line: a derived plan, a plain copy, a zone by its extent, a butt joint.
        private static bool BlockMayBeLeftOut(string keyword) => keyword is "plan" or "mirror" or "zone" or "frame" or "splice" or "camper" or "joint";

        private void PlaceGroup(BoundFact fact, Scope scope, Sink into)
        {
            // The name of a placed group is that of no thing: its parts are named after it.
            _spec.Things.Remove(fact.Name!);
            _top.Things.Remove(fact.Name!);
            if (!fact.Slots.TryGetValue("group", out var text)) return;
            var (name, arguments, span) = text.Terms[0] is CallExpression call ? (call.Name, call.Arguments, call.Span) : (((NameExpression)text.Terms[0]).Parts[0].Name, [], text.Terms[0].Span);
            if (scope.FindGroup(name.Text) is not { } group)
            {
                if (!_spec.NamesMissing && !_spec.Broken.Contains(name.Text)) TellNoGroup(name);
                return;
            }
            group.Used = true;
            var parameters = group.Syntax.Parameters;
            var (values, problem) = Arguments.Match(name.Text, parameters, arguments);
            if (problem is not null)
            {
                Report(new Finding(BindingFindings.Call, problem, span) { Related = [new Related(group.Syntax.Name.Span, "defined here")] });
                return;
            }
            if (_groupDepth >= DepthLimit || _groupsTooDeep)
            {
                if (_groupsTooDeep) return;
                _groupsTooDeep = true;
                Report(new Finding(BindingFindings.TooLong, $"Groups place groups more than {DepthLimit} deep; {name.Text} may place itself.", span));
                return;
            }
            var inner = new Scope(group.Scope, fact.Name + "_") { Placed = fact.Span, Around = scope };
            for (int i = 0; i < parameters.Length; i++) inner.Values[parameters[i].Text] = Parameter(parameters[i], values[i], scope);
            _groupDepth++;
            _declared.Add(group.Syntax.Body, inner);
            DeepStack.Run(() =>
            {
                foreach (var statement in group.Syntax.Body) UnfoldOne(statement, inner, null, SettingBlocks.Spec, into);
                return true;
            });
            _groupDepth--;
        }

        private void TellNoGroup(Word name)
        {
            var nearest = NearestName.Of(name.Text, _declared.Groups.Select(g => g.Syntax.Name.Text));
            Report(new Finding(BindingFindings.UnknownName, $"There is no group named \"{name.Text}\".{NearestName.Ask(nearest)}", name.Span) { Fixes = Fixing.Nearest(name.Span, nearest) });
        }

        // A bare word that names no value is itself the value, so that a group can be told a side or a stack.
        private NamedValue Parameter(Word name, Expression value, Scope scope)
        {
            if (value is NameExpression { Parts: [var part] } word)
            {
                var known = part.Keys.IsEmpty ? scope.FindValue(part.Name.Text) : null;
                string? given = known is null ? _spec.Evaluator.WholeName(word, scope) is { IsDefault: false } words ? words[0] : null : known.Word;
                if (given is not null) return new NamedValue(name.Text, name.Span, null, scope) { Value = new WordValue(given), Done = true, Used = true };
            }
            return new NamedValue(name.Text, name.Span, value, scope) { Used = true };
        }
    }
}
