using System.Globalization;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Pieces;

namespace Wain.Core.Revisions;

/// <summary>Pieces of sheets and boards, and members of frames: what is cut anew, and what only sits elsewhere in its panel.</summary>
internal static class PartComparison
{
    /// <summary>A part as a builder knows it.</summary>
    /// <param name="Cut">All that its cutting depends on, as shown.</param>
    /// <param name="Place">Where it sits in its panel, as shown.</param>
    private sealed record Part(string Panel, string Key, string Mark, string Cut, string Place, PlacedPanel Owner, List<(string What, string Text)> Sizes);

    public static List<Change> Of(Design old, Design now, Renames renames, Causes causes, ShownFigures shown, out int untouched)
    {
        var changes = new List<Change>();
        // Most panels are as they were, to the last bit: their parts need no words to be told apart.
        var before = old.Structure.Panels.ToDictionary(p => p.Name, StringComparer.Ordinal);
        var same = renames.All.Count > 0 ? [] : now.Structure.Panels.Where(p => before.TryGetValue(p.Name, out var was) && AreSame(old, was, now, p)).Select(p => p.Name).ToHashSet(StringComparer.Ordinal);
        untouched = same.Count == 0 ? 0 : now.Structure.Panels.Where(p => same.Contains(p.Name)).Sum(p => now.Pieces.Of(p).Count() + MembersOf(now, p).Count());
        var olds = All(old, renames.Now, shown, same).ToLookup(p => p.Panel, StringComparer.Ordinal);
        var news = All(now, n => n, shown, same).ToLookup(p => p.Panel, StringComparer.Ordinal);
        foreach (string panel in olds.Select(g => g.Key).Union(news.Select(g => g.Key), StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            List<Part> a = [.. olds[panel]], b = [.. news[panel]];
            // First what is the same in all; then what keeps its name; then what is cut alike and sits elsewhere under another name.
            foreach (var key in (Func<Part, string>[])[p => p.Key + "\n" + p.Cut + "\n" + p.Place, p => p.Cut + "\n" + p.Place, p => p.Key, p => p.Cut])
            {
                var byKey = a.GroupBy(key, StringComparer.Ordinal).ToDictionary(g => g.Key, g => new Queue<Part>(g), StringComparer.Ordinal);
                foreach (var part in b.ToList())
                {
                    if (!byKey.TryGetValue(key(part), out var queue) || !queue.TryDequeue(out var was)) continue;
                    a.Remove(was);
                    b.Remove(part);
                    if (was.Cut != part.Cut) changes.Add(Make(was, part, ChangeKind.Recut));
                    else if (was.Place != part.Place) changes.Add(Make(was, part, ChangeKind.Moved));
                    else untouched++;
                }
            }
            changes.AddRange(b.Select(p => Make(null, p, ChangeKind.New)));
            changes.AddRange(a.Select(p => Make(p, null, ChangeKind.Gone)));
        }
        return changes;

        Change Make(Part? was, Part? part, ChangeKind kind)
        {
            var one = (part ?? was)!;
            var details = kind switch
            {
                ChangeKind.Recut => was!.Sizes.Zip(part!.Sizes).Where(z => z.First.Text != z.Second.Text).Select(z => Measure(z.First.What, z.First.Text, z.Second.Text)).ToList(),
                ChangeKind.Moved => [new Detail("place in the panel", was!.Place, part!.Place)],
                ChangeKind.New => [.. part!.Sizes.Take(1).Select(s => new Detail(s.What, "", s.Text))],
                _ => [.. was!.Sizes.Take(1).Select(s => new Detail(s.What, s.Text, ""))],
            };
            // Other corners and holes go without saying where the size says so.
            if (details.Any(d => d.What is "size" or "length" or "width")) details.RemoveAll(d => d.What is "outline" or "holes");
            return new Change("part", one.Mark, kind) { Panel = one.Panel, Details = [.. details], Causes = causes.Of(was?.Owner.Fact, part?.Owner.Fact, shape: true) };
        }
    }

    private static IEnumerable<Member> MembersOf(Design design, PlacedPanel panel) => design.Frames.Of(panel).SelectMany(f => f.Members);

    private static bool AreSame(Design old, PlacedPanel was, Design now, PlacedPanel panel) =>
        was.Outline.Equals(panel.Outline)
        && old.Pieces.Of(was).SequenceEqual(now.Pieces.Of(panel), EqualityComparer<Piece>.Create(IsSame!, p => p.Count))
        && MembersOf(old, was).SequenceEqual(MembersOf(now, panel), EqualityComparer<Member>.Create(IsSame!, m => m.Holes.Length));

    private static bool IsSame(Piece a, Piece b) =>
        a.PartMark == b.PartMark && a.Key == b.Key && a.Material.Name == b.Material.Name && a.Thickness == b.Thickness && a.Count == b.Count && a.Grain == b.Grain
        && a.Rough.Equals(b.Rough) && a.Holes.SequenceEqual(b.Holes) && a.Routs.SequenceEqual(b.Routs) && a.RoundedOff == b.RoundedOff;

    private static bool IsSame(Member a, Member b) =>
        a.PartMark == b.PartMark && a.Key == b.Key && a.Stick.Name == b.Stick.Name && a.LongPoint == b.LongPoint && a.Width == b.Width && a.Start == b.Start && a.End == b.End
        && a.RipBevel == b.RipBevel && a.CentreLine == b.CentreLine && a.Outline.Equals(b.Outline) && a.Laps.SequenceEqual(b.Laps) && a.RoundedOff == b.RoundedOff && a.Holes.SequenceEqual(b.Holes);

    /// <summary>A list of many places says less than that they differ.</summary>
    private static Detail Measure(string what, string was, string isNow)
    {
        if (what == "outline") return new Detail(what, "", "with other corners");
        if (what != "holes") return new Detail(what, was, isNow);
        static int Count(string text) => text.Length == 0 ? 0 : text.Split("; ").Length;
        return Count(was) == Count(isNow) ? new Detail(what, "", "in other places") : new Detail(what, Count(was).ToString(CultureInfo.InvariantCulture), Count(isNow).ToString(CultureInfo.InvariantCulture));
    }

    /// <param name="without">Panels that are left out.</param>
    private static IEnumerable<Part> All(Design design, Func<string, string> nameNow, ShownFigures shown, HashSet<string> without)
    {
        string Mark(string mark, PlacedPanel panel)
        {
            string isNow = nameNow(panel.Name);
            return mark.StartsWith(panel.Name + ".", StringComparison.Ordinal) ? isNow + mark[panel.Name.Length..] : mark;
        }
        foreach (var piece in design.Pieces.All)
        {
            if (without.Contains(piece.Panel.Name)) continue;
            string material = nameNow(piece.Material.Name);
            string key = piece.Key.StartsWith(piece.Material.Name, StringComparison.Ordinal) ? material + piece.Key[piece.Material.Name.Length..] : piece.Key;
            var sizes = new List<(string, string)>
            {
                ("size", $"{shown.Length(piece.BlankLength)} by {shown.Length(piece.BlankWidth)}"),
                ("material", material),
                ("thickness", shown.Length(piece.Thickness)),
                ("count", piece.Count.ToString(CultureInfo.InvariantCulture)),
                ("holes", Say(piece.Holes, piece.Rough.Bounds.Min, shown)),
                ("steps", string.Join("; ", piece.Routs.Select(r => $"{r.What} {shown.Length(r.Depth)} deep"))),
                ("outline", Say(piece.Rough, shown)),
            };
            yield return new Part(nameNow(piece.Panel.Name), key, Mark(piece.PartMark, piece.Panel), string.Join('\n', sizes) + piece.Grain, Place(piece.Rough.Bounds.Min, piece.Panel, shown), piece.Panel, sizes);
        }
        foreach (var member in design.Structure.Panels.Where(p => !without.Contains(p.Name)).SelectMany(design.Frames.Of).SelectMany(f => f.Members))
        {
            string stick = nameNow(member.Stick.Name);
            var sizes = new List<(string, string)>
            {
                ("length", shown.Length(member.LongPoint)),
                ("material", stick),
                ("width", shown.Length(member.Width)),
                ("ends", $"{Say(member.Start)} and {Say(member.End)}"),
                ("rip bevel", ShownFigures.Angle(member.RipBevel)),
                ("laps", string.Join("; ", member.Laps.Select(l => shown.Length(l.Depth)).Order(StringComparer.Ordinal))),
                ("holes", string.Join("; ", member.Holes.Select(h => $"{h.Kind} {shown.Length(h.Diameter)} at {shown.Length(h.At.DistanceTo(member.CentreLine.From))}").Order(StringComparer.Ordinal))),
            };
            yield return new Part(nameNow(member.Panel.Name), member.Key, Mark(member.PartMark, member.Panel), string.Join('\n', sizes), Place(member.Outline.Bounds.Min, member.Panel, shown), member.Panel, sizes);
        }
    }

    private static string Say(EndCut cut)
    {
        if (cut.Shaped) return "shaped";
        string angle = ShownFigures.Angle(Settled(cut.Angle)), bevel = ShownFigures.Angle(Settled(cut.Bevel));
        return (angle, bevel) switch { (Square, Square) => "square", (_, Square) => angle, (Square, _) => "bevel " + bevel, _ => $"{angle} bevel {bevel}" };
    }

    private const string Square = "0.0 deg";

    private static string Say(Outline outline, ShownFigures shown)
    {
        var from = outline.Bounds.Min;
        return string.Join(' ', outline.Edges.Select(e => $"{shown.Length(Settled(e.Start.X - from.X))}/{shown.Length(Settled(e.Start.Y - from.Y))}/{ShownFigures.Angle(Settled(e.Sweep))}/{ShownFigures.Angle(Settled(e.Tilt))}"));
    }

    private static string Say(IEnumerable<Outline> holes, Vec2 from, ShownFigures shown) =>
        string.Join("; ", holes.Select(h => $"{shown.Length(Settled(h.Bounds.Width))} by {shown.Length(Settled(h.Bounds.Height))} at {shown.Length(Settled(h.Bounds.Min.X - from.X))}, {shown.Length(Settled(h.Bounds.Min.Y - from.Y))}").Order(StringComparer.Ordinal));

    private static string Place(Vec2 at, PlacedPanel panel, ShownFigures shown)
    {
        var from = panel.Outline.Bounds.Min;
        return $"{shown.Length(Settled(at.X - from.X))} along, {shown.Length(Settled(at.Y - from.Y))} up";
    }

    // The last bits of trigonometry must not decide on which side of a half a length falls.
    private static double Settled(double value) => Math.Round(value, 6) + 0.0;
}
