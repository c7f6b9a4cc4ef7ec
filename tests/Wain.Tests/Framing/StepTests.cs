using System.Globalization;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Framing;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Text;

namespace Wain.Tests.Framing;

/// <summary>
/// Steps of edges and of joints, as what they take: of panels that lap or sit in each other the parts add to the space that the two fill together, and what a
/// rabbet takes is missing from skins, members and foam and from nothing else.
/// </summary>
public class StepTests
{
    private const double In = 25.4;

    private const string Materials = """
        sheet ply_a { thickness 6 mm
            size 60 in by 120 in
            grain none }
        sheet ply_b { thickness 4 mm
            size 60 in by 120 in
            grain none }
        stick strip { section 3/4 in by 1 1/2 in
            length 120 in }
        board foam { thickness 3/4 in
            size 48 in by 96 in }
        stack framed {
            sheet ply_a
            core frame of strip flat, filled with foam
            sheet ply_b
        }
        stack solid { sheet ply_a }

        """;

    private const double Framed = 6 + 0.75 * In + 4;

    private static string Mm(double mm) => mm.ToString("0.####", CultureInfo.InvariantCulture) + " mm";

    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("example.wain", (Materials + text).ReplaceLineEndings("\n")));

    private static double Volume(Compilation c, string panel) => Pieces(c, panel) + Members(c, panel);

    private static double Pieces(Compilation c, string panel) => c.Design!.Pieces.All.Where(p => p.Panel.Name == panel).Sum(p => p.Volume * p.Count);

    private static double Members(Compilation c, string panel) => c.Design!.Frames.Members.Where(m => m.Panel.Name == panel).Sum(m => m.Volume);

    private static string Deck(string name, string stack, double begin, double end, double width, string facts = "") =>
        $"panel {name} of {stack} {{\n    through ({Mm(begin)}, {Mm(width / 2)}, 0 in) along ({Mm(begin)}, {Mm(-width / 2)}, 0 in) up ({Mm(end)}, {Mm(width / 2)}, 0 in)\n{facts}\n}}\n";

    [Fact]
    public void Lapped_decks_fill_what_they_cover_once()
    {
        var random = new Random(7);
        for (int i = 0; i < 60; i++)
        {
            double width = random.Next(300, 1200), fore = random.Next(400, 1400), aft = random.Next(400, 1400), lap = random.Next(10, 90);
            string stack = i % 2 == 0 ? "solid" : "framed";
            double thick = i % 2 == 0 ? 6 : Framed, first = Math.Round(thick * (0.2 + 0.6 * random.NextDouble()), 2);
            var c = Compile(Deck("fore", stack, 0, fore, width) + Deck("aft", stack, fore - lap, fore + aft, width)
                + $"joint fore.top to aft.bottom {{\n    lap width {Mm(lap)}, depth {(i % 3 == 0 ? "half" : $"{Mm(first)} and {Mm(thick - first)}")}\n}}\n");
            Assert.True(c.Findings.All(f => f.Level < Level.Error), string.Join("\n", c.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message)));
            double sum = Volume(c, "fore") + Volume(c, "aft"), whole = (fore + aft) * width * thick;
            Assert.Equal(whole, sum, whole * 1e-6);
        }
    }

    [Theory]
    [InlineData("solid", 6)]
    [InlineData("framed", Framed)]
    public void A_lap_without_its_steps_would_count_wood_twice(string stack, double thick)
    {
        // The same decks with no joint: what they share is there twice.
        var c = Compile(Deck("fore", stack, 0, 800, 500) + Deck("aft", stack, 750, 1500, 500));
        Assert.Equal(1550 * 500 * thick, Volume(c, "fore") + Volume(c, "aft"), 1);
        Assert.Contains(c.Findings, f => f.Code == "WN4301");
    }

    [Fact]
    public void A_panel_in_a_step_of_another_fills_the_step()
    {
        foreach (var (stack, thick) in new[] { ("framed", Framed) })
            foreach (double depth in new[] { 2.0, 6.0, 9.0, 20.0 })
            {
                var c = Compile(Deck("deck", stack, 0, 900, 600) + $"panel post of solid {{\n    spans from (100 mm, 50 mm) to (700 mm, 50 mm), standing on deck.outside - {Mm(depth)}, up to 500 mm\n}}\njoint post.bottom to deck.outside {{\n    rabbet depth {Mm(depth)}\n}}\n");
                Assert.True(c.Findings.All(f => f.Level < Level.Error), string.Join("\n", c.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message)));
                Assert.Equal(900 * 600 * thick - 600 * 6 * depth, Volume(c, "deck"), 900 * 600 * thick * 1e-6);
                Assert.Equal(600 * 6 * (500 + depth), Volume(c, "post"), 1);
            }
    }

    /// <summary>Two walls on the legs of a plan, lapped or let into each other at their corner: of one thickness or of two, square or not, the parts add to the corner.</summary>
    [Theory]
    [InlineData("solid", "solid", "lap depth half")]
    [InlineData("solid", "solid", "lap depth 2 mm and 4 mm")]
    [InlineData("framed", "framed", "lap depth half")]
    [InlineData("framed", "framed", "lap depth 8 mm and 12 mm")]
    [InlineData("solid", "framed", "lap depth half")]
    [InlineData("framed", "solid", "lap depth 12 mm and 3 mm")]
    [InlineData("framed", "framed", "rabbet depth 10 mm")]
    public void Walls_lapped_at_a_corner_fill_it_once(string through, string stops, string joint)
    {
        const double front = 1000, side = 800, high = 500;
        static double Thick(string stack) => stack == "solid" ? 6 : Framed;
        foreach (bool mirrored in new[] { false, true })
            foreach (bool throughFirst in new[] { true, false })
            {
                string left = "side.left", right = "front.right";
                var c = Compile($$"""
                    plan box {
                        start at (0 mm, 500 mm)
                        leg left run {{Mm(side)}}
                        leg front across {{Mm(front)}}
                        leg right mirror of left
                        leg aft home, across {{Mm(front)}}
                        through front
                    }
                    panel front of {{through}} { stands on box.front, from 0 mm to {{Mm(high)}} }
                    panel side of {{stops}} { stands on box.left, from 0 mm to {{Mm(high)}} }
                    {{(mirrored ? "mirror side as other" : "")}}
                    joint {{(throughFirst ? right : left)}} to {{(throughFirst ? left : right)}} { {{(throughFirst ? joint : Swapped(joint))}} }
                    """);
                Assert.True(c.Findings.All(f => f.Level < Level.Error), string.Join("\n", c.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message)));
                Assert.DoesNotContain(c.Findings, f => f.Code is "WN4201" or "WN4209");
                double whole = front * high * Thick(through) + (mirrored ? 2 : 1) * (side - Thick(through)) * high * Thick(stops);
                Assert.Equal(whole, Volume(c, "front") + Volume(c, "side") + Volume(c, "other"), whole * 1e-6);
                // Each gives up what the other keeps: the side wall is longer than to the other's inside by the depth of the step.
                double into = joint.Contains("half", StringComparison.Ordinal) ? Thick(through) / 2 : double.Parse(joint.Split(' ')[2], CultureInfo.InvariantCulture);
                Assert.Equal(side - Thick(through) + into, c.Structure!.Panel("side")!.Outline.Bounds.Width, 6);
                Assert.True(Volume(c, "front") < front * high * Thick(through) - 1);
            }

        static string Swapped(string joint) => joint.Split(' ') is ["lap", "depth", var a, "mm", "and", var b, "mm"] ? $"lap depth {b} mm and {a} mm" : joint;
    }

    /// <summary>At a corner the wall that stops reaches into the other as far as the step is deep, and is glued at its end and at its side there; a width that says otherwise is told and glues nothing.</summary>
    [Theory]
    [InlineData("lap depth 2 mm", null)]
    [InlineData("lap width 2 mm, depth 2 mm", null)]
    [InlineData("lap width 1 in, depth 2 mm", "2 mm")]
    public void A_lap_at_a_corner_is_as_wide_as_its_step_is_deep(string joint, string? mended)
    {
        var c = Compile($$"""
            adhesive glue { spread 200 g/m2 }
            plan box {
                start at (0 mm, 500 mm)
                leg left run 800 mm
                leg front across 1000 mm
                leg right mirror of left
                leg aft home
                through front
            }
            panel front of solid { stands on box.front, from 0 mm to 500 mm }
            panel side of solid { stands on box.left, from 0 mm to 500 mm }
            joint side.left to front.right {
                {{joint}}
                glue glue
            }
            """);
        var told = c.Findings.Where(f => f.Code == "WN4209").ToList();
        Assert.Equal(mended is null ? 0 : 1, told.Count);
        if (mended is not null) Assert.Equal(2, Core.Units.Quantity.FromMillimetres(0).Value + 25.4 * double.Parse(told[0].Fixes.Single().Text.Split(' ')[0], CultureInfo.InvariantCulture), 0.02);
        Assert.Equal(500 * (6 + 2) / 1e6, c.Design!.Figures.Find("side.left_to_front.right.glue.area")!.Value.Value, 1e-9);
    }

    [Theory]
    // Within the skin, through the skin and part of the frame, through skin and frame, from inside; narrower and wider than the stick.
    [InlineData("outside", 20, 4)]
    [InlineData("outside", 20, 12)]
    [InlineData("outside", 20, 25.5)]
    [InlineData("outside", 60, 12)]
    [InlineData("outside", 60, 25.05)]
    [InlineData("inside", 20, 3)]
    [InlineData("inside", 20, 12)]
    [InlineData("inside", 60, 25)]
    public void What_a_rabbet_takes_is_missing_and_nothing_else(string face, double width, double depth)
    {
        foreach (string part in new[] { "", ", over 150 mm to 420 mm" })
            foreach (string edge in new[] { "top", "left", "bottom" })
            {
                double length = part.Length > 0 ? 270 : edge == "left" ? 700 : 900;
                var c = Compile(Wall($"    rabbet {edge} {Mm(width)} by {Mm(depth)} from {face}{part}\n    frame {{\n        studs every 300 mm on centre\n    }}"));
                Assert.True(c.Findings.All(f => f.Level < Level.Error), string.Join("\n", c.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message)));
                double whole = 900 * 700 * Framed - length * width * Math.Min(depth, Framed);
                Assert.Equal(whole, Volume(c, "wall"), whole * 1e-6);
            }
    }

    /// <summary>By hand: a band of width w inside of an arc of radius R over an angle a has the area a (R2 - (R - w)2) / 2.</summary>
    [Theory]
    [InlineData("outside", 20, 4)]
    [InlineData("outside", 20, 12)]
    [InlineData("outside", 60, 25.05)]
    [InlineData("inside", 20, 12)]
    public void A_rabbet_along_a_bow_follows_it(string face, double width, double depth)
    {
        const double half = 450, rise = 120, radius = (half * half + rise * rise) / (2 * rise);
        double angle = 2 * Math.Asin(half / radius);
        var c = Compile(Bowed(rise, $"    rabbet back {Mm(width)} by {Mm(depth)} from {face}\n    frame {{\n        studs every 300 mm on centre\n    }}"));
        Assert.True(c.Findings.All(f => f.Level < Level.Error), string.Join("\n", c.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message)));
        // Where the bow ends it meets the side of the deck at an angle, so that the band has one end in the panel's corner: its ends are cut by the sides.
        double whole = c.Structure!.Panel("wall")!.Outline.Area() * Framed, plain = Volume(Compile(Bowed(rise, "    frame {\n        studs every 300 mm on centre\n    }")), "wall");
        double band = angle * (radius * radius - (radius - width) * (radius - width)) / 2, tips = Tips(radius, radius - width, half);
        Assert.Equal(whole, plain, whole * 1e-6);
        Assert.Equal((band + tips) * depth, plain - Volume(c, "wall"), whole * 2e-6);
    }

    // What lies between the ends of the arc's radii and the upright sides, over a band between two radii: by thin slices along each radius.
    private static double Tips(double outer, double inner, double half)
    {
        double sum = 0, slice = (outer - inner) / 100_000, whole = Math.Asin(half / outer);
        for (int i = 0; i < 100_000; i++)
        {
            double r = inner + slice * (i + 0.5);
            sum += 2 * (Math.Asin(half / r) - whole) * r * slice;
        }
        return sum;
    }

    private static string Bowed(double rise, string facts) => $$"""
        plan bowed {
            start at (0 mm, 450 mm)
            leg side to (600 mm, 450 mm)
            leg back to (600 mm, -450 mm), bowed outward by {{Mm(rise)}}
            leg other to (0 mm, -450 mm)
            leg front home
        }
        panel wall of framed {
            covers plan bowed, underside at 0 in
        {{facts}}
        }
        """;

    /// <summary>By hand: a round corner leaves r2 (1 - pi / 4) of a square one, in the frame as in the skin; a hole without members has round corners in stick and foam too.</summary>
    [Theory]
    [InlineData("lower left at (200 mm, 200 mm)\n recessed 12 mm, margin 60 mm, corner 50 mm", 12)]
    [InlineData("lower left at (200 mm, 200 mm)\n recessed 20 mm, margin 60 mm, corner 50 mm", 20)]
    [InlineData("lower left at (200 mm, 200 mm)\n recessed 25.05 mm, margin 60 mm, corner 50 mm", 25.05)]
    [InlineData("lower left at (200 mm, 200 mm)\n recessed 12 mm, margin 60 mm, corner 50 mm, from inside\n unframed", 12)]
    [InlineData("lower left at (200 mm, 200 mm)\n unframed", 0)]
    public void A_recess_with_round_corners_takes_no_more_than_it_is(string place, double deep)
    {
        var c = Compile(Wall($"    frame {{\n        studs every 300 mm on centre\n    }}\n    opening vent {{\n        size 300 mm by 200 mm, corner 30 mm\n        {place}\n    }}"));
        Assert.True(c.Findings.All(f => f.Level < Level.Error), string.Join("\n", c.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message)));
        double hole = 300 * 200 - 900 * (4 - Math.PI), recess = deep == 0 ? 0 : 420 * 320 - 2500 * (4 - Math.PI);
        double whole = 900 * 700 * Framed - hole * Framed - Math.Max(0, recess - hole) * deep;
        // Arcs are cut as chords within a hundredth of a millimetre.
        Assert.Equal(whole, Volume(c, "wall"), 900 * 700 * Framed * 3e-6);
    }

    /// <summary>By hand: pieces that lap hold what one sheet would, and where the lap runs under a recessed opening no more: of the hole nothing is there to be routed twice.</summary>
    [Fact]
    public void A_recessed_opening_across_a_lap_is_cut_once()
    {
        var c = Compile("""
            sheet small { thickness 4 mm
                size 600 mm by 1200 mm
                grain none }
            stack lapped { sheet small }
            panel wall of lapped {
                through (0 in, 0 in, 0 in) along (0 in, -1500 mm, 0 in) up (0 in, 0 in, 600 mm)
                splice across length {
                    lap width 30 mm
                    lap depth half
                }
                opening vent {
                    size 700 mm by 200 mm
                    lower left at (400 mm, 200 mm)
                    recessed 3 mm, margin 40 mm
                    unframed
                }
            }
            """);
        Assert.True(c.Design!.Pieces.All.Length > 1);
        Assert.Equal((1500 * 600 - 700 * 200) * 4 - (780 * 280 - 700 * 200) * 3, Pieces(c, "wall"), 1);
    }

    /// <summary>By hand: an upside-down T of which the left shoulder is rabbeted loses its band there, and nothing of the foot that lies below the shoulder's line.</summary>
    [Fact]
    public void A_rabbet_on_a_shoulder_leaves_the_rest_of_the_panel()
    {
        var c = Compile("""
            plan shape {
                start at (0 mm, 0 mm)
                leg foot to (600 mm, 0 mm)
                leg right to (600 mm, 200 mm)
                leg shoulder to (400 mm, 200 mm)
                leg neck to (400 mm, 500 mm)
                leg head to (200 mm, 500 mm)
                leg neck_left to (200 mm, 200 mm)
                leg shoulder_left to (0 mm, 200 mm)
                leg left home
            }
            panel wall of solid {
                through (0 in, 0 in, 0 in) along (0 in, -900 mm, 0 in) up (0 in, 0 in, 700 mm), shape shape
                rabbet shoulder 20 mm by 3 mm
            }
            """);
        Assert.True(c.Findings.All(f => f.Level < Level.Error), string.Join("\n", c.Findings.Where(f => f.Level == Level.Error).Select(f => f.Message)));
        Assert.Equal((600 * 200 + 200 * 300) * 6 - 200 * 20 * 3, Volume(c, "wall"), 1);
    }

    [Fact]
    public void A_member_under_a_rabbet_says_how_it_is_cut()
    {
        var c = Compile(Wall("    rabbet top 20 mm by 12 mm\n    rabbet right 60 mm by 25.05 mm, over 100 mm to 300 mm"));
        var rail = c.Design!.Frames.Members.Single(m => m.Key == "rail_top");
        var lap = Assert.Single(rail.Laps, l => l.What == "rabbet" && l.FromOutside && l.Depth < rail.Depth - 0.01);
        // 12 mm less the skin of 6 mm.
        Assert.Equal(6, lap.Depth, 6);
        Assert.Contains(rail.Cuts(Mm), t => t == "lapped 6 mm from outside for rabbet");
        // Wider than the stick and through it: the stile ends above and below.
        var stiles = c.Design.Frames.Members.Where(m => m.Key.StartsWith("stile_right", StringComparison.Ordinal)).OrderBy(m => m.Outline.Bounds.Min.Y).ToList();
        Assert.Equal(2, stiles.Count);
        Assert.Equal(100, stiles[0].Outline.Bounds.Max.Y, 6);
        Assert.Equal(300, stiles[1].Outline.Bounds.Min.Y, 6);
    }

    [Fact]
    public void A_partial_rabbet_of_a_mirrored_panel_lies_at_the_other_end()
    {
        var c = Compile("panel left_side of framed {\n    through (0 in, 700 mm, 0 in) along (-900 mm, 700 mm, 0 in) up (0 in, 700 mm, 700 mm)\n    rabbet top 20 mm by 12 mm, over 0 mm to 200 mm\n}\nmirror left_side as right_side\n");
        double[] Middles(string panel) => [.. c.Design!.Frames.Members.Where(m => m.Panel.Name == panel).SelectMany(m => m.Laps).Select(l => m_World(c, panel, l))];
        static double m_World(Compilation c, string panel, MemberLap lap) => c.Structure!.Panel(panel)!.Face.ToWorld(lap.Region.Bounds.Centre).X;
        Assert.Equal(Middles("left_side").Order(), Middles("right_side").Order(), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.NotEmpty(Middles("left_side"));
    }

    [Theory]
    [InlineData("43 in", "2 in", "half", null, null)]
    [InlineData("45 in", "2 in", "half", "WN4209", Level.Error)]
    [InlineData("46 in", "2 in", "half", "WN4209", Level.Error)]
    [InlineData("43 1/32 in", "2 in", "half", "WN4209", Level.Warning)]
    [InlineData("43 in", "2 in", "6 mm and 5 mm", "WN4201", Level.Warning)]
    [InlineData("43 in", "2 in", "6 mm and 4 mm", "WN4201", Level.Error)]
    [InlineData("43 in", "2 in", "5 mm and 7 mm", "WN4202", Level.Warning)]
    [InlineData("44 1/2 in", "1/2 in", "half", "WN4202", Level.Warning)]
    public void Laps_of_panels_are_held_to_depth_width_and_closure(string begins, string width, string depth, string? code, Level? level)
    {
        var findings = Compiler.Compile(new SourceText("example.wain", Wain.Core.Checks.LapsClose.With(begins, width, depth).ReplaceLineEndings("\n"))).Findings.Where(f => f.Code is "WN4201" or "WN4202" or "WN4209" or "WN4210" or "WN4301").ToList();
        string told = string.Join("\n", findings.Select(f => $"{f.Code} {f.Message}"));
        if (code is null) Assert.True(findings.Count == 0, told);
        else Assert.True(findings.Exists(f => f.Code == code && f.Level == level), told);
    }

    private static string Wall(string facts) => $"panel wall of framed {{\n    through (0 in, 0 in, 0 in) along (0 in, -900 mm, 0 in) up (0 in, 0 in, 700 mm)\n{facts}\n}}\n";
}
