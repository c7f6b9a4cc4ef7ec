using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Revisions;

/// <summary>
/// Things that have another name and are the same otherwise: a panel by its stack, shape and place, or by what is written of it as it was built; anything else by all that its block says.
/// Where two could be meant, nothing is a rename.
/// </summary>
internal sealed class Renames
{
    private readonly Dictionary<string, string> _now = new(StringComparer.Ordinal);

    /// <summary>What a thing of the old revision is called in the new one.</summary>
    public string Now(string old) => _now.GetValueOrDefault(old, old);

    public IReadOnlyDictionary<string, string> All => _now;

    public static Renames Of(Compilation old, Compilation now)
    {
        var renames = new Renames();
        // A material's new name changes what stacks say, and theirs what panels say; each round settles one step of that.
        for (int round = 0; round < 5; round++)
        {
            int before = renames._now.Count;
            if (!renames.FindByContent(old, now)) break;
            if (old.Structure is { } a && now.Structure is { } b) renames.FindByPlace(a, b);
            renames.FindByBuilt(old.Spec, now.Spec);
            if (renames._now.Count == before) break;
        }
        return renames;
    }

    private bool FindByContent(Compilation old, Compilation now)
    {
        var known = _now.Values.ToHashSet(StringComparer.Ordinal);
        var gone = old.Spec.Facts.Where(f => f.Name is { } n && !_now.ContainsKey(n) && now.Spec.Find(n) is null).ToList();
        var fresh = now.Spec.Facts.Where(f => f.Name is { } n && !known.Contains(n) && old.Spec.Find(n) is null).ToList();
        if (gone.Count == 0 || fresh.Count == 0) return false;
        bool placed = old.Structure is not null && now.Structure is not null;
        bool Wanted(BoundFact f) => !(placed && f.Keyword is "panel" or "mirror") && !(f.Body.IsEmpty && f.Keyword is not ("mirror" or "plan"));
        var olds = gone.Where(Wanted).ToLookup(f => FactContent.Of(old.Spec, f, Now).Text, StringComparer.Ordinal);
        var news = fresh.Where(Wanted).ToLookup(f => FactContent.Of(now.Spec, f, n => n).Text, StringComparer.Ordinal);
        foreach (var group in olds)
        {
            if (group.Count() == 1 && news[group.Key].Count() == 1) _now[group.First().Name!] = news[group.Key].First().Name!;
        }
        return true;
    }

    private void FindByPlace(Structure old, Structure now)
    {
        var known = _now.Values.ToHashSet(StringComparer.Ordinal);
        var gone = old.Panels.Where(p => !_now.ContainsKey(p.Name) && now.Panel(p.Name) is null).ToList();
        var fresh = now.Panels.Where(p => !known.Contains(p.Name) && old.Panel(p.Name) is null).ToList();
        foreach (var o in gone)
        {
            var candidates = fresh.Where(n => IsSame(o, n)).ToList();
            if (candidates is [var only] && gone.Count(g => IsSame(g, only)) == 1) _now[o.Name] = only.Name;
        }
    }

    /// <summary>What was cut on one day, to one design, with one weight, is one panel in the shop, whatever the text makes of it since.</summary>
    private void FindByBuilt(Spec old, Spec now)
    {
        var known = _now.Values.ToHashSet(StringComparer.Ordinal);
        // The mark of the design is written anew where the panel is cut anew.
        foreach (bool marked in (bool[])[true, false])
        {
            var gone = Built(old, marked).Where(b => !_now.ContainsKey(b.Panel) && now.Find(b.Panel) is null).ToLookup(b => b.Text, b => b.Panel, StringComparer.Ordinal);
            var fresh = Built(now, marked).Where(b => !known.Contains(b.Panel) && old.Find(b.Panel) is null).ToLookup(b => b.Text, b => b.Panel, StringComparer.Ordinal);
            foreach (var group in gone)
            {
                if (group.Count() == 1 && fresh[group.Key].Count() == 1 && known.Add(fresh[group.Key].First())) _now[group.First()] = fresh[group.Key].First();
            }
        }
    }

    private static IEnumerable<(string Panel, string Text)> Built(Spec spec, bool marked)
    {
        foreach (var fact in spec.All("built"))
        {
            if (fact.Find("cut") is not { } cut || marked && !cut.Has("mark") || spec.Evaluator.PathOf(fact, "of") is not ({ Keyword: "panel" or "mirror", Name: { } panel }, [])) continue;
            yield return (panel, string.Join(' ', FactContent.Of(spec, fact, n => n).Inner.Select(i => string.Join(' ', i.Slots.Where(s => marked || s.Slot != "mark").Select(s => s.Text).Prepend(i.Key))).Order(StringComparer.Ordinal)));
        }
    }

    private bool IsSame(PlacedPanel old, PlacedPanel now) => Now(old.Stack.Name) == now.Stack.Name && SamePlace(old, now) && SameShape(old.Outline, now.Outline);

    /// <summary>True if two panels lie within a tenth of a millimetre of each other.</summary>
    public static bool SamePlace(PlacedPanel a, PlacedPanel b) =>
        a.Face.N.AngleTo(b.Face.N) < 1e-5 && a.Face.U.AngleTo(b.Face.U) < 1e-5 && Anchor(a).DistanceTo(Anchor(b)) < 0.1;

    /// <summary>The lower left corner of the panel's bounds in space: where a panel is, whatever point its axes begin at.</summary>
    public static Vec3 Anchor(PlacedPanel p) => p.Face.ToWorld(p.Outline.Bounds.Min);

    /// <summary>True if two outlines have the same corners, arcs and bevels to a hundredth of a millimetre, wherever they stand in their axes.</summary>
    public static bool SameShape(Outline a, Outline b)
    {
        if (a.Count != b.Count) return false;
        Vec2 from = a.Bounds.Min, to = b.Bounds.Min;
        int shift = -1;
        for (int i = 0; i < b.Count && shift < 0; i++) if ((a.Edges[0].Start - from).IsNear(b.Edges[i].Start - to, 0.01)) shift = i;
        if (shift < 0) return false;
        for (int i = 0; i < a.Count; i++)
        {
            var (x, y) = (a.Edges[i], b.Edges[(i + shift) % b.Count]);
            if (!(x.Start - from).IsNear(y.Start - to, 0.01) || Math.Abs(x.Sweep - y.Sweep) > 1e-6 || Math.Abs(x.Tilt - y.Tilt) > 1e-6) return false;
        }
        return true;
    }
}
