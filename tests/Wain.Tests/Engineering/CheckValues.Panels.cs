using Wain.Core.Methods;
using static Wain.Core.Methods.Customary;

namespace Wain.Tests.Engineering;

public static partial class CheckValues
{
    private const string Gere = "Gere, Mechanics of Materials, example 6-2, from memory";
    private const string GereWood = "Gere, Mechanics of Materials, example 6-1, from memory";
    private const string Brochure = "sample problem of a honeycomb design brochure, answers from memory";
    private const string Astm = "ASTM D7250 coefficients, from memory";
    private const string Roark = "Roark, Table 8.1, from memory";
    private const string Timoshenko = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, from memory";
    private const string Srinivas = "Srinivas and Rao 1970, exact elasticity of a thick orthotropic plate under uniform load, from memory";
    private const string Mindlin = "Mindlin plate benchmark of the finite-element literature, from memory";

    private static readonly ElasticLayer[] Solid = [new(0.02, 10e9, 4e9)];
    private static readonly ElasticLayer[] AluminiumPlastic = [new(0.005, 72e9, 27e9), new(0.150, 0.8e9, 0.3e9), new(0.005, 72e9, 27e9)];
    private static readonly ThreeLayers Honeycomb = new(0.0005, 0.0254, 70e9, 1e9, 220e6);
    private static readonly ThreeLayers Plywood = new(0.205 * Inch, 1.5 * Inch, 1.5e6 * Psi, 1000 * Psi, 400 * Psi);

    private static readonly SectionPart[] WoodOnSteel =
    [
        new("wood", 4 * Inch, 6 * Inch, 3 * Inch, 1.5e6 * Psi), new("steel", 4 * Inch, 0.5 * Inch, 6.25 * Inch, 30e6 * Psi),
    ];

