using Wain.Core.Findings;
using Wain.Core.Language;
using Wain.Core.Shipped;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>What is declared and never used, and what is stated and never read.</summary>
internal static class Unused
{
    private static readonly HashSet<string> Kinds = new([.. MaterialBlocks.All.Select(m => m.Keyword), "stack", "plan", "level"], StringComparer.Ordinal);

    // Read when outputs are written, long after a check is done.
    private static readonly HashSet<string> OfOutputs = new(["camper.lengths", "camper.weights", "camper.note", .. MaterialBlocks.All.SelectMany(m => new[] { m.Keyword + ".note", m.Keyword + ".grade" })], StringComparer.Ordinal);

    /// <summary>Names that nothing uses: each is told where it stands in the main text, and once for a file that is used, since a list of materials serves many specs.</summary>
    public static void TellNames(Spec spec)
    {
        var names = spec.NamedValues.Where(v => !v.Used && !v.Given).Select(v => (Kind: "value", v.Name, v.Place))
            .Concat(spec.Functions.Where(f => !f.Used).Select(f => (Kind: "function", Name: f.Syntax.Name.Text, Place: f.Syntax.Name.Span)))
            .Concat(spec.Groups.Where(g => !g.Used).Select(g => (Kind: "group", Name: g.Syntax.Name.Text, Place: g.Syntax.Name.Span)))
            .Concat(spec.Facts.Where(f => f.Name is not null && !f.Referenced && Kinds.Contains(f.Keyword)).Select(f => (Kind: f.Keyword, Name: f.Name!, Place: f.NameSpan)))
            .DistinctBy(n => n.Place).ToList();
        foreach (var (kind, name, place) in names.Where(n => n.Place.Source == spec.Main))
        {
            spec.Evaluator.Report(new Finding(BindingFindings.Unused, $"The {kind} {name} is never used.", place) { Subject = name });
        }
        foreach (var file in names.Where(n => n.Place.Source != spec.Main && !ShippedMaterials.Ships(n.Place.Source)).GroupBy(n => n.Place.Source))
        {
            var list = file.Select(n => n.Name).ToList();
            string shown = string.Join(", ", list.Take(12)) + (list.Count > 12 ? $" and {list.Count - 12} more" : "");
            spec.Evaluator.Report(new Finding(BindingFindings.Unused, $"Of {file.Key.Path} this spec does not use: {shown}.", file.First().Place) { Level = Level.Note, Subject = file.Key.Path });
        }
    }

    /// <summary>Facts that no pass read, one note for each kind of fact.</summary>
    public static void TellFacts(Spec spec)
    {
        var unread = new Dictionary<string, (int Count, BoundFact First)>(StringComparer.Ordinal);
        // A shipped list serves every spec; what one of them leaves unread is no slip.
        // What is declared and never used is told by its name already.
        foreach (var fact in spec.Facts.Where(f => !ShippedMaterials.Ships(f.Span.Source) && (f.Referenced || !Kinds.Contains(f.Keyword)))) Collect(fact, fact.Keyword, unread);
        foreach (var (path, (count, first)) in unread)
        {
            string times = count == 1 ? "" : $" ({count} times)";
            spec.Evaluator.Report(new Finding(BindingFindings.NotComputed, $"\"{path.Replace('.', ' ')}\" is kept, and no result uses it{times}.", first.HeadSpan) { Subject = path });
        }
    }

    private static bool Collect(BoundFact fact, string path, Dictionary<string, (int Count, BoundFact First)> unread)
    {
        // Declarations of the text itself, and rules about findings, are read by the program and not by a pass.
        if (fact.Parent is null && fact.Keyword is "written" or "accept" or "mirror") return true;
        var inner = new Dictionary<string, (int Count, BoundFact First)>(StringComparer.Ordinal);
        bool anyRead = fact.Used || fact.Referenced || OfOutputs.Contains(path);
        // What a material has from the one that it is like is told there.
        foreach (var part in fact.Body.Where(p => p.Parent == fact)) anyRead |= Collect(part, path + "." + part.Keyword, inner);
        if (!anyRead) inner = new(StringComparer.Ordinal) { [path] = (1, fact) };
        foreach (var (key, (count, first)) in inner) unread[key] = unread.TryGetValue(key, out var known) ? (known.Count + count, known.First) : (count, first);
        return anyRead;
    }
}
