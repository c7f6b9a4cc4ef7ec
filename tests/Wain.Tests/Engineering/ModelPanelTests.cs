using Wain.Core.Engineering;
using Wain.Core.Methods;
using Wain.Core.Findings;
using static Wain.Tests.Engineering.ModelSpecs;

namespace Wain.Tests.Engineering;

/// <summary>Strength, warmth and moisture of panels in whole specs.</summary>
public class ModelPanelTests
{
    /// <summary>
    /// A strip of plywood-faced foam, 72 in long under 30 lb/ft2: faces 0.205 in of 1.5 million psi, core 1.5 in of 400 psi in shear. By Allen's formula it sags 0.337 in, half of
    /// it in shear, the faces at 386 psi and the core at 4.40 psi. Figures computed outside the program from the textbook formulas (Allen; Zenkert). The exact section differs by
    /// less than 2 %.
    /// </summary>
    [Fact]
    public void A_foam_strip_follows_the_textbook()
    {
        var run = Of("""
            sheet face {
                thickness 0.205 in
                size 100 in by 120 in
                density 600 kg/m3
                modulus 1.5e6 psi
                modulus_across 1.5e6 psi
                shear_modulus 80e3 psi
                bending_strength 3600 psi
                safety 2.5
            }
            board core {
                thickness 1.5 in
                size 100 in by 120 in
                density 30 kg/m3
                modulus 1000 psi
                shear_modulus 400 psi
            }
            stack sandwich {
                sheet face
                foam core
                sheet face
            }

            """ + Deck("bunk", "sandwich", "80 in", "90 in") + "case sleepers on bunk {\n uniform 30 psf\n method beam\n span 72 in\n deflection at most 1/180 of span\n}\n");
        Assert.Equal(0.337, run.Figure("sleepers.deflection") / Customary.Inch, 0.02 * 0.337);
        Assert.InRange(run.Figure("sleepers.face_stress") / Customary.Psi, 386, 386 * 1.15);
        Assert.Equal(4.40, run.Figure("sleepers.core_shear") / Customary.Psi, 1);
        Assert.Equal(0.4 / 0.337 - 1, run.Engineering().Strength.Single(r => r.Kind == StrengthKind.Deflection).Margin!.Value, 1);
        // The core states no strength: its stress is told, and no margin.
        var shear = run.Engineering().Strength.Single(r => r.Kind == StrengthKind.CoreShear);
        Assert.NotNull(shear.Value);
        Assert.Null(shear.Margin);
        Assert.Contains("core states no shear_strength", shear.Source, StringComparison.Ordinal);
        Assert.Contains(run.Findings, f => f.Code == "WN6304");
    }

    /// <summary>A square plate on simple edges under a pressure sags 0.00406 q a^4/D (Timoshenko, Theory of Plates and Shells, table 8, for Poisson's ratio 0.3; the factor does not depend on it).</summary>
    [Fact]
    public void A_square_plate_follows_Timoshenko()
    {
        // The shear modulus is that of a plate alike in all directions, so that the orthotropic series must give the isotropic table.
        string ply = Ply.Replace("shear_modulus 0.5 GPa", "shear_modulus 3.0769 GPa\n poisson 0.3", StringComparison.Ordinal);
        var run = Of(ply + Deck("deck", "skin", "1 m", "1 m") + "case rain on deck {\n uniform 500 Pa\n method plate\n}\n");
        double d = 8e9 * Math.Pow(0.012, 3) / (12 * (1 - 0.09));
        Assert.Equal(0.00406 * 500 / d, run.Figure("rain.deflection"), 0.01 * 0.00406 * 500 / d);
    }

    [Fact]
    public void What_a_material_does_not_state_is_told_and_nothing_else_is_lost()
    {
        var run = Of(Ply.Replace(" shear_modulus 0.5 GPa\n", "", StringComparison.Ordinal) + Deck("deck", "skin", "1 m", "1 m") + "case rain on deck { uniform 500 Pa }\n");
        var told = Assert.Single(run.Findings, f => f.Code == "WN6001");
        Assert.Contains("shear_modulus", told.Message, StringComparison.Ordinal);
        Assert.Equal("ply", told.Place.Text);
        Assert.NotNull(run.Design!.Figures.FindMissing("rain.deflection"));
        Assert.Equal(7.2, run.Figure("total.weight"), 9);
    }

    private const string Wall = """
        sheet ply {
            thickness 5.2 mm
            size 100 in by 120 in
            density 500 kg/m3
            conductivity 0.13 W/m/K
            vapour 200
        }
        board xps {
            thickness 38.1 mm
            size 100 in by 120 in
            density 30 kg/m3
            conductivity 0.0288 W/m/K
            vapour 150
        }
        stack wall {
            sheet ply
            foam xps
            sheet ply
        }
        plan base {
            start at (0 in, 20 in)
            leg left_side run 40 in
            leg front across 40 in
            leg right_side mirror of left_side
            leg rear home, across 40 in
        }
        panel left_wall of wall {
            stands on base.left_side, from 0 in to 30 in
        }
        night cold {
            outside -10 degC, humidity 80 %
            inside 20 degC, humidity 50 %
            lasts 8 h
        }

        """;

