using NetTopologySuite.Geometries;
using Wain.Core.Binding;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Parsing;
using Wain.Core.Text;

namespace Wain.Tests.Framing;

/// <summary>Small designs of our own for the tests of frames and pieces. All figures are invented but for the true sizes of lumber (American Softwood Lumber Standard PS 20).</summary>
internal static class Designs
{
    public const double Inch = 25.4;

    public const string Materials = """
        written for wain 1
        sheet ply_6mm {
            thickness 6 mm
            size 48 in by 96 in
            grain along
            density 600 kg/m3
        }
        sheet ply_4mm {
            thickness 4 mm
            size 48 in by 96 in
            grain along
            density 600 kg/m3
        }
        sheet ply_quarter {
            thickness 1/4 in
            size 48 in by 96 in
            grain none
            density 600 kg/m3
        }
        stick strip_1x2 {
            section 3/4 in by 1 1/2 in called "1x2"
            length 96 in
            density 450 kg/m3
        }
        board foam_board {
            thickness 2 in
            size 48 in by 96 in
            density 30 kg/m3
        }
        foam pour_foam {
            density 32 kg/m3
        }
        cloth glass {
            weight 6 oz/yd2
            roll 50 in wide 100 yd long
            overlap 1 in
        }
        screw pocket_fine {
            kind pocket_screw
            gauge 7
            length 1 1/4 in
        }
        adhesive wood_glue {
            density 1100 kg/m3
        }
        resin epoxy {
            density 1100 kg/m3
        }
        stack wall_stack {
            sheet ply_6mm
            core frame of strip_1x2 flat, filled with foam_board
            sheet ply_4mm
        }
        stack thick_stack {
            sheet ply_6mm
            core frame of strip_1x2 on edge, filled with foam_board
            sheet ply_4mm
        }
        stack skin {
            sheet ply_quarter
        }

        """;

    /// <summary>A spec's text as a placed design; fails on any error.</summary>
    public static Structure Place(string text, bool allowErrors = false)
    {
        var parsed = SpecParser.Parse(new SourceText("test.wain", Materials + text));
        var spec = Binder.Bind(parsed.Value, _ => (null, "there are no other files"));
        var structure = Resolver.Resolve(spec);
        var errors = parsed.Findings.Concat(spec.Findings).Where(f => f.Level == Core.Findings.Level.Error).ToList();
        if (!allowErrors) Assert.True(errors.Count == 0, string.Join("\n", errors.Select(f => $"{f.Place} {f.Code} {f.Message}")));
        return structure;
    }

    /// <summary>An upright panel of a size, with the facts given.</summary>
    public static string Panel(string name, string stack, double width, double height, string facts) => $$"""
        panel {{name}} of {{stack}} {
            through (0 in, 0 in, 0 in) along (0 in, -{{width}} in, 0 in) up (0 in, 0 in, {{height}} in)
        {{facts}}
        }

        """;

    /// <summary>The same design with another outline for one panel.</summary>
    public static Structure WithOutline(Structure structure, string panel, Outline outline) =>
        structure with { Panels = [.. structure.Panels.Select(p => p.Name == panel ? p with { Outline = outline } : p)] };

    public static Outline Inches(params (double X, double Y)[] corners) => Outline.Polygon(corners.Select(c => new Vec2(c.X * Inch, c.Y * Inch)));

    /// <summary>For the referee: NetTopologySuite, an independent geometry library. Arcs are flattened.</summary>
    public static Polygon Referee(Outline outline, double sagitta = 0.005)
    {
        var ring = outline.Flattened(sagitta).Corners.Select(c => new Coordinate(c.X, c.Y)).ToList();
        ring.Add(ring[0].Copy());
        return new Polygon(new LinearRing([.. ring]));
    }

    public static PanelFrame OnlyFrame(Structure structure) => Assert.Single(FrameBuilder.Build(structure).All);
}
