using CsCheck;
using Wain.Core.Methods;

namespace Wain.Tests.Engineering;

public class PanelTests
{
    private static PlateResponse Get(Result<PlateResponse> r) => r.TryGet(out var p) ? p : throw new Xunit.Sdk.XunitException(r.Reason!);

    /// <summary>
    /// Independent method: finite differences. For a simply supported plate alike in both directions the deflection is that of two membranes, D lap(M) = -q and lap(w_b) = -M/D,
    /// with w_s = M/S on top (M the moment sum); five-point differences on a fine grid.
    /// </summary>
    [Theory]
    [InlineData(1.0, 1.0, 8.0)]
    [InlineData(2.0, 1.0, 30.0)]
    [InlineData(1.5, 1.0, 1e6)]
    public void SeriesAgreesWithFiniteDifferences(double a, double b, double shear)
    {
        var series = Get(PlateSeries.Respond(CheckValues.Isotropic(shear), a, b, PlateLoad.Whole(1, a, b)));
        const int Cells = 48;
        var moment = Membrane(a, b, Cells, (_, _) => 1);
        var bending = Membrane(a, b, Cells, (i, j) => moment[i, j]);
        var centre = bending[Cells / 2, Cells / 2] + moment[Cells / 2, Cells / 2] / shear;
        Assert.Equal(centre, series.Centre.Deflection, 0.002 * centre);
    }

    private static double[,] Membrane(double a, double b, int cells, Func<int, int, double> load)
    {
        var (hx, hy) = (a / cells, b / cells);
        var (cx, cy) = (1 / (hx * hx), 1 / (hy * hy));
        var u = new double[cells + 1, cells + 1];
        for (var sweep = 0; sweep < 700; sweep++)
        {
            for (var i = 1; i < cells; i++)
            {
                for (var j = 1; j < cells; j++)
                {
                    var next = (load(i, j) + cx * (u[i - 1, j] + u[i + 1, j]) + cy * (u[i, j - 1] + u[i, j + 1])) / (2 * (cx + cy));
                    u[i, j] += 1.87 * (next - u[i, j]);
                }
            }
        }

        return u;
    }

    /// <summary>Independent method: a wide plate on two opposite edges is a beam. Free edges of the Ritz plate let the strip contract, so nu is zero here.</summary>
    [Fact]
    public void PlateOnTwoEdgesIsABeam()
    {
        var plate = new PlateStiffness(500, 0, 500, 250, 20e3, 20e3);
        foreach (var (hold, how) in new[] { (EdgeHold.Simple, BeamCase.SimpleUniform), (EdgeHold.Clamped, BeamCase.FixedUniform) })
        {
            var ritz = Get(PlateRitz.Respond(plate, 1.8, 0.7, new(hold, hold, EdgeHold.Free, EdgeHold.Free), PlateLoad.Whole(1000, 1.8, 0.7)));
            var beam = Beams.Respond(how, 1000 * 1.8 * 0.7, 1.8, 500 * 0.7, 20e3 * 0.7).TryGet(out var r) ? r : null!;
            Assert.Equal(beam.Deflection, ritz.Centre.Deflection, 1e-6 * beam.Deflection);
            Assert.Equal(beam.Moment / 0.7, ritz.Peak.Mx, 1e-4 * beam.Moment);
        }

        var cantilever = Get(PlateRitz.Respond(plate, 1.8, 0.7, new(EdgeHold.Clamped, EdgeHold.Free, EdgeHold.Free, EdgeHold.Free), PlateLoad.Whole(1000, 1.8, 0.7)));
        Assert.Equal(Beams.Respond(BeamCase.CantileverUniform, 1000 * 1.8, 1.8, 500, 20e3).TryGet(out var c) ? c.Deflection : 0, cantilever.Peak.Deflection, 1e-6);
    }

