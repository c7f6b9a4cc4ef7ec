using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Figures;

/// <summary>Collects the figures of a pass. A name given twice keeps its first figure.</summary>
public sealed class FigureList
{
    private readonly Dictionary<string, Figure> _figures = new(StringComparer.Ordinal);
    private readonly Dictionary<string, MissingFigure> _missing = new(StringComparer.Ordinal);

    public IEnumerable<Figure> Figures => _figures.Values;

    public IEnumerable<MissingFigure> Missing => _missing.Values;

    public Figure? Find(string name) => _figures.GetValueOrDefault(name);

    /// <summary>The value in base units.</summary>
    /// <exception cref="KeyNotFoundException">There is no such figure: a fault of the pass.</exception>
    public double Value(string name) => _figures[name].Value.Value;

    public bool Has(string name) => _figures.ContainsKey(name);

    public void Add(Figure figure)
    {
        if (!_missing.ContainsKey(figure.Name)) _figures.TryAdd(figure.Name, figure);
    }

    public void Add(string name, Quantity value, Span? from, string formula, params ImmutableArray<string> inputs) => Add(new Figure(name, value, from, formula, inputs));

    /// <summary>A figure with a spread, in base units.</summary>
    public void Add(string name, Spread spread, Dimension kind, Span? from, string formula, ImmutableArray<string> inputs, ImmutableArray<string> lacks = default)
    {
        bool exact = spread.Low == spread.Likely && spread.High == spread.Likely;
        Add(new Figure(name, new Quantity(spread.Likely, kind), from, formula, inputs, null, exact ? null : new Quantity(spread.Low, kind), exact ? null : new Quantity(spread.High, kind)) { Lacks = lacks.IsDefault ? [] : lacks });
    }

    public void Lack(string name, string reason, Span? from)
    {
        if (!_figures.ContainsKey(name)) _missing.TryAdd(name, new MissingFigure(name, reason, from));
    }

    /// <summary>Takes the list as it is: nothing is added to it afterwards.</summary>
    public FigureBook ToBook() => new(null, _figures, _missing);
}
