namespace Wain.Core.Methods;

/// <summary>A single lap joint.</summary>
/// <param name="Overlap">Along the load, m.</param>
/// <param name="Width">m.</param>
/// <param name="ThicknessA">Of one part, m; likewise B.</param>
/// <param name="ModulusA">Pa.</param>
/// <param name="Glue">Thickness of the glue line, m.</param>
/// <param name="GlueShear">Shear modulus of the glue, Pa.</param>
public sealed record LapJoint(double Overlap, double Width, double ThicknessA, double ModulusA, double ThicknessB, double ModulusB, double Glue, double GlueShear);

/// <summary>Shear stress in a lap, Pa.</summary>
/// <param name="Average">P/(b l).</param>
/// <param name="Peak">At the worse end.</param>
public sealed record LapStress(double Average, double Peak)
{
    public double Concentration => Peak / Average;
}

/// <summary>Stresses on a scarf under a pull along the part, Pa.</summary>
/// <param name="Normal">Across the glue line.</param>
/// <param name="Shear">Along the glue line.</param>
public sealed record ScarfStress(double Normal, double Shear);

/// <summary>Glued laps, scarfs and gussets. Bending of an eccentric lap (peel) is not in these figures and can govern thin parts.</summary>
public static class Bonds
{
    /// <summary>
    /// Volkersen's shear lag: w^2 = (G/h)(1/(Ea ta) + 1/(Eb tb)); with r = (Ea ta - Eb tb)/(Ea ta + Eb tb) the peak is (P w/(2 b)) (coth(w l/2) + |r| tanh(w l/2)),
    /// at the end where the less stiff part ends its overlap. Volkersen 1938; Shigley, Mechanical Engineering Design, ch. 9, for the form.
    /// </summary>
    /// <param name="load">N.</param>
    public static Result<LapStress> Lap(LapJoint j, double load)
    {
        if (Need.All(
            Need.Positive(load, "the load"), Need.Positive(j.Overlap, "the overlap"), Need.Positive(j.Width, "the width of the lap"), Need.Positive(j.ThicknessA, "the thickness of a part"),
            Need.Positive(j.ThicknessB, "the thickness of a part"), Need.Positive(j.ModulusA, "the modulus of a part"), Need.Positive(j.ModulusB, "the modulus of a part"),
            Need.Positive(j.Glue, "the thickness of the glue line"), Need.Positive(j.GlueShear, "the shear modulus of the glue")) is { } why)
        {
            return new Missing(why);
        }

        var (a, b) = (j.ModulusA * j.ThicknessA, j.ModulusB * j.ThicknessB);
        var half = Math.Sqrt(j.GlueShear / j.Glue * (1 / a + 1 / b)) * j.Overlap / 2;
        var average = load / (j.Width * j.Overlap);
        return new LapStress(average, average * half * (1 / Math.Tanh(half) + Math.Abs(a - b) / (a + b) * Math.Tanh(half)));
    }

    /// <summary>A scarf of slope 1 in n under a stress along the part: normal = s sin^2, shear = s sin cos of the angle atan(1/n). Plane stress on an inclined cut, textbook.</summary>
    public static Result<ScarfStress> Scarf(double stress, double slope)
    {
        if (Need.All(Need.Finite(stress, "the stress"), Need.Positive(slope, "the slope of the scarf")) is { } why)
        {
            return new Missing(why);
        }

        var square = 1 / (1 + slope * slope);
        return new ScarfStress(stress * square, stress * slope * square);
    }

    /// <summary>Length of the taper, m: n t. One scarf costs one taper of length from the pair of sheets.</summary>
    public static Result<double> ScarfLength(double thickness, double slope) =>
        Need.All(Need.Positive(thickness, "the thickness"), Need.Positive(slope, "the slope of the scarf")) is { } why ? new Missing(why) : thickness * slope;

    /// <summary>
    /// Tensile strength of a well-made scarf over that of clear wood: slope 1 in 12 90 %, 10 85 %, 8 80 %, 5 65 %. Wood Handbook (FPL-GTR-190) ch. 10, from memory; straight lines between.
    /// None is given for slopes steeper than 1 in 5, and no more than 90 % for flatter than 1 in 12.
    /// </summary>
    public static Result<double> ScarfEfficiency(double slope)
    {
        if (Need.All(Need.Positive(slope, "the slope of the scarf"), Need.That(slope >= 5, "the table gives nothing for a scarf steeper than 1 in 5")) is { } why)
        {
            return new Missing(why);
        }

        return Tables.Interpolate([(5, 0.65), (8, 0.80), (10, 0.85), (12, 0.90)], slope);
    }

