using System.Collections.Immutable;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Pieces;

/// <summary>Cuts a skin into pieces that the stock gives, by the panel's splice rules.</summary>
internal static class Skins
{
    // One way of laying stock: sizes along the row of pieces and across it (mm), and which way its length runs.
    private readonly record struct Way(double Along, double Across, Grain Grain);

    public static void Cut(PieceBuilder.Made made, LayerShape shape, SheetMaterial sheet, string key, ImmutableArray<SpliceRule> rules, Frames frames, List<(bool AlongU, double At)> others)
    {
        var (panel, layer) = (shape.Panel, shape.Layer);
        var wanted = GrainOf(panel, layer, sheet);
        var mine = rules.Where(r => r.IsFor(layer)).ToList();
        if (sheet.Sizes.IsEmpty) made.Problems.Add(new PieceProblem(PieceProblemKind.NoStockSize, panel, layer, null, 0, 0, ""));
        int at = 0, outlines = shape.Finished.Length;
        foreach (var finished in shape.Finished)
        {
            var rough = shape.Rough(finished);
            bool tooLarge = TooLarge(sheet, wanted, rough);
            foreach (var rule in mine)
            {
                if (tooLarge) made.Needed.Add(rule.Fact.Span);
                else if (Smallest(sheet, wanted, rough) is { } size) made.Idle.Add(new IdleSplice(panel, rule, sheet, Math.Max(rough.Bounds.Width, rough.Bounds.Height), Math.Min(rough.Bounds.Width, rough.Bounds.Height), size));
            }
            var asked = mine.Where(r => tooLarge || r.At is not null || !r.Lengths.IsEmpty).ToList();
            if (asked.Count == 0)
            {
                if (tooLarge) made.Problems.Add(new PieceProblem(PieceProblemKind.TooLarge, panel, layer, null, Math.Max(rough.Bounds.Width, rough.Bounds.Height), sheet.Sizes.Max(s => s.Length) - 2 * sheet.Trim, Advice(made.Structure.Spec.Say, sheet, wanted, rough, panel)));
                Add(made, shape, sheet, outlines == 1 ? key : $"{key}.{Text.Letters.Of(at++)}", finished, rough, wanted, []);
                continue;
            }
            at = Spliced(made, shape, sheet, key, Rows(asked, sheet, wanted, rough, panel), frames, others, finished, rough, wanted, [], at);
        }
    }

    private static bool TooLarge(SheetMaterial sheet, Grain wanted, Outline rough) =>
        !sheet.Sizes.IsEmpty && !Ways(sheet, wanted, true).Any(w => rough.Bounds.Width <= w.Along + 1e-4 && rough.Bounds.Height <= w.Across + 1e-4);

    private static StockSize? Smallest(SheetMaterial sheet, Grain wanted, Outline rough) =>
        sheet.Sizes.OrderBy(s => s.Width * s.Length).FirstOrDefault(s => !TooLarge(sheet with { Sizes = [s] }, wanted, rough));

    // Splices by axis. One row of pieces if that does it, the one with the fewest; else rows of rows, in the order written.
    private static List<List<SpliceRule>> Rows(List<SpliceRule> asked, SheetMaterial sheet, Grain wanted, Outline rough, PlacedPanel panel)
    {
        var rows = asked.GroupBy(r => r.AcrossLength).Select(g => g.ToList()).ToList();
        if (rows.Count < 2 || asked.Exists(r => r.At is not null || !r.Lengths.IsEmpty)) return rows;
        int Pieces(List<SpliceRule> row)
        {
            bool alongU = AlongU(panel, row[0]);
            var (along, across) = alongU ? (rough.Bounds.Width, rough.Bounds.Height) : (rough.Bounds.Height, rough.Bounds.Width);
            return Ways(sheet, wanted, alongU).Where(w => across <= w.Across + 1e-4).Select(w => SplicePlanner.LeastPieces(along, w.Along, row[0].Overlap(sheet.Thickness))).DefaultIfEmpty(int.MaxValue).Min();
        }
        var best = rows.MinBy(Pieces)!;
        return Pieces(best) < int.MaxValue ? [best] : rows;
    }

    private static bool AlongU(PlacedPanel panel, SpliceRule rule) => panel.Width >= panel.Height == rule.AcrossLength;

