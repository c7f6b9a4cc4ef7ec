namespace Wain.Core.Engineering;

/// <summary>Small scenarios that the examples of engineering's findings are put together from: a deck, a truck, a night, a lift, a pour, an order of work. All figures are invented.</summary>
internal static class ExampleSpecs
{
    private const string Ply = """
        sheet ply {
            thickness 12 mm
            size 60 in by 96 in, price 40 USD, on 2026-01-01
            density 600 kg/m3
            modulus 8 GPa
            modulus_across 4 GPa
            shear_modulus 0.5 GPa
            conductivity 0.13 W/m/K
            vapour 100

        """;

    private const string Bed = """
        plan bed {
            start at (0 in, 20 in)
            leg left forward length 40 in
            leg front right length 40 in
            leg right aft length 40 in
            leg rear home
        }

        """;

    /// <summary>A deck of one sheet of plywood that states no strength.</summary>
    public const string Plain = Ply + "}\nstack skin { sheet ply }\n" + Bed + "panel deck of skin { covers plan bed, top at 0 in }\n";

    /// <summary>The same of plywood with a strength and a factor to divide it by.</summary>
    public const string Strong = Ply + "    bending_strength 30 MPa\n    safety 2.5\n}\nstack skin { sheet ply }\n" + Bed + "panel deck of skin { covers plan bed, top at 0 in }\n";

    /// <summary>The deck with gear, on a truck with the facts given.</summary>
    public static string Truck(string facts) => Plain + $$"""
        load gear {
            weighs 300 kg
            at (20 in, 0 in, 10 in)
        }
        carrier truck {
            wheelbase 3 m
            front_axle at 2 m
            empty front 1000 kg rear 800 kg weighed 2026-01-01
            track 1.6 m
        {{facts}}}

        """;

    public static string Mounts(string rating) => $$"""
            mount front_left at (1 m, 0.5 m, -0.1 m), rated {{rating}}
            mount front_right at (1 m, -0.5 m, -0.1 m), rated {{rating}}
            mount rear_left at (0 m, 0.5 m, -0.1 m), rated {{rating}}
            mount rear_right at (0 m, -0.5 m, -0.1 m), rated {{rating}}

        """;

    /// <summary>Straps at the four corners of the deck that lean outwards, ahead or astern, and to the side.</summary>
    public static string Straps(string rating) => $$"""
            tie_down front_left at (0.5 m, 0.9 m, 0 m), to (0 m, 0.4 m, 0.5 m), rated {{rating}}
            tie_down front_right at (0.5 m, -0.9 m, 0 m), to (0 m, -0.4 m, 0.5 m), rated {{rating}}
            tie_down rear_left at (-2 m, 0.9 m, 0 m), to (-1 m, 0.4 m, 0.5 m), rated {{rating}}
            tie_down rear_right at (-2 m, -0.9 m, 0 m), to (-1 m, -0.4 m, 0.5 m), rated {{rating}}

        """;

    /// <summary>Two points that are held by hardware of a kind.</summary>
    public static string HeldBy(string kind) => $$"""
        hardware pull {
            kind {{kind}}
            weight 1 lb
            rated 500 lbf
            price 10 USD per each, on 2026-01-01
        }

        """ + Truck("    tie_down left at (-1 m, 0.9 m, 0 m), with pull\n    tie_down right at (-1 m, -0.9 m, 0 m), with pull\n");

    /// <summary>The plywood deck as a roof of 7.4 kg (16 lbf) that rises, with the facts given.</summary>
    public static string Lift(string facts, string travel = "18 in", string more = "") => Ply + "}\nstack skin { sheet ply }\n" + Bed + $$"""
        panel roof of skin { covers plan bed, top at 40 in }
        {{more}}lift raise {
            carries { roof }
            travel {{travel}}
        {{facts}}}

        """;

    public const string FrontPoints = "    lifted at front_left (40 in, 20 in, 40 in)\n    lifted at front_right (40 in, -20 in, 40 in)\n";
    public const string MiddlePoints = "    lifted at middle_left (25 in, 20 in, 40 in)\n    lifted at middle_right (25 in, -20 in, 40 in)\n";
    public const string RearPoints = "    lifted at rear_left (0 in, 20 in, 40 in)\n    lifted at rear_right (0 in, -20 in, 40 in)\n";

