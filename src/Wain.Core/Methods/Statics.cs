namespace Wain.Core.Methods;

/// <summary>A mass, kg, at a point, m. Axes as in ISO 8855: x forward, y left, z up.</summary>
public sealed record MassAt(double Mass, double X, double Y, double Z);

/// <summary>What each axle carries, in the unit of the load that made it (kg or N).</summary>
public sealed record AxleLoads(double Front, double Rear)
{
    public double Total => Front + Rear;
}

/// <summary>What the left and the right wheels of an axle carry, in the unit of the load.</summary>
public sealed record SideLoads(double Left, double Right);

/// <summary>Statics of masses and axles. Lengths in m; loads in kg or N, the same out as in.</summary>
public static class Statics
{
    /// <summary>
    /// The total of the masses at their centre: x = sum(m x)/sum(m), likewise y and z. A negative mass is a hole or a thing taken away;
    /// the total must come out above zero.
    /// </summary>
    public static Result<MassAt> Centre(IReadOnlyCollection<MassAt> masses)
    {
        var total = masses.Sum(m => m.Mass);
        if (Need.All(
            Need.Some(masses.Count, "mass"),
            Need.Each(masses, m => Need.All(Need.Finite(m.Mass, "a mass"), Need.Finite(m.X + m.Y + m.Z, "the place of a mass"))),
            Need.Positive(total, "the total mass")) is { } why)
        {
            return new Missing(why);
        }

        return new MassAt(total, masses.Sum(m => m.Mass * m.X) / total, masses.Sum(m => m.Mass * m.Y) / total, masses.Sum(m => m.Mass * m.Z) / total);
    }

    /// <summary>
    /// Axle reactions of one load: rear = W a/L, front = W - rear, with a the distance of the load behind the front axle and L the wheelbase.
    /// A load behind the rear axle or ahead of the front axle takes weight off the other axle (a negative reaction). Textbook statics.
    /// </summary>
    public static Result<AxleLoads> Axles(double load, double behindFront, double wheelbase)
    {
        if (Need.All(Need.Finite(load, "the load"), Need.Finite(behindFront, "the place of the load"), Need.Positive(wheelbase, "the wheelbase")) is { } why)
        {
            return new Missing(why);
        }

        var rear = load * behindFront / wheelbase;
        return new AxleLoads(load - rear, rear);
    }

    /// <summary>How far behind the front axle the centre of a weighed vehicle lies, m: a = L rear/(front + rear).</summary>
    public static Result<double> BehindFront(AxleLoads axles, double wheelbase) =>
        Need.All(
            Need.NotNegative(axles.Front, "the front axle load"), Need.NotNegative(axles.Rear, "the rear axle load"),
            Need.Positive(axles.Total, "the weighed total"), Need.Positive(wheelbase, "the wheelbase")) is { } why
            ? new Missing(why)
            : wheelbase * axles.Rear / axles.Total;

    /// <summary>
    /// Height of the centre above the axle centres, m, from weighing the front axle level and again with the rear axle raised so that the vehicle is
    /// inclined: h = L (Wf' - Wf)/(W tan(angle)). The gain is small against the weights: a figure from it is no better than the scale.
    /// Textbook vehicle dynamics, from memory.
    /// </summary>
    /// <param name="angle">Inclination of the vehicle, rad.</param>
    public static Result<double> HeightFromTilt(AxleLoads level, double frontInclined, double wheelbase, double angle) =>
        Need.All(
            Need.Positive(level.Total, "the weighed total"), Need.Positive(wheelbase, "the wheelbase"),
            Need.Finite(frontInclined, "the inclined front load"), Need.Positive(angle, "the inclination"),
            Need.That(angle < Math.PI / 2, "the inclination must be below a right angle")) is { } why
            ? new Missing(why)
            : wheelbase * (frontInclined - level.Front) / (level.Total * Math.Tan(angle));

    /// <summary>
    /// Left and right wheels under an axle load whose centre is off to the left by <paramref name="left"/>: left wheel = W (1/2 + y/T) with T the
    /// track. An estimate: the springs decide how front and rear share a load that is off centre.
    /// </summary>
    public static Result<SideLoads> Sides(double load, double left, double track)
    {
        if (Need.All(Need.Finite(load, "the load"), Need.Finite(left, "the place of the load"), Need.Positive(track, "the track")) is { } why)
        {
            return new Missing(why);
        }

        var onLeft = load * (0.5 + left / track);
        return new SideLoads(onLeft, load - onLeft);
    }
}
