using Wain.Core.Units;
using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Language;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>Fits the words of one fact to its shape: which phrase is which, and what fills each slot. Judges shape alone, never values.</summary>
internal static class FactReader
{
    /// <summary>A word or value of a fact, the clause that it stands in, and the word that it stands for if it is the key of a loop.</summary>
    private readonly record struct Term(Expression Expression, int Clause, string? LoopWord);

    /// <summary>Of the facts that begin with one keyword, the one that the next words belong to.</summary>
    public static FactShape Choose(ImmutableArray<FactShape> shapes, Fact syntax)
    {
        if (shapes.Length == 1) return shapes[0];
        var terms = syntax.Clauses.SelectMany((c, i) => c.Select(t => new Term(t, i, null))).ToList();
        return shapes.FirstOrDefault(s => s.Phrases.Any(p => !p.Lead.IsEmpty && LeadMatches(p, terms, 0)))
            ?? shapes.FirstOrDefault(s => s.Phrases.Length > 0 && s.Phrases[0].Lead.IsEmpty) ?? shapes[0];
    }

    /// <summary>Reads a fact; slots that could be read are kept even where others could not.</summary>
    public static void Read(BoundFact fact, Evaluator evaluator, Action<Finding> report)
    {
        var terms = new List<Term>();
        for (int c = 0; c < fact.Syntax.Clauses.Length; c++) foreach (var term in fact.Syntax.Clauses[c]) terms.Add(new Term(term, c, WordOf(term) is { } word ? fact.Scope.FindValue(word)?.Word : null));

        var left = fact.Shape.Phrases.ToList();
        bool told = false;
        int at = 0;
        while (at < terms.Count)
        {
            var phrase = Next(fact, left, terms, at);
            if (phrase is null)
            {
                report(OwnLine(fact, terms, at) ?? new Finding(BindingFindings.UnexpectedWords, NotUnderstood(fact, terms, at), terms[at].Expression.Span) { Subject = fact.Path, Fixes = LeadLeftOut(left, terms, at) is { IsEmpty: false } lead ? lead : Misspelled(left, terms, at) });
                told = true;
                at = SkipUnknown(left, terms, at);
                continue;
            }
            left.Remove(phrase);
            int before = at;
            at = ReadPhrase(fact, phrase, terms, at, evaluator, report, out bool whole);
            if (whole) continue;
            told = true;
            at = SkipUnknown(left, terms, Math.Max(at, before + 1) - 1);
        }
        // Words that were not understood may well be the part that is missing.
        if (told) return;
        foreach (var phrase in left)
        {
            if (phrase.Optional) continue;
            report(new Finding(BindingFindings.MissingPart, $"\"{fact.Keyword}\" lacks {Describe(phrase, evaluator.Say)}. It reads: {fact.Shape.Reading}.", fact.Syntax.Head.Span) { Subject = fact.Path });
            return;
        }
    }

    // "lap width 2 in, depth half" says two facts of a splice in one breath, "lap width 2 in lap depth half" writes them on one line.
    private static Finding? OwnLine(BoundFact fact, List<Term> terms, int at)
    {
        if (at > 0 && WordOf(terms[at]) is { } keyword && fact.Parent?.Shape.Body?.AllByKeyword.GetValueOrDefault(keyword) is { IsDefault: false } facts && facts.Any(s => s != fact.Shape))
        {
            var rest = terms[at].Expression.Span.To(terms[^1].Expression.Span);
            var last = terms[at - 1].Expression.Span;
            return new Finding(BindingFindings.UnexpectedWords, $"\"{Shorten(rest.Text)}\" is a fact of its own here.", rest)
            {
                Subject = fact.Path, Fixes = [new Fix(new Span(last.Source, last.End, rest.Start - last.End), $"\n{Indent(fact)}", $"write {Shorten(rest.Text)} on a line of its own")],
            };
        }
        var clause = terms[at].Expression.Span.To(terms.Last(t => t.Clause == terms[at].Clause).Expression.Span);
        if (at == 0 || fact.Parent?.Shape.Body?.AllByKeyword.GetValueOrDefault(fact.Keyword) is not { IsDefault: false } shapes
            || !shapes.Any(s => s != fact.Shape && s.Phrases.Any(p => !p.Lead.IsEmpty && LeadMatches(p, terms, at)))) return null;
        var (source, from) = (clause.Source, terms[at - 1].Expression.Span.End);
        string whole = $"{fact.Keyword} {clause.Text}";
        return new Finding(BindingFindings.UnexpectedWords, $"\"{Shorten(clause.Text)}\" is a fact of its own here.", clause)
        {
            Subject = fact.Path, Fixes = [new Fix(new Span(source, from, clause.End - from), $"\n{Indent(fact)}{whole}", $"write {whole} on a line of its own")],
        };
    }

