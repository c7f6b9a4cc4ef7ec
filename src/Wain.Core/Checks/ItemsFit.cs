using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>Items of a stated size lie on the panel that bears them, and no two in one place.</summary>
public static class ItemsFit
{
    private static string Carried(string cell, string tank) => Examples.Materials + $$"""

        item battery { size 13 in by 7 in by 9 in }
        item tank { size 20 in by 12 in by 10 in }
        panel deck of deck_stack { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (80 in, 20 in, 0 in) }
        load cell {
            item battery
            weighs 27 lb
            at {{cell}}
            on deck
        }
        load water {
            item tank
            at {{tank}}
        }
        """;

    public static readonly FindingInfo Beyond = new("WN4408", "item-beyond-panel", Level.Note, "An item reaches beyond the panel that it lies on",
        "What hangs over an edge tips, chafes, or is in the way of what stands beside it. The size is the item's own, x forward and y to the left, about the place of its centre.",
        Carried("(3 in, 0 in, 5 in)", "(50 in, 0 in, 5 in)"), Carried("(20 in, 0 in, 5 in)", "(50 in, 0 in, 5 in)"));

    public static readonly FindingInfo Together = new("WN4409", "items-in-one-place", Level.Warning, "Two items take up the same space",
        "Their sizes and places put one into the other. One of the places is a slip, and with it the centre of gravity.",
        Carried("(20 in, 0 in, 5 in)", "(30 in, 0 in, 5 in)"), Carried("(20 in, 0 in, 5 in)", "(50 in, 0 in, 5 in)"));

    private sealed record Box(BoundFact Load, string Item, Vec3 Low, Vec3 High);

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        var boxes = input.Spec.All("load").OrderBy(l => l.Name, StringComparer.Ordinal).Select(l => Read(input, l)).OfType<Box>().ToList();
        // A mirrored one lies as its original does; it may still be in the way of what lies on its side, or of its original on the centre line.
        boxes.AddRange(input.Spec.All("mirror").Where(m => m.MirrorOf?.Keyword == "load").OrderBy(m => m.Name, StringComparer.Ordinal)
            .Select(m => Read(input, m.MirrorOf!) is { } box ? box with { Load = m, Low = new Vec3(box.Low.X, -box.High.Y, box.Low.Z), High = new Vec3(box.High.X, -box.Low.Y, box.High.Z) } : null).OfType<Box>());
        foreach (var box in boxes)
        {
            if (box.Load.Find("on") is not { } on || input.Spec.Evaluator.Thing(on, "panel")?.Name is not { } name || input.Structure.Panels.FirstOrDefault(p => p.Name == name) is not { IsLevel: true } panel) continue;
            double beyond = Corners(box).Max(c => Beyond_(panel, c));
            if (beyond > 0.5)
                yield return new Finding(Beyond, $"{box.Item} of {box.Load.Name} reaches {input.Say.Nearly(beyond)} beyond {panel.Name}.", box.Load.NameSpan) { Subject = box.Load.Name!, Hint = "Move it, or take a smaller one.", Fixes = Fixing.One(Onto(input, box, panel)), Related = [new Related(panel.Fact.NameSpan, "what it lies on")] };
        }
        for (int i = 0; i < boxes.Count; i++)
            for (int k = i + 1; k < boxes.Count; k++)
            {
                double Shared(Func<Vec3, double> along) => Math.Min(along(boxes[i].High), along(boxes[k].High)) - Math.Max(along(boxes[i].Low), along(boxes[k].Low));
                double least = Math.Min(Shared(v => v.X), Math.Min(Shared(v => v.Y), Shared(v => v.Z)));
                if (least > 1)
                    yield return new Finding(Together, $"{boxes[i].Item} of {boxes[i].Load.Name} and {boxes[k].Item} of {boxes[k].Load.Name} overlap by {input.Say.Nearly(least)} at least.", boxes[k].Load.NameSpan) { Subject = boxes[k].Load.Name!, Hint = $"Moving one of them {input.Say.AtLeast(least)} {(least == Shared(v => v.X) ? "forward or aft" : least == Shared(v => v.Y) ? "to the left or right" : "up or down")} parts them.", Related = [new Related(boxes[i].Load.NameSpan, "the other one")] };
            }
    }

    // Straight back over the panel; null for what is larger than that, or lies on no rectangle.
    private static Fix? Onto(CheckInput input, Box box, PlacedPanel panel)
    {
        var (low, high) = PanelShapes.Bounds(panel);
        static double Back(double low, double high, double least, double most) => low < least ? Math.Ceiling((least - low) / 25.4 * 16 - 1e-6) / 16 * 25.4 : high > most ? -Math.Ceiling((high - most) / 25.4 * 16 - 1e-6) / 16 * 25.4 : 0;
        var by = new Vec3(Back(box.Low.X, box.High.X, low.X, high.X), Back(box.Low.Y, box.High.Y, low.Y, high.Y), 0);
        var moved = box with { Low = box.Low + by, High = box.High + by };
        if (Corners(moved).Max(c => Beyond_(panel, c)) > 0.5) return null;
        var at = (moved.Low + moved.High) / 2;
        return Fixing.Write(input.Spec, box.Load.Find("at")!, "at", $"({input.Say.Length(at.X)}, {input.Say.Length(at.Y)}, {input.Say.Length(at.Z)})");
    }

    private static Box? Read(CheckInput input, BoundFact load)
    {
        var e = input.Spec.Evaluator;
        if (load.Find("item") is not { } item || e.Number(item, "count") is > 1 || e.Thing(item, "item") is not { Name: { } name } thing || thing.Find("size") is not { } size) return null;
        if (load.Find("at") is not { } at || e.Place(at, "at") is not { } centre || e.Length(size, "x") is not { } x || e.Length(size, "y") is not { } y || e.Length(size, "z") is not { } z) return null;
        Vec3 middle = new(centre[0], centre[1], centre[2]), half = new Vec3(x, y, z) / 2;
        return new Box(load, name, middle - half, middle + half);
    }

    private static IEnumerable<Vec3> Corners(Box box) =>
        from x in new[] { box.Low.X, box.High.X } from y in new[] { box.Low.Y, box.High.Y } select new Vec3(x, y, box.Low.Z);

    private static double Beyond_(PlacedPanel panel, Vec3 corner)
    {
        var local = panel.Face.ToLocal(corner);
        var point = new Vec2(local.X, local.Y);
        return panel.Outline.Contains(point) ? 0 : panel.Outline.DistanceToEdges(point);
    }
}
