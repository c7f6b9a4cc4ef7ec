using System.Globalization;
using System.Text;

namespace Wain.Benchmarks;

/// <summary>The text of a spec with many panels, each written out in its own block; all figures are invented.</summary>
public static class PlainCamper
{
    private const string Materials = """
        written for wain 1
        camper "Plain" revision "A" { currency USD }
        sheet ply {
            thickness 5 mm
            size 48 in by 96 in, price 31 USD, on 2026-10-01
            density 34 lb/ft3 source "common practice"
        }
        stick strip {
            section 3/4 in by 1 1/2 in
            length 96 in, price 4 USD, on 2026-10-01
            density 28 lb/ft3 source "common practice"
        }
        board foam {
            thickness 3/4 in
            size 48 in by 96 in, price 24 USD, on 2026-10-01
            density 1.6 lb/ft3 source "ASTM C578, type IV minimum"
        }
        adhesive wood_glue { spread 0.05 lb/ft2 source "common practice" }
        unit window {
            kind window
            cut_out 16 in by 9 in, corner 1 in
            wall between 3/4 in and 1 3/4 in
            flange 1 in
            proud 1/2 in
            weight 7 lb
        }
        stack wall {
            sheet ply, glued with wood_glue
            core frame of strip, flat, filled with foam, glued with wood_glue
            sheet ply
        }

        """;

    /// <summary>Walls on a square grid 10 ft apart, no two of one size beside each other; 20 lines each.</summary>
    public static string Of(int panels)
    {
        var text = new StringBuilder(Materials.ReplaceLineEndings("\n"));
        int side = (int)Math.Ceiling(Math.Sqrt(panels));
        for (int i = 0; i < panels; i++)
        {
            int x = i % side * 120, y = i / side * 120, width = 60 + i % 31, height = 30 + i % 13;
            text.Append(CultureInfo.InvariantCulture, $$"""
                panel wall_{{i}} of wall {
                    -- Invented, like every other wall of this text
                    through ({{x}} in, {{y}} in, 0 in) along ({{x + width}} in, {{y}} in, 0 in) up ({{x}} in, {{y}} in, {{height}} in)
                    grain along
                    frame {
                        studs every 16 in, from left
                    }
                    opening left_vent {
                        unit window
                        lower left at ({{4 + i % 3}} in, 8 in), seen from outside
                        framed
                    }
                    opening right_vent {
                        unit window
                        lower left at ({{32 + i % 7}} in, 8 in), seen from outside
                        framed
                    }
                }
                require wall_{{i}}.weight < 60 lb,
                    "two people must be able to carry wall {{i}}"

                """).Append('\n');
        }
        return text.ToString();
    }
}