    // What the next line of the same block begins with.
    private static string Indent(BoundFact fact)
    {
        string text = fact.Span.Source.Text, before = text[(text.LastIndexOf('\n', fact.Span.Start) + 1)..fact.Span.Start];
        return before[..(before.Length - before.TrimStart().Length)] + (before.Trim().Length > 0 ? "    " : "");
    }

    // "studs 16 in" and "underside 40 in" lack the words that say what the number is, where only one thing can be meant.
    private static ImmutableArray<Fix> LeadLeftOut(List<Phrase> left, List<Term> terms, int at)
    {
        var term = terms[at].Expression;
        if (term is MeasureExpression measure)
        {
            var fitting = left.Where(p => p.Lead.Length > 0 && p.Items.Length == p.Lead.Length + 1 && p.Slots.First() is var slot && KindNames.Of(slot.Kind) == measure.Value.Dimension).ToList();
            return fitting is [var only] ? [new Fix(new Span(term.Span.Source, term.Span.Start, 0), string.Join(' ', only.Lead) + " ", $"write {string.Join(' ', only.Lead)} {term.Span.Text}")] : [];
        }
        return WordOf(terms[at]) is { } word && at + 1 < terms.Count && left.Where(p => p.Lead.Length == 2 && p.Lead[0] == word).ToList() is [var begun]
            ? [new Fix(new Span(term.Span.Source, term.Span.End, 0), " " + begun.Lead[1], $"write {word} {begun.Lead[1]}")] : [];
    }

    private static ImmutableArray<Fix> Misspelled(List<Phrase> left, List<Term> terms, int at) =>
        WordOf(terms[at]) is { } word ? Fixing.Nearest(terms[at].Expression.Span, NearestName.Of(word, left.Where(p => p.Lead.Length > 0).Select(p => p.Lead[0]))) : [];

    private static string NotUnderstood(BoundFact fact, List<Term> terms, int at)
    {
        var term = terms[at].Expression;
        string shown = term.Span.Text;
        if (term is NegateExpression or MeasureExpression && shown.StartsWith('-') && at > 0) return $"\"{Shorten(shown)}\" is not understood here. If a difference was meant, put a blank after the minus.";
        if (term is PlaceExpression { Items.Length: > 1 } || fact.Shape.Phrases.FirstOrDefault(p => !p.Lead.IsEmpty && LeadMatches(p, terms, at)) is not { } again)
        {
            var known = fact.Shape.Phrases.Where(p => p.Lead.Length > 0).Select(p => p.Lead[0]);
            string reading = fact.Shape.Phrases.IsEmpty ? $"\"{fact.Keyword}\" stands alone." : $"This fact reads: {fact.Shape.Reading}.";
            return $"\"{Shorten(shown)}\" is not understood here. {reading}{NearestName.Ask(NearestName.Of(shown, known))}";
        }
        return $"\"{string.Join(' ', again.Lead)}\" stands twice in this fact.";
    }

    private static Phrase? Next(BoundFact fact, List<Phrase> left, List<Term> terms, int at)
    {
        // What stands by position comes first; only then do words say which phrase it is.
        if (left.Count > 0 && !left[0].Optional && left[0].Lead.IsEmpty) return left[0];
        Phrase? best = null;
        foreach (var phrase in left)
        {
            if (phrase.Lead.IsEmpty || !LeadMatches(phrase, terms, at)) continue;
            if (best is null || phrase.Lead.Length > best.Lead.Length || (phrase.Lead.Length == best.Lead.Length && Fits(phrase, terms, at) && !Fits(best, terms, at))) best = phrase;
        }
        if (best is not null) return best;
        return left.FirstOrDefault(p => p.Lead.IsEmpty && p.Items[0] is Slot slot && Accepts(slot, terms[at]) && !IsLead(fact, terms, at));
    }

    private static bool Fits(Phrase phrase, List<Term> terms, int at)
    {
        for (int i = 0, t = at; i < phrase.Items.Length; i++, t++)
        {
            if (t >= terms.Count) return false;
            if (phrase.Items[i] is string word ? WordOf(terms[t]) != word : !Accepts((Slot)phrase.Items[i], terms[t])) return false;
        }
        return true;
    }

