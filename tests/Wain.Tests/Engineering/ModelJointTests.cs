using Wain.Core.Engineering;
using Wain.Core.Methods;
using static Wain.Tests.Engineering.ModelSpecs;

namespace Wain.Tests.Engineering;

/// <summary>What a load case asks of joints and splices. Each figure is worked by hand beside the test, from the formulas of the source that it names.</summary>
public class ModelJointTests
{
    private const string Shop = """
        sheet ply {
            thickness 12 mm
            size 48 in by 96 in
            density 600 kg/m3
            modulus 8 GPa
            modulus_across 8 GPa
            shear_modulus 0.5 GPa
            bending_strength 30 MPa
            safety 2.5
            specific_gravity 0.50
        }
        stick strip {
            section 3/4 in by 1 1/2 in
            specific_gravity 0.42
            modulus 9 GPa
            shear_modulus 0.5 GPa
        }
        screw deck_screw {
            kind wood_screw
            diameter 0.164 in, root 0.107 in
            length 1 3/4 in
            thread 1 in
        }
        adhesive wood_glue {
            spread 200 g/m2
            shear_strength 6 MPa
            safety 5
        }
        stack board { sheet ply }
        stack framed {
            sheet ply
            core frame of strip flat
            sheet ply
        }
        plan deck_plan {
            start at (0 in, 20 in)
            leg left_side run 60 in
            leg front across 40 in
            leg right_side mirror of left_side
            leg rear home, across 40 in
        }
        panel deck of board { covers plan deck_plan, top at 0 in }
        panel wall of framed { stands on deck_plan.front, from deck.top to 40 in }
        joint wall.bottom to deck.top {
            butt
            screws deck_screw every 8 in, driven from below
            GLUE
        }

        """;

    private static StrengthRow Row(string text, StrengthKind kind, params string[] allowed) => Assert.Single(Of(text, allowed).Engineering().Strength, r => r.Kind == kind);

    private static string Glued => Shop.Replace("GLUE", "glue wood_glue", StringComparison.Ordinal);

    private static string Bare => Shop.Replace("GLUE", "", StringComparison.Ordinal);

    /// <summary>
    /// A board that stands 40 in high (1.016 m) and is held at its foot alone, 1 kPa against it: 1016 N/m and 516.1 N m/m go into the joint. The glue line of 12 mm is sheared by 1016/0.012 and
    /// pulled open by 6 x 516.1/0.012^2 (bending formula); 5 screws over 40 in hold 8 in each, 516.1 x 0.2032/0.006 N about the far side. Two gussets of 6 in by 6 in by 12 mm have
    /// half of 1032.3 N and of 524.4 N m each: the bending formula on their glue lines, as for <see cref="Bonds.Gusset"/>.
    /// </summary>
    [Fact]
    public void The_moment_of_a_cantilever_goes_into_its_joint()
    {
        string text = Glued.Replace("panel wall of framed", "panel wall of board", StringComparison.Ordinal).Replace("glue wood_glue", "glue wood_glue\n    gusset ply 6 in by 6 in, count 2", StringComparison.Ordinal)
            + "case push on wall {\n uniform 1 kPa\n edges cantilever\n span 40 in\n}\n";
        var rows = Of(text, "WN6311").Engineering().Strength;
        double span = 1.016, moment = 1000 * span * span / 2;
        double Value(StrengthKind kind) => Assert.Single(rows, r => r.Kind == kind).Value!.Value;
        Assert.Equal(1000 * span / 0.012, Value(StrengthKind.JointShear), 3);
        Assert.Equal(6 * moment / (0.012 * 0.012), Value(StrengthKind.JointPull), 3);
        Assert.Equal(1000 * span * 0.2032, Value(StrengthKind.ScrewShear), 6);
        Assert.Equal(moment * 0.2032 / 0.006, Value(StrengthKind.ScrewPull), 6);
        double leg = 0.1524, force = 1000 * span * span / 2, turning = moment * span / 2;
        Assert.Equal(Math.Sqrt(Math.Pow(force / (leg * 0.012), 2) + Math.Pow((3 * force * leg + 6 * turning) / (leg * leg * 0.012), 2)), Value(StrengthKind.GussetBond), 3);
        // Its top edge is free and the deck is no part of it.
        Assert.All(rows.Where(r => r.IsJoint), r => Assert.StartsWith("wall.bottom", r.Of, StringComparison.Ordinal));
    }

