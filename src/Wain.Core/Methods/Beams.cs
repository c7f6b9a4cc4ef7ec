namespace Wain.Core.Methods;

/// <summary>How a strip is held and loaded. Loads are totals over the strip unless said.</summary>
public enum BeamCase
{
    /// <summary>Simple supports, load spread evenly over the span.</summary>
    SimpleUniform,

    /// <summary>Simple supports, load at midspan.</summary>
    SimpleCentral,

    /// <summary>Both ends built in, load spread evenly.</summary>
    FixedUniform,

    /// <summary>Both ends built in, load at midspan.</summary>
    FixedCentral,

    /// <summary>One end built in, the other free, load spread evenly; deflection at the free end.</summary>
    CantileverUniform,

    /// <summary>One end built in, load at the free end.</summary>
    CantileverEnd,
}

/// <summary>What a beam does under its load.</summary>
/// <param name="Bending">Deflection from bending, m.</param>
/// <param name="Shearing">Deflection from shear, m.</param>
/// <param name="Moment">Largest bending moment without its sign, N m.</param>
/// <param name="Shear">Largest shear force, N.</param>
public sealed record BeamResponse(double Bending, double Shearing, double Moment, double Shear)
{
    public double Deflection => Bending + Shearing;
}

/// <summary>
/// Beams with bending and shear deformation, for the whole width: D in N m2 and S in N (stiffness per metre times the width). Load in N, span in m.
/// Roark's Formulas for Stress and Strain, Table 8.1, for bending; Zenkert and Allen for shear, w_s = integral of V/S. Where both ends are held alike, shear
/// deformation leaves moments unchanged; that is why no propped beam is here.
/// </summary>
public static class Beams
{
    public static Result<BeamResponse> Respond(BeamCase how, double load, double span, double flexural, double shear)
    {
        if (Ask(load, span, flexural, shear) is { } why)
        {
            return new Missing(why);
        }

        // Bending coefficient of W L^3/D, shear coefficient of W L/S, moment coefficient of W L, shear force coefficient of W.
        var (b, s, m, v) = how switch
        {
            BeamCase.SimpleUniform => (5.0 / 384, 1.0 / 8, 1.0 / 8, 0.5),
            BeamCase.SimpleCentral => (1.0 / 48, 1.0 / 4, 1.0 / 4, 0.5),
            BeamCase.FixedUniform => (1.0 / 384, 1.0 / 8, 1.0 / 12, 0.5),
            BeamCase.FixedCentral => (1.0 / 192, 1.0 / 4, 1.0 / 8, 0.5),
            BeamCase.CantileverUniform => (1.0 / 8, 1.0 / 2, 1.0 / 2, 1.0),
            _ => (1.0 / 3, 1.0, 1.0, 1.0),
        };
        return new BeamResponse(b * load * Math.Pow(span, 3) / flexural, s * load * span / shear, m * load * span, v * load);
    }

    /// <summary>
    /// Simple supports and two equal loads, each half of the total, at a distance a from each end; deflection at midspan:
    /// (P/2) a (3 L^2 - 4 a^2)/(24 D) + P a/(2 S). Third points give 23 P L^3/(1296 D), quarter points 11 P L^3/(768 D) (ASTM D7250).
    /// </summary>
    public static Result<BeamResponse> FourPoint(double load, double span, double fromEnd, double flexural, double shear) =>
        (Ask(load, span, flexural, shear) ?? Need.Between(fromEnd, 0, span / 2, "the distance of the loads from the ends")) is { } why
            ? new Missing(why)
            : new BeamResponse(load / 2 * fromEnd * (3 * span * span - 4 * fromEnd * fromEnd) / (24 * flexural), load * fromEnd / (2 * shear), load * fromEnd / 2, load / 2);

    /// <summary>
    /// Simple supports and the load spread over a length c about midspan (a person's foot, a mattress corner): bending P (8 L^3 - 4 L c^2 + c^3)/(384 D);
    /// moment P (2 L - c)/8, and shear deflection that moment over S. Roark, partial uniform load.
    /// </summary>
    public static Result<BeamResponse> CentralPatch(double load, double span, double length, double flexural, double shear)
    {
        if ((Ask(load, span, flexural, shear) ?? Need.Between(length, 0, span, "the length of the patch")) is { } why)
        {
            return new Missing(why);
        }

        var moment = load * (2 * span - length) / 8;
        return new BeamResponse(load * (8 * Math.Pow(span, 3) - 4 * span * length * length + Math.Pow(length, 3)) / (384 * flexural), moment / shear, moment, load / 2);
    }

    private static string? Ask(double load, double span, double flexural, double shear) => Need.All(
        Need.Finite(load, "the load"), Need.Positive(span, "the span"), Need.Positive(flexural, "the flexural rigidity"), Need.Positive(shear, "the shear rigidity"));
}
