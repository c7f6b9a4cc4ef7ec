using Wain.Core.Methods;
using static Wain.Core.Methods.Customary;

namespace Wain.Tests.Engineering;

public static partial class CheckValues
{
    private const string Gum = "JCGM 100:2008 (GUM), from memory";
    private const string Hibbeler = "Hibbeler, Statics, fundamental problem 9-7";
    private const string Sae = "textbook statics of a tilted vehicle, independent method: moments of the inclined body taken directly";

    private static IEnumerable<CheckValue> Weights =>
    [
        new("Spreads.SumIndependent", Gum + ", example H.1", "gauge block, 25, 9.7, 2.9 and 16.6 nm, half-spread nm", 32, () => Spreads.SumIndependent(Half(25, 9.7, 2.9, 16.6)).Above, 0.5),
        new("Spreads.SumIndependent", Gum + ", 5.2.2", "ten resistors, 0.1 ohm each, taken as independent, ohm", 0.32, () => Spreads.SumIndependent(Enumerable.Repeat(Half(0.1)[0], 10)).Above, 0.005),
        new("Spreads.SumTogether", Gum + ", 5.2.2", "ten resistors against one standard, 0.1 ohm each, ohm", 1.0, () => Spreads.SumTogether(Enumerable.Repeat(Half(0.1)[0], 10)).Above, 1e-9),
        new("Spreads.SumTogether", "independent method: sum of the low values", "1 to 3, 2 to 5", 3, () => Spreads.SumTogether([new(1, 2, 3), new(2, 3, 5)]).Low, 1e-12),
        new("Statics.Centre", Hibbeler, "three rods, x mm", 265, () => Rods().Figure(c => c.X), 0.5),
        new("Statics.Centre", Hibbeler, "three rods, y mm", 323, () => Rods().Figure(c => c.Y), 0.5),
        new("Statics.Centre", Hibbeler, "three rods, z mm", -61.5, () => Rods().Figure(c => c.Z), 0.05),
        new("Statics.Centre", "Hibbeler, Statics, problem on a truss of five bars", "five bars of 4 m, m", 3, () => Statics.Centre([.. Enumerable.Range(1, 5).Select(x => new MassAt(4, x, 0, 0))]).Figure(c => c.X), 1e-12),
        new("Statics.Centre", "Hibbeler, Statics, example 9.10, from memory", "plate with a hole, x ft", -0.348, () => PlateWithHole().Figure(c => c.X), 5e-4),
        new("Statics.Centre", "Hibbeler, Statics, example 9.10, from memory", "plate with a hole, y ft", 1.22, () => PlateWithHole().Figure(c => c.Y), 5e-3),
        new("Statics.Axles", "trade page on axle weights", "5000 lb, 28.2 in ahead of the rear axle, wheelbase 208 in, rear lb", 4322, () => Statics.Axles(5000, 208 - 28.2, 208).Figure(a => a.Rear), 0.5),
        new("Statics.Axles", "trade page on axle weights", "the same, front lb", 678, () => Statics.Axles(5000, 208 - 28.2, 208).Figure(a => a.Front), 0.5),
        new("Statics.Axles", "truck body builder's manual", "100 lb, 133 in behind the front axle, wheelbase 214 in, rear lb (page cuts at 62.14)", 62.14, () => Statics.Axles(100, 133, 214).Figure(a => a.Rear), 0.015),
        new("Statics.Axles", "the two reactions sum to the load (the page's 38.86 is a slip)", "the same, front lb", 37.85, () => Statics.Axles(100, 133, 214).Figure(a => a.Front), 0.005),
        new("Statics.BehindFront", "inverse of the trade page on axle weights", "front 678, rear 4322, wheelbase 208 in, in", 179.8, () => Statics.BehindFront(new(678, 4322), 208).Figure(), 0.05),
        new("Statics.BehindFront", "inverse of the truck body builder's manual", "front 37.85, rear 62.15, wheelbase 214 in, in", 133, () => Statics.BehindFront(new(37.85, 62.15), 214).Figure(), 0.05),
        new("Statics.HeightFromTilt", Sae, "wheelbase 3 m, centre 1.2 m behind the front axle and 0.7 m up, tilted 10 degrees, m", 0.7, () => TiltedHeight(10), 1e-9),
        new("Statics.HeightFromTilt", Sae, "the same, tilted 20 degrees, m", 0.7, () => TiltedHeight(20), 1e-9),
        new("Statics.HeightFromTilt", "a van maker's guidelines for body builders, centre-of-gravity heights: its own steps by lengths, without the tangent", "3 m, 600 and 400 kg level, 640 on the front with the rear 0.6 m up, m", 0.58788, RaisedHeight, 5e-5),
        new("Statics.Sides", "trade page on axle weights, its lever laid across: 28.2 in from one end of 208", "5000 lb, 75.8 in off the middle, near side lb", 4322, () => Statics.Sides(5000, 104 - 28.2, 208).Figure(s => s.Left), 0.5),
        new("Statics.Sides", "truck body builder's manual, its lever laid across: 133 in from one end of 214", "100 lb, 26 in off the middle, far side lb", 37.85, () => Statics.Sides(100, 133 - 107, 214).Figure(s => s.Right), 0.005),
        new("Statics.Sides", "independent method: moments about the left wheel", "1000 kg, 0.1 m left, track 1.6 m, right kg", 1000 * (0.8 - 0.1) / 1.6, () => Statics.Sides(1000, 0.1, 1.6).Figure(s => s.Right), 1e-9),
        new("Statics.Sides", "independent method: moments about the right wheel", "the same, left kg", 1000 * (0.8 + 0.1) / 1.6, () => Statics.Sides(1000, 0.1, 1.6).Figure(s => s.Left), 1e-9),
        new("TieDown.TipsAt", "static stability factor, track/(2 h), of rollover rating; from memory", "track 1.6 m, height 0.8 m, g", 1.0, () => TieDown.TipsAt(0.8, 0.8).Figure(), 1e-12),
        new("TieDown.TipsAt", "independent method: no tie-down force is needed at the threshold", "height 1 m, edge 0.6 m, N", 0, () => TieDown.TipsAt(1, 0.6).Then(a => TieDown.Forces(new(100, 1, 0.6, a, 0), [new(1, 1, 0), new(1, 1, 0)])).Figure(f => f.Tip!.Value[0]), 1e-9),
        new("TieDown.Forces", "independent method: equilibrium at the solved forces", "moment about the tipping edge closes, N m", 0, TipMoment, 1e-9),
        new("TieDown.Forces", "independent method: least energy of straps that stretch alike, by trial", "1 kN m on arms of 1 and 2 m, N", 400, LeastEnergy, 0.5),
        new("TieDown.Forces", "49 CFR 393.102(a)(1), 0.8 g forward, on one direct tie", "1000 lb, one tie along the bed, lbf", 800, () => TieDown.Forces(new(1000 * Pound, 0, 1, 0.8, 0), [new(1, 1, 0)]).Figure(f => f.Slide!.Value[0]) / PoundForce, 1e-6),
        new("TieDown.Forces", "49 CFR 393.102(b), a downward hold of a fifth of the weight, on four upright ties", "1000 lb, lbf each", 50, () => TieDown.Forces(new(1000 * Pound, 0, 1, 0, 1.2), [.. Enumerable.Repeat(new Strap(0, 0, 1), 4)]).Figure(f => f.Lift!.Value[0]) / PoundForce, 1e-6),
    ];