    [Fact]
    public void A_cantilever_without_a_joint_says_so()
    {
        string text = Shop[..Shop.IndexOf("joint wall.bottom", StringComparison.Ordinal)] + "case push on deck {\n uniform 100 Pa\n edges cantilever\n}\n";
        Assert.Contains("not followed", Assert.Single(Of(text, "WN6311").Engineering().Strength, r => r.Kind == StrengthKind.JointPull).Source, StringComparison.Ordinal);
    }

    /// <summary>
    /// A wall stands on a loaded deck: the load pulls the deck off it. 1 kPa over half of 40 in is 508 N/m; 5 screws over 40 in hold 8 in each. NDS 12.2.2: 2850 x 0.42^2 x 0.164 x 1 in of
    /// thread is 82 lb, which is the NDS's own table value for #8 in G 0.42 (Table 12.2B, from memory).
    /// </summary>
    [Fact]
    public void A_deck_hangs_from_its_wall_by_the_screws()
    {
        var row = Row(Bare + "case people on deck { uniform 1 kPa }\n", StrengthKind.ScrewPull);
        Assert.Equal(1000 * 0.508 * 0.2032, row.Value!.Value, 6);
        Assert.Equal(82, row.Allowable!.Value / Customary.PoundForce, 1.0);
        Assert.Contains("NDS 12.2.2", row.Source, StringComparison.Ordinal);
        Assert.Equal(row.Allowable.Value / row.Value.Value - 1, row.Margin!.Value, 12);
    }

    /// <summary>A loaded wall shears its screws along the deck: NDS 12.3 with the deck as side member, as a call of the method by itself gives it.</summary>
    [Fact]
    public void A_wall_in_the_wind_leans_on_its_screws()
    {
        var row = Row(Bare.Replace("core frame of strip flat", "core frame of strip flat, filled with core", StringComparison.Ordinal) + "board core {\n thickness 3/4 in\n size 48 in by 96 in\n density 30 kg/m3\n modulus 7 MPa\n shear_modulus 3 MPa\n}\ncase blown on wall { uniform 1 kPa }\n", StrengthKind.ScrewShear);
        double passes = 0.012, bite = Math.Min(1.75 * 0.0254 - passes, 1.5 * 0.0254);
        Assert.True(LateralYield.WoodScrew(new WoodScrewSize("#8", 0.164 * 0.0254, 0.107 * 0.0254), 0.42, 0.42, passes, bite).TryGet(out var value));
        Assert.Equal(value.Load, row.Allowable!.Value, 6);
    }

    /// <summary>Nothing is said of a pull on glue that states no strength for it; its shear has the strength over the safety.</summary>
    [Fact]
    public void Glue_is_told_with_and_without_an_allowable()
    {
        var pull = Row(Glued + "case people on deck { uniform 1 kPa }\n", StrengthKind.JointPull);
        Assert.Null(pull.Margin);
        Assert.Contains("no strength for a pull", pull.Source, StringComparison.Ordinal);
        // Wall thickness 12 + 19.05 + 12 mm.
        Assert.Equal(1000 * 0.508 / 0.04305, pull.Value!.Value, 3);
    }

    [Fact]
    public void A_screw_without_what_it_needs_is_told_and_has_no_margin()
    {
        var row = Row(Bare.Replace("    specific_gravity 0.42\n", "", StringComparison.Ordinal) + "case people on deck { uniform 1 kPa }\n", StrengthKind.ScrewPull);
        Assert.Null(row.Allowable);
        Assert.Contains("strip states no specific_gravity", row.Source, StringComparison.Ordinal);
    }