    /// <summary>Plywood 5.2 mm, foam 38.1 mm, plywood 5.2 mm: R 1.5729 m2 K/W, U 0.6358; at -10 degrees outside water gathers between foam and outer plywood. Computed by hand from ISO 6946 and ISO 13788.</summary>
    [Fact]
    public void A_foam_wall_follows_the_hand_calculation()
    {
        var run = Of(Wall);
        Assert.Equal(0.6358, run.Figure("left_wall.u"), 4);
        var report = Assert.Single(Assert.Single(run.Engineering().Warmth.Nights).Walls).Report;
        Assert.Equal("xps to ply", report.PeakPlane);
        var plane = report.Spells[0].Planes.Last(p => p.Name == "xps to ply");
        Assert.Equal(-8.474, plane.Temperature, 2);
        Assert.Equal(296.8, plane.Saturation, 0);
        // Vapour in through foam and inner plywood less vapour out through the outer plywood, for eight hours.
        double into = 2e-10 * (0.5 * 2337.0 - 296.8) / (0.0381 * 150 + 0.0052 * 200), away = 2e-10 * (296.8 - 0.8 * 259.3) / (0.0052 * 200);
        Assert.Equal((into - away) * 8 * 3600, run.Figure("cold.wall.condensate"), 5e-6);
        Assert.Contains(run.Findings, f => f.Code == "WN6403" && f.Message.Contains("xps to ply", StringComparison.Ordinal));
    }

    /// <summary>Dew point of 20 degrees and 50 %: 9.3 degrees (psychrometric tables, common practice).</summary>
    [Fact]
    public void The_dew_point_is_that_of_the_tables() => Assert.Equal(9.3, Assert.Single(Of(Wall).Engineering().Warmth.Nights).DewPoint!.Value, 1);

    [Fact]
    public void Without_a_conductivity_warmth_alone_is_missing()
    {
        var run = Of(Wall.Replace("    conductivity 0.0288 W/m/K\n", "", StringComparison.Ordinal));
        Assert.Contains(run.Findings, f => f.Code == "WN6001" && f.Subject == "xps.conductivity");
        Assert.NotNull(run.Design!.Figures.FindMissing("left_wall.u"));
        Assert.NotNull(run.Design.Figures.FindMissing("cold.heater"));
        Assert.True(run.Figure("total.weight") > 0);
    }

    /// <summary>A room between a floor and a roof: its volume, and the heater by plain arithmetic of ISO 13789 with 1200 J/(m3 K) of air.</summary>
    [Fact]
    public void The_heater_is_the_sum_of_its_parts()
    {
        string room = Wall.Replace("    lasts 8 h", "    lasts 8 h\n    air_change 2 an hour\n    people 2\n    margin 25 %", StringComparison.Ordinal);
        var run = Of(room + Deck("floor", "wall", "1 m", "2 m", top: "0 m") + Deck("roof", "wall", "1 m", "2 m", top: "1048.5 mm"));
        double volume = run.Figure("total.air_volume");
        Assert.Equal(2.0, volume, 3);
        double through = run.Engineering().Warmth.Areas.Sum(a => a.Area * a.U);
        Assert.Equal(Math.Max(0, (through + 1200 * 2 * volume / 3600) * 30 * 1.25 - 140), run.Figure("cold.heater"), 6);
        // The margin warms up; over the eight hours the loss is made good, less what two sleepers give.
        Assert.Equal(Math.Max(0, (through + 1200 * 2 * volume / 3600) * 30 - 140) * 8 * 3600, run.Figure("cold.heat"), 3);
    }

    /// <summary>Every figure of engineering comes from figures that are there, down to a line of the spec or a shipped default.</summary>
    [Fact]
    public void Traces_end_at_the_spec()
    {
        var run = Of(Wall + Deck("floor", "wall", "1 m", "2 m", top: "0 m") + Deck("roof", "wall", "1 m", "2 m", top: "1 m") + "load gear {\n weighs 50 kg\n at (0 m, 0 m, 0 m)\n}\nshop { cup 100 ml }\n"
            + "carrier truck {\n wheelbase 3 m\n front_axle at 2 m\n empty front 1000 kg rear 800 kg weighed 2026-01-01\n track 1.6 m\n tie_down rear at (-1 m, 0 m, 0 m) rated 5 kN\n}\n");
        var book = run.Design!.Figures;
        foreach (var figure in book.All)
            foreach (string input in figure.Inputs) Assert.True(book.Find(input) is not null || book.FindMissing(input) is not null, $"{figure.Name} needs {input}, which is no figure");
    }

    [Fact]
    public void Order_of_blocks_changes_no_table()
    {
        string a = Ply + Deck("a", "skin", "1 m", "1 m") + Deck("b", "skin", "1 m", "2 m", front: "3 m"), b = Ply + Deck("b", "skin", "1 m", "2 m", front: "3 m") + Deck("a", "skin", "1 m", "1 m");
        static string Shown(string text) => string.Join("\n", Of(text).Engineering().Tables.SelectMany(t => t.Rows.Select(r => $"{t.Key} {string.Join(" | ", r.Cells.Select(c => c is Wain.Core.Reporting.Cell.Number n ? n.Value.ToString("R", System.Globalization.CultureInfo.InvariantCulture) : c is Wain.Core.Reporting.Cell.Words w ? w.Value : ""))}")));
        Assert.Equal(Shown(a), Shown(b));
    }
}