    private static Spread[] Half(params double[] halves) => [.. halves.Select(h => new Spread(-h, 0, h))];

    private static Result<MassAt> Rods() => Statics.Centre([new(300, 150, 0, 0), new(600, 300, 300, 0), new(400, 300, 600, -200)]);

    private static Result<MassAt> PlateWithHole() => Statics.Centre([new(4.5, 1, 1, 0), new(9, -1.5, 1.5, 0), new(-2, -2.5, 2, 0)]);

    private static double TiltedHeight(double degrees)
    {
        // Moments about the rear contact point of a body turned nose down about its axle centres: the arm of the weight is (L - a) cos + h sin, that of the front load L cos.
        var (wheelbase, behind, height, weight, angle) = (3.0, 1.2, 0.7, 1000.0, double.DegreesToRadians(degrees));
        var inclined = weight * ((wheelbase - behind) * Math.Cos(angle) + height * Math.Sin(angle)) / (wheelbase * Math.Cos(angle));
        return Statics.Axles(weight, behind, wheelbase).Then(level => Statics.HeightFromTilt(level, inclined, wheelbase, angle)).Figure();
    }

    private static double RaisedHeight() => Statics.HeightFromTilt(new(600, 400), 640, 3, Math.Asin(0.6 / 3)).Figure();

    private static double TipMoment()
    {
        var body = new TieDownCase(800, 1.1, 0.5, 0.8, 0.2);
        Strap[] straps = [new(1.4, 0.6, 0.5), new(0.3, 0.2, 0.9), new(-0.4, -0.6, 0.5)];
        var tip = TieDown.Forces(body, straps).Figure(f => f.Tip!.Value.Zip(straps, (force, strap) => force * strap.Arm).Sum());
        return body.Mass * Gravity * (0.8 * 1.1 - (1 - 0.2) * 0.5) - tip;
    }

    /// <summary>Of all pairs of forces that bear 1 kN m on arms of 1 and 2 m, the pair with the least sum of squares; the second of them.</summary>
    private static double LeastEnergy()
    {
        var best = Enumerable.Range(0, 501).Select(n => (Second: (double)n, First: 1000 - 2.0 * n)).MinBy(t => t.First * t.First + t.Second * t.Second).Second;
        // Chosen so that the overturning moment is 1 kN m and nothing rights it.
        var forces = TieDown.Forces(new(1000 / Gravity, 1, 0, 1, 0), [new(1, 0, 0), new(2, 0, 0)]);
        return forces.Figure(f => f.Tip!.Value[1]) is var found && Math.Abs(found - best) < 0.5 ? found : double.NaN;
    }
}
