namespace Wain.Core.Geometry.Kernel;

/// <summary>Tilts of the saw from square (radians, unsigned): both edges alike for a mitre, or one edge only when the other panel runs through.</summary>
public readonly record struct SawTilts(double Mitre, double OneSide);

/// <summary>How the saw is set for a tilt: up to 45 degrees as it is; beyond, the complement with the work stood on edge against a fence.</summary>
public readonly record struct SawSetting(double Tilt, bool WorkOnEdge);

/// <summary>A compound cut: the mitre is turned in the board's face from square to its edge, the bevel tilted from square to its face (radians, unsigned).</summary>
public readonly record struct CompoundCut(double Mitre, double Bevel);

/// <summary>An angle as it stands on a sheet, and what the rounding leaves (radians).</summary>
public readonly record struct RoundedAngle(double Exact, double Rounded)
{
    /// <summary>How far off (mm) the far end of a length is that was set by the rounded angle.</summary>
    public double ErrorAt(double length) => 2 * length * Math.Sin(Math.Abs(Rounded - Exact) / 2);
}

/// <summary>Sizes of a part with bevelled ends (mm). Blank is from long point to long point, what must be cut from stock; Short is between the short points.</summary>
public readonly record struct BevelledLength(double Outside, double Inside, double Blank, double Short);

/// <summary>Angles at joints. All in radians.</summary>
public static class Angles
{
    /// <summary>
    /// The angle between two panels, measured through the inside, from their outward normals. Less than pi at an outward corner; at an inward
    /// (<paramref name="reflex"/>) corner, where the outside faces look at each other, more than pi.
    /// </summary>
    public static double Dihedral(Vec3 outwardA, Vec3 outwardB, bool reflex = false)
    {
        var turn = outwardA.AngleTo(outwardB);
        return reflex ? Math.PI + turn : Math.PI - turn;
    }

    /// <summary>Tilt from square for a dihedral angle: (pi - angle) / 2 each for a mitre, |pi/2 - angle| on one side only.</summary>
    public static SawTilts SawTilt(double dihedral)
    {
        var inner = dihedral > Math.PI ? 2 * Math.PI - dihedral : dihedral;
        return new((Math.PI - inner) / 2, Math.Abs(Math.PI / 2 - inner));
    }

    public static SawSetting Setting(double tilt) =>
        Math.Abs(tilt) <= Math.PI / 4 + Tolerance.Angle ? new(Math.Abs(tilt), false) : new(Math.PI / 2 - Math.Abs(tilt), true);

    /// <summary>
    /// Mitre and bevel of any plane cut through a board: from the board's face normal, the direction of the edge that the saw's fence holds, and the
    /// normal of the cut. Null when the cut lies in the face, or the edge is square to it.
    /// </summary>
    public static CompoundCut? Compound(Vec3 faceNormal, Vec3 edge, Vec3 cutNormal)
    {
        var (n, c) = (faceNormal.Unit, cutNormal.Unit);
        var along = (edge - n * n.Dot(edge)).Unit;
        var trace = n.Cross(c);
        if (along == default || trace.Length <= Tolerance.Angle) return null;
        var mitre = trace.AngleTo(n.Cross(along));
        return new(Math.Min(mitre, Math.PI - mitre), Math.Atan2(Math.Abs(n.Dot(c)), trace.Length));
    }

    /// <summary>
    /// Mitre and bevel of a board that is mitred to its neighbour at equal thickness: the cut halves the angle between the two faces.
    /// Null when the faces are parallel.
    /// </summary>
    public static CompoundCut? CompoundMitre(Vec3 outward, Vec3 neighbourOutward, Vec3 edge)
    {
        var cut = outward.Unit - neighbourOutward.Unit;
        return cut.Length <= Tolerance.Angle || outward.Cross(neighbourOutward).Length <= Tolerance.Angle ? null : Compound(outward, edge, cut);
    }

    /// <summary>
    /// A box or frame of n equal sides that slope alike: tan M = tan(pi/n) cos(pitch), sin B = sin(pi/n) sin(pitch). Pitch is from the horizontal:
    /// 0 is a flat frame, pi/2 an upright box.
    /// </summary>
    public static CompoundCut RegularBox(int sides, double pitch) => new(
        Math.Atan(Math.Tan(Math.PI / sides) * Math.Cos(pitch)),
        Math.Asin(Math.Sin(Math.PI / sides) * Math.Sin(pitch)));

    /// <summary>To the nearest half degree, halves away from zero.</summary>
    public static RoundedAngle RoundToHalfDegree(double angle)
    {
        const double half = Math.PI / 360;
        // An angle that is a quarter degree but for 0.005 degrees, which no saw tells apart, goes up like one that is.
        return new(angle, Math.Sign(angle) * Math.Floor(Math.Abs(angle) / half + 0.5 + 0.01) * half);
    }

    /// <summary>Sizes of a part from its length on the outside face, its thickness and the tilts of its two ends (positive makes the inside longer).</summary>
    public static BevelledLength Bevelled(double outside, double thickness, double tiltA, double tiltB)
    {
        var (a, b) = (thickness * Math.Tan(tiltA), thickness * Math.Tan(tiltB));
        return new(outside, outside + a + b, outside + Math.Max(0, a) + Math.Max(0, b), outside + Math.Min(0, a) + Math.Min(0, b));
    }
}