    private static int Spliced(
        PieceBuilder.Made made, LayerShape shape, SheetMaterial sheet, string key, List<List<SpliceRule>> rows, Frames frames, List<(bool AlongU, double At)> spliced, Outline finished, Outline rough, Grain wanted, List<Rout> laps, int at)
    {
        var panel = shape.Panel;
        var rules = rows[0];
        var rule = rules[0];
        bool alongU = AlongU(panel, rule);
        var box = rough.Bounds;
        double from = alongU ? box.Min.X : box.Min.Y, to = alongU ? box.Max.X : box.Max.Y, across = alongU ? box.Height : box.Width;
        double start = alongU ? finished.Bounds.Min.X : finished.Bounds.Min.Y;
        double overlap = rule.Overlap(sheet.Thickness);
        // With a second row of splices to come the pieces may still be too wide.
        var ways = Ways(sheet, wanted, alongU).Where(w => rows.Count > 1 || across <= w.Across + 1e-4)
            .OrderBy(w => (long)SplicePlanner.LeastPieces(to - from, w.Along, overlap) * (rows.Count > 1 ? SplicePlanner.LeastPieces(across, w.Across, rows[1][0].Overlap(sheet.Thickness)) : 1)).ThenBy(w => w.Along * w.Across).ToList();
        double longest = ways.Count > 0 ? ways[0].Along : double.PositiveInfinity;
        if (ways.Count == 0 && !sheet.Sizes.IsEmpty)
            made.Problems.Add(new PieceProblem(PieceProblemKind.TooLarge, panel, shape.Layer, rule, across, Ways(sheet, wanted, alongU).Select(w => w.Across).DefaultIfEmpty().Max(), Advice(made.Structure.Spec.Say, sheet, wanted, rough, panel)));
        var members = MembersAcross(frames, panel, alongU);
        var others = spliced.Where(o => o.AlongU == alongU).Select(o => o.At).ToList();
        // A mirrored panel is spliced as its original and turned round: its right end is where the original begins.
        bool turned = alongU && PanelFacts.IsTurnedRound(panel, rule.Fact);
        // A panel and its mirror image share a row, so that a choice for one is the choice for both.
        string row = $"{(PanelFacts.IsTurnedRound(panel, rule.Fact) ? panel.DesignName : panel.Name)}.{key}.{Text.Letters.Of(at)} {(alongU ? "along" : "up")}";
        var places = turned
            ? [.. Places(made, shape, row, rules, -to, -from, -finished.Bounds.Max.X, overlap, longest, [.. members.Select(m => -m.At)], [.. others.Select(o => -o)]).Select(p => -p).Reverse()]
            : Places(made, shape, row, rules, from, to, start, overlap, longest, [.. members.Select(m => m.At)], others);

        double begin = from;
        var grain = ways.Count > 0 ? ways[0].Grain : wanted;
        for (int k = 0; k <= places.Length; k++)
        {
            double end = k == places.Length ? to : places[k] + overlap / 2;
            double length = end - begin;
            if (length > longest + 1e-3) made.Problems.Add(new PieceProblem(PieceProblemKind.PieceTooLong, panel, shape.Layer, rule, length, longest, $"piece {Text.Letters.Of(at)}"));
            if (length < rule.LeastPiece - 1e-3) made.Problems.Add(new PieceProblem(PieceProblemKind.PieceTooShort, panel, shape.Layer, rule, length, rule.LeastPiece, $"piece {Text.Letters.Of(at)}"));
            var band = Band(alongU, k == 0 ? double.NegativeInfinity : begin, k == places.Length ? double.PositiveInfinity : end);
            // The two pieces of a lap are routed on opposite sides, each over the whole lap.
            var (first, second) = rule.LapDepths(sheet.Thickness);
            var routs = new List<Rout>(laps);
            var body = Whole(finished, band);
            var cut = Whole(rough, band);
            if (body is not null && cut is not null)
            {
                if (rule.Kind != SpliceKind.Butt && k > 0) routs.AddRange(body.Clip(Band(alongU, begin, begin + overlap)).SelectMany(r => Lap(r, rule.Kind == SpliceKind.Scarf ? sheet.Thickness / 2 : second, true, laps, sheet.Thickness)));
                if (rule.Kind != SpliceKind.Butt && k < places.Length) routs.AddRange(body.Clip(Band(alongU, end - overlap, end)).SelectMany(r => Lap(r, rule.Kind == SpliceKind.Scarf ? sheet.Thickness / 2 : first, false, laps, sheet.Thickness)));
                if (rows.Count > 1 && TooLarge(sheet, grain, cut)) at = Spliced(made, shape, sheet, key, rows[1..], frames, spliced, body, cut, grain, routs, at) - 1;
                else Add(made, shape, sheet, $"{key}.{Text.Letters.Of(at)}", body, cut, grain, routs);
            }
            at++;
            begin = end - overlap;
        }
        foreach (double place in places)
        {
            var over = members.FirstOrDefault(m => Math.Abs(m.At - place) < 0.5).Key;
            if (rule.OverStud && over is null) made.Problems.Add(new PieceProblem(PieceProblemKind.NotOverMember, panel, shape.Layer, rule, place - start, members.Count == 0 ? 0 : members.MinBy(m => Math.Abs(m.At - place)).At - start, ""));
            double apart = others.Count == 0 ? double.PositiveInfinity : others.Min(o => Math.Abs(o - place));
            if (rule.Stagger is { } stagger && apart < stagger - 0.01) made.Problems.Add(new PieceProblem(PieceProblemKind.NotStaggered, panel, shape.Layer, rule, apart, stagger, ""));
            double length = finished.Clip(Band(alongU, place - 0.05, place + 0.05)).Sum(p => alongU ? p.Bounds.Height : p.Bounds.Width);
            made.Splices.Add(new Splice(panel, shape.Layer, rule, alongU, place - start, overlap, length, over));
        }
        spliced.AddRange(places.Select(p => (alongU, p)));
        return at;
    }