    /// <summary>Mindlin plate benchmark of the finite-element literature, h/a 0.2, clamped, from memory.</summary>
    [Fact]
    public void RitzSettlesWithTheDegree()
    {
        var deflections = new[] { 5, 7, 9, 11 }.Select(n => Get(PlateRitz.Respond(CheckValues.Thick(0.2), 1, 1, PlateEdges.All(EdgeHold.Clamped), PlateLoad.Whole(1, 1, 1), n)).Centre.Deflection).ToArray();
        Assert.All(deflections[1..], d => Assert.Equal(deflections[^1], d, 1e-3 * d));
        Assert.Equal(deflections[^1], deflections[^2], 1e-5 * deflections[^1]);
        Assert.Equal(0.00217, deflections[^1], 1e-5);
    }

    /// <summary>Exact section against the thin-face forms: they meet as faces get thin, and plywood faces are where they part.</summary>
    [Fact]
    public void ExactSectionMeetsThinFaceFormsInTheLimit() => Gen.Double[1e-5, 0.006].Sample(face =>
    {
        var three = new ThreeLayers(face, 0.04, 9e9, 5e6, 3e6);
        var exact = LayeredSection.Stiffness([new(face, 9e9, 600e6), new(0.04, 5e6, 3e6), new(face, 9e9, 600e6)]).TryGet(out var e) ? e : null!;
        var allen = SandwichForms.Stiffness(three, SandwichForm.Allen).TryGet(out var x) ? x : null!;
        var thin = SandwichForms.Stiffness(three, SandwichForm.ThinFace).TryGet(out var t) ? t : null!;
        Assert.Equal(allen.Flexural, exact.Flexural, 1e-9 * exact.Flexural);
        Assert.InRange(exact.Flexural / thin.Flexural - 1, 0, Math.Pow(face / three.Distance, 2) / 3 + 0.05 * 1e-4 / face);
        Assert.Equal(1, exact.Shear / allen.Shear, 0.02);
    });

    /// <summary>Independent method: the section cut into thin slices, stresses summed.</summary>
    [Fact]
    public void StressesBalanceMomentAndShear()
    {
        ElasticLayer[] layers = [new(0.006, 8e9, 600e6), new(0.03, 20e6, 8e6), new(0.012, 10e9, 700e6), new(0.002, 25e9, 3e9)];
        var stresses = LayeredSection.Stresses(layers, 120, 900).TryGet(out var s) ? s : [];
        var (depth, force, moment) = (0.0, 0.0, 0.0);
        foreach (var (layer, stress) in layers.Zip(stresses))
        {
            force += layer.Thickness * (stress.Outer + stress.Inner) / 2;
            moment += layer.Thickness * (stress.Outer * (depth / 2 + layer.Thickness / 6) + stress.Inner * (depth / 2 + layer.Thickness / 3));
            depth += layer.Thickness;
        }

        Assert.Equal(0, force, 1e-6);
        Assert.Equal(120, moment, 1e-6);
        Assert.Equal(0, stresses[^1].BondShear, 1e-6);
        Assert.True(stresses[0].Outer < 0 && stresses[^1].Inner > 0);
    }

    [Fact]
    public void ImpossiblePanelsGiveReasons()
    {
        Assert.Contains("span", Beams.Respond(BeamCase.SimpleUniform, 100, 0, 1, 1).Reason);
        Assert.Contains("modulus", LayeredSection.Stiffness([new(0.01, -1, 1)]).Reason);
        Assert.Contains("layer", LayeredSection.Stiffness([]).Reason);
        Assert.Contains("outside", PlateSeries.Respond(CheckValues.Isotropic(1), 1, 1, PlateLoad.Patch(1, 1, 1, 0.2, 0.2)).Reason);
        Assert.Contains("loose", PlateRitz.Respond(CheckValues.Isotropic(1), 1, 1, new(EdgeHold.Simple, EdgeHold.Free, EdgeHold.Free, EdgeHold.Free), PlateLoad.Whole(1, 1, 1)).Reason);
        Assert.Contains("not a number", SandwichForms.FaceStress(new(double.NaN, 0.03, 1, 1, 1), 1).Reason);
    }
}
