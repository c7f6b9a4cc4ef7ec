using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>One layer of a panel, from the outside face inward. Moduli along the span considered.</summary>
/// <param name="Thickness">m.</param>
/// <param name="Modulus">E, Pa.</param>
/// <param name="ShearModulus">G through the thickness, Pa.</param>
/// <param name="Poisson">Used for plates only.</param>
public sealed record ElasticLayer(double Thickness, double Modulus, double ShearModulus, double Poisson = 0);

/// <summary>A layered section, per metre of width.</summary>
/// <param name="Flexural">D, N m2 per m of width (N m).</param>
/// <param name="Shear">S, N per m of width.</param>
/// <param name="NeutralAxis">Depth of the neutral axis below the outside face, m.</param>
/// <param name="Thickness">m.</param>
public sealed record SectionStiffness(double Flexural, double Shear, double NeutralAxis, double Thickness);

/// <summary>Stresses in one layer, Pa.</summary>
/// <param name="Outer">Bending stress at the side nearer the outside face, tension positive. A positive moment puts the outside face in compression.</param>
/// <param name="Inner">At the other side.</param>
/// <param name="Shear">The largest shear stress in the layer.</param>
/// <param name="BondShear">At its inner side, where it is bonded to the next layer.</param>
public sealed record LayerStress(double Outer, double Inner, double Shear, double BondShear);

/// <summary>
/// Exact elastic section of n bonded layers by transformed section: no thin faces and no weak core assumed, so plywood faces and solid parts come out right.
/// Plane sections stay plane in bending; shear by the flow that equilibrium demands (first-order shear deformation).
/// </summary>
public static class LayeredSection
{
    /// <summary>
    /// Neutral axis z0 = sum(E t z)/sum(E t); D = sum(E (t^3/12 + t (z - z0)^2)); S from the energy of the shear flow,
    /// 1/S = (1/D^2) integral of Q^2/G dz with Q(z) = integral of E (z - z0) dz from the face. A homogeneous section gives S = 5/6 G A.
    /// Gere, Mechanics of Materials, composite beams; Allen, Analysis and Design of Structural Sandwich Panels, ch. 2.
    /// </summary>
    public static Result<SectionStiffness> Stiffness(IReadOnlyList<ElasticLayer> layers) => Stiffness(layers, plate: false);

    /// <summary>The same for bending to a cylinder, where a layer cannot contract sideways: E/(1 - nu^2) for E. D of a plate.</summary>
    public static Result<SectionStiffness> PlateStiffness(IReadOnlyList<ElasticLayer> layers) => Stiffness(layers, plate: true);

    /// <summary>Bending stress E (z - z0) M/D and shear stress Q V/D in each layer, for a moment in N m and a shear force in N, both per metre of width.</summary>
    public static Result<ImmutableArray<LayerStress>> Stresses(IReadOnlyList<ElasticLayer> layers, double moment, double shear) =>
        Need.All(Need.Finite(moment, "the bending moment"), Need.Finite(shear, "the shear force")) is { } why
            ? new Missing(why)
            : Stiffness(layers, plate: false).Map(section => Stresses(layers, section, moment, shear));

    private static Result<SectionStiffness> Stiffness(IReadOnlyList<ElasticLayer> layers, bool plate)
    {
        if (Need.All(
            Need.Some(layers.Count, "layer"),
            Need.Each(layers, l => Need.All(
                Need.Positive(l.Thickness, "the thickness of a layer"), Need.Positive(l.Modulus, "the modulus of a layer"), Need.Positive(l.ShearModulus, "the shear modulus of a layer"),
                Need.Between(l.Poisson, 0, 0.999, "Poisson's ratio of a layer")))) is { } why)
        {
            return new Missing(why);
        }

        double Modulus(ElasticLayer l) => plate ? l.Modulus / (1 - l.Poisson * l.Poisson) : l.Modulus;
        var (depth, area, moment) = (0.0, 0.0, 0.0);
        foreach (var layer in layers)
        {
            var stretch = Modulus(layer) * layer.Thickness;
            area += stretch;
            moment += stretch * (depth + layer.Thickness / 2);
            depth += layer.Thickness;
        }

        var axis = moment / area;
        var (top, flexural, flow, energy) = (-axis, 0.0, 0.0, 0.0);
        foreach (var layer in layers)
        {
            var (t, e, middle) = (layer.Thickness, Modulus(layer), top + layer.Thickness / 2);
            flexural += e * t * (t * t / 12 + middle * middle);
            // Q within the layer is a quadratic in s, the depth below its upper side: Q = flow + e (top s + s^2/2). The integral of its square is exact.
            var (a, b, c) = (flow, e * top, e / 2);
            energy += (a * a * t + a * b * t * t + (b * b + 2 * a * c) * t * t * t / 3 + b * c * Math.Pow(t, 4) / 2 + c * c * Math.Pow(t, 5) / 5) / layer.ShearModulus;
            flow += e * t * middle;
            top += t;
        }

        return new SectionStiffness(flexural, flexural * flexural / energy, axis, depth);
    }

    private static ImmutableArray<LayerStress> Stresses(IReadOnlyList<ElasticLayer> layers, SectionStiffness section, double moment, double shear)
    {
        var stresses = ImmutableArray.CreateBuilder<LayerStress>(layers.Count);
        var (top, flow) = (-section.NeutralAxis, 0.0);
        foreach (var layer in layers)
        {
            var (t, e) = (layer.Thickness, layer.Modulus);
            var bottom = top + t;
            var end = flow + e * (bottom * bottom - top * top) / 2;
            var peak = Math.Max(Math.Abs(flow), Math.Abs(end));
            if (top < 0 && bottom > 0)
            {
                peak = Math.Max(peak, Math.Abs(flow - e * top * top / 2));
            }

            var unit = moment / section.Flexural;
            stresses.Add(new(e * top * unit, e * bottom * unit, Math.Abs(shear) * peak / section.Flexural, Math.Abs(shear * end) / section.Flexural));
            (top, flow) = (bottom, end);
        }

        return stresses.MoveToImmutable();
    }
}
