using CsCheck;
using Wain.Core.Drawing;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Drawing;

/// <summary>Properties of the label layout over random sets: no label over another, no leader through a label, no leader over another.</summary>
public class LayoutTests
{
    private static void NoOverlap(IReadOnlyList<LabelBox> labels)
    {
        for (int i = 0; i < labels.Count; i++)
        {
            for (int k = i + 1; k < labels.Count; k++)
            {
                if (labels[i].Bounds.Grow(-1e-6).Overlaps(labels[k].Bounds.Grow(-1e-6))) Assert.Fail($"'{labels[i].Text}' {labels[i].Bounds} over '{labels[k].Text}' {labels[k].Bounds}");
            }
        }
    }

    private static List<(Vec2 A, Vec2 B)> Leaders(DimensionLayout layout) =>
        [.. layout.Marks.OfType<PathMark>().Where(m => m.Tone is null).SelectMany(m => m.Contours).SelectMany(c => c.Flatten() is var p ? p.Zip(p.Skip(1)) : [])];

    private static void NoLeaderThroughLabel(DimensionLayout layout)
    {
        var leaders = Leaders(layout);
        foreach (var label in layout.Labels)
        {
            var box = label.Bounds.Grow(-1e-3);
            foreach (var (a, b) in leaders) if (box.Crosses(a, b)) Assert.Fail($"{a} to {b} through '{label.Text}'");
        }
    }

    private static readonly Gen<(Side Side, double Edge, double[] At, int Style, bool Tight)> Chains =
        from side in Gen.Enum<Side>()
        from edge in Gen.Double[5, 250]
        from at in Gen.Double[0, 1].Array[0, 60]
        from style in Gen.Int[0, 3]
        from tight in Gen.Bool
        select (side, edge, at, style, tight);

    private static DimensionLayout Chain(Side side, double edge, double[] at, int style, bool tight)
    {
        var format = new LengthFormat((LengthStyle)style, 32, 0.5);
        var points = at.Select(a => new DimensionPoint(50 + a * edge, side is Side.Below or Side.Left ? 100 : 20, LengthText.Of(a * 9000, format)));
        return RunningDimensions.Layout(side, new(50, 100, "0"), points, side is Side.Below or Side.Left ? 90 : 110, tight ? 50 : 10, tight ? 50 + edge : 260);
    }

    [Fact]
    public void RunningDimensionsNeverCollide() => Chains.Sample(c =>
    {
        var layout = Chain(c.Side, c.Edge, c.At, c.Style, c.Tight);
        Assert.True(layout.Labels.Length >= 1);
        NoOverlap(layout.Labels);
        NoLeaderThroughLabel(layout);
    }, iter: 1000);

    [Fact]
    public void SixtyDimensionsOnAShortEdge()
    {
        double[] at = [.. Enumerable.Range(1, 60).Select(i => i / 60.0)];
        var layout = Chain(Side.Below, 20, at, (int)LengthStyle.InchesWithMillimetres, tight: false);
        Assert.Equal(61, layout.Labels.Length);
        NoOverlap(layout.Labels);
        NoLeaderThroughLabel(layout);
        // They fit the 250 mm that were allowed.
        Assert.InRange(layout.Labels.Min(l => l.Bounds.Left), 9.99, 260);
        Assert.InRange(layout.Labels.Max(l => l.Bounds.Right), 10, 260.01);

        // With 150 mm they need the second row, and fit.
        var two = RunningDimensions.Layout(Side.Below, new(50, 100, "0"), at.Select((a, i) => new DimensionPoint(50 + 20 * a, 100, $"{i} 15/32 in [{i * 25} mm]")), 90, 10, 160);
        NoOverlap(two.Labels);
        NoLeaderThroughLabel(two);
        Assert.InRange(two.Labels.Max(l => l.Bounds.Right), 10, 160.01);
        Assert.True(two.Labels.Select(l => Math.Round(l.Bounds.Top, 3)).Distinct().Count() == 2, "two rows");
    }

    /// <summary>The referee for the referee: labels at their true places do collide, so the property can fail.</summary>
    [Fact]
    public void UnspreadLabelsWouldCollide() => Assert.ThrowsAny<Exception>(() =>
        NoOverlap([.. Enumerable.Range(0, 10).Select(i => new LabelBox($"{i}", new TextMark(new(i * 0.3, 0), "7 1/2 in", Angle: Math.PI / 2).Bounds))]));

