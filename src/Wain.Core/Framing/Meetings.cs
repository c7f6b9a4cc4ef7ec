using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Framing;

/// <summary>Where members touch, and the holes that hold them together or let foam in.</summary>
internal static class Meetings
{
    // Ends that touch over less than this (mm) are corners passing by.
    private const double LeastContact = 2;

    // Two cut faces lie on one line if they are this near (mm).
    private const double Flush = 0.01;

    public static ImmutableArray<Meeting> Of(ImmutableArray<Member> members, FrameRules rules, Spec spec)
    {
        var pocket = PocketOf(members, rules, spec);
        var boxes = members.Select(m => m.Outline.Bounds.Grown(Flush)).ToArray();
        var order = Enumerable.Range(0, members.Length).OrderBy(i => boxes[i].Min.X).ToArray();
        var found = new List<(int A, int B, Meeting Meeting)>();
        for (int x = 0; x < order.Length; x++)
            for (int y = x + 1; y < order.Length && boxes[order[y]].Min.X <= boxes[order[x]].Max.X; y++)
            {
                int i = Math.Min(order[x], order[y]), j = Math.Max(order[x], order[y]);
                if (!boxes[i].Touches(boxes[j]) || Contact(members[i], members[j]) is not { } contact) continue;
                bool endI = IsEnd(members[i], contact.Along), endJ = IsEnd(members[j], contact.Along);
                var kind = endI && endJ ? MeetingKind.Mitre : endI || endJ ? MeetingKind.Butt : MeetingKind.Side;
                var (first, second) = endJ && !endI ? (members[j], members[i]) : (members[i], members[j]);
                var meeting = new Meeting(first, second, kind, contact.At, contact.Length, kind == MeetingKind.Side ? null : rules.Screw, kind == MeetingKind.Side ? 0 : rules.ScrewCount, rules.Glue);
                if (pocket is not null && kind != MeetingKind.Side) meeting = meeting with { Pocket = pocket, Open = pocket.FromSide ? OpenSide(meeting, pocket, members) : default };
                if (pocket is not null && kind != MeetingKind.Side) meeting = meeting with { Pockets = [.. Places(meeting, pocket).Where(p => Beyond(first.Outline, p, pocket) <= LeastBeyond)] };
                found.Add((i, j, meeting));
            }
        return Clear([.. found.OrderBy(f => f.A).ThenBy(f => f.B).Select(f => f.Meeting)]);
    }

    // A short member has no room for pockets from both ends in one line. They are given out in turns, one an end at a time, so that each end has what fits; one from each end may pass the other.
    private static ImmutableArray<Meeting> Clear(ImmutableArray<Meeting> meetings)
    {
        var kept = meetings.Select(_ => new List<PocketPlace>()).ToArray();
        foreach (var member in Enumerable.Range(0, meetings.Length).Where(i => meetings[i].Pockets.Length > 0).GroupBy(i => meetings[i].First, ReferenceEqualityComparer.Instance))
        {
            var bored = new List<PocketPlace>();
            for (int turn = 0, most = member.Max(i => meetings[i].Pockets.Length); turn < most; turn++)
                foreach (int i in member)
                {
                    if (turn >= meetings[i].Pockets.Length || meetings[i].Pockets[turn] is var place && bored.Any(other => Overlap(place, other, meetings[i].Pocket!) > LeastBeyond)) continue;
                    bored.Add(meetings[i].Pockets[turn]);
                    kept[i].Add(meetings[i].Pockets[turn]);
                }
            foreach (int i in member)
                if (kept[i].Count == 0 && meetings[i].Count == 1) PassBy(meetings, kept, [.. member], i);
        }
        return [.. meetings.Select((m, i) => kept[i].SequenceEqual(m.Pockets) ? m : m with { Pockets = [.. kept[i]] })];
    }

