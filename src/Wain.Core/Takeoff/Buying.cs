using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Model;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>Sheets or sticks of one size that a cutting plan uses.</summary>
/// <param name="Width">mm; 0 for a stick.</param>
/// <param name="Length">mm.</param>
/// <param name="HasMore">True if the design uses the material for more than the parts of the plan, such as gussets.</param>
public sealed record CuttingCount(string Material, double Width, double Length, int Count, bool HasMore = false);

/// <summary>A line of what to buy.</summary>
/// <param name="Mark">Unique: the material, with the size where several are bought.</param>
/// <param name="Need">With waste, in the measure of the pack; null if it can't be told in that measure.</param>
/// <param name="Owned">What is in the shop already, in the same measure.</param>
/// <param name="Least">Packs that it takes whatever the amount: those of a plain layout of the parts, or else as many as there are pieces that can't share a pack.</param>
/// <param name="Packs">Whole packs; null if it can't be told.</param>
/// <param name="UnitPrice">For one pack, in the spec's currency; null if unknown.</param>
/// <param name="IsEstimate">True for sheets and sticks that no cutting plan stands behind.</param>
/// <param name="Why">What is lacking where packs or price are; null otherwise.</param>
public sealed record BuyLine(
    string Mark, Material Material, Pack? Pack, Quantity? Need, Quantity Owned, int Minimum, int Least, int? Packs, double? UnitPrice, bool IsEstimate, bool IsStale, string? Why)
{
    /// <summary>Cost before tax; null if unknown.</summary>
    public double? Cost => Packs is 0 ? 0 : Packs * UnitPrice;
}

/// <summary>Whole packs that cover what the lines need.</summary>
internal static class Buying
{
    /// <param name="cutting">Counts of a cutting plan by material; a material that it names is bought as it says.</param>
    /// <param name="laid">Counts of a plain layout, for materials that no plan names.</param>
    public static (ImmutableArray<BuyLine> Lines, Money Money) Of(LineList lines, ImmutableArray<CuttingCount> cutting, ImmutableArray<CuttingCount> laid)
    {
        var spec = lines.Spec;
        var used = lines.Lines.GroupBy(l => l.Material.Name, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => (Material: g.First().Material, Lines: g.ToList())).ToList();
        var packs = used.ToDictionary(u => u.Material.Name, u => Packs.Of(spec, u.Material), StringComparer.Ordinal);
        var money = Money.Read(spec, packs.Values.SelectMany(p => p));
        var owned = spec.All("owned").Select(f => (Fact: f, Material: lines.Of(f, "material"))).Where(o => o.Material is not null).ToLookup(o => o.Material!.Name, o => o.Fact, StringComparer.Ordinal);
        var planned = cutting.ToLookup(c => c.Material, StringComparer.Ordinal);
        var plain = laid.ToDictionary(c => c.Material, StringComparer.Ordinal);
        var buy = ImmutableArray.CreateBuilder<BuyLine>();
        foreach (var (material, its) in used)
        {
            var counts = planned[material.Name].ToList();
            if (counts.Count == 0 || counts.Exists(c => c.HasMore))
            {
                var estimated = Estimated(spec, material, its, packs[material.Name], owned[material.Name], plain.GetValueOrDefault(material.Name), money);
                if (counts.Count == 0) buy.Add(estimated);
                else counts = WithRest(counts, estimated);
            }
            buy.AddRange(counts.Select(c => Planned(spec, material, c, packs[material.Name], money)));
        }
        return (buy.ToImmutable(), money);
    }

    /// <summary>What the plan buys is bought in any case; what else is cut of the material comes out of what the plan leaves, and where that is too little by its amount, out of more of it.</summary>
    private static List<CuttingCount> WithRest(List<CuttingCount> counts, BuyLine estimated)
    {
        if (estimated is not { Pack: { } pack, Need: { } need }) return counts;
        double bought = counts.Sum(c => c.Count * (c.Width > 0 ? c.Width * c.Length / 1e6 : c.Length / 1000)), lacking = need.Value - estimated.Owned.Value - bought;
        return lacking <= 0 ? counts : [.. counts.Where(c => !IsOf(c, pack)), new(counts[0].Material, pack.Width, pack.Length, counts.Where(c => IsOf(c, pack)).Sum(c => c.Count) + WholePacks(lacking, pack.Size.Value), true)];
    }

    private static bool IsOf(CuttingCount count, Pack pack) => Math.Abs(pack.Width - count.Width) < 0.01 && Math.Abs(pack.Length - count.Length) < 0.01;

    private static BuyLine Planned(Spec spec, Material material, CuttingCount count, ImmutableArray<Pack> packs, Money money)
    {
        var pack = packs.FirstOrDefault(p => IsOf(count, p));
        var size = pack?.Size ?? (count.Width > 0 ? Weighing.Area(count.Width * count.Length) : Quantity.FromMillimetres(count.Length));
        string mark = packs.Length <= 1 ? material.Name : $"{material.Name} {Size(spec.Say, count.Width > 0 ? count.Width : null, count.Length)}";
        // A cutting plan has taken owned stock first, so nothing is taken off again.
        return Finish(spec, material, mark, pack, new Quantity(size.Value * count.Count, size.Dimension), new Quantity(0.0, size.Dimension), 0, false, money) with { Packs = count.Count, Least = count.Count };
    }

