using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

public static partial class CheckValues
{
    private const string SpringPage = "component maker's training page on gas springs";
    private const string FourLegs = "independent method: plane of forces, R = W/4 (1 + x/a + y/b) with a and b the half-sides";

    private static IEnumerable<CheckValue> Lifts =>
    [
        new("GasSprings.Opening", SpringPage, "50 kg, 0.8 m, spring at 0.25 m, two, N", 784.8, () => GasSprings.Opening(50 * 9.81, 0.8, 0.25, 2).Figure(), 0.05),
        new("GasSprings.Opening", SpringPage, "the same with the spring at 0.2 m, N", 981, () => GasSprings.Opening(50 * 9.81, 0.8, 0.2, 2).Figure(), 0.5),
        new("GasSprings.Opening", SpringPage, "the same with the centre at 0.6 m, N (page cuts at 588)", 588, () => GasSprings.Opening(50 * 9.81, 0.6, 0.25, 2).Figure(), 0.7),
        new("GasSprings.Opening", "one-spring check of a maker, g = 10, factor 1.1", "10 kg, 300 mm, 100 mm, N", 330, () => 1.1 * GasSprings.Opening(100, 0.3, 0.1, 1).Figure(), 1e-9),
        new("GasSprings.Closing", SpringPage, "lid 1.2 m, N", 327, () => GasSprings.Closing(784.8, 0.25, 1.2, 2).Figure(), 0.5),
        new("GasSprings.Closing", SpringPage, "centre at 1.0 m, N (page cuts at 408)", 408, () => GasSprings.Closing(981, 0.25, 1.2, 2).Figure(), 0.8),
        new("GasSprings.Force", "common practice: progression is the force pushed in over the force extended", "400 N, K 1.3, half way, N", 460, () => GasSprings.Force(new(400, 0.5, 0.2, 1.3), 0.4, 293.15).Figure(), 1e-9),
        new("GasSprings.Force", "common practice: about 3.4 % for 10 K", "400 N at 10 degrees Celsius over 20, per cent", -3.4, () => 100 * (GasSprings.Force(new(400, 0.5, 0.2), 0.5, 283.15).Figure() / 400 - 1), 0.05),
        new("LidLift.Travel", SpringPage, "spring square to the arm: the short form, N each", 784.8, () => ShortForm(0.25), 0.05),
        new("LidLift.Travel", "independent method: virtual work, the weight raised over the travel of the spring", "work of the needed force, N m", WorkOfWeight, WorkOfNeeded, 0.002 * WorkOfWeight),
        new("StraightLift.Struts", "independent method: triangle of forces at 30 degrees", "1000 N on two struts, N each", 1000, () => Last(StraightLift.Struts(1000, Math.Sqrt(3), 0.5, 0.5, 2)), 1e-9),
        new("StraightLift.Struts", "statics: upright struts share the weight", "1000 N on four, N each", 250, () => Last(StraightLift.Struts(1000, 0, 0, 0.5, 4)), 1e-9),
        new("StraightLift.Scissor", "textbook scissor, F = W/tan(angle), from memory", "1000 N at 45 degrees, horizontal actuator, N", 1000, () => Last(Scissor(45)), 1e-6),
        new("StraightLift.Scissor", "textbook scissor, F = W/tan(angle), from memory", "1000 N at 30 degrees, horizontal actuator, N", 1000 * Math.Sqrt(3), () => Last(Scissor(30)), 1e-6),
        new("LiftPoints.Forces", FourLegs, "1000 N at (0.2, 0.1) on 2 by 1 m, corner N", 250 * (1 + 0.2 / 1 + 0.1 / 0.5), () => Table().Figure(f => f.Elastic[0]), 1e-9),
        new("LiftPoints.Forces", "statics of three points: areas of the sub-triangles", "900 N at a third of the height over the base, N at the apex", 300, () => LiftPoints.Forces(900, 1, 0, [new(0, -1), new(0, 1), new(3, 0)]).Figure(f => f.Elastic[2]), 1e-9),
        new("LiftPoints.Forces", "statics: the load lies on a diagonal and the two corners of that diagonal carry it all", "the same four corners, most at the near corner, N", 600, () => Table().Figure(f => f.Most[0]), 1e-9),
    ];

    private static Result<LiftForces> Table() => LiftPoints.Forces(1000, 0.2, 0.1, [new(1, 0.5), new(1, -0.5), new(-1, -0.5), new(-1, 0.5)]);

    private static double ShortForm(double arm) =>
        LidLift.Travel(new(50 * 9.81, new(0.8, 0), new(arm, -1), new(arm, 0), new(1.2, 0), 0.001, 2), null, 1).Figure(t => t.States[0].Needed ?? double.NaN);

    private static readonly Lid Worked = new(400, new(0.7, 0.05), new(0.1, -0.45), new(0.5, 0.02), new(1.4, 0), Math.PI / 3, 2);

    private static double WorkOfWeight => 400 * (0.7 * Math.Sin(Math.PI / 3) + 0.05 * Math.Cos(Math.PI / 3) - 0.05);

    private static double WorkOfNeeded() => LidLift.Travel(Worked, null, 1, 400).Figure(t => 2 * t.States.Zip(t.States.Skip(1), (a, b) => (a.Needed!.Value + b.Needed!.Value) / 2 * (b.Length - a.Length)).Sum());

    private static double Last(Result<System.Collections.Immutable.ImmutableArray<StraightState>> states) => states.Figure(s => s[^1].Needed ?? double.NaN);

    private static Result<System.Collections.Immutable.ImmutableArray<StraightState>> Scissor(double degrees) =>
        StraightLift.Scissor(1000, 1.5, 0.1, double.DegreesToRadians(degrees), new(ScissorMember.Base, 3), new(ScissorMember.ArmFromSlide, 0), 1);
}