    /// <summary>The roof on a gas spring under each corner.</summary>
    public static string Struts(string force, string facts = "", string stroke = "20 in", string travel = "18 in") => Lift("""
            strut front_left gas_spring from (40 in, 20 in, 20 in) to (40 in, 20 in, 40 in)
            strut front_right gas_spring from (40 in, -20 in, 20 in) to (40 in, -20 in, 40 in)
            strut rear_left gas_spring from (0 in, 20 in, 20 in) to (0 in, 20 in, 40 in)
            strut rear_right gas_spring from (0 in, -20 in, 20 in) to (0 in, -20 in, 40 in)

        """ + facts, travel, $$"""
        hardware gas_spring {
            kind strut
            force {{force}}
            stroke {{stroke}}
        }

        """);

    private const string Wall = """
        sheet face {
            thickness 6 mm
            size 60 in by 96 in
            conductivity 0.13 W/m/K
            vapour 100
        }
        stick strip {
            section 1 in by 2 in
            length 96 in
            conductivity 0.12 W/m/K
            vapour 50
        }
        board foam {
            thickness 1 in
            size 48 in by 96 in
            conductivity 0.03 W/m/K
            vapour 60
        }
        stack shell {
            sheet face
            core frame of strip flat, filled with foam
            sheet face
        }
        panel side of shell {
            through (0 in, 20 in, 0 in) along (40 in, 20 in, 0 in) up (0 in, 20 in, 30 in)
        }

        """;

    /// <summary>A foam-filled wall on a night.</summary>
    public static string Night(string outside, string inside) => Wall + $$"""
        night cold {
            outside {{outside}}
            inside {{inside}}
        }

        """;

    /// <summary>A foam-filled wall over a year of a cold valley, or of one that is never warmer than January; humidity inside in percent.</summary>
    public static string Year(int humidity, bool warms = true)
    {
        string[] months = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];
        int[] outside = [20, 25, 35, 50, 60, 68, 72, 70, 62, 50, 38, 25];
        string text = Wall + "climate valley {\n";
        for (int m = 0; m < months.Length; m++) text += $"    month {months[m]} outside {(warms ? outside[m] : outside[0])} degF 70 % inside 62 degF {humidity} %\n";
        return text + "}\n";
    }

    /// <summary>A wall that is filled by pouring, with so many studs.</summary>
    public static string Poured(string deep, string high, int studs) => $$"""
        foam pour {
            free_rise 32 kg/m3
            overpack 20 %
            mix 1 to 1 by weight
            flow 24 in
            shallow 3/4 in
        }
        stick strip {
            section {{deep}} by 1 1/2 in
            length 96 in
        }
        sheet ply {
            thickness 6 mm
            size 60 in by 96 in
        }
        stack wall {
            sheet ply
            core frame of strip flat, filled with pour
            sheet ply
        }
        panel side of wall {
            through (0 in, 0 in, 0 in) along (0 in, -43 in, 0 in) up (0 in, 0 in, {{high}})
            frame { studs count {{studs}} }
        }

        """;

    /// <summary>A framed wall that is screwed to the deck.</summary>
    public static string Screwed(string from) => Plain + $$"""
        stick strip {
            section 3/4 in by 1 1/2 in
            length 96 in
        }
        screw deck_screw {
            diameter 0.164 in
            length 2 in
        }
        stack framed {
            sheet ply
            core frame of strip flat
            sheet ply
        }
        panel wall of framed { stands on bed.front, from deck.top to 40 in }
        joint wall.bottom to deck.top {
            butt
            screws deck_screw every 8 in, driven from {{from}}
        }

        """;

    /// <summary>Two painted panels that are fitted already, so far apart.</summary>
    public static string Painted(string apart) => Plain + $$"""
        coating paint {
            coverage 10 m2/l
            density 1200 kg/m3
        }
        stack painted {
            coating paint 1 coats
            sheet ply
            coating paint 1 coats
        }
        panel first of painted { spans from (30 in, -15 in) to (30 in, 15 in), standing on deck.top, up to 20 in }
        panel second of painted { spans from (30 in - {{apart}}, -15 in) to (30 in - {{apart}}, 15 in), standing on deck.top, up to 20 in }
        joint first.bottom to deck.top { butt }
        joint second.bottom to deck.top { butt }
        built deck { fitted on 2026-05-04 }
        built first { fitted on 2026-05-04 }
        built second { fitted on 2026-05-04 }

        """;
}
