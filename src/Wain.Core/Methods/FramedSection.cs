using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>One rectangle of a section that is not the same across its width: a rib, or the part of a skin that works with it.</summary>
/// <param name="Width">m.</param>
/// <param name="Depth">Along the thickness of the panel, m.</param>
/// <param name="Middle">Depth of its middle below the outside face, m.</param>
/// <param name="Modulus">E along the span, Pa.</param>
public sealed record SectionPart(string Name, double Width, double Depth, double Middle, double Modulus);

/// <summary>A composite section.</summary>
/// <param name="Flexural">EI, N m2.</param>
/// <param name="NeutralAxis">Below the outside face, m.</param>
/// <param name="Axial">EA, N.</param>
public sealed record FramedStiffness(double Flexural, double NeutralAxis, double Axial);

/// <summary>Bending stress at the two sides of one part, tension positive, for a moment that compresses the outside face.</summary>
public sealed record PartStress(string Name, double Outer, double Inner);

/// <summary>Framed panels: ribs with glued skins as one composite beam, by transformed section (Gere, Mechanics of Materials, ch. 6; the stressed-skin method of plywood design).</summary>
public static class FramedSection
{
    /// <summary>EI = sum(E (b d^3/12 + b d (z - z0)^2)) about z0 = sum(E A z)/sum(E A).</summary>
    public static Result<FramedStiffness> Stiffness(IReadOnlyCollection<SectionPart> parts)
    {
        if (Need.All(
            Need.Some(parts.Count, "part of the section"),
            Need.Each(parts, p => Need.All(
                Need.Positive(p.Width, $"the width of {p.Name}"), Need.Positive(p.Depth, $"the depth of {p.Name}"), Need.Finite(p.Middle, $"the place of {p.Name}"),
                Need.Positive(p.Modulus, $"the modulus of {p.Name}")))) is { } why)
        {
            return new Missing(why);
        }

        var axial = parts.Sum(p => p.Modulus * p.Width * p.Depth);
        var axis = parts.Sum(p => p.Modulus * p.Width * p.Depth * p.Middle) / axial;
        return new FramedStiffness(parts.Sum(p => p.Modulus * p.Width * p.Depth * (p.Depth * p.Depth / 12 + (p.Middle - axis) * (p.Middle - axis))), axis, axial);
    }

    /// <summary>Stress E (z - z0) M/EI at both sides of each part, Pa, for a moment in N m.</summary>
    public static Result<ImmutableArray<PartStress>> Stresses(IReadOnlyCollection<SectionPart> parts, double moment) =>
        Need.Finite(moment, "the bending moment") is { } why
            ? new Missing(why)
            : Stiffness(parts).Map(s => parts.Select(p => new PartStress(
                p.Name,
                p.Modulus * (p.Middle - p.Depth / 2 - s.NeutralAxis) * moment / s.Flexural,
                p.Modulus * (p.Middle + p.Depth / 2 - s.NeutralAxis) * moment / s.Flexural)).ToImmutableArray());

    /// <summary>
    /// Shear stress in a glue line, Pa: V sum(E A z)/(EI b) over the parts outside of a stated depth, with b the glued width. Rolling shear in plywood is checked against this.
    /// </summary>
    /// <param name="shear">N.</param>
    /// <param name="depth">Of the glue line below the outside face, m. A part counts if its middle is above it.</param>
    /// <param name="gluedWidth">m.</param>
    public static Result<double> GlueShear(IReadOnlyCollection<SectionPart> parts, double shear, double depth, double gluedWidth) =>
        Need.All(Need.Finite(shear, "the shear force"), Need.Finite(depth, "the depth of the glue line"), Need.Positive(gluedWidth, "the glued width")) is { } why
            ? new Missing(why)
            : Stiffness(parts).Map(s => Math.Abs(shear * parts.Where(p => p.Middle < depth).Sum(p => p.Modulus * p.Width * p.Depth * (p.Middle - s.NeutralAxis)) / (s.Flexural * gluedWidth)));

    /// <summary>
    /// Skin that works with one rib, m: the rib spacing, but at most the rib width plus a stated multiple of the skin thickness to each side, since a thin skin buckles or lags
    /// between ribs. The multiple is a rule of the code followed (about 25 for plywood, common practice).
    /// </summary>
    public static Result<double> EffectiveWidth(double spacing, double ribWidth, double skin, double multiple = 25) =>
        Need.All(
            Need.Positive(spacing, "the rib spacing"), Need.Positive(ribWidth, "the rib width"), Need.That(ribWidth <= spacing, "the rib is wider than the spacing"),
            Need.Positive(skin, "the skin thickness"), Need.NotNegative(multiple, "the multiple of the skin thickness")) is { } why
            ? new Missing(why)
            : Math.Min(spacing, ribWidth + 2 * multiple * skin);
}
