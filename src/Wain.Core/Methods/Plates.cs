namespace Wain.Core.Methods;

/// <summary>One layer of an orthotropic plate, its axes along the edges x and y of the plate. Moduli in Pa, thickness in m.</summary>
/// <param name="Poisson">nu xy: contraction along y for a pull along x.</param>
/// <param name="InPlaneShear">G xy.</param>
/// <param name="ShearX">G xz, through the thickness along x.</param>
/// <param name="ShearY">G yz.</param>
public sealed record PlateLayer(double Thickness, double ModulusX, double ModulusY, double Poisson, double InPlaneShear, double ShearX, double ShearY)
{
    /// <summary>A layer alike in all directions: G = E/(2 (1 + nu)).</summary>
    public static PlateLayer Isotropic(double thickness, double modulus, double poisson)
    {
        var shear = modulus / (2 * (1 + poisson));
        return new(thickness, modulus, modulus, poisson, shear, shear, shear);
    }
}

/// <summary>Stiffness of an orthotropic plate with shear deformation.</summary>
/// <param name="D11">N m; likewise D12, D22 and the twisting stiffness D66 (moment Mxy = D66 times twice the twist).</param>
/// <param name="S1">Shear stiffness along x, N/m; S2 along y.</param>
public sealed record PlateStiffness(double D11, double D12, double D22, double D66, double S1, double S2);

/// <summary>A pressure, Pa, on a rectangle of the plate, m: the whole plate, or a patch with its middle at x, y.</summary>
public sealed record PlateLoad(double Pressure, double X, double Y, double Width, double Height)
{
    public static PlateLoad Whole(double pressure, double a, double b) => new(pressure, a / 2, b / 2, a, b);

    /// <summary>A force, N, spread over a patch.</summary>
    public static PlateLoad Patch(double force, double x, double y, double width, double height) => new(force / (width * height), x, y, width, height);
}

/// <summary>The plate at one point: deflection m, moments N m per m (sagging positive), shear forces N per m.</summary>
public sealed record PlateState(double X, double Y, double Deflection, double Mx, double My, double Mxy, double Qx, double Qy);

/// <summary>The plate at its middle, and the largest of each quantity without its sign on a grid of points over the plate.</summary>
public sealed record PlateResponse(PlateState Centre, PlateState Peak);

/// <summary>Stiffness of layered plates, and the points at which they are looked at.</summary>
public static class Plates
{
    /// <summary>
    /// Laminate stiffness with the plate free to find its neutral plane, D* = D - B A^-1 B (exact for layers alike about the middle, where B is zero; the usual reduced bending
    /// stiffness otherwise); shear stiffness by the energy of the shear flow in each direction (see <see cref="LayeredSection"/>). Jones, Mechanics of Composite Materials.
    /// </summary>
    public static Result<PlateStiffness> Stiffness(IReadOnlyList<PlateLayer> layers)
    {
        if (Need.All(
            Need.Some(layers.Count, "layer"),
            Need.Each(layers, l => Need.All(
                Need.Positive(l.Thickness, "the thickness of a layer"), Need.Positive(l.ModulusX, "the modulus of a layer"), Need.Positive(l.ModulusY, "the modulus of a layer"),
                Need.NotNegative(l.Poisson, "Poisson's ratio of a layer"), Need.That(l.Poisson * l.Poisson * l.ModulusY < l.ModulusX, "Poisson's ratio of a layer is too large for its moduli"),
                Need.Positive(l.InPlaneShear, "the in-plane shear modulus of a layer"), Need.Positive(l.ShearX, "the shear modulus of a layer"), Need.Positive(l.ShearY, "the shear modulus of a layer")))) is { } why)
        {
            return new Missing(why);
        }

        var (a, b, d) = (new double[4], new double[4], new double[4]);
        var top = -layers.Sum(l => l.Thickness) / 2;
        foreach (var layer in layers)
        {
            var q = Reduced(layer);
            var bottom = top + layer.Thickness;
            for (var i = 0; i < 4; i++)
            {
                a[i] += q[i] * (bottom - top);
                b[i] += q[i] * (bottom * bottom - top * top) / 2;
                d[i] += q[i] * (Math.Pow(bottom, 3) - Math.Pow(top, 3)) / 3;
            }

            top = bottom;
        }

        // With A, B, D as symmetric 2 by 2 blocks [11 12; 12 22] and a separate 66 term.
        var det = a[0] * a[2] - a[1] * a[1];
        var (i11, i12, i22) = (a[2] / det, -a[1] / det, a[0] / det);
        var (c11, c12) = (i11 * b[0] + i12 * b[1], i11 * b[1] + i12 * b[2]);
        var (c21, c22) = (i12 * b[0] + i22 * b[1], i12 * b[1] + i22 * b[2]);
        ElasticLayer Strip(double modulus, double shear, PlateLayer l) => new(l.Thickness, modulus, shear);
        var alongX = LayeredSection.Stiffness([.. layers.Select(l => Strip(Reduced(l)[0], l.ShearX, l))]);
        var alongY = LayeredSection.Stiffness([.. layers.Select(l => Strip(Reduced(l)[2], l.ShearY, l))]);
        return alongX.Then(x => alongY.Map(y => new PlateStiffness(
            d[0] - b[0] * c11 - b[1] * c21, d[1] - b[0] * c12 - b[1] * c22, d[2] - b[1] * c12 - b[2] * c22, d[3] - b[3] * b[3] / a[3], x.Shear, y.Shear)));
    }

