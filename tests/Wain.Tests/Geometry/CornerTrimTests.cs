using CsCheck;
using Wain.Core.Geometry.Kernel;

namespace Wain.Tests.Geometry;

/// <summary>No material is counted twice or missing where panels meet.</summary>
public class CornerTrimTests
{
    private delegate (EdgeTrim First, EdgeTrim Second)? Trim(double dihedral, double first, double second, CornerStyle style);

    private sealed record Corner(Vec3[] Outward, double[] Thickness, int[] Rank);

    private static readonly int[][] Ranks =
        [[0, 1, 2], [0, 2, 1], [1, 0, 2], [2, 0, 1], [1, 2, 0], [2, 1, 0], [0, 0, 0], [0, 0, 1], [1, 0, 0], [0, 1, 0], [0, 1, 1], [1, 0, 1], [1, 1, 0]];

    // Three outward normals that make a pointed corner, three thicknesses, and who runs through: a lower rank does, equal ranks are mitred.
    private static readonly Gen<Corner> Corners =
        from azimuth in Gen.Double[-0.45, 0.45].Array[3]
        from slope in Gen.Double[-0.35, 0.75].Array[3]
        from thickness in Gen.Double[3, 60].Array[3]
        from rank in Gen.Int[0, Ranks.Length - 1].Select(i => Ranks[i])
        select new Corner([.. Enumerable.Range(0, 3).Select(i => Outward(2 * Math.PI / 3 * i + azimuth[i], slope[i]))], thickness, rank);

    private static Vec3 Outward(double azimuth, double slope) =>
        new(Math.Cos(azimuth) * Math.Cos(slope), Math.Sin(azimuth) * Math.Cos(slope), Math.Sin(slope));

    /// <summary>
    /// 10,000 corners of three bevelled panels of three thicknesses, butted in every order and mitred: the volumes of the trimmed parts add to the corner.
    /// The corner's volume is closed-form: a cone with its tip at the outer corner less the same cone with its tip at the inner corner.
    /// </summary>
    [Fact]
    public void Volumes_of_the_parts_add_to_the_corner()
    {
        var tried = 0;
        Corners.Sample(corner =>
        {
            if (Misfit(corner, CornerTrim.Between) is not { } misfit) return;
            Interlocked.Increment(ref tried);
            Assert.InRange(misfit, -1e-9, 1e-9);
        }, iter: 20_000);
        Assert.True(tried >= 10_000, $"only {tried} corners could be built");
    }

    public static TheoryData<string> Wrong => ["stops at the outside face", "ignores the bevel", "bevels the wrong way", "takes its own thickness"];

    /// <summary>The same property fails for a wrong trim.</summary>
    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_wrong_trim_fails_the_property(string wrong)
    {
        Trim trim = (dihedral, a, b, style) =>
        {
            if (CornerTrim.Between(dihedral, a, b, style) is not { } right) return null;
            var (first, second) = right;
            return wrong switch
            {
                "stops at the outside face" => (first with { SetBack = 0 }, second with { SetBack = 0 }),
                "ignores the bevel" => (first with { Tilt = 0 }, second),
                "bevels the wrong way" => (first with { Tilt = -first.Tilt }, second with { Tilt = -second.Tilt }),
                _ => CornerTrim.Between(dihedral, b, a, style),
            };
        };
        int caught = 0, tried = 0;
        Corners.Sample(corner =>
        {
            if (Misfit(corner, trim) is not { } misfit) return;
            Interlocked.Increment(ref tried);
            if (Math.Abs(misfit) > 1e-6) Interlocked.Increment(ref caught);
        }, iter: 500);
        // A mitre has no set-back and equal thicknesses no order, so some corners cannot tell; most must.
        Assert.True(caught > tried / 2, $"{caught} of {tried}");
    }

    // Relative error of the summed volumes; null when the far plane is too near for a whole corner.
    private static double? Misfit(Corner corner, Trim trim)
    {
        const double size = 1000;
        var (n, t) = (corner.Outward, corner.Thickness);
        var far = -(n[0] + n[1] + n[2]).Unit;
        if (Plane.Meet(new(n[0], -t[0]), new(n[1], -t[1]), new(n[2], -t[2])) is not { } inner) return null;
        // The three rays in which two outside faces meet, each opposite the third panel.
        var rays = Enumerable.Range(0, 3).Select(k =>
        {
            var ray = n[(k + 1) % 3].Cross(n[(k + 2) % 3]);
            return (ray.Dot(n[k]) > 0 ? -ray : ray).Unit;
        }).ToArray();
        if (rays.Any(r => r.Dot(far) < 0.2) || inner.Dot(far) > 0.5 * size) return null;
        var ends = rays.Select(r => r * (size / r.Dot(far))).ToArray();
        var cone = Math.Abs(ends[0].Dot(ends[1].Cross(ends[2]))) / 6;
        var expected = cone * (1 - Math.Pow(1 - inner.Dot(far) / size, 3));
        var sum = 0.0;
        for (var i = 0; i < 3; i++)
        {
            var (j, k) = ((i + 1) % 3, (i + 2) % 3);
            // On panel i the edge with j lies on the ray opposite k.
            var (withJ, withK) = (ends[k], ends[j]);
            if (withJ.Cross(withK).Dot(n[i]) < 0) (j, k, withJ, withK) = (k, j, withK, withJ);
            var frame = Frame.Of(default, withJ, withK)!.Value;
            Vec2 Local(Vec3 p) => new(frame.U.Dot(p), frame.V.Dot(p));
            var cut = FaceCut.Of(frame, new(far, size))!.Value;
            var outline = new Outline([new(default), new(Local(withJ), 0, "far", cut.Tilt), new(Local(withK))]);
            foreach (var (edge, other) in new[] { (0, j), (2, k) })
            {
                var style = corner.Rank[i] < corner.Rank[other] ? CornerStyle.FirstRunsThrough : corner.Rank[i] > corner.Rank[other] ? CornerStyle.SecondRunsThrough : CornerStyle.Mitre;
                if (trim(Angles.Dihedral(n[i], n[other]), t[i], t[other], style) is not { } trims) return null;
                if (CornerTrim.Apply(outline, edge, trims.First).Outline is not { Count: 3 } trimmed) return null;
                outline = trimmed;
            }
            if (new Slab(frame, outline, [], 0, t[i]).Measures() is not { } measures) return null;
            sum += measures.Volume;
        }
        return (sum - expected) / expected;
    }