    private static IEnumerable<CheckValue> Panels =>
    [
        new("LayeredSection.Stiffness", "textbook: homogeneous rectangle, E t^3/12", "20 mm, 10 GPa, N m", 10e9 * 8e-6 / 12, () => LayeredSection.Stiffness(Solid).Figure(s => s.Flexural), 1e-6),
        new("LayeredSection.Stiffness", "textbook: shear factor 5/6 of a homogeneous rectangle", "20 mm, 4 GPa, S/(G t)", 5.0 / 6, () => LayeredSection.Stiffness(Solid).Figure(s => s.Shear) / (4e9 * 0.02), 1e-12),
        new("LayeredSection.Stiffness", Gere, "200 mm wide, EI N m2", 910200, () => 0.2 * LayeredSection.Stiffness(AluminiumPlastic).Figure(s => s.Flexural), 100),
        new("LayeredSection.Stiffness", "plywood strip by Allen's form: exact section must be near with thick faces and weak core", "12 in wide, lb in2 (D + faces' own, within 1 %)", 5.3635e6 + 12 * 1.5e6 * Math.Pow(0.205, 3) / 6, () => LayeredSection.Stiffness(PlywoodLayers).Figure(s => s.Flexural) * 12 * Inch / (PoundForce * Inch * Inch), 5.4e4),
        new("LayeredSection.Stresses", Gere, "moment 3.0 kN m, faces MPa", 19.0, () => GereStress(0) / 1e6, 0.05),
        new("LayeredSection.Stresses", Gere, "moment 3.0 kN m, core MPa", 0.198, () => GereStress(1) / 1e6, 5e-4),
        new("LayeredSection.Stresses", "textbook: 1.5 V/A in a homogeneous rectangle", "20 mm, 1000 N/m, Pa", 75000, () => LayeredSection.Stresses(Solid, 0, 1000).Figure(s => s[0].Shear), 1e-6),
        new("LayeredSection.PlateStiffness", "textbook: E t^3/(12 (1 - nu^2))", "10 mm steel, nu 0.3, N m", 210e9 * 1e-6 / 12 / 0.91, () => LayeredSection.PlateStiffness([new(0.01, 210e9, 80e9, 0.3)]).Figure(s => s.Flexural), 1e-6),
        new("LayeredSection.PlateStiffness", "independent method: the plate laminate of Plates.Stiffness", "three unlike layers, N m", Unlike(), () => LayeredSection.PlateStiffness([new(0.01, 12e9, 5e9, 0.3), new(0.03, 2e9, 1e9, 0.3), new(0.004, 70e9, 26e9, 0.3)]).Figure(s => s.Flexural), 1e-6),
        new("SandwichForms.Stiffness", Brochure, "0.5 m wide, D N m2", 5869.6, () => 0.5 * SandwichForms.Stiffness(Honeycomb, SandwichForm.Brochure).Figure(s => s.Flexural), 1),
        new("SandwichForms.Stiffness", Brochure, "0.5 m wide, S kN", 2849, () => 0.5e-3 * SandwichForms.Stiffness(Honeycomb, SandwichForm.Brochure).Figure(s => s.Shear), 0.5),
        new("SandwichForms.Stiffness", "computed from Allen's form", "plywood strip 12 in wide, S lb", 9302, () => 12 * Inch * SandwichForms.Stiffness(Plywood, SandwichForm.Allen).Figure(s => s.Shear) / PoundForce, 1),
        new("SandwichForms.FaceStress", Brochure, "moment 750 N m on 0.5 m, MPa", 115.8, () => SandwichForms.FaceStress(Honeycomb, 1500).Figure() / 1e6, 0.06),
        new("SandwichForms.FaceStress", "Gere, example 6-2, approximate theory (faces alone, at their outer side, 20.0), from memory", "mean over the face, MPa", 20.0, () => SandwichForms.FaceStress(new(0.005, 0.150, 72e9, 0.8e9, 0.3e9), 3000 / 0.2).Figure() / 1e6, 0.8),
        new("SandwichForms.CoreShear", Brochure, "750 N on 0.5 m, MPa", 0.058, () => SandwichForms.CoreShear(Honeycomb, 1500).Figure() / 1e6, 5e-4),
        new("SandwichForms.CoreShear", "independent method: exact section", "plywood strip, core shear of 90 lb on 12 in, Pa (within 1 %)", ExactCoreShear(), () => SandwichForms.CoreShear(Plywood, 90 * PoundForce / (12 * Inch)).Figure(), 0.01 * ExactCoreShear()),
        new("Wrinkling.Stress", "published worksheet for honeycomb panels (coefficient 1/3)", "70 GPa, 1 GPa, 220 MPa, MPa", 829, () => Wrinkling.Stress(70e9, 1e9, 220e6, Wrinkling.Worksheet).Figure() / 1e6, 0.6),
        new("Wrinkling.Stress", "the same with Hoff's 0.5", "MPa", 1244, () => Wrinkling.Stress(70e9, 1e9, 220e6).Figure() / 1e6, 0.6),
        new("Wrinkling.AntiplaneCore", "formula of honeycomb manuals, from memory", "0.82 E sqrt(ratio) at ratio 1e-4, MPa", 574, () => Wrinkling.AntiplaneCore(new(0.001, 0.1, 70e9, 0.7e9, 1e8)).Figure() / 1e6, 1e-6),
        new("Wrinkling.AntiplaneCore", "independent method: grows with the root of the face thickness", "face doubled, ratio", Math.Sqrt(2), () => Wrinkling.AntiplaneCore(new(0.002, 0.1, 70e9, 1e9, 1e8)).Figure() / Wrinkling.AntiplaneCore(new(0.001, 0.1, 70e9, 1e9, 1e8)).Figure(), 1e-12),
        new("Beams.Respond", Brochure, "centre load 1500 N, 2 m, deflection mm", 42.86, () => 1000 * Beams.Respond(BeamCase.SimpleCentral, 1500, 2, 5869.6, 28.49e5).Figure(b => b.Deflection), 0.01),
        new("Beams.Respond", "computed from Allen's form, shear part 52 % (tested panels: 44 to 73 %, Forest Products Journal 73(4))", "plywood strip, 72 in, 180 lb spread, in", 0.337, () => Beams.Respond(BeamCase.SimpleUniform, 180, 72, 5.3635e6, 9302).Figure(b => b.Deflection), 5e-4),
        new("Beams.Respond", Roark, "fixed ends, spread load, moment at the ends, w L^2/12", 1.0 / 12, () => Beams.Respond(BeamCase.FixedUniform, 1, 1, 1, 1).Figure(b => b.Moment), 1e-12),
        new("Beams.Respond", Roark, "cantilever, spread load, w L^4/8", 0.125, () => Beams.Respond(BeamCase.CantileverUniform, 1, 1, 1, 1).Figure(b => b.Bending), 1e-12),
        new("Beams.FourPoint", Astm, "third points, bending and shear, 23/1296 + 1/6", 23.0 / 1296 + 1.0 / 6, () => Beams.FourPoint(1, 1, 1.0 / 3, 1, 1).Figure(b => b.Deflection), 1e-12),
        new("Beams.FourPoint", Astm, "quarter points, 11/768 + 1/8", 11.0 / 768 + 1.0 / 8, () => Beams.FourPoint(1, 1, 0.25, 1, 1).Figure(b => b.Deflection), 1e-12),
        new("Beams.CentralPatch", "limit: the whole span loaded", "5/384 + 1/8", 5.0 / 384 + 1.0 / 8, () => Beams.CentralPatch(1, 1, 1, 1, 1).Figure(b => b.Deflection), 1e-12),
        new("Beams.CentralPatch", "limit: a load at midspan", "1/48 + 1/4", 1.0 / 48 + 1.0 / 4, () => Beams.CentralPatch(1, 1, 0, 1, 1).Figure(b => b.Deflection), 1e-12),
        new("FramedSection.Stiffness", GereWood, "wood on steel, neutral axis from the top, in", 5.031, () => FramedSection.Stiffness(WoodOnSteel).Figure(s => s.NeutralAxis) / Inch, 5e-4),
        new("FramedSection.Stiffness", GereWood, "EI, 1500 x 171.0 + 30000 x 3.01, ksi in4", 1500 * 171.0 + 30000 * 3.01, () => FramedSection.Stiffness(WoodOnSteel).Figure(s => s.Flexural) / (1000 * Psi * Math.Pow(Inch, 4)), 300),
        new("FramedSection.Stresses", GereWood, "60 kip in, top of the wood, psi", -1310, () => FramedSection.Stresses(WoodOnSteel, 60000 * PoundForce * Inch).Figure(s => s[0].Outer) / Psi, 5),
        new("FramedSection.Stresses", GereWood, "60 kip in, bottom of the steel, psi", 7620, () => FramedSection.Stresses(WoodOnSteel, 60000 * PoundForce * Inch).Figure(s => s[1].Inner) / Psi, 15),
        new("FramedSection.GlueShear", "independent method: exact layered section", "three layers, shear at the first bond, Pa", LayerBond(), () => FramedSection.GlueShear([new("a", 1, 0.01, 0.005, 12e9), new("b", 1, 0.03, 0.025, 2e9), new("c", 1, 0.004, 0.042, 70e9)], 1000, 0.01, 1).Figure(), 1e-6),
        new("FramedSection.GlueShear", "textbook: 1.5 V/A at the middle of a rectangle", "two equal boards, Pa", 75000, () => FramedSection.GlueShear([new("a", 1, 0.01, 0.005, 1e9), new("b", 1, 0.01, 0.015, 1e9)], 1000, 0.01, 1).Figure(), 1e-6),
        new("PlateSeries.Respond", Timoshenko + ", Table 8", "square, uniform, w/(q a^4/D)", 0.00406, () => Thin().Figure(p => p.Centre.Deflection), 5e-6),
        new("PlateSeries.Respond", Timoshenko + ", Table 8", "square, uniform, moment/(q a^2), nu 0.3", 0.0479, () => Thin().Figure(p => p.Centre.Mx), 5e-5),
        new("PlateSeries.Respond", Timoshenko + ", Table 8", "square, uniform, shear at mid-edge/(q a)", 0.338, () => Thin().Figure(p => p.Peak.Qx), 0.005),
        new("PlateSeries.Respond", Timoshenko + ", Table 8", "2 by 1, uniform, w/(q b^4/D)", 0.01013, () => Thin(2).Figure(p => p.Centre.Deflection), 5e-6),
        new("PlateSeries.Respond", Timoshenko + ", Table 8", "2 by 1, uniform, moment across/(q b^2)", 0.1017, () => Thin(2).Figure(p => p.Centre.My), 5e-5),
        new("PlateSeries.Respond", Timoshenko + ", central load", "square, w/(P a^2/D)", 0.01160, () => PlateSeries.Respond(Isotropic(1e9), 1, 1, PlateLoad.Patch(1, 0.5, 0.5, 0.001, 0.001)).Figure(p => p.Centre.Deflection), 1e-5),
        new("PlateSeries.Respond", Mindlin, "square, h/a 0.1, hard simple, w/(q a^4/D)", 0.004273, () => PlateSeries.Respond(Thick(0.1), 1, 1, PlateLoad.Whole(1, 1, 1)).Figure(p => p.Centre.Deflection), 2e-6),
        new("PlateSeries.Respond", Srinivas, "orthotropic square, h/a 0.05, w C11/(h q) (first-order shear against exact elasticity, within 1 %)", 10443, () => Aragonite(0.05, 1), 104),
        new("PlateSeries.Respond", Srinivas, "orthotropic square, h/a 0.10, within 1 %", 688.57, () => Aragonite(0.10, 1), 6.9),
        new("PlateSeries.Respond", Srinivas, "orthotropic square, h/a 0.14, within 1 %", 191.07, () => Aragonite(0.14, 1), 1.9),
        new("PlateSeries.Respond", Srinivas, "orthotropic, b/a 2, h/a 0.10, within 1 %", 1408.5, () => Aragonite(0.10, 2), 14),
        new("PlateSeries.Respond", Srinivas, "orthotropic, b/a 0.5, h/a 0.10, within 1 %", 139.08, () => Aragonite(0.10, 0.5), 1.4),
        new("PlateRitz.Respond", Srinivas, "orthotropic square on simple edges, h/a 0.10, within 1 %", 688.57, () => Aragonite(0.10, 1, ritz: true), 6.9),
        new("PlateRitz.Respond", Timoshenko + ", Table 35", "square, clamped, uniform, w/(q a^4/D) (0.0012653 to more places, which the table cuts)", 0.00126, () => Clamped(1e7).Figure(p => p.Centre.Deflection), 6e-6),
        new("PlateRitz.Respond", Timoshenko + ", Table 35", "square, clamped, moment at mid-edge/(q a^2)", 0.0513, () => Clamped(1e7).Figure(p => p.Peak.Mx), 5e-4),
        new("PlateRitz.Respond", Timoshenko + ", Table 35", "2 by 1, clamped, w/(q b^4/D)", 0.00254, () => PlateRitz.Respond(Isotropic(1e7), 2, 1, PlateEdges.All(EdgeHold.Clamped), PlateLoad.Whole(1, 2, 1)).Figure(p => p.Centre.Deflection), 1e-5),
        new("PlateRitz.Respond", Timoshenko + ", central load", "square, clamped, w/(P a^2/D) (a Ritz solution settles slowly under a point)", 0.00560, () => PlateRitz.Respond(Isotropic(1e7), 1, 1, PlateEdges.All(EdgeHold.Clamped), PlateLoad.Patch(1, 0.5, 0.5, 0.01, 0.01), 14).Figure(p => p.Centre.Deflection), 1e-4),
        new("PlateRitz.Respond", Mindlin, "square, h/a 0.1, clamped, w/(q a^4/D)", 0.001505, () => PlateRitz.Respond(Thick(0.1), 1, 1, PlateEdges.All(EdgeHold.Clamped), PlateLoad.Whole(1, 1, 1)).Figure(p => p.Centre.Deflection), 5e-6),
        new("PlateRitz.Respond", Timoshenko + ", two opposite edges clamped, two simple", "square, w/(q a^4/D)", 0.00192, () => PlateRitz.Respond(Isotropic(1e7), 1, 1, new(EdgeHold.Clamped, EdgeHold.Clamped, EdgeHold.Simple, EdgeHold.Simple), PlateLoad.Whole(1, 1, 1)).Figure(p => p.Centre.Deflection), 5e-6),
        new("PlateRitz.Respond", "independent method: Navier's series", "orthotropic sandwich, off-centre patch, deflection (within 0.5 %)", Sandwich(false), () => Sandwich(true), 0.005 * Sandwich(false)),
        new("Plates.Stiffness", "textbook: E t^3/(12 (1 - nu^2))", "10 mm, 210 GPa, nu 0.3, D11 N m", 210e9 * 1e-6 / 12 / 0.91, () => Plates.Stiffness([PlateLayer.Isotropic(0.01, 210e9, 0.3)]).Figure(p => p.D11), 1e-6),
        new("Plates.Stiffness", "textbook: isotropic plate, D66 = D (1 - nu)/2", "the same, ratio", 0.35, () => Plates.Stiffness([PlateLayer.Isotropic(0.01, 210e9, 0.3)]).Figure(p => p.D66 / p.D11), 1e-12),
    ];