    /// <summary>A load that presses the deck onto a wall under it asks nothing of the joint.</summary>
    [Fact]
    public void What_is_pressed_together_is_left_out()
    {
        string under = Bare.Replace("panel wall of framed { stands on deck_plan.front, from deck.top to 40 in }", "panel wall of framed { stands on deck_plan.front, from -40 in to deck.bottom }", StringComparison.Ordinal)
            .Replace("joint wall.bottom to deck.top", "joint wall.top to deck.bottom", StringComparison.Ordinal).Replace("driven from below", "driven from above", StringComparison.Ordinal);
        Assert.DoesNotContain(Of(under + "case people on deck { uniform 1 kPa }\n").Engineering().Strength, r => r.IsJoint);
    }

    /// <summary>
    /// A deck of one sheet 2.6 m long is spliced; its strip of 1 m span bears M = q L^2/8 and s = 6 M/t^2. A lap of 40 mm passes on s t as a mean s t/40 mm, and half a lap leaves half the sheet.
    /// </summary>
    [Theory]
    [InlineData("lap width 40 mm\n lap depth half", 1.0, 2.0)]
    [InlineData("scarf 8", 8.0 / 65 * 40 / 12, 1.0)]
    public void A_splice_passes_on_what_its_skin_bears(string how, double bondOverLap, double skinOverStress)
    {
        string text = Ply.Replace("size 100 in by 120 in", "size 48 in by 96 in", StringComparison.Ordinal) + "adhesive glue {\n spread 200 g/m2\n shear_strength 6 MPa\n safety 5\n}\n"
            + Deck("deck", "skin", "2.6 m", "1 m").Replace("top at 0 in }", $"top at 0 in\n splice across length {{\n {how}\n glue glue\n }}\n }}", StringComparison.Ordinal)
            + "case people on deck {\n uniform 1 kPa\n span 1 m\n}\n";
        // A strip that spans the shorter way is not stressed along the sheet's length.
        Assert.DoesNotContain(Of(text).Engineering().Strength, r => r.Kind == StrengthKind.SpliceBond);
        var run = Of(text.Replace("span 1 m", "method plate", StringComparison.Ordinal));
        var rows = run.Engineering().Strength;
        var bond = Assert.Single(rows, r => r.Kind == StrengthKind.SpliceBond);
        var left = Assert.Single(rows, r => r.Kind == StrengthKind.SpliceSkin);
        double stress = left.Value!.Value / skinOverStress;
        Assert.True(stress > 0 && stress <= rows.Single(r => r.Kind == StrengthKind.FaceStress).Value);
        Assert.Equal(stress * 12 / 40 * bondOverLap, bond.Value!.Value, 1e-6 * bond.Value.Value);
        Assert.Equal(1.2e6, bond.Allowable!.Value, 1);
        if (how.StartsWith("scarf", StringComparison.Ordinal)) Assert.Equal(0.8 * 12e6, left.Allowable!.Value, 1);
    }

    /// <summary>Independent method: the stresses of a gusset's glue line summed over small pieces must balance the force and its couple.</summary>
    [Theory]
    [InlineData(0.15, 0.15)]
    [InlineData(0.2, 0.1)]
    public void A_gusset_balances_its_force(double leg, double other)
    {
        const double force = 300, thick = 0.009;
        Assert.True(Bonds.Gusset(force, leg, other, thick).TryGet(out double worst));
        double Tip(double l, double arm)
        {
            double shear = force / (l * thick), top = 0, couple = 0;
            // A linear stress with its middle at none, scaled until its couple is that of the force.
            const int n = 2000;
            for (int i = 0; i < n; i++) couple += (i + 0.5 - n / 2.0) / (n / 2.0) * ((i + 0.5) / n - 0.5) * l * (l / n) * thick;
            top = force * arm / 2 / couple;
            return Math.Sqrt(shear * shear + top * top);
        }
        Assert.Equal(Math.Max(Tip(leg, other), Tip(other, leg)), worst, 1e-4 * worst);
    }
}
