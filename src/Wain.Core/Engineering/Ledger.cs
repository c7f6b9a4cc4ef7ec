using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Figures;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>Collects the figures, the lacks and the findings of one run.</summary>
internal sealed class Ledger(EngineeringInput input)
{
    private readonly FigureList _figures = new();
    private readonly List<Finding> _findings = [];
    private readonly Dictionary<(string Material, string Property), (Material Material, List<string> Figures, Span From)> _lacks = [];
    private readonly Dictionary<string, Material> _materials = input.Structure.Materials.GroupBy(m => m.Name, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
    private readonly Dictionary<string, PlacedPanel> _panels = input.Structure.Panels.GroupBy(p => p.Name, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);

    private readonly ILookup<string, PlacedJoint> _joints = input.Structure.Joints.OrderBy(j => j.Name, StringComparer.Ordinal).SelectMany(j => j.First.Panel == j.Second.Panel ? [(j.First.Panel.Name, j)] : new[] { (j.First.Panel.Name, j), (j.Second.Panel.Name, j) }).ToLookup(x => x.Item1, x => x.Item2, StringComparer.Ordinal);
    private readonly ILookup<string, Splice> _splices = input.Pieces.Splices.ToLookup(s => s.Panel.Name, StringComparer.Ordinal);

    public EngineeringInput Input => input;

    /// <summary>Joints that a panel is a side of, in the order of their names.</summary>
    public IEnumerable<PlacedJoint> JointsOf(PlacedPanel panel) => _joints[panel.Name];

    /// <summary>Splices in the skins of a panel.</summary>
    public IEnumerable<Splice> SplicesOf(PlacedPanel panel) => _splices[panel.Name];

    public Structure Structure => input.Structure;

    public Spec Spec => input.Structure.Spec;

    /// <summary>Figures in the units that the spec shows results in.</summary>
    public Say Say => Spec.Say;

    public Evaluator Evaluator => input.Structure.Spec.Evaluator;

    /// <summary>In the order of their names: moving a block of the spec must change no output.</summary>
    public ImmutableArray<PlacedPanel> Panels => input.Takeoff.Panels;

    public IEnumerable<Figure> Figures => _figures.Figures;

    public IEnumerable<MissingFigure> MissingFigures => _figures.Missing;

    public PlacedPanel? Panel(string? name) => name is null ? null : _panels.GetValueOrDefault(name);

    public Material? Of(BoundFact fact, string slot) => fact.Has(slot) && Evaluator.Thing(fact, slot) is { Name: { } name } ? _materials.GetValueOrDefault(name) : null;

    public IEnumerable<PanelFrame> FramesOf(PlacedPanel panel) => input.Frames.Of(panel);

    public void Tell(Finding finding) => _findings.Add(finding);

    public void Tell(FindingInfo info, string message, Span at, string subject, string? hint = null, Level? level = null, ImmutableArray<Fix> fixes = default) =>
        _findings.Add(new Finding(info, message, at) { Subject = subject, Hint = hint, Level = level ?? info.Level, Fixes = fixes.IsDefault ? [] : fixes });

    /// <summary>A figure in base units.</summary>
    public void Add(string name, double value, Dimension kind, Span? from, string formula, ImmutableArray<string> inputs = default, string? source = null)
    {
        if (double.IsFinite(value)) _figures.Add(new Figure(name, new Quantity(value, kind), from, formula, inputs.IsDefault ? [] : inputs, source));
        else _figures.Lack(name, "the figures given lead to no finite answer", from);
    }

    public void Add(string name, Spread value, Dimension kind, Span? from, string formula, ImmutableArray<string> inputs, ImmutableArray<string> lacks = default) =>
        _figures.Add(name, value, kind, from, formula, inputs, lacks);

    /// <summary>A stated figure, so that what comes from it traces to its line.</summary>
    public double? Stated(string name, BoundFact? fact, string slot)
    {
        if (fact is null || Evaluator.Quantity(fact, slot) is not { } value) return null;
        _figures.Add(new Figure(name, value, fact.Span, "as the spec says", [], fact.Shape.Slots.Any(s => s.Name == "source") ? Evaluator.Text(fact, "source") : null));
        return value.Value;
    }

    /// <summary>The value of a shipped or stated default, in base units.</summary>
    public double Default(string name) => input.Takeoff.Defaults[name].Value.Value;

    /// <summary>A figure that can't be had, and why.</summary>
    public void Lack(string figure, string reason, Span? from) => _figures.Lack(figure, reason, from);

    /// <summary>A figure that can't be had because a material is silent; told once for each material and property.</summary>
    public void Lack(string figure, Material material, string property, Span from)
    {
        if (material.Figure(property) is { } stated)
        {
            // An impossible value is told as such; that it is stated and not lacking must not read otherwise.
            _figures.Lack(figure, $"{material.Name}.{property} is no possible value", stated.From);
            return;
        }
        _figures.Lack(figure, $"{material.Name} states no {property}", material.Fact.NameSpan);
        if (!_lacks.TryGetValue((material.Name, property), out var known)) _lacks[(material.Name, property)] = known = (material, [], from);
        if (!known.Figures.Contains(figure)) known.Figures.Add(figure);
    }

    public ImmutableArray<Finding> FindingsWithLacks()
    {
        foreach (var ((name, property), (material, figures, from)) in _lacks.OrderBy(l => l.Key.Material, StringComparer.Ordinal).ThenBy(l => l.Key.Property, StringComparer.Ordinal))
        {
            string more = figures.Count switch { 1 => "", 2 => $" and {figures[1]}", _ => $" and {figures.Count - 1} more" };
            string? reading = material.Fact.Shape.Body?.Facts.FirstOrDefault(f => f.Keyword == property)?.Reading;
            _findings.Add(new Finding(EngineeringFindings.PropertyLacking, $"{name} states no {property}, so {figures[0]}{more} can't be had.", material.Fact.NameSpan)
            {
                Subject = name + "." + property,
                Hint = reading is null ? null : $"Add a line to {name}: {reading}.",
                Related = [new Related(from, "it is used here")],
            });
        }
        _lacks.Clear();
        return [.. _findings];
    }
}
