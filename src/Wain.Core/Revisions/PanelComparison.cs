using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Units;

namespace Wain.Core.Revisions;

/// <summary>Panels and their openings: new, gone, re-cut, moved, renamed.</summary>
internal static class PanelComparison
{
    /// <param name="parts">Changes of the parts of panels: a panel of which any part is cut anew is re-cut.</param>
    public static List<Change> Of(Design old, Design now, Renames renames, Causes causes, ShownFigures shown, List<Change> parts, out int untouched)
    {
        var changes = new List<Change>();
        untouched = 0;
        var olds = old.Structure.Panels.GroupBy(p => renames.Now(p.Name), StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var recut = parts.Where(p => p.Kind is not ChangeKind.Renamed and not ChangeKind.Moved).Select(p => p.Panel).ToHashSet(StringComparer.Ordinal);
        var moved = parts.Where(p => p.Kind == ChangeKind.Moved).Select(p => p.Panel).ToHashSet(StringComparer.Ordinal);
        foreach (var panel in now.Structure.Panels)
        {
            if (!olds.Remove(panel.Name, out var was))
            {
                changes.Add(new Change("panel", panel.Name, ChangeKind.New) { Panel = panel.Name, Details = [.. Sizes(null, null, panel, now, shown)], Causes = causes.Of(null, panel.Fact, shape: true), After = panel });
                continue;
            }
            var openings = Openings(was, panel, renames, causes, shown);
            changes.AddRange(openings);
            var details = Shape(was, panel, renames, shown).ToList();
            string move = Move(was, panel, shown);
            bool cut = details.Count > 0 || openings.Any(o => o.Kind is not ChangeKind.Renamed) || recut.Contains(panel.Name);
            bool renamed = was.Name != panel.Name;
            if (move.Length > 0) details.Add(new Detail("place", "", move));
            if (!cut && move.Length == 0 && !renamed && !moved.Contains(panel.Name))
            {
                untouched++;
                continue;
            }
            var kind = cut ? ChangeKind.Recut : move.Length > 0 ? ChangeKind.Moved : renamed ? ChangeKind.Renamed : ChangeKind.Changed;
            changes.Add(new Change("panel", panel.Name, kind)
            {
                Panel = panel.Name,
                OldName = renamed ? was.Name : null,
                Details = [.. details, .. cut ? Sizes(was, old, panel, now, shown).Where(d => d.What is "area" or "weight") : []],
                Causes = kind == ChangeKind.Renamed ? [Causes.Between(panel.Name, was.Fact, panel.Fact)] : causes.Of(was.Fact, panel.Fact, shape: true),
                Before = was,
                After = panel,
            });
        }
        foreach (var (name, was) in olds)
        {
            changes.Add(new Change("panel", name, ChangeKind.Gone) { Panel = name, Details = [.. Sizes(was, old, null, null, shown)], Causes = causes.Of(was.Fact, null, shape: true), Before = was });
        }
        return changes;
    }

    private static IEnumerable<Detail> Sizes(PlacedPanel? was, Design? old, PlacedPanel? panel, Design? now, ShownFigures shown)
    {
        foreach (string what in (string[])["width", "height", "area", "weight"])
        {
            Quantity? a = was is null ? null : old!.Figures.Find($"{was.Name}.{what}")?.Value, b = panel is null ? null : now!.Figures.Find($"{panel.Name}.{what}")?.Value;
            if (a is null && b is null || a is { } x && b is { } y && !shown.Differ(x, y)) continue;
            yield return new Detail(what, a is { } o ? shown.Of(o) : "", b is { } n ? shown.Of(n) : "", a is { } p && b is { } q ? shown.Difference(p, q) : "");
        }
    }

    private static IEnumerable<Detail> Shape(PlacedPanel was, PlacedPanel panel, Renames renames, ShownFigures shown)
    {
        if (renames.Now(was.Stack.Name) != panel.Stack.Name) yield return new Detail("stack", was.Stack.Name, panel.Stack.Name);
        if (shown.LengthsDiffer(was.Thickness, panel.Thickness)) yield return Length("thickness", was.Thickness, panel.Thickness, shown);
        bool sizes = false;
        if (shown.LengthsDiffer(was.Width, panel.Width)) { sizes = true; yield return Length("width", was.Width, panel.Width, shown); }
        if (shown.LengthsDiffer(was.Height, panel.Height)) { sizes = true; yield return Length("height", was.Height, panel.Height, shown); }
        if (was.Outline.Count != panel.Outline.Count) yield return new Detail("edges", Show(was.Outline.Count), Show(panel.Outline.Count));
        else if (!Renames.SameShape(was.Outline, panel.Outline))
        {
            int shift = Shift(was.Outline, panel.Outline);
            bool square = was.Outline.Count == 4 && sizes;
            for (int i = 0; i < was.Outline.Count; i++)
            {
                int j = (i + shift) % was.Outline.Count;
                var (a, b) = (was.Outline.Edges[i], panel.Outline.Edges[j]);
                string name = b.Name ?? Show(j + 1);
                double x = was.Outline.Segment(i).Length, y = panel.Outline.Segment(j).Length;
                if (shown.LengthsDiffer(x, y) && !(square && (Same(x, was.Width) || Same(x, was.Height)))) yield return Length("edge " + name, x, y, shown);
                if (ShownFigures.AnglesDiffer(a.Tilt, b.Tilt)) yield return new Detail($"bevel {name}", ShownFigures.Angle(a.Tilt), ShownFigures.Angle(b.Tilt));
                double turnA = Turn(was.Outline, i), turnB = Turn(panel.Outline, j);
                if (ShownFigures.AnglesDiffer(turnA, turnB)) yield return new Detail($"corner before {name}", ShownFigures.Angle(turnA), ShownFigures.Angle(turnB));
            }
        }
        if (Zones(was, shown) is var za && Zones(panel, shown) is var zb && za != zb) yield return new Detail("zones", za, zb);
    }

    // Where the new outline begins: edges keep their names, though a panel that is written another way may begin at another corner.
    private static int Shift(Outline was, Outline now)
    {
        for (int shift = 0; shift < now.Count; shift++)
            if (Enumerable.Range(0, was.Count).All(i => was.Edges[i].Name == now.Edges[(i + shift) % now.Count].Name)) return shift;
        return 0;
    }

    private static string Zones(PlacedPanel p, ShownFigures shown) =>
        string.Join("; ", p.Zones.Select(z => $"{z.Name} {shown.Length(z.Region.Bounds.Width)} by {shown.Length(z.Region.Bounds.Height)} of {z.Stack.Name}").Order(StringComparer.Ordinal));

    private static bool Same(double a, double b) => Math.Abs(a - b) < 0.01;

    private static string Show(int n) => n.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static double Turn(Outline outline, int i) => Math.PI - Math.IEEERemainder(outline.Segment(i).Tangent(0).Angle - outline.Segment(outline.Previous(i)).Tangent(1).Angle, 2 * Math.PI);

    internal static Detail Length(string what, double a, double b, ShownFigures shown) =>
        new(what, shown.Length(a), shown.Length(b), shown.Difference(Quantity.FromMillimetres(a), Quantity.FromMillimetres(b)));

    /// <summary>How far the lower left corner went and how far the panel turned, in words; empty if it stands where it stood.</summary>
    private static string Move(PlacedPanel was, PlacedPanel now, ShownFigures shown)
    {
        // A panel that grew and kept one side where it was has not moved. What did is told by its middle, which moves alike on both sides of a mirror.
        Vec3 by = default;
        foreach (var axis in (Vec3[])[was.Face.U, was.Face.V, was.Face.N])
        {
            double middle = (Middle(now) - Middle(was)).Dot(axis);
            var (low, high) = Extent(was, axis);
            var (lowNow, highNow) = Extent(now, axis);
            if (shown.LengthsDiffer(middle, 0) && shown.LengthsDiffer(lowNow - low, 0) && shown.LengthsDiffer(highNow - high, 0)) by += axis * middle;
        }
        var words = new List<string>();
        void Add(double mm, string positive, string negative)
        {
            if (shown.LengthsDiffer(mm, 0)) words.Add($"{shown.Length(Math.Abs(mm))} {(mm > 0 ? positive : negative)}");
        }
        Add(by.X, "forward", "aft");
        Add(by.Y, "left", "right");
        Add(by.Z, "up", "down");
        double turned = was.Face.N.AngleTo(now.Face.N);
        if (ShownFigures.AnglesDiffer(turned, 0)) words.Add("turned " + ShownFigures.Angle(turned));
        return string.Join(", ", words);
    }

    private static (double Low, double High) Extent(PlacedPanel p, Vec3 axis)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var edge in p.Outline.Edges)
        {
            double at = p.Face.ToWorld(edge.Start).Dot(axis);
            (low, high) = (Math.Min(low, at), Math.Max(high, at));
        }
        return (low, high);
    }

    private static Vec3 Middle(PlacedPanel p) => p.Face.ToWorld((p.Outline.Bounds.Min + p.Outline.Bounds.Max) / 2);

    private static List<Change> Openings(PlacedPanel was, PlacedPanel panel, Renames renames, Causes causes, ShownFigures shown)
    {
        var changes = new List<Change>();
        var olds = was.Openings.ToDictionary(o => o.Name, StringComparer.Ordinal);
        var fresh = new List<PlacedOpening>();
        foreach (var opening in panel.Openings)
        {
            if (olds.Remove(opening.Name, out var before)) Add(before, opening);
            else fresh.Add(opening);
        }
        foreach (var opening in fresh)
        {
            // Another name for a hole of the same size at the same place, with the same unit in it.
            var same = olds.Values.Where(o => OpeningDetails(was, o, panel, opening, renames, shown).Count == 0).ToList();
            if (same is [var only])
            {
                olds.Remove(only.Name);
                Add(only, opening);
            }
            else Add(null, opening);
        }
        foreach (var gone in olds.Values) Add(gone, null);
        return changes;

        void Add(PlacedOpening? a, PlacedOpening? b)
        {
            var kind = a is null ? ChangeKind.New : b is null ? ChangeKind.Gone : ChangeKind.Changed;
            var details = new List<Detail>();
            if (a is not null && b is not null)
            {
                details = OpeningDetails(was, a, panel, b, renames, shown);
                if (details.Count == 0 && a.Name == b.Name) return;
                kind = details.Count == 0 ? ChangeKind.Renamed : details.All(d => d.What is "along" or "up") ? ChangeKind.Moved : ChangeKind.Recut;
            }
            else
            {
                var one = (b ?? a)!;
                string size = $"{shown.Length(one.Width)} by {shown.Length(one.Height)}";
                details.Add(a is null ? new Detail("size", "", size) : new Detail("size", size, ""));
            }
            changes.Add(new Change("opening", $"{panel.Name}.{(b ?? a)!.Name}", kind)
            {
                Panel = panel.Name,
                OldName = a is not null && b is not null && a.Name != b.Name ? $"{was.Name}.{a.Name}" : null,
                Details = [.. details],
                Causes = kind == ChangeKind.Renamed ? [Causes.Between(b!.Fact.Path, a!.Fact, b.Fact)] : causes.Of(a is null ? null : was.Fact, b is null ? null : panel.Fact, shape: true),
            });
        }
    }

    private static List<Detail> OpeningDetails(PlacedPanel was, PlacedOpening a, PlacedPanel panel, PlacedOpening b, Renames renames, ShownFigures shown)
    {
        var details = new List<Detail>();
        void Compare(string what, double x, double y)
        {
            if (shown.LengthsDiffer(x, y)) details.Add(Length(what, x, y, shown));
        }
        Compare("width", a.Width, b.Width);
        Compare("height", a.Height, b.Height);
        Compare("corner", a.Corner, b.Corner);
        // From the left as seen from outside; on the mirrored side from the right, so that both say the same.
        Compare("along", Along(was, a), Along(panel, b));
        Compare("up", a.Hole.Bounds.Min.Y - was.Outline.Bounds.Min.Y, b.Hole.Bounds.Min.Y - panel.Outline.Bounds.Min.Y);
        string ua = a.Unit is { } u ? renames.Now(u.Name) : "none", ub = b.Unit?.Name ?? "none";
        if (ua != ub) details.Add(new Detail("unit", ua, ub));
        if (a.Framed != b.Framed) details.Add(new Detail("members round it", a.Framed ? "yes" : "no", b.Framed ? "yes" : "no"));
        Compare("recess", a.Recess?.Depth ?? 0, b.Recess?.Depth ?? 0);
        return details;
    }

    private static double Along(PlacedPanel p, PlacedOpening o) => p.Mirrored is null ? o.Hole.Bounds.Min.X - p.Outline.Bounds.Min.X : p.Outline.Bounds.Max.X - o.Hole.Bounds.Max.X;
}