    private static bool LeadMatches(Phrase phrase, List<Term> terms, int at)
    {
        for (int i = 0; i < phrase.Lead.Length; i++)
        {
            if (at + i >= terms.Count || terms[at + i].Clause != terms[at].Clause || WordOf(terms[at + i]) != phrase.Lead[i]) return false;
        }
        return true;
    }

    // A word that begins a phrase of the fact is that word, and no value, unless a value has its name.
    private static bool IsLead(BoundFact fact, List<Term> terms, int at) =>
        WordOf(terms[at]) is { } word && fact.Shape.Phrases.Any(p => !p.Lead.IsEmpty && p.Lead[0] == word && p.Lead.Length > 0) && fact.Scope.FindValue(word) is null;

    /// <summary>True if a phrase that says more than a word stands here whole.</summary>
    private static bool StartsPhrase(BoundFact fact, List<Term> terms, int at) => fact.Shape.Phrases.Any(p => !p.Lead.IsEmpty && p.Items.Length > 1 && Fits(p, terms, at));

    private static int SkipUnknown(List<Phrase> left, List<Term> terms, int at)
    {
        int next = at + 1;
        while (next < terms.Count && !left.Any(p => !p.Lead.IsEmpty && LeadMatches(p, terms, next))) next++;
        return next;
    }