    /// <summary>
    /// Largest shear stress, Pa, in a rectangular glued area that carries a moment in its plane and a force: M r/Ip at a corner with Ip = l w (l^2 + w^2)/12, and the direct
    /// stresses added as vectors. The parts are taken as rigid
    /// against the glue. Textbook, as for weld groups.
    /// </summary>
    /// <param name="length">Along x, m.</param>
    /// <param name="width">Along y, m.</param>
    /// <param name="moment">N m.</param>
    /// <param name="alongX">N; likewise y.</param>
    public static Result<double> GluedArea(double length, double width, double moment, double alongX, double alongY)
    {
        if (Need.All(
            Need.Positive(length, "the length of the glued area"), Need.Positive(width, "the width of the glued area"), Need.Finite(moment, "the moment"),
            Need.Finite(alongX, "the force"), Need.Finite(alongY, "the force")) is { } why)
        {
            return new Missing(why);
        }

        var polar = length * width * (length * length + width * width) / 12;
        var area = length * width;
        var worst = 0.0;
        foreach (var (x, y) in new[] { (1, 1), (1, -1), (-1, -1), (-1, 1) })
        {
            var sx = alongX / area - moment * y * width / 2 / polar;
            var sy = alongY / area + moment * x * length / 2 / polar;
            worst = Math.Max(worst, Math.Sqrt(sx * sx + sy * sy));
        }

        return worst;
    }

    /// <summary>
    /// Largest stress, Pa, in the glue line of a triangular gusset that alone passes a force between two panels that meet in a corner: along one leg the force shears the line, at the
    /// middle of the other leg it acts, and the couple pulls on the line as on the section of a beam, with a moment at the corner added to it: s = sqrt((F/(l t))^2 + ((3 F b + 6 M)/(l^2 t))^2).
    /// The worse of the two legs. Statics and the bending formula; the gusset itself is taken as rigid.
    /// </summary>
    /// <param name="force">On one gusset, N.</param>
    /// <param name="leg">m; likewise the other.</param>
    /// <param name="thickness">Of the gusset, and so of its glue line, m.</param>
    /// <param name="moment">That opens the corner, on one gusset, N m.</param>
    public static Result<double> Gusset(double force, double leg, double other, double thickness, double moment = 0)
    {
        if (Need.All(Need.Finite(force, "the force"), Need.Finite(moment, "the moment"), Need.Positive(leg, "the leg of the gusset"), Need.Positive(other, "the other leg of the gusset"), Need.Positive(thickness, "the thickness of the gusset")) is { } why)
        {
            return new Missing(why);
        }

        double Along(double l, double arm) => Math.Sqrt(Math.Pow(force / (l * thickness), 2) + Math.Pow((3 * Math.Abs(force) * arm + 6 * Math.Abs(moment)) / (l * l * thickness), 2));
        return Math.Max(Along(leg, other), Along(other, leg));
    }

    /// <summary>
    /// Force on each fastener of a group, N, for a force through the group's middle and a moment: direct share plus M r/sum(r^2) square to the radius. Elastic fastener group,
    /// Shigley, Mechanical Engineering Design, ch. 8.
    /// </summary>
    /// <param name="fasteners">Places, m, x and y.</param>
    public static Result<IReadOnlyList<double>> FastenerGroup(IReadOnlyList<(double X, double Y)> fasteners, double moment, double alongX, double alongY)
    {
        if (Need.All(
            Need.Some(fasteners.Count, "fastener"), Need.Each(fasteners, f => Need.Finite(f.X + f.Y, "the place of a fastener")), Need.Finite(moment, "the moment"),
            Need.Finite(alongX, "the force"), Need.Finite(alongY, "the force")) is { } why)
        {
            return new Missing(why);
        }

        var (cx, cy) = (fasteners.Average(f => f.X), fasteners.Average(f => f.Y));
        var polar = fasteners.Sum(f => (f.X - cx) * (f.X - cx) + (f.Y - cy) * (f.Y - cy));
        if (moment != 0 && polar <= 0)
        {
            return new Missing("one fastener cannot carry a moment");
        }

        var turn = moment == 0 ? 0 : moment / polar;
        return fasteners.Select(f =>
        {
            var (fx, fy) = (alongX / fasteners.Count - turn * (f.Y - cy), alongY / fasteners.Count + turn * (f.X - cx));
            return Math.Sqrt(fx * fx + fy * fy);
        }).ToArray();
    }
}
