using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing.Panels;

/// <summary>Where the edge of another panel stands on a face: who joins the two sets it out there.</summary>
/// <param name="Line">Along its middle, in the axes of the face.</param>
internal sealed record Footprint(string Panel, Outline Region, Segment Line)
{
    /// <summary>What stands on one face, or on both; what stands in a step of the face is shown by that.</summary>
    public static IEnumerable<Footprint> Of(Structure structure, PlacedPanel panel, Func<JointSide, bool> shown)
    {
        foreach (var joint in structure.Joints.Where(j => j.Kind == JointKind.Butt))
            foreach (var (own, other) in new[] { (joint.First, joint.Second), (joint.Second, joint.First) })
            {
                if (own.Panel != panel || !own.IsFace || other.IsFace || !shown(own)) continue;
                double depth = own.IsInside ? panel.Thickness : 0;
                var face = panel.Face.AtDepth(depth);
                if (FaceCut.Of(face, other.Panel.Face.Plane) is not { } outside || FaceCut.Of(face, other.Panel.Face.Plane.Moved(-other.Panel.Thickness).Flipped) is not { } inside) continue;
                var line = new Segment(Local(joint.From), Local(joint.To));
                if (line.Length < 1) continue;
                var along = line.Chord.Unit;
                HalfPlane[] sides = [Kept(outside), Kept(inside), new(line.From, along), new(line.To, -along)];
                foreach (var region in (own.IsInside ? panel.OutlineAt(depth) : panel.Outline).Clip(sides)) yield return new(other.Panel.Name, region, line);

                Vec2 Local(Vec3 at) => face.ToLocal(at) is var p ? new Vec2(p.X, p.Y) : default;
            }

        static HalfPlane Kept(FaceCut cut) => new(cut.Normal * cut.Offset, -cut.Normal);
    }

    // An end so near to that of the face is the same to who sets it out.
    private const double Same = 4;

    /// <summary>The side nearer to the datum, and ends that are not those of the face.</summary>
    /// <param name="mirrored">True if the datum is at the right of the model.</param>
    public void Measure(PanelRuns runs, Box face, bool mirrored)
    {
        var (b, along) = (Region.Bounds, Line.Chord.Unit);
        bool Ends(double at, double low, double high) => at > low + Same && at < high - Same;
        double near = mirrored ? b.Max.X : b.Min.X;
        if (Math.Abs(along.X) < 1e-3)
        {
            runs.AlongX(near, b.Min.Y);
            foreach (double y in (double[])[b.Min.Y, b.Max.Y]) if (Ends(y, face.Bottom, face.Top)) runs.AlongY(y, near);
        }
        else if (Math.Abs(along.Y) < 1e-3)
        {
            runs.AlongY(b.Min.Y, near);
            foreach (double x in (double[])[b.Min.X, b.Max.X]) if (Ends(x, face.Left, face.Right)) runs.AlongX(x, b.Min.Y);
        }
    }
}
