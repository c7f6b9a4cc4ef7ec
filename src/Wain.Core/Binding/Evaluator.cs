using System.Collections.Immutable;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>Answers for the figures that later passes compute: <c>floor.top</c>, <c>rear_wall.area</c>, <c>total.weight</c>.</summary>
/// <param name="thing">What the first word names, or null if it is a word such as <c>total</c>.</param>
/// <param name="path">The words after it, or the whole path if there is no thing.</param>
/// <returns>The value; null if this source knows no such figure. A figure that it knows but could not compute is reported by the source.</returns>
public delegate (bool Known, Value? Value) FigureSource(BoundFact? thing, ImmutableArray<string> path, Span at);

/// <summary>
/// Evaluates expressions when they are asked for, each named value once, and finds circles with their whole chain. One of these lives as long as
/// one compilation; passes add the figures that they compute.
/// </summary>
public sealed partial class Evaluator
{
    /// <summary>Functions may call functions this deep. A figure may depend on figures far deeper than that.</summary>
    public const int CallDepthLimit = 200;

    private readonly Action<Finding> _report;
    private readonly Func<string, BoundFact?> _find;
    private readonly List<FigureSource> _sources = [];
    private readonly List<(string Name, Span Place)> _chain = [];
    private int _callDepth;
    private int _depth;
    private long _steps;

    internal Evaluator(Func<string, BoundFact?> find, Action<Finding> report)
    {
        _find = find;
        _report = report;
    }

    /// <summary>More evaluation steps than this end the run with an error.</summary>
    public long StepLimit { get; init; } = 5_000_000;

    /// <summary>True while declarations unfold, when no figure of a panel is known yet.</summary>
    internal bool Unfolding { get; set; }

    /// <summary>True if the panels were not placed, so that any figure of them is unknown and none is told as missing.</summary>
    internal bool FiguresUnknown { get; set; }

    /// <summary>Set once there are figures: their names, for suggestions.</summary>
    internal Func<IEnumerable<string>> FigureNames { get; set; } = () => [];

    public void AddSource(FigureSource source) => _sources.Add(source);

    public void Report(Finding finding) => _report(finding);

    private readonly Dictionary<(BoundFact, string), Value?> _memo = [];
    private readonly HashSet<(BoundFact, string)> _reported = [];
    private readonly HashSet<(BoundFact, string)> _busy = [];

    private void ReportOnce(BoundFact fact, string slot, Finding finding)
    {
        if (_reported.Add((fact, slot))) _report(finding);
    }

    private Value? Memo(BoundFact fact, string slot, Func<Value?> compute)
    {
        var key = (fact, slot);
        if (_memo.TryGetValue(key, out var known)) return known;
        if (!_busy.Add(key))
        {
            ReportCircle($"{fact.Path}.{slot}", SlotSpan(fact, slot));
            return null;
        }
        var value = Within($"{fact.Path} ({slot})", SlotSpan(fact, slot), compute);
        _busy.Remove(key);
        _memo[key] = value;
        return value;
    }

    /// <summary>
    /// Computes a named figure as a step of the chain that circles are told by. A pass that computes figures on demand wraps each in this and keeps the
    /// result itself. Goes on with a fresh stack when this one runs short, so that a long chain of figures is no danger.
    /// </summary>
    public T Within<T>(string name, Span place, Func<T> compute)
    {
        _chain.Add((name, place));
        try { return DeepStack.Run(compute); }
        finally
        {
            _chain.RemoveAt(_chain.Count - 1);
        }
    }

    /// <summary>Tells a circle, from the place where the name was first asked for, with the whole chain.</summary>
    public void ReportCircle(string name, Span place)
    {
        int start = _chain.FindLastIndex(c => c.Place == place);
        if (start < 0) start = _chain.FindLastIndex(c => c.Name == name);
        if (start < 0) start = 0;
        var chain = _chain.Skip(start).ToList();
        // A circle of thousands is told by its two ends.
        var names = chain.Select(c => c.Name).ToList();
        if (names.Count > 60) names = [.. names.Take(40), $"{names.Count - 50} more", .. names.TakeLast(10)];
        string told = string.Join(", which needs ", names) + $", which needs {(chain.Count > 0 ? chain[0].Name : name)}";
        var finding = new Finding(BindingFindings.Circle, $"A circle: {told}.", place) { Related = [.. chain.Where(c => c.Place != place).Take(20).Select(c => new Related(c.Place, $"{c.Name} is here"))] };
        _report(finding);
    }

    internal static string Count(int n, string noun) => n == 1 ? $"one {noun}" : $"{n} {noun}s";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
