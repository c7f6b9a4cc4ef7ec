using Wain.Core;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Tests.Binding;

/// <summary>Materials that are like another. All figures are invented.</summary>
public class LikenessTests
{
    private const string Board = """
        sheet board {
            thickness 12 mm
            size 48 in by 96 in, price 40 USD, on 2026-01-01
            size 60 in by 60 in, price 30 USD, on 2026-01-01
            density 600 kg/m3 source "invented"
            grain along
        }

        """;

    private static Compilation Of(string text) => Compiler.Compile(new SourceText("like.wain", text));

    private static SheetMaterial Sheet(Compilation compiled, string name) => (SheetMaterial)compiled.Structure!.Materials.Single(m => m.Name == name);

    /// <summary>What the block states anew stands alone, however often the other said it; all else is the other's, with its line and source.</summary>
    [Fact]
    public void It_has_what_the_other_states_but_for_its_own()
    {
        var compiled = Of("sheet dear like board {\n    size 48 in by 120 in, price 70 USD, on 2026-02-01\n}\n" + Board + "sheet dearer like dear { density 700 kg/m3 }\n");
        Assert.DoesNotContain(compiled.Findings, f => f.Level == Level.Error);
        var (board, dear, dearer) = (Sheet(compiled, "board"), Sheet(compiled, "dear"), Sheet(compiled, "dearer"));
        Assert.Equal(2, board.Sizes.Length);
        Assert.Equal(120 * 25.4, Assert.Single(dear.Sizes).Length, 6);
        Assert.Equal((12, 600d, true), (dear.Thickness, dear.Density!.Value, dear.HasGrain));
        Assert.Equal("invented", dear.Figure("density")!.Source);
        Assert.Equal(8, dear.Figure("density")!.From.Line);
        Assert.Equal((700d, 120 * 25.4), (dearer.Density!.Value, dearer.Sizes[0].Length));
        Assert.Equal(600, board.Density!.Value);
    }

    [Fact]
    public void It_follows_the_other_through_conditions_and_groups()
    {
        var compiled = Of("let thick = 2 > 1\nif thick {\n    sheet own like board { thickness 15 mm }\n}\ngroup lists(price) {\n    sheet priced like own {\n        price price per sheet on 2026-03-01\n    }\n}\nplace lists(12 USD) as near\n" + Board);
        Assert.DoesNotContain(compiled.Findings, f => f.Level == Level.Error);
        Assert.Equal(15, Sheet(compiled, "near_priced").Thickness);
    }

    [Theory]
    [InlineData("sheet a like b { grain none }\nsheet b like c { grain none }\nsheet c like a { grain none }\n", "WN1011", "a, which needs b, which needs c, which needs a")]
    [InlineData("sheet a like a { thickness 5 mm }\n", "WN1011", "a, which needs a")]
    [InlineData("sheet boards like bord { grain none }\n" + Board, "WN1004", "Did you mean board?")]
    [InlineData("stick lath { section 1 in by 2 in }\nsheet a like lath { grain none }\n", "WN1006", "a sheet is needed here")]
    public void A_slip_is_told(string text, string code, string words) => Assert.Contains(Of(text).Findings, f => f.Code == code && f.Message.Contains(words, StringComparison.Ordinal));

    /// <summary>A fact that no pass reads is told once, where it stands.</summary>
    [Fact]
    public void What_is_unread_is_told_where_it_stands()
    {
        var compiled = Of(Board.Replace("grain along", "plies 9") + "sheet dear like board { thickness 9 mm }\nstack skin { sheet dear }\nstack other { sheet board }\nplan bed {\n    start at (0 in, 20 in)\n    leg left forward length 40 in\n    leg front right length 40 in\n    leg right aft length 40 in\n    leg rear home\n}\npanel deck of skin { covers plan bed, top at 0 in }\npanel shelf of other { covers plan bed, top at 9 in }\n");
        Assert.Single(compiled.Findings, f => f.Info == BindingFindings.NotComputed && f.Message.Contains("plies", StringComparison.Ordinal) && f.Place.Line == 6);
    }
}
