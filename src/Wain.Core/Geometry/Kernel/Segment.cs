namespace Wain.Core.Geometry.Kernel;

/// <summary>
/// A straight line or a circular arc between two points. <see cref="Sweep"/> is the arc's signed central angle (radians,
/// positive counter-clockwise, less than a full turn); 0 is straight.
/// </summary>
public readonly record struct Segment(Vec2 From, Vec2 To, double Sweep = 0)
{
    public bool IsArc => Sweep != 0;
    public Vec2 Chord => To - From;

    /// <summary>mm; infinite for a straight line.</summary>
    public double Radius => IsArc ? Chord.Length / (2 * Math.Sin(Math.Abs(Sweep) / 2)) : double.PositiveInfinity;

    /// <summary>The arc's centre. Meaningless for a straight line.</summary>
    public Vec2 Centre => From.Lerp(To, 0.5) + Chord.Left / (2 * Math.Tan(Sweep / 2));

    public double Length => IsArc ? Radius * Math.Abs(Sweep) : Chord.Length;

    /// <summary>Greatest distance of the arc from its chord (mm).</summary>
    public double Sagitta => IsArc ? Chord.Length / 2 * Math.Abs(Math.Tan(Sweep / 4)) : 0;

    public Segment Reversed => new(To, From, -Sweep);

    // A record's own text prints every property, and a property of the same type would print itself without end.
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{From} to {To}, sweep {Sweep}");

    /// <summary>The point at part t of the way (0 to 1).</summary>
    public Vec2 At(double t)
    {
        if (!IsArc || t == 0 || t == 1) return t == 1 ? To : From.Lerp(To, t);
        var centre = Centre;
        return centre + (From - centre).Rotate(Sweep * t);
    }

    /// <summary>Unit direction of travel at part t.</summary>
    public Vec2 Tangent(double t) => Chord.Unit.Rotate(Sweep * (t - 0.5));

    /// <summary>The part t of an arc at which the ray from its centre to p crosses it, or null outside its sweep (to a tolerance in mm along the arc).</summary>
    public double? ArcParameter(Vec2 p, double tolerance = Tolerance.Length)
    {
        var centre = Centre;
        var turned = Math.Atan2((From - centre).Cross(p - centre), (From - centre).Dot(p - centre));
        if (Sweep > 0 && turned < 0) turned += 2 * Math.PI;
        if (Sweep < 0 && turned > 0) turned -= 2 * Math.PI;
        var slack = tolerance / Math.Max(Radius, tolerance);
        var t = turned / Sweep;
        if (t <= 1 + slack / Math.Abs(Sweep)) return Math.Min(t, 1);
        return 2 * Math.PI - Math.Abs(turned) <= slack ? 0 : null;
    }

    /// <summary>The nearest point of the segment to p.</summary>
    public Vec2 Nearest(Vec2 p)
    {
        if (!IsArc)
        {
            var square = Chord.LengthSquared;
            return square == 0 ? From : At(Math.Clamp((p - From).Dot(Chord) / square, 0, 1));
        }
        if (ArcParameter(p, 0) is { } t) return At(t);
        return p.DistanceTo(From) <= p.DistanceTo(To) ? From : To;
    }

    public double DistanceTo(Vec2 p) => Nearest(p).DistanceTo(p);

    public Box2 Bounds
    {
        get
        {
            var box = Box2.Of(From, To);
            if (!IsArc) return box;
            var (centre, radius) = (Centre, Radius);
            foreach (var axis in (ReadOnlySpan<Vec2>)[new(1, 0), new(0, 1), new(-1, 0), new(0, -1)])
            {
                // A point of the circle is one of the arc where it lies on the arc's side of the chord; on the chord it is an end, which is in already.
                var p = centre + axis * radius;
                if (Chord.Cross(p - From) * Math.Sign(Sweep) < -Tolerance.Length * Chord.Length) box = box.Union(new(p, p));
            }
            return box;
        }
    }

    /// <summary>A box that holds the segment; for an arc larger than <see cref="Bounds"/> and found at less cost.</summary>
    public Box2 Reach => IsArc ? Box2.Of(From, To).Grown(Sagitta) : Box2.Of(From, To);

    /// <summary>True when p lies between the arc and its chord.</summary>
    internal bool BetweenArcAndChord(Vec2 p) =>
        IsArc && p.DistanceTo(Centre) < Radius && Math.Sign(Chord.Cross(p - From)) == -Math.Sign(Sweep);
}