    // One pocket from each end, in one line: moved to either side of the middle they pass each other, where the member is wide enough.
    private static void PassBy(ImmutableArray<Meeting> meetings, List<PocketPlace>[] kept, List<int> ofMember, int lost)
    {
        var pocket = meetings[lost].Pocket!;
        if (pocket.FromSide) return;
        var others = ofMember.Where(j => j != lost && kept[j].Exists(p => Overlap(meetings[lost].Pockets[0], p, pocket) > LeastBeyond)).ToList();
        if (others is not [var other] || meetings[other].Count != 1) return;
        PocketPlace one = Aside(meetings[lost]), two = Aside(meetings[other]);
        bool Free(PocketPlace place) => Beyond(meetings[lost].First.Outline, place, pocket) <= LeastBeyond && !ofMember.Exists(j => j != lost && j != other && kept[j].Exists(p => Overlap(place, p, pocket) > LeastBeyond));
        if (!Free(one) || !Free(two) || Overlap(one, two, pocket) > LeastBeyond) return;
        (kept[lost], kept[other]) = ([one], [two]);

        // Each to its own left as it is bored, which from the two ends is not the same side.
        static PocketPlace Aside(Meeting meeting) => meeting.Pockets[0] is var place ? place with { At = place.At + place.Inward.Left * (meeting.First.Width / 4) } : default;
    }

    /// <summary>How far two pockets of one member that are bored from its two ends run into each other along it (mm); 0 or less where there is wood between them, or they are bored from one end.</summary>
    public static double Overlap(PocketPlace one, PocketPlace other, Pocket pocket)
    {
        if (one.Row != other.Row || one.Side.Dot(other.Side) < 0 || one.Inward.Dot(other.Inward) > 0 || Math.Abs(one.Inward.Cross(other.At - one.At)) >= Pockets.Diameter - LeastBeyond) return double.NegativeInfinity;
        return 2 * Mouth(pocket) - one.Inward.Dot(other.At - one.At);
    }

    /// <summary>From where the axis of a pocket meets the face to the far side of its mouth (mm).</summary>
    public static double Mouth(Pocket pocket) => Pockets.Diameter / 2 / Math.Sin(pocket.Angle);

    private static Pocket? PocketOf(ImmutableArray<Member> members, FrameRules rules, Spec spec)
    {
        if (rules.Screw is not { } screw || screw.Fact.Find("kind")?.Word("kind") != "pocket_screw" || members.IsEmpty) return null;
        // A jig is clamped to the wide side: of a member on edge that looks into the bay, and its stock is as thick as the stick.
        var (stick, deep) = (members[0].Stick, members[0].Depth);
        double wide = Math.Abs(deep - stick.Width) < Math.Abs(deep - stick.Thickness) ? stick.Thickness : stick.Width, stock = Math.Min(deep, wide);
        double? length = screw.Fact.Find("length") is { } l ? spec.Evaluator.Length(l, "value") : Pockets.UsualScrew(stock);
        double angle = screw.Fact.Find("hole_angle") is { } a ? spec.Evaluator.Angle(a, "value") ?? Pockets.UsualAngle : Pockets.UsualAngle;
        return length is { } given && Pockets.For(stock, given, angle) is { } pocket ? pocket with { FromSide = deep > wide + 0.5, Apart = deep / Math.Max(1, rules.ScrewCount) } : null;
    }

    // The side that no other member stands against, else that toward the middle of the frame, so that mirrored frames are bored alike.
    private static Vec2 OpenSide(Meeting meeting, Pocket pocket, ImmutableArray<Member> members)
    {
        var middle = members.Aggregate(default(Box2?), (box, m) => box?.Union(m.Outline.Bounds) ?? m.Outline.Bounds)!.Value.Centre;
        var inward = Inward(meeting);
        Vec2[] sides = (middle - meeting.At).Dot(inward.Left) >= 0 ? [inward.Left, inward.Right] : [inward.Right, inward.Left];
        bool IsFree(Vec2 side) => meeting.At + inward * pocket.FromEnd + side * (meeting.First.Width / 2 + 1) is var beside && !members.Any(m => m.Outline.Contains(beside));
        return IsFree(sides[0]) || !IsFree(sides[1]) ? sides[0] : sides[1];
    }

    // Along the first member, away from the end that meets the second.
    private static Vec2 Inward(Meeting meeting)
    {
        var line = meeting.First.CentreLine;
        return meeting.At.DistanceTo(line.From) < meeting.At.DistanceTo(line.To) ? line.Chord.Unit : -line.Chord.Unit;
    }

