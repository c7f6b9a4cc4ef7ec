using System.Collections.Immutable;

namespace Wain.Core.Methods;

/// <summary>A body on the bed of a truck under a stated acceleration in one horizontal direction.</summary>
/// <param name="Mass">kg.</param>
/// <param name="Height">Of its centre above the bed, m.</param>
/// <param name="ToEdge">From its centre to the edge it would tip over, along the direction of the acceleration, m.</param>
/// <param name="Horizontal">Acceleration, in units of standard gravity.</param>
/// <param name="Upward">Upward acceleration at the same time, in units of standard gravity: it lightens the body, above 1 it lifts it.</param>
public sealed record TieDownCase(double Mass, double Height, double ToEdge, double Horizontal, double Upward);

/// <summary>A strap as one direction sees it. What would slacken it rather than stretch it has a value of zero or less, and holds nothing.</summary>
/// <param name="Arm">Of its line about the edge that the body would tip over (perpendicular distance), m; positive where tipping stretches it.</param>
/// <param name="Along">Component of its unit vector that holds against the acceleration.</param>
/// <param name="Down">Component of its unit vector that presses the body on the bed.</param>
public sealed record Strap(double Arm, double Along, double Down);

/// <summary>Force in each strap (N, in the order given) that holds against each way to come loose; zero where none is needed. Null where no strap holds against what is needed.</summary>
public sealed record TieDownForces(ImmutableArray<double>? Tip, ImmutableArray<double>? Slide, ImmutableArray<double>? Lift)
{
    /// <summary>What one strap must bear: it tips, slides or lifts, and the force of a strap works against all three at once.</summary>
    public double Of(int strap) => Math.Max(Tip?[strap] ?? 0, Math.Max(Slide?[strap] ?? 0, Lift?[strap] ?? 0));
}

/// <summary>
/// Tipping and tie-down forces, as estimates: the frame of the truck twists, straps stretch and roads jolt, none of which statics knows. Friction is left out, on the safe side.
/// </summary>
public static class TieDown
{
    /// <summary>
    /// Accelerations, in units of gravity, applied one at a time: 0.8 forward (braking), 0.5 rearward, 0.5 sideways, at which 49 CFR 393.102(a)(1) has the straps of commercial trucks not
    /// break; and a downward hold of a fifth of the weight where the body's structure does not contain the cargo, 393.102(b). A yardstick here, not a duty.
    /// </summary>
    public static (double Forward, double Rearward, double Sideways, double Upward) HighwayAccelerations => (0.8, 0.5, 0.5, 0.2);

    /// <summary>Horizontal acceleration, in units of gravity, at which an untied body begins to tip: b/h (EN 12195-1 tipping condition with no upward acceleration).</summary>
    public static Result<double> TipsAt(double height, double toEdge) =>
        Need.All(Need.Positive(height, "the height of the centre"), Need.NotNegative(toEdge, "the distance to the edge")) is { } why
            ? new Missing(why)
            : toEdge / height;

    /// <summary>
    /// Force in each strap for each way to come loose: moments about the edge, M = m (a h - (g - v) b), and equilibrium along the acceleration, m a, and upward, m (v - g). A stiff body on
    /// straps that stretch alike shares a load in proportion to how far each is stretched: T(i) = M r(i)/sum r^2, likewise by the components along and down.
    /// </summary>
    public static Result<TieDownForces> Forces(TieDownCase body, IReadOnlyList<Strap> straps)
    {
        if (Need.All(
            Need.Positive(body.Mass, "the mass"), Need.NotNegative(body.Height, "the height of the centre"), Need.Finite(body.ToEdge, "the distance to the edge"),
            Need.NotNegative(body.Horizontal, "the acceleration"), Need.NotNegative(body.Upward, "the upward acceleration"),
            Need.Each(straps, s => Need.All(Need.Finite(s.Arm, "the lever arm"), Need.Between(s.Along, -1, 1, "the holding component"), Need.Between(s.Down, -1, 1, "the downward component"),
                Need.That(s.Along * s.Along + s.Down * s.Down <= 1 + 1e-9, "the components are those of a unit vector")))) is { } why)
        {
            return new Missing(why);
        }

        var (a, down) = (body.Horizontal * Customary.Gravity, (1 - body.Upward) * Customary.Gravity);
        return new TieDownForces(
            Share(body.Mass * (a * body.Height - down * body.ToEdge), straps, s => s.Arm),
            Share(body.Mass * a, straps, s => s.Along),
            Share(-body.Mass * down, straps, s => s.Down));
    }

    private static ImmutableArray<double>? Share(double load, IReadOnlyList<Strap> straps, Func<Strap, double> stretch)
    {
        double sum = straps.Sum(s => Math.Max(0, stretch(s)) * Math.Max(0, stretch(s)));
        if (load <= 0) return [.. straps.Select(_ => 0.0)];
        return sum < 1e-12 ? null : [.. straps.Select(s => load * Math.Max(0, stretch(s)) / sum)];
    }
}
