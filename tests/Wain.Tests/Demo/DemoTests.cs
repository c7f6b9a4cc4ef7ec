using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Language;
using Wain.Core.Parsing;
using Wain.Core.Syntax;
using Wain.Core.Text;

namespace Wain.Tests.Demo;

/// <summary>The demo camper is whole: every block of the language, no two panels alike, no errors, and no line without an effect.</summary>
public class DemoTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "specs", "heron");

    private static readonly Dictionary<string, string> Files = Directory.GetFiles(Folder, "*.wain").ToDictionary(f => Path.GetFileName(f), File.ReadAllText);

    private static Compilation Whole { get; } = Compiler.Compile(new SourceText("heron.wain", Files["heron.wain"]), Read(Files));

    private static IncludeReader Read(Dictionary<string, string> files) => path => files.TryGetValue(path, out string? text) ? (new SourceText(path, text), null) : (null, "there is no such file");

    [Fact]
    public void It_has_no_errors_and_is_large_enough()
    {
        Assert.DoesNotContain(Whole.Findings, f => f.Level == Level.Error);
        Assert.True(Whole.Structure!.Panels.Length >= 30, $"{Whole.Structure.Panels.Length} panels");
        Assert.True(Whole.Structure.Stacks.Length >= 6, $"{Whole.Structure.Stacks.Length} stacks");
    }

    [Fact]
    public void No_two_panels_are_alike_but_for_mirrors()
    {
        var own = Whole.Structure!.Panels.Where(p => p.Mirrored is null).ToList();
        string Shape(Core.Geometry.PlacedPanel p) => $"{p.Stack.Name} {string.Join(' ', p.Outline.Edges.Select(e => FormattableString.Invariant($"{e.Start.X:0.0},{e.Start.Y:0.0}")))} {p.Openings.Length} {p.Zones.Length}";
        var twins = own.GroupBy(Shape).Where(g => g.Count() > 1).Select(g => string.Join(" and ", g.Select(p => p.Name)));
        Assert.Empty(twins);
    }

    [Fact]
    public void It_uses_every_block_of_the_language()
    {
        var used = new HashSet<FactShape>();
        void Walk(IEnumerable<BoundFact> facts)
        {
            foreach (var fact in facts)
            {
                used.Add(fact.Shape);
                Walk(fact.Body);
            }
        }
        Walk(Whole.Spec.Facts);
        var blocks = new List<FactShape>();
        void Collect(BlockShape block)
        {
            foreach (var fact in block.Facts.Where(f => f.Body is not null && !blocks.Contains(f)))
            {
                blocks.Add(fact);
                Collect(fact.Body!);
            }
        }
        Collect(SettingBlocks.Spec);
        Assert.Empty(blocks.Where(b => !used.Contains(b)).Select(b => b.Keyword));
    }

    /// <summary>Every fact, whole or within a block, is taken out in turn: the bound model is another one, or the spec no longer binds.</summary>
    [Fact]
    public void Deleting_any_fact_changes_the_model()
    {
        string before = Model(Files);
        var without = new List<string>();
        foreach (var (name, text) in Files)
        {
            foreach (var fact in Facts(SpecParser.Parse(new SourceText(name, text)).Value.Statements))
            {
                var changed = new Dictionary<string, string>(Files) { [name] = text.Remove(fact.Span.Start, fact.Span.Length) };
                if (Model(changed) == before) without.Add($"{fact.Span}: {fact.Span.Text.Split('\n')[0]}");
            }
        }
        Assert.Empty(without);
    }

    /// <summary>
    /// Each stated measure of each plan is made a little larger in turn: the plan no longer closes, by just that much at the leg's far end. Where a leg has more
    /// than two measures the slip may be told on another of them, larger by what that one is less firm; then the value that closes is the one before the slip.
    /// </summary>
    [Fact]
    public void A_slip_in_any_stated_measure_is_told_with_its_amount()
    {
        const double Slip = 6.35, Turn = Math.PI / 360;
        var unnoticed = new List<string>();
        foreach (var plan in Whole.Structure!.Plans)
        {
            foreach (var measure in plan.Stated)
            {
                bool angle = measure.Kind is "inward" or "outward";
                string name = measure.Place.Source.Path;
                string text = Files[name];
                string slipped = text.Remove(measure.Place.Start, measure.Place.Length).Insert(measure.Place.Start, $"({measure.Place.Text} + {(angle ? "1/2 deg" : "1/4 in")})");
                var changed = Compiler.Compile(new SourceText("heron.wain", slipped), Read(Files));
                int leg = plan.Outline.IndexOf(measure.Leg);
                double length = leg < 0 ? 0 : plan.Outline.Segment(leg).Length;
                // A slip of a width moves each side by half of it; one of an angle swings the far end on the leg.
                double expected = angle ? Turn * length : measure.Kind == "width" ? Slip / 2 : Slip;
                // The same slip told on the run: what the run would have to be, with the width held, is the width's half over the tangent.
                double onRun = angle ? Math.Abs(plan.Outline.Segment(leg).Chord.Y) * (1 / Math.Tan(measure.Value) - 1 / Math.Tan(measure.Value + Turn)) : expected;
                var told = changed.Findings.Where(f => f.Code == "WN4001" && f.Subject.StartsWith(plan.Name + ".", StringComparison.Ordinal)).ToList();
                var misfits = changed.Structure?.Plans.FirstOrDefault(p => p.Name == plan.Name)?.Misfits ?? [];
                bool Mends(Core.Geometry.StatedMeasure m, double closing) => m.Leg == measure.Leg && m.Kind == measure.Kind && Math.Abs(closing - measure.Value) < 1e-6 * Math.Max(1, Math.Abs(measure.Value));
                // One slip is told once, and what it would take to undo it is among what is offered.
                if (told.Count != 1 || !changed.Structure!.Plans.First(p => p.Name == plan.Name).Slips.Any(s => Mends(s.Measure, s.Closing)) || !misfits.Any(m => Math.Abs(m.Error - expected) < (angle ? 0.02 * expected : 1e-6) || Math.Abs(m.Error - onRun) < 1e-3 || Mends(m.Measure, m.Closing) || Mends(m.Against, m.AgainstClosing))) unnoticed.Add($"{plan.Name}.{measure.Leg} {measure.Kind}: {told.Count} findings, errors {string.Join(", ", misfits.Select(m => FormattableString.Invariant($"{m.Error:0.###}")))}, expected {expected:0.###}");
            }
        }
        Assert.Empty(unnoticed);
    }

    private static IEnumerable<Fact> Facts(IEnumerable<Statement> statements)
    {
        foreach (var statement in statements)
        {
            IEnumerable<Statement> inner = statement switch
            {
                Fact fact => fact.Body ?? [],
                IfStatement condition => condition.Branches.SelectMany(b => b.Body),
                ForStatement loop => loop.Body,
                GroupStatement group => group.Body,
                _ => [],
            };
            if (statement is Fact own) yield return own;
            foreach (var fact in Facts(inner)) yield return fact;
        }
    }

    // The model as text: every bound fact with the words that fill it, and what is wrong with it.
    private static string Model(Dictionary<string, string> files)
    {
        var main = SpecParser.Parse(new SourceText("heron.wain", files["heron.wain"]));
        var spec = Binder.Bind(main.Value, Read(files));
        var lines = new List<string>();
        void Walk(IEnumerable<BoundFact> facts)
        {
            foreach (var fact in facts)
            {
                lines.Add($"{fact.Path} {string.Join(' ', fact.Syntax.Clauses.SelectMany(c => c).Select(t => t.Span.Text))}");
                Walk(fact.Body);
            }
        }
        Walk(spec.Facts);
        lines.AddRange(main.Findings.Concat(spec.Findings).Where(f => f.Level == Level.Error).Select(f => f.Code));
        lines.Sort(StringComparer.Ordinal);
        return string.Join('\n', lines);
    }
}
