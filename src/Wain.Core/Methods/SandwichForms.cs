namespace Wain.Core.Methods;

/// <summary>A symmetric three-layer sandwich.</summary>
/// <param name="Face">Thickness of each face, m.</param>
/// <param name="Core">Thickness of the core, m.</param>
/// <param name="FaceModulus">Pa.</param>
/// <param name="CoreModulus">Pa.</param>
/// <param name="CoreShear">Shear modulus of the core, Pa.</param>
public sealed record ThreeLayers(double Face, double Core, double FaceModulus, double CoreModulus, double CoreShear)
{
    /// <summary>Between the middles of the faces, m.</summary>
    public double Distance => Core + Face;
}

/// <summary>Which published expression a stiffness follows.</summary>
public enum SandwichForm
{
    /// <summary>D = Ef tf d^2/2 and S = Gc d^2/tc: faces thin, core weak (Allen's parallel-axis term alone; ASTM D7250 for S).</summary>
    ThinFace,

    /// <summary>D = Ef tf^3/6 + Ef tf d^2/2 + Ec tc^3/12 and S = Gc d^2/tc (Allen, ch. 2; Zenkert eq. 3.4).</summary>
    Allen,

    /// <summary>D = Ef tf d^2/2 and S = Gc d, as core makers' brochures print it.</summary>
    Brochure,
}

/// <summary>The common textbook and brochure forms for a sandwich, to hold exact sections against. All per metre of width.</summary>
public static class SandwichForms
{
    public static Result<SectionStiffness> Stiffness(ThreeLayers s, SandwichForm form)
    {
        if (Ask(s) is { } why)
        {
            return new Missing(why);
        }

        var d = s.Distance;
        var apart = s.FaceModulus * s.Face * d * d / 2;
        var own = form == SandwichForm.Allen ? s.FaceModulus * Math.Pow(s.Face, 3) / 6 + s.CoreModulus * Math.Pow(s.Core, 3) / 12 : 0;
        var shear = form == SandwichForm.Brochure ? s.CoreShear * d : s.CoreShear * d * d / s.Core;
        return new SectionStiffness(apart + own, shear, s.Core / 2 + s.Face, s.Core + 2 * s.Face);
    }

    /// <summary>Thin-face stress, Pa: M/(tf d), for a moment per metre of width. ASTM C393, Allen.</summary>
    public static Result<double> FaceStress(ThreeLayers s, double moment) => Ask(s) is { } why ? new Missing(why) : moment / (s.Face * s.Distance);

    /// <summary>Core shear stress, Pa: V/d, for a shear force per metre of width. ASTM C393: P/((d + c) b) for a central load P, which is the same.</summary>
    public static Result<double> CoreShear(ThreeLayers s, double shear) => Ask(s) is { } why ? new Missing(why) : shear / s.Distance;

    private static string? Ask(ThreeLayers s) => Need.All(
        Need.Positive(s.Face, "the face thickness"), Need.Positive(s.Core, "the core thickness"), Need.Positive(s.FaceModulus, "the face modulus"),
        Need.NotNegative(s.CoreModulus, "the core modulus"), Need.Positive(s.CoreShear, "the core shear modulus"));
}

/// <summary>
/// Stress at which a face in compression wrinkles. Authors disagree on the coefficient since it stands for waviness of real faces, so each is named; the lowest is for design.
/// </summary>
public static class Wrinkling
{
    /// <summary>Design value for faces as made, after Hoff and Mautner; Zenkert.</summary>
    public const double Design = 0.5;

    /// <summary>Thin core, symmetric mode (as low as published worksheets go is one third).</summary>
    public const double ThinCore = 0.63;

    /// <summary>Thick core, flat faces.</summary>
    public const double ThickCore = 0.76;

    /// <summary>One third, as a published worksheet for honeycomb panels uses it.</summary>
    public const double Worksheet = 1.0 / 3;

    /// <summary>Pa: k (Ef Ec Gc)^(1/3), core moduli through the thickness.</summary>
    public static Result<double> Stress(double faceModulus, double coreModulus, double coreShear, double coefficient = Design) =>
        Need.All(
            Need.Positive(faceModulus, "the face modulus"), Need.Positive(coreModulus, "the core modulus"), Need.Positive(coreShear, "the core shear modulus"),
            Need.Between(coefficient, 0.1, 1, "the wrinkling coefficient")) is { } why
            ? new Missing(why)
            : coefficient * Math.Cbrt(faceModulus * coreModulus * coreShear);

    /// <summary>Antiplane (honeycomb) core, Pa: 0.82 Ef sqrt(Ec tf/(Ef tc)). Honeycomb design manuals, from memory.</summary>
    public static Result<double> AntiplaneCore(ThreeLayers s) =>
        Need.All(Need.Positive(s.Face, "the face thickness"), Need.Positive(s.Core, "the core thickness"), Need.Positive(s.FaceModulus, "the face modulus"), Need.Positive(s.CoreModulus, "the core modulus")) is { } why
            ? new Missing(why)
            : 0.82 * s.FaceModulus * Math.Sqrt(s.CoreModulus * s.Face / (s.FaceModulus * s.Core));
}
