using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Drawing;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Pieces;
using Wain.Core.Takeoff;
using Wain.Core.Units;

namespace Wain.Core.CutLists;

/// <summary>Pieces and frames to lists of parts with the stock that they are cut from.</summary>
public static class CutListBuilder
{
    /// <summary>A circular saw's or table saw's common cut, 1/8 in (mm): common practice, used where the spec states no kerf.</summary>
    public const double UsualKerf = 3.175;

    /// <summary>One list for each material that is cut, in the order of names; a material without stock sizes has a list without stock.</summary>
    public static ImmutableArray<CutList> Of(Structure structure, Frames frames, PieceList pieces)
    {
        var spec = structure.Spec;
        var settings = Settings.Read(structure);
        var lists = new List<CutList>();
        foreach (var group in pieces.All.GroupBy(p => p.Material.Name, StringComparer.Ordinal))
        {
            var material = group.First().Material;
            var kind = material is SheetMaterial s ? s.Kind == "board" ? CutKind.Board : CutKind.Sheet : CutKind.Roll;
            var sheet = material as SheetMaterial;
            long thickness = sheet is null ? 0 : Nearest(sheet.Thickness);
            ImmutableArray<CutPart> parts = [.. group.OrderBy(p => p.PartMark, StringComparer.Ordinal).Select(p => PartOf(p, kind, sheet?.HasGrain ?? true))];
            lists.Add(settings.List(material, kind, kind == CutKind.Roll ? 0 : settings.Kerf, sheet is null ? 0 : Down(sheet.Trim), thickness, parts));
        }
        var sticks = frames.Members.Select(m => (m.Stick, m.Width, Part: PartOf(m)))
            .Concat(structure.Subframe.Select(m => (m.Stick, Width: Math.Min(m.Stick.Thickness, m.Stick.Width), Part: new CutPart(m.PartMark, 0, Up(m.Length), Nearest(Math.Min(m.Stick.Thickness, m.Stick.Width)), 1, true, []))));
        foreach (var group in sticks.GroupBy(m => m.Stick.Name, StringComparer.Ordinal))
        {
            lists.Add(settings.List(group.First().Stick, CutKind.Stick, settings.Kerf, 0, 0, [.. group.OrderBy(m => m.Part.Mark, StringComparer.Ordinal).Select(m => m.Part)]));
        }
        return [.. lists.OrderBy(l => l.Material, StringComparer.Ordinal)];
    }

    private static long Nearest(double mm) => (long)Math.Round(mm * CutList.UnitsPerMillimetre);

    // Rounded up, but for the last bits of trigonometry.
    private static long Up(double mm) => (long)Math.Ceiling(mm * CutList.UnitsPerMillimetre - 0.01);

    // A piece as wide as a trimmed sheet fits it: what is trimmed is never more than is stated.
    private static long Down(double mm) => (long)Math.Floor(mm * CutList.UnitsPerMillimetre + 0.01);

    private static CutPart PartOf(Piece piece, CutKind kind, bool hasGrain)
    {
        var bounds = piece.Rough.Bounds;
        // The length of the stock stands upright, so what runs along the panel is turned a quarter to the left. Rounding alone turns nothing.
        bool turn = piece.Grain switch { Grain.Along => true, Grain.Up => false, _ => bounds.Width > bounds.Height + 0.01 };
        long width = Up(piece.BlankWidth), length = Up(piece.BlankLength);
        var outline = ImmutableArray<CutPoint>.Empty;
        if (kind != CutKind.Roll && piece.Rough.Area() < bounds.Width * bounds.Height - 1)
        {
            outline = [.. Contour.Of(piece.Rough).Flatten(0.5).Select(p => turn ? new Vec2(bounds.Max.Y - p.Y, p.X - bounds.Min.X) : new Vec2(p.X - bounds.Min.X, p.Y - bounds.Min.Y))
                .Select(p => new CutPoint(Math.Clamp(Nearest(p.X), 0, width), Math.Clamp(Nearest(p.Y), 0, length))).Distinct()];
        }
        return new CutPart(piece.PartMark, width, length, Nearest(piece.Thickness), piece.Count, kind == CutKind.Board || kind == CutKind.Sheet && (piece.Grain == Grain.Free || !hasGrain), outline);
    }

    private static CutPart PartOf(Member member)
    {
        long length = Up(member.LongPoint);
        // An end that is shaped, or bevelled as well, is cut from a square blank.
        long Run(EndCut end) => end.Shaped || Math.Abs(end.Bevel) > 1e-6 ? 0 : Math.Min(length, Nearest(member.Width * Math.Tan(Math.Abs(end.Angle))));
        return new CutPart(member.PartMark, 0, length, Nearest(member.Width), 1, true, [], Run(member.Start), Run(member.End), Math.Sign(member.Start.Angle) == Math.Sign(member.End.Angle));
    }