    private static ElasticLayer[] PlywoodLayers => [new(Plywood.Face, Plywood.FaceModulus, 50e6), new(Plywood.Core, Plywood.CoreModulus, Plywood.CoreShear), new(Plywood.Face, Plywood.FaceModulus, 50e6)];

    private static double GereStress(int layer) => LayeredSection.Stresses(AluminiumPlastic, 3000 / 0.2, 0).Figure(s => Math.Max(Math.Abs(s[layer].Outer), Math.Abs(s[layer].Inner)));

    private static double Unlike() => Plates.Stiffness([PlateLayer.Isotropic(0.01, 12e9, 0.3), PlateLayer.Isotropic(0.03, 2e9, 0.3), PlateLayer.Isotropic(0.004, 70e9, 0.3)]).Figure(p => p.D11);

    private static double ExactCoreShear() => LayeredSection.Stresses(PlywoodLayers, 0, 90 * PoundForce / (12 * Inch)).Figure(s => s[1].Shear);

    private static double LayerBond() => LayeredSection.Stresses([new(0.01, 12e9, 5e9), new(0.03, 2e9, 1e9), new(0.004, 70e9, 26e9)], 0, 1000).Figure(s => s[0].BondShear);

    /// <summary>D is 1 and nu 0.3, so that the results are the coefficients of the tables.</summary>
    internal static PlateStiffness Isotropic(double shear) => new(1, 0.3, 1, 0.35, shear, shear);