    // The longest line that two members share, or null.
    private static (Vec2 At, double Length, Vec2 Along)? Contact(Member a, Member b)
    {
        (Vec2 At, double Length, Vec2 Along)? best = null;
        for (int i = 0; i < a.Outline.Count; i++)
        {
            var s = a.Outline.Segment(i);
            if (s.IsArc || s.Chord.Length < LeastContact) continue;
            var along = s.Chord.Unit;
            for (int j = 0; j < b.Outline.Count; j++)
            {
                var t = b.Outline.Segment(j);
                if (t.IsArc || Math.Abs(along.Cross(t.From - s.From)) > Flush || Math.Abs(along.Cross(t.To - s.From)) > Flush) continue;
                double u = (t.From - s.From).Dot(along), v = (t.To - s.From).Dot(along);
                double from = Math.Max(0, Math.Min(u, v)), to = Math.Min(s.Chord.Length, Math.Max(u, v));
                if (to - from >= LeastContact && (best is null || to - from > best.Value.Length)) best = (s.From + along * ((from + to) / 2), to - from, along);
            }
        }
        return best;
    }

    private static bool IsEnd(Member member, Vec2 contact) => Math.Abs(member.CentreLine.Chord.Unit.Cross(contact)) > 0.02;

    /// <summary>The members with their pockets, and the holes that poured foam goes in and air comes out by.</summary>
    public static (ImmutableArray<Member> Members, ImmutableArray<Meeting> Meetings) WithHoles(ImmutableArray<Member> members, ImmutableArray<Meeting> meetings, ImmutableArray<Cavity> cavities, Spec spec)
    {
        var holes = new Dictionary<Member, List<MemberHole>>(ReferenceEqualityComparer.Instance);
        void Add(Member member, MemberHole hole)
        {
            if (!holes.TryGetValue(member, out var list)) holes[member] = list = [];
            list.Add(hole);
        }
        foreach (var meeting in meetings)
        {
            if (meeting.Pocket is not { } pocket) continue;
            foreach (var place in meeting.Pockets) Add(meeting.First, new MemberHole(HoleKind.Pocket, place.At, Pockets.Diameter, pocket.Depth, pocket.Angle));
        }
        var bores = meetings.Where(m => m.Pocket is not null).SelectMany(m => m.Pockets.Select(p => (m.First, Bore: Bore(p, m.Pocket!)))).ToLookup(b => b.First, b => b.Bore, ReferenceEqualityComparer.Instance);
        foreach (var cavity in cavities)
        {
            if (cavity.Fill is not { Kind: "foam" } foam) continue;
            foreach (var (member, hole) in PourHoles(members, cavity, m => bores[m], foam.Fact.Find("flow") is { } f ? spec.Evaluator.Length(f, "value") : null)) Add(member, hole);
        }
        if (holes.Count == 0) return (members, meetings);
        var drilled = new Dictionary<Member, Member>(ReferenceEqualityComparer.Instance);
        foreach (var m in members) drilled[m] = holes.TryGetValue(m, out var list) ? m with { Holes = [.. list] } : m;
        return ([.. members.Select(m => drilled[m])], [.. meetings.Select(m => m with { First = drilled[m.First], Second = drilled[m.Second] })]);
    }

    /// <summary>Where the pockets of a meeting would be begun on the face of its first member, side by side.</summary>
    public static IEnumerable<PocketPlace> Places(Meeting meeting, Pocket pocket)
    {
        var inward = Inward(meeting);
        for (int k = 0; k < meeting.Count; k++)
            yield return pocket.FromSide ? new(meeting.At + inward * pocket.FromEnd + meeting.Open * (meeting.First.Width / 2), inward, meeting.Open, k)
                : new(meeting.At + inward * pocket.FromEnd + inward.Left * (((k + 0.5) / meeting.Count - 0.5) * meeting.First.Width), inward);
    }

    /// <summary>What comes out of a member by less than this (mm) does so by the last bits of arithmetic.</summary>
    public const double LeastBeyond = 0.01;

    /// <summary>How far a pocket comes out of its member, seen on the face and from its mouth to its shoulder (mm); 0 or less where it has wood around it.</summary>
    public static double Beyond(Outline member, PocketPlace place, Pocket pocket)
    {
        var (at, inward) = (place.At, place.Inward);
        const int steps = 8;
        const double skin = 0.5;
        double half = Pockets.Diameter / 2, mouth = Mouth(pocket), shoulder = pocket.Depth * Math.Cos(pocket.Angle), worst = pocket.FromSide ? Pockets.Diameter - pocket.Apart : double.NegativeInfinity;
        for (int i = 0; i <= steps; i++)
            foreach (double side in (ReadOnlySpan<double>)[-half, half])
            {
                double run = mouth - (mouth + shoulder) * i / steps;
                // Bored from a side it comes out at that side alone: its far edge counts.
                var point = at + inward * run + (pocket.FromSide ? -place.Side * Math.Max(skin, half / Math.Cos(pocket.Angle) - run * Math.Tan(pocket.Angle)) : inward.Left * side);
                double off = member.DistanceToEdges(point);
                worst = Math.Max(worst, member.Contains(point) ? -off : off);
            }
        return worst;
    }