    /// <summary>What the spec says of cutting for all materials.</summary>
    private sealed record Settings(Structure Structure, long Kerf, bool Guillotine, Quantity? Offcut, Quantity? OffcutPer, Money Money, ILookup<string, BoundFact> Owned, HashSet<string> Elsewhere)
    {
        public static Settings Read(Structure structure)
        {
            var spec = structure.Spec;
            var e = spec.Evaluator;
            double kerf = UsualKerf;
            bool guillotine = true;
            Quantity? offcut = null, per = null;
            foreach (var camper in spec.All("camper"))
            {
                if (camper.Find("kerf") is { } k && e.Length(k, "value") is { } value) kerf = Math.Max(0, value);
                if (camper.Find("cuts") is { } cuts) guillotine = cuts.Word("style") != "free";
                if (camper.Find("offcut") is { } worth && e.Quantity(worth, "value") is { } money && worth.Word("unit") is { } word && UnitTable.Find(word) is { } unit) (offcut, per) = (money, UnitTable.ToBase(1, unit));
            }
            var owned = spec.All("owned").Select(f => (Fact: f, Material: e.Thing(f, "material")?.Name)).Where(o => o.Material is not null).ToLookup(o => o.Material!, o => o.Fact, StringComparer.Ordinal);
            var elsewhere = structure.Joints.Select(j => j.Fact.Find("gusset")).OfType<BoundFact>().Select(g => e.Thing(g, "material")?.Name).OfType<string>().ToHashSet(StringComparer.Ordinal);
            return new Settings(structure, Up(kerf), guillotine, offcut, per, Money.Read(spec, structure.Materials.SelectMany(m => Packs.Of(spec, m))), owned, elsewhere);
        }

        public CutList List(Material material, CutKind kind, long kerf, long trim, long thickness, ImmutableArray<CutPart> parts)
        {
            var spec = Structure.Spec;
            var packs = Packs.Of(spec, material).Where(p => p.Length > 0 && (kind == CutKind.Stick || p.Width > 0)).ToList();
            var counts = material switch { SheetMaterial s => s.Sizes.Select(x => x.Count).ToList(), StickMaterial s => s.Lengths.Select(x => x.Count).ToList(), _ => [] };
            var prices = packs.Select(p => p.Price is { } price ? Money.InCurrency(price) : null).ToList();
            bool priced = prices.TrueForAll(p => p is >= 0);
            var stock = ImmutableArray.CreateBuilder<CutStock>();
            for (int i = 0; i < packs.Count; i++)
            {
                var pack = packs[i];
                long cost = priced ? (long)Math.Round(prices[i]!.Value * 100) : Math.Max(1, (long)Math.Round(kind == CutKind.Stick ? pack.Length : pack.Width * pack.Length / 100));
                stock.Add(new CutStock(pack.Called ?? pack.Word, kind == CutKind.Stick ? 0 : Nearest(pack.Width), Nearest(pack.Length), cost, i < counts.Count ? counts[i] : null, false, []));
            }
            foreach (var fact in Owned[material.Name]) stock.AddRange(OwnedStock(spec.Evaluator, fact, kind));
            decimal value = Offcut is { } worth && OffcutPer is { Value: > 0 } per && per.Dimension == Dimension.OfArea && priced && Money.InCurrency(worth) is { } money
                ? (decimal)(money * 100 / (per.Value * 1e6 * CutList.UnitsPerMillimetre * CutList.UnitsPerMillimetre)) : 0;
            return new CutList(material.Name, (material as SheetMaterial)?.Called ?? (material as StickMaterial)?.Called ?? "", kind, kerf, trim, Guillotine, thickness, priced ? Money.Currency : "", value, Elsewhere.Contains(material.Name), stock.ToImmutable(), parts);
        }

        private static IEnumerable<CutStock> OwnedStock(Evaluator e, BoundFact owned, CutKind kind)
        {
            string name = owned.Name ?? "owned";
            if (kind != CutKind.Stick)
            {
                foreach (var size in owned.All("size"))
                    if (e.Length(size, "width") is > 0 and var width && e.Length(size, "length") is > 0 and var length) yield return new CutStock(name, Nearest(width), Nearest(length), 0, Count(e, size), true, []);
            }
            else
            {
                foreach (var stick in owned.All("length"))
                {
                    if (e.Length(stick, "length") is not { } whole || whole <= 0) continue;
                    var faults = new List<CutFault>();
                    foreach (var fact in owned.All("faulty").Prepend(stick))
                        if (e.Length(fact, "from") is { } from && e.Length(fact, "to") is { } to && from >= 0 && to > from && from < whole) faults.Add(new CutFault(Nearest(from), Nearest(Math.Min(to, whole))));
                    yield return new CutStock(name, 0, Nearest(whole), 0, Count(e, stick), true, [.. faults.OrderBy(f => f.From)]);
                }
            }
        }

        private static int Count(Evaluator e, BoundFact fact) => (int)Math.Clamp(e.Number(fact, "count") ?? 1, 0, 1_000_000);
    }
}