    /// <summary>Points thrown at a corner, outward or inward, of any angle and thicknesses: each point of the shell is in exactly one panel.</summary>
    [Fact]
    public void Cut_planes_leave_no_gap_and_no_overlap()
    {
        var cases = Gen.Select(Gen.Double[0.3, 2.8], Gen.Bool, Gen.Double[3, 60], Gen.Double[3, 60], Gen.Enum<CornerStyle>(), Gen.Select(Gen.Double[-150, 150], Gen.Double[-150, 150]).Array[200]);
        cases.Sample((inside, reflex, a, b, style, points) =>
        {
            var dihedral = reflex ? 2 * Math.PI - inside : inside;
            // Panel A lies along +x with its inside above; panel B along the dihedral angle.
            var outA = new Plane(new(0, -1, 0), 0);
            var outB = new Plane(new(-Math.Sin(dihedral), Math.Cos(dihedral), 0), 0);
            var (cutA, cutB) = CornerTrim.Planes(outA, a, outB, b, style, reflex)!.Value;
            foreach (var (x, y) in points)
            {
                var p = new Vec3(x, y, 0);
                var (hA, hB) = (outA.SignedDistance(p), outB.SignedDistance(p));
                if (new[] { hA, hB, hA + a, hB + b, cutA.SignedDistance(p), cutB.SignedDistance(p) }.Any(d => Math.Abs(d) < 1e-6)) continue;
                var outside = reflex ? hA > 0 && hB > 0 : hA > 0 || hB > 0;
                var cavity = reflex ? hA < -a || hB < -b : hA < -a && hB < -b;
                var inA = hA < 0 && hA > -a && cutA.SignedDistance(p) < 0;
                var inB = hB < 0 && hB > -b && cutB.SignedDistance(p) < 0;
                Assert.Equal(outside || cavity ? 0 : 1, (inA ? 1 : 0) + (inB ? 1 : 0));
            }
            // The plain numbers say the same as the planes.
            var (trimA, trimB) = CornerTrim.Between(dihedral, a, b, style)!.Value;
            var frameA = Frame.Of(default, Vec3.UnitX, -Vec3.UnitZ) is { } fa && fa.N.Y < 0 ? fa : Frame.Of(default, Vec3.UnitX, Vec3.UnitZ)!.Value;
            var onA = FaceCut.Of(frameA, cutA)!.Value;
            Assert.Equal(trimA.Tilt, onA.Tilt, 9);
            Assert.Equal(trimA.SetBack, -onA.Offset, 9);
            var alongB = new Vec3(Math.Cos(dihedral), Math.Sin(dihedral), 0);
            var frameB = Frame.Of(default, alongB, Vec3.UnitZ) is { } fb && fb.N.Dot(outB.Normal) > 0 ? fb : Frame.Of(default, alongB, -Vec3.UnitZ)!.Value;
            var onB = FaceCut.Of(frameB, cutB)!.Value;
            Assert.Equal(trimB.Tilt, onB.Tilt, 9);
            Assert.Equal(trimB.SetBack, -onB.Offset, 9);
        }, iter: 3000);
    }

    [Fact]
    public void Square_corner_in_plain_numbers()
    {
        var (through, stop) = CornerTrim.Between(Math.PI / 2, 18, 12, CornerStyle.FirstRunsThrough)!.Value;
        Assert.Equal((0, 0), (through.SetBack, Math.Round(through.Tilt, 12)));
        Assert.Equal((18, 0), (stop.SetBack, Math.Round(stop.Tilt, 12)));
        var (a, b) = CornerTrim.Between(Math.PI / 2, 18, 18, CornerStyle.Mitre)!.Value;
        Assert.Equal(-Math.PI / 4, a.Tilt, 12);
        Assert.Equal(a, b);
        Assert.Null(CornerTrim.Between(Math.PI, 18, 18, CornerStyle.FirstRunsThrough));
    }

    [Fact]
    public void An_edge_laid_on_a_cut_meets_its_neighbours()
    {
        var o = Outline.Rectangle(new(0, 0), new(100, 60));
        var cut = new FaceCut(new Vec2(0.6, 0.8), 100, 0.2);
        var trimmed = CornerTrim.OnCut(o, 1, cut)!;
        Assert.Equal(0.2, trimmed.Edges[1].Tilt);
        Assert.Equal(100, trimmed.Edges[1].Start.Dot(cut.Normal), 9);
        Assert.Equal(100, trimmed.Edges[2].Start.Dot(cut.Normal), 9);
        Assert.Equal(60, trimmed.Edges[2].Start.Y, 9);
    }
}