    // Where it crosses a lap of the other row, a lap takes its share of what that one has left: four pieces share one thickness there.
    private static IEnumerable<Rout> Lap(Outline region, double depth, bool fromOutside, List<Rout> across, double thickness)
    {
        List<Outline> plain = [region];
        foreach (var other in across)
        {
            var split = plain.Select(p => p.Split(other.Region.Bounds.Sides())).ToList();
            foreach (var crossing in split.SelectMany(s => s.Inside)) yield return new Rout(crossing, depth * (1 - other.Depth / thickness), fromOutside, Rout.Lap);
            plain = [.. split.SelectMany(s => s.Outside)];
        }
        foreach (var p in plain) yield return new Rout(p, depth, fromOutside, Rout.Lap);
    }

    private static Outline? Whole(Outline outline, HalfPlane[] band) => outline.Clip(band).MaxBy(o => o.Area());

    private static HalfPlane[] Band(bool alongU, double from, double to)
    {
        var axis = alongU ? new Vec2(1, 0) : new Vec2(0, 1);
        var sides = new List<HalfPlane>(2);
        if (double.IsFinite(from)) sides.Add(new(axis * from, axis));
        if (double.IsFinite(to)) sides.Add(new(axis * to, -axis));
        return [.. sides];
    }

    // Stated pieces first, then stated places, then the rule.
    private static ImmutableArray<double> Places(
        PieceBuilder.Made made, LayerShape shape, string row, List<SpliceRule> rules, double from, double to, double start, double overlap, double longest, ImmutableArray<double> members, List<double> others)
    {
        var rule = rules[0];
        if (rules.Find(r => !r.Lengths.IsEmpty) is { } stated)
        {
            double sum = stated.Lengths.Sum(), needs = to - from + (stated.Lengths.Length - 1) * overlap;
            if (Math.Abs(sum - needs) > 25.4 / 64) made.Problems.Add(new PieceProblem(PieceProblemKind.PiecesDoNotAdd, shape.Panel, shape.Layer, stated, sum, needs, ""));
            var places = new List<double>();
            double begin = from;
            foreach (double length in stated.Lengths.SkipLast(1))
            {
                places.Add(begin + length - overlap / 2);
                begin += length - overlap;
            }
            return [.. places.Where(p => p > from && p < to)];
        }
        if (rules.Exists(r => r.At is not null)) return [.. rules.Where(r => r.At is not null).Select(r => start + r.At!.Value).Where(p => p > from && p < to).Order()];
        if (!double.IsFinite(longest)) return [];
        // Where the spec says nothing the two faces still do not break at one place, if the stock allows it.
        double least = Math.Max(rule.LeastPiece, overlap + 1);
        var question = new SpliceQuestion(from, to, overlap, longest, least, rule.OverStud, members, [.. others], rule.Stagger ?? 2 * overlap);
        SpliceQuestion[] relaxed = [question, question with { Stagger = 0 }, question with { Stagger = 0, OverMember = false }, question with { Stagger = 0, OverMember = false, Least = 0 }];
        foreach (var asked in relaxed)
        {
            if (SplicePlanner.Place(asked) is not { } usual) continue;
            made.Rows.Add(new SpliceRow(row, shape.Layer.Material!.Name, asked));
            return made.Chosen.GetValueOrDefault(row)?.For(asked) ?? usual;
        }
        return [];
    }

