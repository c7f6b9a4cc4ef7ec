namespace Wain.Core.Methods;

/// <summary>A body on the bed of a truck under a stated acceleration in one horizontal direction.</summary>
/// <param name="Mass">kg.</param>
/// <param name="Height">Of its centre above the bed, m.</param>
/// <param name="ToEdge">From its centre to the edge it would tip over, along the direction of the acceleration, m.</param>
/// <param name="Horizontal">Acceleration, in units of standard gravity.</param>
/// <param name="Upward">Upward acceleration at the same time, in units of standard gravity: it lightens the body.</param>
/// <param name="Friction">Coefficient between body and bed; zero to leave friction out, which is on the safe side.</param>
public sealed record TieDownCase(double Mass, double Height, double ToEdge, double Horizontal, double Upward, double Friction);

/// <summary>The tie-downs that resist that direction, all alike.</summary>
/// <param name="Count">How many of them act.</param>
/// <param name="LeverArm">Of the line of each above the tipping edge (perpendicular distance), m.</param>
/// <param name="Along">Component of its unit vector that holds against the acceleration, 0 to 1.</param>
/// <param name="Down">Component of its unit vector that presses the body on the bed, 0 to 1.</param>
public sealed record TieDownSet(int Count, double LeverArm, double Along, double Down);

/// <summary>Force in each tie-down, N, that holds against each way to come loose; zero where none is needed.</summary>
public sealed record TieDownForces(double Tip, double Slide, double Lift)
{
    public double Each => Math.Max(Tip, Math.Max(Slide, Lift));
}

/// <summary>
/// Tipping and tie-down forces, as estimates: the frame of the truck twists, straps stretch and roads jolt, none of which statics knows.
/// </summary>
public static class TieDown
{
    /// <summary>
    /// Accelerations that a securing system must withstand without failing, in units of gravity: forward (braking), rearward, sideways; and downward
    /// force of 0.2 weight where the load is not fully contained. 49 CFR 393.102, for commercial trucks, from memory; a yardstick here, not a duty.
    /// </summary>
    public static (double Forward, double Rearward, double Sideways, double Upward) HighwayAccelerations => (0.8, 0.5, 0.5, 0.2);

    /// <summary>Horizontal acceleration, in units of gravity, at which an untied body begins to tip: b/h (EN 12195-1 tipping condition with no upward acceleration).</summary>
    public static Result<double> TipsAt(double height, double toEdge) =>
        Need.All(Need.Positive(height, "the height of the centre"), Need.NotNegative(toEdge, "the distance to the edge")) is { } why
            ? new Missing(why)
            : toEdge / height;

    /// <summary>
    /// Force in each of the tie-downs. Tip: T = m (a h - (g - v) b)/(n r). Slide: T = m (a - mu (g - v))/(n (along + mu down)).
    /// Lift: T = m (v - g)/(n down). Moments about the tipping edge and equilibrium of forces, as in EN 12195-1.
    /// </summary>
    public static Result<TieDownForces> Forces(TieDownCase body, TieDownSet ties)
    {
        if (Need.All(
            Need.Positive(body.Mass, "the mass"), Need.NotNegative(body.Height, "the height of the centre"), Need.NotNegative(body.ToEdge, "the distance to the edge"),
            Need.NotNegative(body.Horizontal, "the acceleration"), Need.Finite(body.Upward, "the upward acceleration"), Need.NotNegative(body.Friction, "the friction coefficient"),
            Need.Some(ties.Count, "tie-down"), Need.NotNegative(ties.LeverArm, "the lever arm"), Need.Between(ties.Along, 0, 1, "the holding component"),
            Need.Between(ties.Down, 0, 1, "the downward component"), Need.That(ties.Along * ties.Along + ties.Down * ties.Down <= 1 + 1e-9, "the components are those of a unit vector")) is { } why)
        {
            return new Missing(why);
        }

        var (a, down) = (body.Horizontal * Customary.Gravity, (1 - body.Upward) * Customary.Gravity);
        var tip = body.Mass * (a * body.Height - down * body.ToEdge);
        var slide = body.Mass * (a - body.Friction * Math.Max(0, down));
        var lift = -body.Mass * down;
        var (perTip, perSlide, perLift) = (ties.Count * ties.LeverArm, ties.Count * (ties.Along + body.Friction * ties.Down), ties.Count * ties.Down);
        if (Need.All(
            Need.That(tip <= 0 || perTip > 0, "it tips and the tie-downs have no lever arm against that"),
            Need.That(slide <= 0 || perSlide > 0, "it slides and the tie-downs do not hold against that"),
            Need.That(lift <= 0 || perLift > 0, "it lifts and the tie-downs do not hold it down")) is { } loose)
        {
            return new Missing(loose);
        }

        return new TieDownForces(tip > 0 ? tip / perTip : 0, slide > 0 ? slide / perSlide : 0, lift > 0 ? lift / perLift : 0);
    }
}