    /// <summary>The pocket screws of a frame in space, as far as they are driven; the pockets are on the face that lies up as it is put together.</summary>
    public static IEnumerable<(Shaft Screw, double Diameter)> Shafts(Spec spec, PanelFrame frame)
    {
        if (frame.Rules.Screw is not { } screw || ScrewPath.Diameter(spec, screw.Fact) is not { } diameter) yield break;
        var face = frame.Panel.Face;
        foreach (var meeting in frame.Meetings)
        {
            if (meeting.Pocket is not { } pocket) continue;
            double begun = frame.Rules.FaceDownInside ? frame.Below : frame.Below + frame.Depth, sink = frame.Rules.FaceDownInside ? 1 : -1;
            var (sin, cos) = Math.SinCos(pocket.Angle);
            foreach (var (at, inward, side, row) in meeting.Pockets)
            {
                Vec3 Along(double run) => pocket.FromSide ? face.ToWorld(at - inward * (run * cos) - side * (run * sin), frame.Below + (row + 0.5) * pocket.Apart) : face.ToWorld(at - inward * (run * cos), begun + sink * run * sin);
                yield return (new Shaft(Along(pocket.Depth), Along(pocket.Depth + pocket.ScrewLength)), diameter);
            }
        }
    }

    /// <summary>The axis of a pocket on the face, from the far side of its mouth to its shoulder.</summary>
    private static Segment Bore(PocketPlace place, Pocket pocket) =>
        new(place.At + place.Inward * Mouth(pocket), place.At - place.Inward * (pocket.Depth * Math.Cos(pocket.Angle)));

    // Common practice: foam is poured through the member on the upper side of a bay, with a hole for each stretch that it flows, and a smaller vent beside each.
    private static IEnumerable<(Member, MemberHole)> PourHoles(ImmutableArray<Member> members, Cavity cavity, Func<Member, IEnumerable<Segment>> bores, double? flow)
    {
        const double pour = 12.7, vent = 6.35;
        // What lies between a rounded hole and its square corner is open to the hole, and filled from there.
        if (cavity.Outline.Segments.Any(s => s.IsArc && !members.Any(m => m.Outline.Contains(s.At(0.5) + s.Tangent(0.5).Right)))) yield break;
        Segment? upper = null;
        foreach (var s in cavity.Outline.Segments)
            if (!s.IsArc && s.Chord.X < 0 && s.Chord.Length >= 3 * pour && (upper is null || s.At(0.5).Y > upper.Value.At(0.5).Y)) upper = s;
        if (upper is not { } top) yield break;
        var outward = top.Chord.Unit.Right;
        int count = flow is { } reach && reach > 0 ? (int)Math.Clamp(Math.Ceiling(top.Chord.Length / (2 * reach)), 1, 100) : 1;
        for (int k = 0; k < count; k++)
        {
            foreach (var (kind, share, diameter) in new[] { (HoleKind.Pour, 1 / 3.0, pour), (HoleKind.Vent, 2 / 3.0, vent) })
            {
                if (members.FirstOrDefault(m => m.Outline.Contains(top.At((k + share) / count) + outward)) is not { } member) continue;
                yield return (member, new MemberHole(kind, Clear(member, k, share, diameter), diameter, member.Width, Math.PI / 2));
            }
        }

        // In the middle of the member; where a pocket is in the way, moved toward the middle of the stretch.
        Vec2 Clear(Member member, int k, double share, double diameter)
        {
            const int steps = 8;
            Vec2 At(int step) => top.At((k + share + (0.5 - share) * 0.6 * step / steps) / count) + outward * (member.Width / 2);
            // The hole goes through the member from side to side, so all of its width counts.
            double Along(Vec2 p) => p.Dot(top.Chord.Unit);
            double Off(Vec2 at) => bores(member).Select(b => Math.Max(Math.Min(Along(b.From), Along(b.To)) - Along(at), Along(at) - Math.Max(Along(b.From), Along(b.To))) - diameter / 2).DefaultIfEmpty(double.PositiveInfinity).Min();
            var places = Enumerable.Range(0, steps + 1).Select(At).ToList();
            return places.Where(p => Off(p) > 0).Append(places.MaxBy(Off)).First();
        }
    }
}
