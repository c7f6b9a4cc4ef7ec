using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Language;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>Fits the words of one fact to its shape: which phrase is which, and what fills each slot. Judges shape alone, never values.</summary>
internal static class FactReader
{
    /// <summary>Of the facts that begin with one keyword, the one that the next words belong to.</summary>
    public static FactShape Choose(ImmutableArray<FactShape> shapes, Fact syntax)
    {
        if (shapes.Length == 1) return shapes[0];
        var terms = syntax.Clauses.SelectMany((c, i) => c.Select(t => (t, i))).ToList();
        return shapes.FirstOrDefault(s => s.Phrases.Any(p => !p.Lead.IsEmpty && LeadMatches(p, terms, 0)))
            ?? shapes.FirstOrDefault(s => s.Phrases.Length > 0 && s.Phrases[0].Lead.IsEmpty) ?? shapes[0];
    }

    /// <summary>Reads a fact; slots that could be read are kept even where others could not.</summary>
    public static void Read(BoundFact fact, Action<Finding> report)
    {
        var terms = new List<(Expression Term, int Clause)>();
        for (int c = 0; c < fact.Syntax.Clauses.Length; c++) foreach (var term in fact.Syntax.Clauses[c]) terms.Add((term, c));

        var left = fact.Shape.Phrases.ToList();
        int at = 0;
        while (at < terms.Count)
        {
            var phrase = Next(left, terms, at);
            if (phrase is null)
            {
                string shown = terms[at].Term.Span.Text;
                var known = fact.Shape.Phrases.Where(p => p.Lead.Length > 0).Select(p => p.Lead[0]);
                report(new Finding(BindingFindings.UnexpectedWords, $"\"{Shorten(shown)}\" is not understood here. This fact reads: {fact.Shape.Reading}.{NearestName.Ask(NearestName.Of(shown, known))}", terms[at].Term.Span) { Subject = fact.Path });
                at = SkipUnknown(left, terms, at);
                continue;
            }
            left.Remove(phrase);
            at = ReadPhrase(fact, phrase, terms, at, report);
        }
        foreach (var phrase in left)
        {
            if (phrase.Optional) continue;
            report(new Finding(BindingFindings.MissingPart, $"\"{fact.Keyword}\" lacks {Describe(phrase)}. It reads: {fact.Shape.Reading}.", fact.Syntax.Head.Span) { Subject = fact.Path });
            return;
        }
    }

