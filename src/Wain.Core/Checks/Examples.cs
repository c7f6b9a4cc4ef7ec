namespace Wain.Core.Checks;

/// <summary>Texts that the examples of checks are put together from. All figures are invented, but for the true size of lumber.</summary>
internal static class Examples
{
    /// <summary>An upright wall of skins on a frame of 1x2 laid flat, 29.05 mm thick, with the facts given.</summary>
    public static string Wall(int width, int height, string facts, string more = "") => Materials + more + $$"""

        panel wall of wall_stack {
            through (0 in, 0 in, 0 in) along (0 in, -{{width}} in, 0 in) up (0 in, 0 in, {{height}} in)
        {{facts}}
        }
        """;

    /// <summary>A deck of one sheet of 1/4 in plywood, 90 in long and 66 in wide, with the facts given.</summary>
    public static string Deck(string facts) => Materials + $$"""

        panel deck of deck_stack {
            through (0 in, 33 in, 0 in) along (0 in, -33 in, 0 in) up (90 in, 33 in, 0 in)
        {{facts}}
        }
        """;

    /// <summary>A deck, and a board that stands so far above it.</summary>
    public static string Post(string above) => Materials + $$"""

        panel deck of deck_stack {
            through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (90 in, 20 in, 0 in)
        }
        panel post of deck_stack {
            spans from (20 in, 10 in) to (40 in, 10 in), standing on deck.top + {{above}}, up to 30 in
        }
        """;

    /// <summary>Decks of 40 in by 40 in, two of which come out of a sheet of 48 in by 96 in with the facts given behind its size.</summary>
    public static string Squares(int count, string sold, string more = "")
    {
        string text = $$"""
            sheet ply {
                thickness 6 mm
                size 48 in by 96 in{{sold}}
                density 600 kg/m3
            }
            stack skin { sheet ply }

            """;
        for (int n = 1; n <= count; n++) text += $"panel deck{n} of skin {{ through (0 in, 20 in, {n}0 in) along (0 in, -20 in, {n}0 in) up (40 in, 20 in, {n}0 in) }}\n";
        return text + more;
    }

    public static string With(this string text, string slot, string value) => text.Replace(slot, value, StringComparison.Ordinal);

    public const string Materials = """
        sheet ply_6mm { thickness 6 mm
            size 48 in by 96 in }
        sheet ply_4mm { thickness 4 mm
            size 48 in by 96 in }
        sheet ply_quarter { thickness 1/4 in
            size 48 in by 96 in
            grain none }
        stick strip_1x2 { section 3/4 in by 1 1/2 in
            length 96 in }
        board foam_board { thickness 1 in
            size 48 in by 96 in }
        cloth glass { weight 6 oz/yd2
            bend_radius 1/8 in }
        resin epoxy { density 1.1 g/cm3 }
        unit window { cut_out 20 in by 10 in, corner 1 in
            wall between 1/2 in and 1 1/4 in
            flange 1 in
            proud 1/2 in }
        stack wall_stack {
            sheet ply_6mm
            core frame of strip_1x2 flat, filled with foam_board
            sheet ply_4mm
        }
        stack deck_stack { sheet ply_quarter }

        """;
}
