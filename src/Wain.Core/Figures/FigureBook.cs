using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Figures;

/// <summary>Every named figure of a compiled spec, in the order of their names.</summary>
public sealed class FigureBook
{
    public static readonly FigureBook Empty = new(null, [], []);

    // A later pass adds to what is there, so a book is a layer over the one before: copying tens of thousands of figures at each pass would cost more than finding them.
    private readonly FigureBook? _before;
    private readonly Dictionary<string, Figure> _figures;
    private readonly Dictionary<string, MissingFigure> _missing;
    private StrongBox<ImmutableArray<Figure>>? _all;
    private StrongBox<ImmutableArray<MissingFigure>>? _allMissing;

    /// <param name="figures">Each name once.</param>
    /// <param name="missing">Names that no figure has.</param>
    public FigureBook(IEnumerable<Figure> figures, IEnumerable<MissingFigure> missing)
        : this(null, figures.ToDictionary(f => f.Name, StringComparer.Ordinal), missing.ToDictionary(m => m.Name, StringComparer.Ordinal)) { }

    internal FigureBook(FigureBook? before, Dictionary<string, Figure> figures, Dictionary<string, MissingFigure> missing)
    {
        _before = before;
        _figures = figures;
        _missing = missing;
    }

    /// <summary>In the order of their names; sorted when first asked for.</summary>
    public ImmutableArray<Figure> All => (_all ??= new([.. Own(b => b._figures.Values, f => f.Name).OrderBy(f => f.Name, StringComparer.Ordinal)])).Value;

    /// <summary>All of them as they come, for who sorts or looks them up anyhow.</summary>
    internal IReadOnlyList<Figure> Unsorted => Own(b => b._figures.Values, f => f.Name);

    /// <summary>In the order of their names.</summary>
    public ImmutableArray<MissingFigure> Missing => (_allMissing ??= new([.. Own(b => b._missing.Values, m => m.Name).OrderBy(m => m.Name, StringComparer.Ordinal)])).Value;

    public Figure? Find(string name)
    {
        for (var book = this; book is not null; book = book._before)
        {
            if (book._figures.TryGetValue(name, out var figure)) return figure;
            if (book._missing.ContainsKey(name)) return null;
        }
        return null;
    }

    public MissingFigure? FindMissing(string name)
    {
        for (var book = this; book is not null; book = book._before)
        {
            if (book._missing.TryGetValue(name, out var missing)) return missing;
            if (book._figures.ContainsKey(name)) return null;
        }
        return null;
    }

    /// <summary>The names that a misspelled one was probably meant to be.</summary>
    public IReadOnlyList<string> Nearest(string name) => NearestName.Of(name, All.Select(f => f.Name));

    /// <summary>Every figure whose name begins with the words: <c>rear_wall</c> gives <c>rear_wall.area</c> and the rest of that panel.</summary>
    public IEnumerable<Figure> Under(string words) => All.Where(f => f.Name.StartsWith(words + ".", StringComparison.Ordinal));

    /// <summary>This book with the figures of a later pass; a name that both have takes the later figure.</summary>
    public FigureBook With(IEnumerable<Figure> figures, IEnumerable<MissingFigure> missing)
    {
        var (later, without) = (figures.ToDictionary(f => f.Name, StringComparer.Ordinal), missing.ToDictionary(m => m.Name, StringComparer.Ordinal));
        return later.Count == 0 && without.Count == 0 ? this : new(this, later, without);
    }

    // What no later layer puts something else in place of.
    private List<T> Own<T>(Func<FigureBook, IEnumerable<T>> of, Func<T, string> name)
    {
        var found = new List<T>();
        for (var book = this; book is not null; book = book._before)
            foreach (var item in of(book))
                if (!IsReplaced(name(item), book)) found.Add(item);
        return found;
    }

    private bool IsReplaced(string name, FigureBook below)
    {
        for (var book = this; book != below; book = book!._before)
            if (book!._figures.ContainsKey(name) || book._missing.ContainsKey(name)) return true;
        return false;
    }

    /// <summary>How a figure came about, down to what the spec states. Null if there is no such figure. Inputs shown once are not unfolded again.</summary>
    public TraceNode? Trace(string name) => Find(name) is not null || FindMissing(name) is not null ? Unfold(name, new HashSet<string>(StringComparer.Ordinal)) : null;

    private TraceNode Unfold(string name, HashSet<string> shown)
    {
        var figure = Find(name);
        // A figure that several others need is unfolded where it first appears, so that a trace stays as long as the book and never longer.
        var inputs = figure is not null && shown.Add(name) ? figure.Inputs.AddRange(figure.Lacks.Except(figure.Inputs, StringComparer.Ordinal)) : [];
        return new TraceNode(name, figure, FindMissing(name), [.. inputs.Select(i => Unfold(i, shown))]);
    }

    /// <summary>
    /// Answers for these figures in expressions of the spec. A figure that is missing, or a sum that lacks a part, is reported where it is used, so that
    /// a requirement is never met by what was left out.
    /// </summary>
    /// <param name="book">Asked when an expression first needs it, so that a spec that uses no such figure does not wait for them.</param>
    public static FigureSource SourceOf(Func<FigureBook> book, Action<Finding> report) => (thing, path, at) =>
    {
        var figures = book();
        string name = thing is null ? string.Join('.', path) : string.Join('.', path.Prepend(thing.Name!));
        if (figures.Find(name) is { } figure)
        {
            if (!figure.IsComplete) report(new Finding(FigureFindings.Incomplete, $"{name} is not whole: {Say(figure.Lacks)} {(figure.Lacks.Length == 1 ? "is" : "are")} missing from it.", at) { Subject = name });
            return (true, new QuantityValue(figure.Value));
        }
        if (figures.FindMissing(name) is not { } missing) return (false, null);
        report(new Finding(FigureFindings.Missing, $"{name} can't be had: {missing.Reason}.", at) { Subject = name, Related = missing.From is { } place ? [new Related(place, "the fact belongs here")] : [] });
        return (true, null);
    };

    private static string Say(ImmutableArray<string> names) => names.Length switch
    {
        1 => names[0],
        <= 3 => string.Join(", ", names.SkipLast(1)) + " and " + names[^1],
        _ => $"{names[0]}, {names[1]} and {names.Length - 2} more",
    };
}