    [Fact]
    public void EveryValueIsMeasuredFromTheDatum()
    {
        // Ten bays of 1/3 in: 1/3 in rounds to 5/16, and ten of those would come to 3 1/8; measured from the datum it is 3 5/16 (3.333).
        var view = new View(1, default);
        var layout = RunningDimensions.OfFeatures(view, Side.Below, 0, [.. Enumerable.Range(0, 11).Select(i => (i * 25.4 / 3, 0.0))], new(), 8, -100, 200);
        Assert.Contains("3 5/16 in", layout.Labels.Select(l => l.Text));
        Assert.Equal("0", layout.Labels[0].Text);
    }

    private static readonly Gen<(double X, double Y, int Lines)[]> NoteSets = Gen.Select(Gen.Double[0, 120], Gen.Double[0, 80], Gen.Int[1, 3]).Array[1, 40];

    [Fact]
    public void NotesNeverCollideAndLeadersNeverCross() => NoteSets.Sample(set =>
    {
        var notes = set.Select((s, i) => new Note(new(60 + s.X, 60 + s.Y), [.. Enumerable.Range(0, s.Lines).Select(k => $"note {i} line {k}")])).ToList();
        var layout = Notes.Layout(notes, new(60, 60, 180, 140), new(10, 10, 240, 200));
        Assert.Equal(set.Sum(s => s.Lines), layout.Labels.Length);
        NoOverlap(layout.Labels);
        NoLeaderThroughLabel(layout);
        foreach (var label in layout.Labels) Assert.False(label.Bounds.Overlaps(new(60, 60, 180, 140)), "a note on the drawing");
        var leaders = Leaders(layout).Where(l => Math.Abs(l.A.Y - l.B.Y) > 1e-9 || (l.B - l.A).Length > 3.5).ToList();
        for (int i = 0; i < leaders.Count; i++)
        {
            for (int k = i + 1; k < leaders.Count; k++)
            {
                // Two notes on one place meet there.
                if ((leaders[i].B - leaders[k].B).Length < 1e-6) continue;
                if (Notes.Cross(leaders[i].A, leaders[i].B, leaders[k].A, leaders[k].B)) Assert.Fail($"{leaders[i]} over {leaders[k]}");
            }
        }
    }, iter: 500);

    /// <summary>Against a slow referee: no random admissible placing has a smaller sum of squared shifts.</summary>
    [Fact]
    public void SpreadingIsTheLeastShift() => Gen.Select(Gen.Double[0, 50].Array[2, 8], Gen.Double[0.5, 8], Gen.Int).Sample((wanted, gap, seed) =>
    {
        Array.Sort(wanted);
        var places = Spreading.Place(wanted, _ => gap, -1000, 1000);
        for (int i = 1; i < places.Length; i++) Assert.True(places[i] - places[i - 1] >= gap - 1e-9);
        double Cost(double[] at) => at.Zip(wanted, (a, w) => (a - w) * (a - w)).Sum();
        var random = new Random(seed);
        for (int trial = 0; trial < 50; trial++)
        {
            double[] other = [.. places.Select(p => p + random.NextDouble() - 0.5)];
            for (int i = 1; i < other.Length; i++) other[i] = Math.Max(other[i], other[i - 1] + gap);
            Assert.True(Cost(other) >= Cost(places) - 1e-9);
        }
    }, iter: 300);

    /// <summary>However narrow the column, a mixed number and its unit stay on one line.</summary>
    [Fact]
    public void AMeasureIsNotBroken()
    {
        const string text = "left_nose_wall.bottom to bunk_floor.top, 46 1/4 in, fillet R 3/8 in, step 1 1/16 wide.";
        for (double width = 55; width < 150; width++)
        {
            var lines = Lettering.Wrap(text, TextMark.Small, width);
            Assert.Equal(text, string.Join(' ', lines));
            foreach (string measure in (string[])["46 1/4 in,", "R 3/8 in,", "1 1/16"]) Assert.Contains(lines, l => l.Contains(measure, StringComparison.Ordinal));
        }
    }
}