    private static int ReadPhrase(BoundFact fact, Phrase phrase, List<Term> terms, int at, Evaluator evaluator, Action<Finding> report, out bool whole)
    {
        whole = false;
        int start = at;
        int clause = terms[at].Clause;
        bool Here() => at < terms.Count && terms[at].Clause == clause;
        for (int i = 0; i < phrase.Items.Length; i++)
        {
            if (phrase.Items[i] is string word)
            {
                if (Here() && WordOf(terms[at]) == word) { at++; continue; }
                Missing($"the word \"{word}\"", next: t => WordOf(t) == word, wanted: phrase.Items[i..]);
                return at;
            }
            var slot = (Slot)phrase.Items[i];
            // A name given here may be any word; elsewhere the words of the fact keep their meaning, unless a name must follow and no phrase does.
            bool nameFollows = i > 0 && phrase.Items[i - 1] is string && (slot.Kind == "word" || (IsName(slot) && slot.Choices.IsEmpty && !StartsPhrase(fact, terms, at)));
            int count = Here() && (slot.Kind == "new" || i == 0 || nameFollows || !IsLead(fact, terms, at)) ? Take(slot, terms, at) : 0;
            if (count == 0)
            {
                if (Bracketless(slot, terms, at, fact) is { } bracketless)
                {
                    report(bracketless);
                    return at;
                }
                Missing(Describe(slot, evaluator.Say), slot.Choices, _ => !IsLead(fact, terms, at) && Take(slot, terms, at) > 0);
                return at;
            }
            var expressions = ImmutableArray.CreateBuilder<Expression>(count);
            for (int n = 0; n < count; n++) expressions.Add(IsName(slot) ? Resolved(terms[at + n], slot, fact, evaluator) : terms[at + n].Expression);
            if (expressions.All(e => e is not BrokenExpression)) fact.Slots.Add(new SlotText(slot, expressions.ToImmutable()));
            at += count;
        }
        whole = true;
        if (!phrase.Lead.IsEmpty) fact.AddFlag(string.Join(' ', phrase.Lead));
        return at;

        void Missing(string what, ImmutableArray<string> choices = default, Func<Term, bool>? next = null, ImmutableArray<object> wanted = default)
        {
            // What could not be read is told already; what it would have been followed by is no second mistake.
            if (terms[Math.Clamp(at - 1, 0, terms.Count - 1)].Expression is BrokenExpression || Here() && terms[at].Expression is BrokenExpression) return;
            var place = Here() ? terms[at].Expression.Span : terms[Math.Clamp(at - 1, 0, terms.Count - 1)].Expression.Span;
            string after = at > start && at - 1 < terms.Count ? $" after \"{Shorten(terms[at - 1].Expression.Span.Text)}\"" : "";
            string found = Here() ? $", not \"{Shorten(terms[at].Expression.Span.Text)}\"" : "";
            // What is wanted stands behind a comma, as a clause that nothing asks for.
            if (!Here() && at > start && at < terms.Count && next?.Invoke(terms[at]) == true)
            {
                var (before, behind) = (terms[at - 1].Expression.Span, terms[at].Expression.Span);
                string text = $"{Shorten(before.Text)} {Shorten(behind.Text)}";
                report(new Finding(BindingFindings.MissingPart, $"No comma stands between \"{Shorten(before.Text)}\" and \"{Shorten(behind.Text)}\". This fact reads: {fact.Shape.Reading}.", place)
                {
                    Subject = fact.Path, Hint = $"Write {text} without it.", Fixes = [new Fix(new Span(before.Source, before.End, behind.Start - before.End), " ", "leave the comma out")],
                });
                return;
            }
            if (!wanted.IsDefault && wanted is [string left, ..] && Here() && terms[at].Expression is CallExpression call && call.Name.Text == left)
            {
                report(new Finding(BindingFindings.MissingPart, $"A name right before a bracket is a function. For the word \"{left}\" and a place put a blank between.", place)
                {
                    Subject = fact.Path, Fixes = [new Fix(new Span(place.Source, call.Name.Span.End, 0), " ", "put a blank before the bracket")],
                });
                return;
            }
            // The word alone was left out: what should follow it stands here, and it does not come later.
            if (!wanted.IsDefault && wanted is [string lacking, Slot follows, ..] && Here() && Accepts(follows, terms[at]) && terms[at].Expression is not CallExpression && (WordOf(terms[at]) is null || at + 1 >= terms.Count || terms[at + 1].Clause != clause) && !terms.Skip(at).Any(t => WordOf(t) == lacking))
            {
                report(new Finding(BindingFindings.MissingPart, $"{Capital(what)} is missing{after}. This fact reads: {fact.Shape.Reading}.", place) { Subject = fact.Path, Fixes = [new Fix(new Span(place.Source, place.Start, 0), lacking + " ", $"write {lacking} before it")] });
                return;
            }
            // A small word in the place of another: "x" for "by", "to" for "as".
            ImmutableArray<Fix> OtherWord(string wanted) => wanted.StartsWith("the word ", StringComparison.Ordinal) && Here() && at + 1 < terms.Count && WordOf(terms[at]) is { Length: <= 4 } && terms[at + 1].Clause == clause && fact.Scope.FindValue(terms[at].Expression.Span.Text) is null
                ? [new Fix(place, wanted["the word ".Length..].Trim('"'), $"write {wanted["the word ".Length..].Trim('"')}")] : [];
            report(new Finding(BindingFindings.MissingPart, $"{Capital(what)} is expected{after}{found}. This fact reads: {fact.Shape.Reading}.", place)
            {
                Subject = fact.Path, Hint = Priced(fact), Fixes = !choices.IsDefaultOrEmpty && Here() && WordOf(terms[at]) is { } word ? Fixing.Nearest(place, Meant(word, choices)) : OtherWord(what),
            });
        }
    }

    // A place whose lengths stand without their brackets.
    private static Finding? Bracketless(Slot slot, List<Term> terms, int at, BoundFact fact)
    {
        int size = slot.Kind == "place2" ? 2 : slot.Kind == "place3" ? 3 : 0;
        if (size == 0 || at + size > terms.Count || !Enumerable.Range(at, size).All(i => terms[i].Expression is MeasureExpression or NegateExpression)) return null;
        var span = terms[at].Expression.Span.To(terms[at + size - 1].Expression.Span);
        string written = $"({string.Join(", ", Enumerable.Range(at, size).Select(i => terms[i].Expression.Span.Text))})";
        return new Finding(BindingFindings.MissingPart, $"A place stands in round brackets: {written}.", span) { Subject = fact.Path, Fixes = [new Fix(span, written, $"write {written}")] };
    }

    // "lengths mm" means millimetres; any other word may be a slip of the pen.
    private static IReadOnlyList<string> Meant(string word, ImmutableArray<string> choices) =>
        SpokenUnits.Find(word) is { } unit && choices.FirstOrDefault(c => SpokenUnits.Find(c) == unit) is { } named ? [named] : NearestName.Of(word, choices);

    // What is sold in sizes has its price on the line of the size.
    private static string? Priced(BoundFact fact) =>
        fact.Keyword == "price" && fact.Parent?.Shape.Body?.Facts.FirstOrDefault(f => f.Keyword is "size" or "length" or "roll" && f.Slots.Any(s => s.Name == "price")) is { } sold
            ? $"The price of a whole one stands on the line of its {sold.Keyword}: {sold.Keyword} ..., price 48 USD." : null;

    private static bool IsName(Slot slot) => !slot.Choices.IsEmpty || !slot.Things.IsEmpty || slot.Kind is "new" or "word" or "leg" or "edge" or "subject";

    /// <summary>A name with the keys of loops filled in.</summary>
    private static Expression Resolved(Term term, Slot slot, BoundFact fact, Evaluator evaluator)
    {
        if (term.Expression is not NameExpression name) return term.Expression;
        if (name.SingleWord is { } word && (slot.Choices.Contains(word) || term.LoopWord is null)) return name;
        var words = evaluator.WholeName(name, fact.Scope);
        if (words.IsDefault) return new BrokenExpression(name.Span);
        return new NameExpression(name.Span, [.. words.Select((w, i) => new NamePart(new Word(w, name.Parts[i].Name.Span), []))]);
    }

    /// <summary>How many terms fill the slot from here on; 0 if what stands there can't.</summary>
    private static int Take(Slot slot, List<Term> terms, int at)
    {
        string? Word(int i) => at + i < terms.Count && terms[at + i].Clause == terms[at].Clause ? WordOf(terms[at + i]) : null;
        bool Value(int i) => at + i < terms.Count;
        if (slot.Kind.StartsWith("bounds_", StringComparison.Ordinal))
        {
            if (Word(0) == "at" && Word(1) is "least" or "most" && Value(2)) return 3;
            if (Word(0) == "up" && Word(1) == "to" && Value(2)) return 3;
            if (Word(0) == "between" && Word(2) == "and" && Value(3)) return 4;
            if (Word(0) == "from" && Word(2) == "to" && Value(3)) return 4;
            if (Word(1) == "to" && Value(2)) return 3;
            return Accepts(slot, terms[at]) ? 1 : 0;
        }
        if (slot.Kind == "depths") return WordOf(terms[at]) is null && !Accepts(slot, terms[at]) ? 0 : Word(0) == "half" ? 1 : Word(1) == "and" && Value(2) ? 3 : 1;
        if (slot.Kind == "lengths")
        {
            int n = 0;
            while (at + n < terms.Count && (WordOf(terms[at + n]) == "and" || Accepts(slot, terms[at + n]))) n++;
            return n;
        }
        return Accepts(slot, terms[at]) ? 1 : 0;
    }

    /// <summary>True if a term has the form that the slot takes; whether its value fits is judged when it is evaluated.</summary>
    private static bool Accepts(Slot slot, Term given)
    {
        var term = given.Expression;
        if (term is BrokenExpression) return true;
        if (!slot.Choices.IsEmpty) return WordOf(given) is { } word && (slot.Choices.Contains(word) || (given.LoopWord is { } key && slot.Choices.Contains(key)));
        return slot.Kind switch
        {
            "new" or "word" or "leg" or "edge" or "subject" => term is NameExpression,
            "call" => term is CallExpression or NameExpression,
            "text" => term is TextExpression or NameExpression,
            "date" => term is DateExpression,
            "place2" or "place3" => term is PlaceExpression or NameExpression or CallExpression,
            _ when !slot.Things.IsEmpty => term is NameExpression,
            _ => term is not (TextExpression or DateExpression or PlaceExpression),
        };
    }

    private static string? WordOf(Term term) => WordOf(term.Expression);

    private static string? WordOf(Expression term) => term is NameExpression name ? name.SingleWord : null;

    internal static string Describe(Slot slot, Say say)
    {
        if (!slot.Choices.IsEmpty) return "one of the words " + string.Join(", ", slot.Choices);
        if (!slot.Things.IsEmpty) return "the name of a " + string.Join(" or ", slot.Things);
        return slot.Kind switch
        {
            "new" => "a name",
            "word" or "subject" => "a word",
            "leg" => "a leg of a plan, such as bunk.nose",
            "edge" => "an edge or face of a panel, such as floor.top",
            "text" => "a text in quotes",
            "date" => "a date such as 2026-05-02",
            "place2" => "a place (x, y)",
            "place3" => "a place (x, y, z)",
            "call" => "a group with its values, such as " + say.Such("locker(18 in)", "locker(450 mm)"),
            "count" => "a count",
            "some" => "a count of one or more",
            "extent" => "a length",
            "ratio" => "a ratio such as 0.1 or 10 %",
            "level" => "a height, or a face such as floor.top",
            "any" or "same" => "a value",
            "depths" => "half, or one or two depths",
            "lengths" => "lengths",
            var kind when kind.StartsWith("bounds_", StringComparison.Ordinal) => "a range such as " + say.Such("between 1 in and 2 in", "between 25 mm and 50 mm"),
            var kind => KindNames.Words(kind),
        };
    }

    private static string Describe(Phrase phrase, Say say) => phrase.Lead.IsEmpty ? Describe(phrase.Slots.First(), say) : $"\"{string.Join(' ', phrase.Lead)}\"";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Shorten(string text)
    {
        text = text.ReplaceLineEndings(" ");
        return text.Length <= 40 ? text : text[..36] + "...";
    }
}