    private static BuyLine Estimated(Spec spec, Material material, List<TakeoffLine> lines, ImmutableArray<Pack> packs, IEnumerable<BoundFact> owned, CuttingCount? laid, Money money)
    {
        bool cut = material is SheetMaterial or StickMaterial;
        if (packs.IsEmpty) return new BuyLine(material.Name, material, null, null, default, 0, 0, null, null, cut, false, "how it is sold");
        // Of several sizes the one that parts can be laid out on at the least cost, or else that gives most for its price; where prices are missing, the first.
        var pack = laid is not null && packs.FirstOrDefault(p => IsOf(laid, p)) is { } fitting ? fitting : packs.Length > 1 && packs.All(p => p.Price is not null && money.InCurrency(p.Price.Value) is not null) ? packs.MinBy(p => money.InCurrency(p.Price!.Value) / p.Size.Value)! : packs[0];
        double need = 0;
        foreach (var line in lines)
        {
            if (Packs.Convert(material, line.Gross, pack.Size.Dimension) is not { } part)
                return new BuyLine(material.Name, material, pack, null, new Quantity(0.0, pack.Size.Dimension), 0, 0, null, null, cut, false, $"what turns {line.Gross.Dimension.Describe()} into {pack.Size.Dimension.Describe()}");
            need += part.Value;
        }
        double have = owned.Sum(o => Owned(spec, material, o, pack.Size.Dimension));
        // What is owned saves a sheet for each whole one that it amounts to. Without a layout: two pieces that each take more than half of a sheet or stick can't come out of one.
        int least = laid is not null ? Math.Max(0, laid.Count - (int)Math.Floor(have / pack.Size.Value + 1e-9)) : have > 0 ? 0 : lines.Sum(l => l.Pieces.Count(p => p > pack.Size.Value / 2 && p <= pack.Size.Value));
        return Finish(spec, material, material.Name, pack, new Quantity(need, pack.Size.Dimension), new Quantity(have, pack.Size.Dimension), least, cut, money);
    }

    private static BuyLine Finish(Spec spec, Material material, string mark, Pack? pack, Quantity need, Quantity owned, int least, bool estimate, Money money)
    {
        int minimum = material.Fact.Find("sold") is { } sold ? (int)Math.Clamp(spec.Evaluator.Number(sold, "minimum") ?? 0, 0, 1_000_000) : 0;
        double lacking = need.Value - owned.Value;
        int? packs = pack is null ? null : lacking <= 0 ? 0 : Math.Max(Math.Max(minimum, least), WholePacks(lacking, pack.Size.Value));
        double? price = pack?.Price is { } p ? money.InCurrency(p) : null;
        string? why = pack is null ? "how it is sold" : pack.Price is null ? "a price" : price is null ? $"a rate from {pack.Price.Value.Dimension.Currency} to {money.Currency}" : null;
        return new BuyLine(mark, material, pack, need, owned, minimum, least, packs, price, estimate, pack is not null && money.IsStale(pack.PricedOn), why);
    }

    /// <summary>Whole packs; a need of three and one last bit of a double buys three.</summary>
    public static int WholePacks(double need, double pack) => (int)Math.Clamp(Math.Ceiling(Math.Round(need / pack, 9)), 0, int.MaxValue);

    private static double Owned(Spec spec, Material material, BoundFact owned, Dimension kind)
    {
        var e = spec.Evaluator;
        double sum = 0;
        void Add(Quantity? quantity, double count)
        {
            if (quantity is { } q && Packs.Convert(material, q, kind) is { } converted) sum += converted.Value * count;
        }
        foreach (var size in owned.All("size")) if (e.Length(size, "width") is { } w && e.Length(size, "length") is { } l) Add(Weighing.Area(w * l), e.Number(size, "count") ?? 1);
        foreach (var length in owned.All("length"))
        {
            if (e.Length(length, "length") is not { } l) continue;
            double faulty = Math.Max(0, (e.Length(length, "to") ?? 0) - (e.Length(length, "from") ?? 0));
            Add(Quantity.FromMillimetres(Math.Max(0, l - faulty)), e.Number(length, "count") ?? 1);
        }
        if (owned.Find("amount") is { } amount) Add(e.Quantity(amount, "amount"), 1);
        return sum;
    }

    private static string Size(Say say, double? width, double length)
    {
        string Number(double mm) => Say.Number(say.Metric ? mm : mm / 25.4);
        return $"{(width is { } w ? $"{Number(w)} x " : "")}{Number(length)} {(say.Metric ? "mm" : "in")}";
    }
}
