using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>A requirement of the spec, evaluated last, when every figure is known.</summary>
internal sealed record Requirement(RequireStatement Syntax, Scope Scope);

/// <summary>
/// The bound spec: loops, conditions, groups and includes are unfolded, every fact fits its shape, every thing has its whole name. Values are evaluated
/// when asked for through <see cref="Evaluator"/>. Order of declarations has no meaning.
/// </summary>
public sealed class Spec
{
    private Say? _say;

    internal Spec(SourceText main, ImmutableArray<SourceText> sources, Evaluator evaluator, List<Finding> findings)
    {
        Main = main;
        Sources = sources;
        Evaluator = evaluator;
        FindingList = findings;
    }

    public SourceText Main { get; }

    /// <summary>Every text that took part, the main one first.</summary>
    public ImmutableArray<SourceText> Sources { get; }

    public Evaluator Evaluator { get; }

    /// <summary>Findings so far; evaluation adds to them.</summary>
    internal List<Finding> FindingList { get; }

    public IReadOnlyList<Finding> Findings => FindingList;

    /// <summary>Top-level facts by keyword and name, whatever their order in the text: things with names and plain facts alike.</summary>
    public ImmutableArray<BoundFact> Facts { get; internal set; } = [];

    /// <summary>The units that the camper block shows results in: messages use them too.</summary>
    public Say Say => Facts.IsEmpty ? Say.Usual : _say ??= new(
        All("camper").Any(c => c.Find("lengths")?.Word("style") == "millimetres"), All("camper").Any(c => c.Find("weights")?.Word("style") == "kilograms"));

    internal Dictionary<string, BoundFact> Things { get; } = new(StringComparer.Ordinal);

    /// <summary>Names of statements that could not be read: what speaks of them is no second mistake.</summary>
    internal HashSet<string> Broken { get; } = new(StringComparer.Ordinal);

    /// <summary>True if a file could not be read, so that any name may stand in it.</summary>
    internal bool NamesMissing { get; init; }

    internal ImmutableArray<Requirement> Requirements { get; set; } = [];

    internal ImmutableArray<NamedValue> NamedValues { get; set; } = [];

    internal ImmutableArray<FunctionDefinition> Functions { get; set; } = [];

    internal ImmutableArray<GroupDefinition> Groups { get; set; } = [];

    /// <summary>The thing with a whole name, or null.</summary>
    public BoundFact? Find(string name) => Things.GetValueOrDefault(name);

    /// <summary>Top-level facts with a keyword, by name.</summary>
    public IEnumerable<BoundFact> All(string keyword) => Facts.Where(f => f.Keyword == keyword);

    /// <summary>The scope of the whole spec.</summary>
    internal Scope Top { get; set; } = new(null);

    /// <summary>Evaluates an expression over the spec's numbers and the figures that are known by now.</summary>
    public (Value? Value, ImmutableArray<Finding> Findings) Evaluate(string expression)
    {
        const string before = "let x = ";
        var (text, alone) = (new SourceText("expression", $"{before}{expression}\n"), new SourceText("expression", expression + "\n"));
        var parsed = Parsing.SpecParser.Parse(text);
        if (parsed.Findings.Length > 0 || parsed.Value.Statements is not [LetStatement let]) return (null, [.. parsed.Findings.Select(Shown)]);
        int known = FindingList.Count;
        var value = Evaluator.Evaluate(let.Value, Top);
        return (value, [.. FindingList.Skip(known).Select(Shown)]);

        // What was asked is shown as it was asked.
        Finding Shown(Finding finding) => finding with { Place = At(finding.Place), Related = [.. finding.Related.Select(r => r with { Place = At(r.Place) })], Fixes = [.. finding.Fixes.Select(f => f with { Place = At(f.Place) })] };
        Span At(Span span)
        {
            if (span.Source != text) return span;
            int start = Math.Clamp(span.Start - before.Length, 0, expression.Length), end = Math.Clamp(span.End - before.Length, start, expression.Length);
            return new Span(alone, start, end - start);
        }
    }
}
