using CsCheck;
using NetTopologySuite.Geometries;
using Wain.Cutting;

namespace Wain.Tests.Cutting;

/// <summary>Pairs that are nested head to foot can be parted by one straight cut, whatever their outlines. Referee: NetTopologySuite's convex hulls and distances.</summary>
public sealed class TaperPairTests
{
    private static readonly Gen<SheetPiece> Shapes = Gen.Select(Gen.Int[20, 200], Gen.Int[20, 200], Gen.Double[0.05, 1].Array[3, 9], Gen.Bool).Select((width, height, reach, turns) =>
    {
        // A star about the middle of a rectangle: some corners lie far in, so that the outline has hollows.
        var points = reach.Select((r, i) => (Angle: 2 * Math.PI * i / reach.Length, r))
            .Select(p => new OutlinePoint((long)Math.Round(width * (0.5 + 0.5 * p.r * Math.Cos(p.Angle))), (long)Math.Round(height * (0.5 + 0.5 * p.r * Math.Sin(p.Angle))))).ToList();
        long left = points.Min(p => p.X), low = points.Min(p => p.Y);
        OutlinePoint[] outline = [.. points.Select(p => new OutlinePoint(p.X - left, p.Y - low)).Distinct()];
        return new SheetPiece("p", outline.Max(p => p.X), outline.Max(p => p.Y), 1, turns, outline);
    }).Where(p => p.Outline!.Count >= 3 && p.Width > 0 && p.Height > 0);

    [Fact]
    public void One_straight_cut_frees_both() => Gen.Select(Shapes, Shapes, Gen.Long[0, 9]).Sample((a, b, kerf) =>
    {
        var problem = new SheetProblem([new StockSheet("s", 1000, 1000, 1)], [a, b with { MayTurn = a.MayTurn }], kerf, true);
        foreach (var pair in TaperPairs.Find(problem, _ => true))
        {
            var (first, second) = (problem.Pieces[pair.First], problem.Pieces[pair.Second]);
            var (one, other) = (HullOf(first.Outline!, p => (p.X, p.Y)), HullOf(second.Outline!, p => (pair.Offset + second.Width - p.X, second.Height - p.Y)));
            Assert.True(one.Distance(other) >= kerf - 1e-6 && one.Intersection(other).Area < 1e-6, $"{string.Join(" ", first.Outline!)} and {string.Join(" ", second.Outline!)}: {one.Distance(other)} of {kerf}");
            Assert.True(pair.Width >= Math.Max(first.Width, pair.Offset + second.Width) && pair.Height >= Math.Max(first.Height, second.Height));
        }
    }, iter: 20_000);

    private static NetTopologySuite.Geometries.Geometry HullOf(IReadOnlyList<OutlinePoint> outline, Func<OutlinePoint, (long X, long Y)> place) =>
        new MultiPoint([.. outline.Select(place).Select(p => new Point(p.X, p.Y))]).ConvexHull();

    /// <summary>An L whose notch would take another's leg: no cut that goes through parts them, so they lie side by side.</summary>
    [Fact]
    public void A_hollow_is_no_room()
    {
        OutlinePoint[] ell = [new(0, 0), new(60, 0), new(60, 20), new(20, 20), new(20, 60), new(0, 60)];
        var problem = new SheetProblem([new StockSheet("s", 1000, 1000, 1)], [new SheetPiece("l", 60, 60, 2, false, ell)], 2, true);
        var pair = Assert.Single(TaperPairs.Find(problem, _ => true));
        // Their hulls meet along the diagonal from (60, 20) to (20, 60), 40 farther right, and a cut of 2 is 2.83 wide along the sheet.
        Assert.Equal(40 + 3, pair.Offset);
    }
}
