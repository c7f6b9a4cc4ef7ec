using System.Collections.Immutable;
using Wain.Core.Figures;

namespace Wain.Core.Revisions;

/// <summary>Figures that are shown differently.</summary>
internal static class FigureComparison
{
    /// <summary>What a builder asks first: totals, balance, clearances.</summary>
    public static bool IsHeadline(string name) => FigureWords.Order(name) >= 0;

    /// <returns>What a builder asks first, and all others.</returns>
    public static (ImmutableArray<FigureChange> Headlines, ImmutableArray<FigureChange> Others) Of(Design old, Design now, Renames renames, Causes causes, ShownFigures shown)
    {
        var materials = old.Structure.Materials.Where(m => renames.Now(m.Name) != m.Name).ToDictionary(m => m.Name, m => renames.Now(m.Name), StringComparer.Ordinal);
        // The second skin of a material goes by a number behind its name: ply_5mm_2.
        string Word(string word)
        {
            if (materials.TryGetValue(word, out string? isNow)) return isNow;
            int number = word.LastIndexOf('_');
            return number > 0 && word[(number + 1)..].All(char.IsAsciiDigit) && materials.TryGetValue(word[..number], out isNow) ? isNow + word[number..] : word;
        }
        string NameNow(string name)
        {
            int end = name.IndexOf('.', StringComparison.Ordinal);
            string top = end < 0 ? name : name[..end], rest = name[top.Length..];
            // What a panel or joint uses goes by the material: left_wall.ply_5mm.area.
            return renames.Now(top) + (materials.Count == 0 || rest.Length == 0 ? rest : string.Join('.', rest.Split('.').Select(Word)));
        }
        var olds = new Dictionary<string, Figure>(StringComparer.Ordinal);
        foreach (var figure in old.Figures.Unsorted) olds.TryAdd(renames.All.Count == 0 ? figure.Name : NameNow(figure.Name), figure);
        List<FigureChange> headlines = [], others = [];
        foreach (var figure in now.Figures.Unsorted)
        {
            olds.Remove(figure.Name, out var was);
            if (was is null || Differ(was, figure, shown)) Tell(figure.Name, was, figure);
        }
        foreach (var (name, figure) in olds) Tell(name, figure, null);
        return ([.. headlines.OrderBy(c => FigureWords.Order(c.Name)).ThenBy(c => c.Name, StringComparer.Ordinal)], [.. others.OrderBy(c => c.Name, StringComparer.Ordinal)]);

        void Tell(string name, Figure? a, Figure? b) => (IsHeadline(name) ? headlines : others).Add(Change(name, a, b));

        FigureChange Change(string name, Figure? a, Figure? b)
        {
            var unit = shown.In((b ?? a)!.Value);
            return new FigureChange(name, a is null ? "" : Say(a, shown), b is null ? "" : Say(b, shown), a is null || b is null ? "" : shown.Difference(a.Value, b.Value))
            {
                OldValue = a is null ? double.NaN : shown.In(a.Value).Value,
                NewValue = b is null ? double.NaN : shown.In(b.Value).Value,
                Unit = unit.Unit,
                OldSpread = Spread(a, shown),
                NewSpread = Spread(b, shown),
                OldBetween = Between(a),
                NewBetween = Between(b),
                // Only what is told first is traced: a table of thousands of figures needs no lines of the spec.
                Causes = IsHeadline(name) ? causes.OfFigure(name) : [],
            };
        }
    }

    private static string Say(Figure f, ShownFigures shown) => shown.Of(f.Value) + (f.IsComplete ? "" : ", not whole");

    private static string Spread(Figure? f, ShownFigures shown) => f is { Low: { } low, High: { } high } ? $"{shown.Of(low)} to {shown.Of(high)}" : "";

    // The formula of a clearance says what it lies between.
    private static string Between(Figure? f) => f is not null && f.Formula.IndexOf("between ", StringComparison.Ordinal) is var at && at >= 0 && FigureWords.Of(f.Name) is not null ? f.Formula[at..] : "";

    private static bool Differ(Figure a, Figure b, ShownFigures shown) =>
        shown.Differ(a.Value, b.Value) || a.IsComplete != b.IsComplete
        || (a.Low is { } al && b.Low is { } bl ? shown.Differ(al, bl) : a.Low is null != b.Low is null)
        || (a.High is { } ah && b.High is { } bh ? shown.Differ(ah, bh) : a.High is null != b.High is null);
}
