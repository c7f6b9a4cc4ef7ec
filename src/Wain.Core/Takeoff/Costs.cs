using System.Collections.Immutable;
using Wain.Core.Figures;
using Wain.Core.Geometry;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>
/// What things cost. Whole packs are bought for the whole camper; each line bears its share of what its material costs, by quantity with waste, so that
/// panels, joints and the rest add up to what is bought. All before tax but for the total that says so.
/// </summary>
internal static class Costs
{
    public static void AddBuying(FigureList figures, TakeoffResult takeoff)
    {
        var linesOf = takeoff.Lines.ToLookup(l => l.Material.Name, StringComparer.Ordinal);
        foreach (var group in takeoff.Buy.GroupBy(b => b.Material.Name, StringComparer.Ordinal))
        {
            var bought = group.ToList();
            foreach (var line in bought) AddBuyLine(figures, takeoff, line, bought.Count == 1 ? line.Material.Name : Slug(line.Mark), [.. linesOf[group.Key].Select(NeedName)]);
            if (bought.Count > 1)
            {
                ImmutableArray<string> parts = [.. bought.Select(b => Slug(b.Mark) + ".cost")];
                if (bought.All(b => b.Cost is not null)) figures.Add(group.Key + ".cost", takeoff.Money.Of(bought.Sum(b => b.Cost!.Value)), null, TakeoffFigures.SumOf(parts, "its sizes"), parts);
                else figures.Lack(group.Key + ".cost", $"{group.Key} does not state {bought.First(b => b.Cost is null).Why}", bought[0].Material.Fact.NameSpan);
            }
            AddShares(figures, takeoff, group.Key, bought, [.. linesOf[group.Key]]);
        }
    }

    private static void AddBuyLine(FigureList figures, TakeoffResult takeoff, BuyLine line, string name, ImmutableArray<string> needs)
    {
        var from = line.Pack?.From ?? line.Material.Fact.NameSpan;
        if (line.Need is { } need)
        {
            figures.Add(name + ".need", need, line.Material.Fact.NameSpan, "the sum of what is used, with waste, in the measure that it is sold by", needs);
        }
        if (line.Owned.Value > 0) figures.Add(name + ".owned", line.Owned, line.Material.Fact.NameSpan, "what the spec says is in the shop");
        if (line.Pack is { } pack) figures.Add(name + ".pack_size", pack.Size, pack.From, "what one " + pack.Word + " holds");
        if (line.Packs is { } packs)
        {
            ImmutableArray<string> inputs = line.Owned.Value > 0 ? [name + ".need", name + ".owned", name + ".pack_size"] : [name + ".need", name + ".pack_size"];
            string formula = "whole packs that cover the need" + (line.Owned.Value > 0 ? " less what is owned" : "") + (packs == line.Minimum && packs > 0 ? ", at least the smallest order" : "") + (line.IsEstimate ? (packs == line.Least && packs > 0 ? ", and the parts in a plain layout" : "") + "; an estimate until a cutting plan stands behind it" : "");
            figures.Add(name + ".packs", Quantity.Count(packs), from, formula, inputs);
        }
        if (line.UnitPrice is { } price) figures.Add(new Figure(name + ".pack_price", takeoff.Money.Of(price), from, line.Pack!.PricedOn is { } on ? $"as the spec says, on {on.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}" : "as the spec says, with no date", [], line.Pack.Source));
        if (line.Cost is { } cost) figures.Add(name + ".cost", takeoff.Money.Of(cost), from, line.UnitPrice is null ? "nothing is bought" : $"{name}.packs * {name}.pack_price", line.UnitPrice is null ? [] : [name + ".packs", name + ".pack_price"]);
        else figures.Lack(name + ".cost", $"{line.Material.Name} does not state {line.Why}", line.Material.Fact.NameSpan);
    }

    // Each line's part of what its material costs.
    private static void AddShares(FigureList figures, TakeoffResult takeoff, string material, List<BuyLine> bought, List<TakeoffLine> lines)
    {
        bool known = bought.All(b => b.Cost is not null);
        double cost = known ? bought.Sum(b => b.Cost!.Value) : 0;
        var kind = bought[0].Pack?.Size.Dimension ?? lines[0].Net.Dimension;
        var parts = lines.Select(l => Packs.Convert(l.Material, l.Gross, kind)?.Value).ToList();
        double whole = parts.Sum(p => p ?? 0);
        for (int i = 0; i < lines.Count; i++)
        {
            var line = lines[i];
            if (!known || parts[i] is not { } part) figures.Lack(line.Name("cost"), $"{material} does not state {bought.FirstOrDefault(b => b.Why is not null)?.Why ?? "what it costs"}", line.Material.Fact.NameSpan);
            else figures.Add(line.Name("cost"), takeoff.Money.Of(whole > 0 ? cost * part / whole : 0), line.From, $"its share of {material}.cost, by what it needs", NeedName(line), material + ".cost");
        }
    }

    public static void AddPanels(FigureList figures, TakeoffResult takeoff, ILookup<string, TakeoffLine> byPanel, ILookup<string, MissingLine> missingOf, Dictionary<string, BuiltPanel> built)
    {
        foreach (var panel in takeoff.Panels)
        {
            var paid = built.GetValueOrDefault(panel.Name)?.Paid;
            string name = panel.Name + (paid is null ? ".cost" : ".cost_estimated");
            AddSum(figures, takeoff, name, panel.Fact.HeadSpan, [.. byPanel[panel.Name].Select(l => l.Name("cost"))], [.. missingOf[panel.Name].Select(m => m.Key + ".cost")], "its share of all that it is made of");
            if (paid is not { } amount) continue;
            var from = built[panel.Name].Fact.Find("paid")!.Span;
            figures.Add(panel.Name + ".cost", takeoff.Money.Of(amount), from, "as paid");
            figures.Add(panel.Name + ".cost_difference", takeoff.Money.Of(amount - figures.Value(name)), from, $"{panel.Name}.cost - {name}", panel.Name + ".cost", name);
        }
    }

    /// <summary>A sum of costs by name; names that are missing are told.</summary>
    public static void AddSum(FigureList figures, TakeoffResult takeoff, string name, Text.Span? from, ImmutableArray<string> parts, ImmutableArray<string> missing, string words)
    {
        ImmutableArray<string> known = [.. parts.Where(figures.Has)];
        double sum = known.Sum(p => figures.Value(p));
        figures.Add(new Figure(name, takeoff.Money.Of(sum), from, TakeoffFigures.SumOf(known, words), known) { Lacks = [.. parts.Where(p => !figures.Has(p)).Concat(missing).Order(StringComparer.Ordinal)] });
    }

    private static string NeedName(TakeoffLine line) => line.Name(line.Waste != 0 ? "need" : line.Measure);

    /// <summary>A mark as a name: letters, digits and underscores.</summary>
    private static string Slug(string mark) => string.Concat(mark.Replace(" x ", "_by_", StringComparison.Ordinal).Select(c => char.IsAsciiLetterOrDigit(c) || c == '_' ? c : '_'));
}