    private static List<(double At, string Key)> MembersAcross(Frames frames, PlacedPanel panel, bool alongU) =>
        [.. frames.Of(panel).Where(f => f.Zone is null).SelectMany(f => f.Members)
            .Where(m => m.Role is MemberRole.Stud or MemberRole.Trimmer or MemberRole.Blocking && Math.Abs(alongU ? m.CentreLine.Chord.Unit.X : m.CentreLine.Chord.Unit.Y) < 0.01)
            .Select(m => (At: alongU ? m.CentreLine.From.X : m.CentreLine.From.Y, m.Key)).OrderBy(m => m.At)];

    /// <summary>Along the panel, up it, or as it comes: the panel's fact, turned for a layer laid across.</summary>
    private static Grain GrainOf(PlacedPanel panel, StackLayer layer, SheetMaterial sheet)
    {
        if (!sheet.HasGrain) return Grain.Free;
        var said = PanelFacts.Find(panel, "grain")?.Word("along") switch { "along" => Grain.Along, "up" => Grain.Up, _ => Grain.Free };
        return (said, layer.GrainAcross) switch { (Grain.Along, true) => Grain.Up, (Grain.Up, true) => Grain.Along, _ => said };
    }

    private static IEnumerable<Way> Ways(SheetMaterial sheet, Grain wanted, bool alongU)
    {
        foreach (var s in sheet.Sizes)
        {
            double width = s.Width - 2 * sheet.Trim, length = s.Length - 2 * sheet.Trim;
            var lengthwise = alongU ? Grain.Along : Grain.Up;
            var crosswise = alongU ? Grain.Up : Grain.Along;
            if (wanted != crosswise) yield return new Way(length, width, sheet.HasGrain ? lengthwise : Grain.Free);
            if (wanted != lengthwise) yield return new Way(width, length, sheet.HasGrain ? crosswise : Grain.Free);
        }
    }

    // The splice that would do with the fewest pieces, with the lap that common practice gives: eight times the thickness left. Nobody routes a sheet of metal to half: it is butted over a strip.
    private static string Advice(Text.Say say, SheetMaterial sheet, Grain wanted, Outline rough, PlacedPanel panel)
    {
        bool metal = sheet.Fact.Find("kind")?.Word("kind") == "metal";
        double step = say.Metric ? 5 : 25.4 / 4, lap = metal ? 0 : Math.Ceiling(8 * sheet.Thickness / 2 / step - 1e-9) * step;
        var box = rough.Bounds;
        var best = new[] { true, false }.SelectMany(alongU => Ways(sheet, wanted, alongU).Select(w => (AlongU: alongU, Way: w)))
            .Where(x => (x.AlongU ? box.Height : box.Width) <= x.Way.Across + 1e-4)
            .Select(x => (x.AlongU, Pieces: SplicePlanner.LeastPieces(x.AlongU ? box.Width : box.Height, x.Way.Along, lap))).Where(x => x.Pieces < 60).OrderBy(x => x.Pieces).ToList();
        string Splice(string axis) => metal ? $"splice across {axis} of {sheet.Name} {{ butt backed by {say.Such("2 in", "50 mm")} }}" : $"splice across {axis} {{ lap width {say.Length(lap)}\n lap depth half }}";
        if (best.Count == 0) return Splice("length") + "\n" + Splice("width");
        return Splice(best[0].AlongU == panel.Width >= panel.Height ? "length" : "width");
    }

    private static void Add(PieceBuilder.Made made, LayerShape shape, SheetMaterial sheet, string key, Outline finished, Outline rough, Grain grain, IEnumerable<Rout> laps)
    {
        ImmutableArray<Rout> routs = [.. PieceBuilder.RoutsIn(shape.Routs, finished), .. PieceBuilder.RoutsIn([.. laps], finished)];
        made.Pieces.Add(new Piece(made.Mark(shape.Panel, key), key, shape.Panel, shape.Zone, shape.Layer, sheet, finished, PieceBuilder.HolesIn(finished, shape.Holes), rough, sheet.Thickness, shape.Below, grain, 1)
        {
            Routs = routs,
            RoundedOff = shape.RoundedOff(finished, routs),
        });
    }
}