    private static Phrase? Next(List<Phrase> left, List<(Expression Term, int Clause)> terms, int at)
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
        return left.FirstOrDefault(p => p.Lead.IsEmpty && p.Items[0] is Slot slot && Accepts(slot, terms[at].Term));
    }

    private static bool Fits(Phrase phrase, List<(Expression Term, int Clause)> terms, int at)
    {
        for (int i = 0, t = at; i < phrase.Items.Length; i++, t++)
        {
            if (t >= terms.Count) return false;
            if (phrase.Items[i] is string word ? WordOf(terms[t].Term) != word : !Accepts((Slot)phrase.Items[i], terms[t].Term)) return false;
        }
        return true;
    }

    private static bool LeadMatches(Phrase phrase, List<(Expression Term, int Clause)> terms, int at)
    {
        for (int i = 0; i < phrase.Lead.Length; i++)
        {
            if (at + i >= terms.Count || terms[at + i].Clause != terms[at].Clause || WordOf(terms[at + i].Term) != phrase.Lead[i]) return false;
        }
        return true;
    }

    private static int SkipUnknown(List<Phrase> left, List<(Expression Term, int Clause)> terms, int at)
    {
        int next = at + 1;
        while (next < terms.Count && !left.Any(p => !p.Lead.IsEmpty && LeadMatches(p, terms, next))) next++;
        return next;
    }

    private static int ReadPhrase(BoundFact fact, Phrase phrase, List<(Expression Term, int Clause)> terms, int at, Action<Finding> report)
    {
        int start = at;
        foreach (var item in phrase.Items)
        {
            if (item is string word)
            {
                if (at < terms.Count && WordOf(terms[at].Term) == word) { at++; continue; }
                Missing($"the word \"{word}\"");
                return Math.Max(at, start + 1);
            }
            var slot = (Slot)item;
            int count = at < terms.Count ? Take(slot, terms, at) : 0;
            if (count == 0)
            {
                Missing(Describe(slot));
                return Math.Max(at, start + 1);
            }
            fact.Slots[slot.Name] = new SlotText(slot, [.. terms.Skip(at).Take(count).Select(t => t.Term)]);
            at += count;
        }
        if (!phrase.Lead.IsEmpty) fact.Flags.Add(string.Join(' ', phrase.Lead));
        return at;

        void Missing(string what)
        {
            var place = at < terms.Count ? terms[at].Term.Span : terms.Count > 0 ? terms[^1].Term.Span : fact.Syntax.Head.Span;
            string after = at > start && at - 1 < terms.Count ? $" after \"{Shorten(terms[at - 1].Term.Span.Text)}\"" : "";
            string found = at < terms.Count ? $", not \"{Shorten(terms[at].Term.Span.Text)}\"" : "";
            report(new Finding(BindingFindings.MissingPart, $"{Capital(what)} is expected{after}{found}. This fact reads: {fact.Shape.Reading}.", place) { Subject = fact.Path });
        }
    }

    /// <summary>How many terms fill the slot from here on; 0 if what stands there can't.</summary>
    private static int Take(Slot slot, List<(Expression Term, int Clause)> terms, int at)
    {
        string? Word(int i) => at + i < terms.Count && terms[at + i].Clause == terms[at].Clause ? WordOf(terms[at + i].Term) : null;
        bool Value(int i) => at + i < terms.Count;
        if (slot.Kind.StartsWith("bounds_", StringComparison.Ordinal))
        {
            if (Word(0) == "at" && Word(1) is "least" or "most" && Value(2)) return 3;
            if (Word(0) == "up" && Word(1) == "to" && Value(2)) return 3;
            if (Word(0) == "between" && Word(2) == "and" && Value(3)) return 4;
            if (Word(0) == "from" && Word(2) == "to" && Value(3)) return 4;
            if (Word(1) == "to" && Value(2)) return 3;
            return Accepts(slot, terms[at].Term) ? 1 : 0;
        }
        if (slot.Kind == "depths") return Word(0) == "half" ? 1 : Word(1) == "and" && Value(2) ? 3 : 1;
        if (slot.Kind == "lengths")
        {
            int n = 0;
            while (at + n < terms.Count && (WordOf(terms[at + n].Term) == "and" || Accepts(slot, terms[at + n].Term))) n++;
            return n;
        }
        return Accepts(slot, terms[at].Term) ? 1 : 0;
    }

    /// <summary>True if a term has the form that the slot takes; whether its value fits is judged when it is evaluated.</summary>
    private static bool Accepts(Slot slot, Expression term)
    {
        if (!slot.Choices.IsEmpty) return WordOf(term) is { } word && slot.Choices.Contains(word);
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

    private static string? WordOf(Expression term) => term is NameExpression name ? name.SingleWord : null;

    internal static string Describe(Slot slot)
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
            "call" => "a group with its values, such as locker(18 in)",
            "count" => "a count",
            "ratio" => "a ratio such as 0.1 or 10 %",
            "level" => "a height, or a face such as floor.top",
            "any" or "same" => "a value",
            "depths" => "half, or one or two depths",
            "lengths" => "lengths",
            var kind when kind.StartsWith("bounds_", StringComparison.Ordinal) => "a range such as between 1 in and 2 in",
            var kind => KindNames.Words(kind),
        };
    }

    private static string Describe(Phrase phrase) => phrase.Lead.IsEmpty ? Describe(phrase.Slots.First()) : $"\"{string.Join(' ', phrase.Lead)}\"";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Shorten(string text)
    {
        text = text.ReplaceLineEndings(" ");
        return text.Length <= 40 ? text : text[..36] + "...";
    }
}