    /// <summary>The same with the shear stiffness 5/6 G h that goes with a thickness h for a side of one.</summary>
    internal static PlateStiffness Thick(double h) => Isotropic(5.0 / 6 * 12 * 0.91 / 2.6 / (h * h));

    private static Result<PlateResponse> Thin(double a = 1) => PlateSeries.Respond(Isotropic(1e9), a, 1, PlateLoad.Whole(1, a, 1), 61);

    private static Result<PlateResponse> Clamped(double shear) => PlateRitz.Respond(Isotropic(shear), 1, 1, PlateEdges.All(EdgeHold.Clamped), PlateLoad.Whole(1, 1, 1));

    /// <summary>Their material by its moduli over C11, with the shear factor 5/6 of a homogeneous plate; h, C11 and q are 1.</summary>
    private static double Aragonite(double thin, double ratio, bool ritz = false)
    {
        const double c12 = 0.23319, c22 = 0.543103, c13 = 0.010776, c23 = 0.098276, c33 = 0.530172, c44 = 0.26681, c55 = 0.159914, c66 = 0.262931;
        var plate = new PlateStiffness((1 - c13 * c13 / c33) / 12, (c12 - c13 * c23 / c33) / 12, (c22 - c23 * c23 / c33) / 12, c66 / 12, 5 * c55 / 6, 5 * c44 / 6);
        var (a, b) = (1 / thin, ratio / thin);
        return (ritz ? PlateRitz.Respond(plate, a, b, PlateEdges.All(EdgeHold.Simple), PlateLoad.Whole(1, a, b)) : PlateSeries.Respond(plate, a, b, PlateLoad.Whole(1, a, b), 61)).Figure(p => p.Centre.Deflection);
    }

    private static double Sandwich(bool ritz)
    {
        var plate = new PlateStiffness(9000, 700, 5000, 1500, 60e3, 40e3);
        var load = PlateLoad.Patch(900, 0.8, 0.5, 0.4, 0.3);
        return (ritz ? PlateRitz.Respond(plate, 2, 1.2, PlateEdges.All(EdgeHold.Simple), load, 12) : PlateSeries.Respond(plate, 2, 1.2, load)).Figure(p => p.Centre.Deflection);
    }
}
