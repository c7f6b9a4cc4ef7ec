using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Engineering;

/// <summary>A strut as placed (mm, N).</summary>
/// <param name="Holds">An actuator holds where it stands; a gas spring only pushes.</param>
internal sealed record Strut(string Name, Vec3 Fixed, Vec3 Moving, double Extended, double CompressedForce, double? Stroke, bool Holds)
{
    public static Strut? Read(Ledger ledger, BoundFact fact)
    {
        if (ledger.Evaluator.Place(fact, "fixed") is not { } a || ledger.Evaluator.Place(fact, "moving") is not { } b || ledger.Of(fact, "hardware") is not { } hardware) return null;
        if (hardware.Fact.Find("force") is not { } force || ledger.Evaluator.Number(force, "value") is not { } first)
        {
            ledger.Lack(fact.Path + ".force", hardware, "force", fact.Span);
            return null;
        }
        double? stroke = hardware.Fact.Find("stroke") is { } s ? ledger.Evaluator.Length(s, "value") : null;
        return new Strut(Lifting.Last(fact), new(a[0], a[1], a[2]), new(b[0], b[1], b[2]), first, ledger.Evaluator.Number(force, "end") ?? first, stroke, hardware.Fact.Find("kind")?.Word("kind") == "actuator");
    }

    public double LengthAt(Vec3 move) => (Moving + move - Fixed).Length;

    public bool Fits(Vec3 travel) => Stroke is not { } stroke || Math.Abs(LengthAt(travel) - LengthAt(Vec3.Zero)) <= stroke + 0.5;

    /// <summary>N at a length, between extended and compressed in proportion; an actuator gives one force.</summary>
    public double Force(double length, double longest) => Stroke is { } stroke and > 0 ? Extended + (CompressedForce - Extended) * Math.Clamp((longest - length) / stroke, 0, 1) : Extended;
}

/// <summary>A hinge line and how far it opens (mm, rad), with moments about it in N m, positive opens.</summary>
/// <param name="Axis">Along the hinge, so that a right-handed turn about it raises the centre.</param>
internal sealed record Hinge(Vec3 From, Vec3 To, Vec3 Axis, double Open)
{
    public static Hinge? Of(Ledger ledger, BoundFact fact, MassSum carried)
    {
        if (ledger.Evaluator.Place(fact, "first") is not { } a || ledger.Evaluator.Place(fact, "second") is not { } b) return null;
        var (p, q) = (new Vec3(a[0], a[1], a[2]), new Vec3(b[0], b[1], b[2]));
        double open = fact.Has("angle") ? ledger.Evaluator.Angle(fact, "angle") ?? Math.PI / 2 : Math.PI / 2;
        var hinge = new Hinge(p, q, (q - p).Unit, open);
        return hinge.Axis.Cross(hinge.Out(carried.Centre)).Z < 0 ? hinge with { Axis = -hinge.Axis } : hinge;
    }

    /// <summary>From the hinge line to a point, square to it, mm.</summary>
    public Vec3 Out(Vec3 point) => point - From - Axis * (point - From).Dot(Axis);

    public Vec3 Turned(Vec3 point, double angle) => From + (point - From).Rotate(Axis, angle);

    /// <summary>m from the hinge line to the farthest corner of what it carries: where a hand takes hold.</summary>
    public double Reach(Ledger ledger, PlacedLift lift, MassSum carried) =>
        lift.Carries.Select(c => ledger.Panel(c)).OfType<PlacedPanel>().SelectMany(panel => panel.Outline.Corners.Select(c => Out(panel.Face.ToWorld(c)).Length)).DefaultIfEmpty(Out(carried.Centre).Length).Max() / 1000;

    /// <summary>What the weight (N) takes to hold at an angle.</summary>
    public double Needed(MassSum carried, double weight, double angle) => Moment(Turned(carried.Centre, angle), new Vec3(0, 0, weight));

    public double Moment(Vec3 at, Vec3 force) => Axis.Dot(Out(at).Cross(force)) / 1000;

    public double Longest(Strut strut) => Math.Max(strut.LengthAt(Vec3.Zero), (Turned(strut.Moving, Open) - strut.Fixed).Length);

    /// <summary>The force of a strut (N) at an angle and where it acts.</summary>
    public (Vec3 Force, Vec3 End) Push(Strut strut, double angle)
    {
        var end = Turned(strut.Moving, angle);
        var along = end - strut.Fixed;
        return (along.Unit * strut.Force(along.Length, Longest(strut)), end);
    }
}
