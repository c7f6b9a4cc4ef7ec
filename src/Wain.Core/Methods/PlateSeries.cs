namespace Wain.Core.Methods;

/// <summary>Simply supported orthotropic plates with shear deformation, by Navier's double series.</summary>
public static class PlateSeries
{
    /// <summary>
    /// w = sum W sin(m pi x/a) sin(n pi y/b) with rotations in cosines; each term solves three equations (Reissner-Mindlin plate; Reddy, Mechanics of Laminated Composite
    /// Plates, ch. 7; Timoshenko and Woinowsky-Krieger where shear stiffness is large). The load is expanded exactly as a rectangle, so a patch needs no smearing.
    /// Edges do not move down and do not slide along themselves (hard simple support); corners are held down.
    /// </summary>
    /// <param name="a">Length along x, m.</param>
    /// <param name="b">Length along y, m.</param>
    /// <param name="terms">Of each series. Deflection and moments settle by 30; shear forces beside a small patch need more.</param>
    public static Result<PlateResponse> Respond(PlateStiffness s, double a, double b, PlateLoad load, int terms = 45)
    {
        if ((Plates.Ask(s, a, b, load) ?? Need.Some(terms, "term of the series")) is { } why)
        {
            return new Missing(why);
        }

        var (w, x, y) = (new double[terms, terms], new double[terms, terms], new double[terms, terms]);
        for (var m = 0; m < terms; m++)
        {
            var alpha = (m + 1) * Math.PI / a;
            var alongX = 4 / (a * alpha) * Sine(alpha * load.X) * Sine(alpha * load.Width / 2);
            for (var n = 0; n < terms; n++)
            {
                var beta = (n + 1) * Math.PI / b;
                var q = load.Pressure * alongX * 4 / (b * beta) * Sine(beta * load.Y) * Sine(beta * load.Height / 2);
                if (q == 0)
                {
                    continue;
                }

                // The two rotation equations give X and Y in terms of W; the force equation then gives W.
                var k22 = s.D11 * alpha * alpha + s.D66 * beta * beta + s.S1;
                var k23 = (s.D12 + s.D66) * alpha * beta;
                var k33 = s.D66 * alpha * alpha + s.D22 * beta * beta + s.S2;
                var det = k22 * k33 - k23 * k23;
                var turnX = -(k33 * s.S1 * alpha - k23 * s.S2 * beta) / det;
                var turnY = -(k22 * s.S2 * beta - k23 * s.S1 * alpha) / det;
                var force = s.S1 * alpha * (alpha + turnX) + s.S2 * beta * (beta + turnY);
                w[m, n] = q / force;
                x[m, n] = w[m, n] * turnX;
                y[m, n] = w[m, n] * turnY;
            }
        }

        PlateState At(double px, double py)
        {
            var (deflection, mx, my, mxy, qx, qy) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
            var cosines = new double[terms];
            var sines = new double[terms];
            for (var n = 0; n < terms; n++)
            {
                (sines[n], cosines[n]) = Math.SinCos((n + 1) * Math.PI * py / b);
            }

            for (var m = 0; m < terms; m++)
            {
                var alpha = (m + 1) * Math.PI / a;
                var (sx, cx) = Math.SinCos(alpha * px);
                for (var n = 0; n < terms; n++)
                {
                    if (w[m, n] == 0)
                    {
                        continue;
                    }

                    var beta = (n + 1) * Math.PI / b;
                    deflection += w[m, n] * sx * sines[n];
                    mx -= (s.D11 * alpha * x[m, n] + s.D12 * beta * y[m, n]) * sx * sines[n];
                    my -= (s.D12 * alpha * x[m, n] + s.D22 * beta * y[m, n]) * sx * sines[n];
                    mxy += s.D66 * (beta * x[m, n] + alpha * y[m, n]) * cx * cosines[n];
                    qx += s.S1 * (alpha * w[m, n] + x[m, n]) * cx * sines[n];
                    qy += s.S2 * (beta * w[m, n] + y[m, n]) * sx * cosines[n];
                }
            }

            return new(px, py, deflection, mx, my, mxy, qx, qy);
        }

        return Plates.Look(a, b, load, At);
    }

    /// <summary>The sine, exactly none where rounding alone keeps it from none: a load in the middle then leaves three terms in four out.</summary>
    private static double Sine(double angle)
    {
        var sine = Math.Sin(angle);
        return Math.Abs(sine) < 1e-12 ? 0 : sine;
    }
}