    /// <summary>Plane-stress stiffnesses Q11, Q12, Q22, Q66.</summary>
    private static double[] Reduced(PlateLayer l)
    {
        var other = l.Poisson * l.ModulusY / l.ModulusX;
        var det = 1 - l.Poisson * other;
        return [l.ModulusX / det, l.Poisson * l.ModulusY / det, l.ModulusY / det, l.InPlaneShear];
    }

    internal const int Grid = 12;

    internal static string? Ask(PlateStiffness s, double a, double b, PlateLoad load) => Need.All(
        Need.Positive(a, "the length of the plate"), Need.Positive(b, "the width of the plate"), Need.Finite(load.Pressure, "the load"),
        Need.Positive(load.Width, "the width of the loaded patch"), Need.Positive(load.Height, "the height of the loaded patch"),
        Need.That(load.X - load.Width / 2 >= -1e-9 * a && load.X + load.Width / 2 <= a * (1 + 1e-9) && load.Y - load.Height / 2 >= -1e-9 * b && load.Y + load.Height / 2 <= b * (1 + 1e-9),
            "the load lies outside the plate"),
        Need.Positive(s.D11, "the stiffness along x"), Need.Positive(s.D22, "the stiffness along y"), Need.Positive(s.D66, "the twisting stiffness"),
        Need.NotNegative(s.D12, "the cross stiffness"), Need.That(s.D12 * s.D12 < s.D11 * s.D22, "the cross stiffness is too large"),
        Need.Positive(s.S1, "the shear stiffness along x"), Need.Positive(s.S2, "the shear stiffness along y"));

    internal static PlateResponse Look(double a, double b, PlateLoad load, Func<double, double, PlateState> at)
    {
        var points =
            from i in Enumerable.Range(0, Grid + 1)
            from j in Enumerable.Range(0, Grid + 1)
            select at(a * i / Grid, b * j / Grid);
        var peak = points.Append(at(load.X, load.Y)).Aggregate(new PlateState(0, 0, 0, 0, 0, 0, 0, 0), (most, p) => new(
            Math.Abs(p.Deflection) > most.Deflection ? p.X : most.X, Math.Abs(p.Deflection) > most.Deflection ? p.Y : most.Y,
            Math.Max(most.Deflection, Math.Abs(p.Deflection)), Math.Max(most.Mx, Math.Abs(p.Mx)), Math.Max(most.My, Math.Abs(p.My)),
            Math.Max(most.Mxy, Math.Abs(p.Mxy)), Math.Max(most.Qx, Math.Abs(p.Qx)), Math.Max(most.Qy, Math.Abs(p.Qy))));
        return new(at(a / 2, b / 2), peak);
    }
}
