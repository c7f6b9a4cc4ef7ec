using CsCheck;
using Wain.Core;
using Wain.Core.CutLists;
using Wain.Core.Text;
using Wain.Cutting;
using CutList = Wain.Core.CutLists.CutList;

namespace Wain.Tests.Cutting;

/// <summary>Counts to buy before a plan is made: each can be cut, and is not far above what can't be beaten.</summary>
public sealed class PlainLayoutTests
{
    private static CutPart Part(long width, long length, int count = 1, bool turns = false) => new($"{width} {length} {count}", width, length, 0, count, turns, []);

    private static CutList List(CutKind kind, long kerf, CutStock[] stock, params CutPart[] parts) => new("stuff", "", kind, kerf, 0, true, 0, "EUR", 0, false, [.. stock], [.. parts]);

    private static CutStock Stock(long width, long length, long cost = 1, int? count = null, bool owned = false) => new("s", width, length, cost, count, owned, []);

    private static int? Count(CutList list) => PlainLayout.Of([list]) is [var one] ? one.Count : null;

    [Fact]
    public void Panels_wider_than_half_a_sheet_take_one_each_whatever_their_area()
    {
        // Four of 1250 by 1383 and one strip of 190: two never stand above each other in 2500, and the strip goes beside none.
        var list = List(CutKind.Sheet, 3, [Stock(1250, 2500)], Part(1250, 1383, 4), Part(190, 1383));
        Assert.Equal(5, Count(list));
        // A row of 1600 and one of 833 fill one sheet, two more and a row for the strip another, but for a millimetre.
        Assert.Equal(2, Count(List(CutKind.Sheet, 0, [Stock(1250, 2500)], Part(1250, 833, 3), Part(190, 833), Part(1250, 1600, 1))));
    }

    [Fact]
    public void A_kerf_lies_between_two_parts_and_at_no_edge()
    {
        Assert.Equal(1, Count(List(CutKind.Sheet, 4, [Stock(204, 104)], Part(100, 50, 4))));
        Assert.Equal(2, Count(List(CutKind.Sheet, 4, [Stock(203, 104)], Part(100, 50, 4))));
        Assert.Equal(1, Count(List(CutKind.Stick, 4, [Stock(0, 204)], Part(0, 100, 2))));
        Assert.Equal(2, Count(List(CutKind.Stick, 4, [Stock(0, 203)], Part(0, 100, 2))));
    }

    [Fact]
    public void The_size_that_comes_cheapest_is_taken_and_what_fits_none_is_left_to_the_estimate()
    {
        var both = List(CutKind.Stick, 0, [Stock(0, 100, 5), Stock(0, 150, 6)], Part(0, 70, 4));
        Assert.Equal((1.5, 2), PlainLayout.Of([both with { Parts = [Part(0, 70, 4)] }]) is [var one] ? (one.Length, one.Count) : default);
        Assert.Null(Count(both with { Parts = [Part(0, 151)] }));
        Assert.Null(Count(List(CutKind.Stick, 0, [Stock(0, 100, 0, 1, owned: true)], Part(0, 70))));
        Assert.Null(Count(List(CutKind.Roll, 0, [Stock(100, 100)], Part(50, 50))));
    }

    /// <summary>Sticks laid longest first never take more than 11/9 of the least and 6/9 of one (Dosa 2007, The tight bound of first fit decreasing bin-packing algorithm).</summary>
    [Fact]
    public void Sticks_keep_the_published_bound() => Gen.Select(Gen.Int[3, 100].Array[1, 40], Gen.Int[0, 4]).Sample((lengths, kerf) =>
    {
        var plan = StickPlanner.Plan(new StickProblem([new StockStick("s", 100, 1)], [.. lengths.Select((l, i) => new StickPiece($"{i}", l))], kerf), new StepBudget(20_000));
        int plain = Count(List(CutKind.Stick, kerf, [Stock(0, 100)], [.. lengths.Select(l => Part(0, l))]))!.Value;
        Assert.True(plain >= plan.LowerBound, $"{plain} below {plan.LowerBound}");
        if (plan.Proven) Assert.True(9 * plain <= 11 * plan.Cost + 6, $"{plain} against {plan.Cost}");
    }, iter: 400);

    /// <summary>No layout beats the bound of the planner, and rows waste no more than half.</summary>
    [Fact]
    public void Sheets_are_no_fewer_than_can_be() => Gen.Select(Gen.Select(Gen.Int[5, 100], Gen.Int[5, 100], Gen.Int[1, 3]).Array[1, 12], Gen.Int[0, 4], Gen.Bool).Sample((parts, kerf, turns) =>
    {
        var plan = SheetPlanner.Plan(new SheetProblem([new StockSheet("s", 100, 100, 1)], [.. parts.Select((p, i) => new SheetPiece($"{i}", p.Item1, p.Item2, p.Item3, turns))], kerf, true), new StepBudget(500));
        int plain = Count(List(CutKind.Sheet, kerf, [Stock(100, 100)], [.. parts.Select(p => Part(p.Item1, p.Item2, p.Item3, turns))]))!.Value;
        Assert.True(plain >= plan.LowerBound, $"{plain} below {plan.LowerBound}");
        Assert.True(plain <= 3 * plan.Cost + 1, $"{plain} against {plan.Cost}");
    }, iter: 150);

    /// <summary>Through a whole spec: two skins of 1250 by 1383 mm are 3.5 m2 and a bit over one sheet by area; they take two.</summary>
    [Fact]
    public void What_to_buy_stands_on_it()
    {
        const string text = """
            sheet ply { thickness 4 mm
                size 1250 mm by 2500 mm, price 24 EUR
                grain along }
            stack board { sheet ply }
            for wall in one = 0 mm, two = 100 mm {
                panel wall[wall] of board { through (0 mm, wall.value, 0 mm) along (1250 mm, wall.value, 0 mm) up (0 mm, wall.value, 1383 mm)
                    grain up }
            }
            """;
        var design = Compiler.Compile(new SourceText("plain.wain", text)).Design!;
        var line = Assert.Single(design.Takeoff.Buy);
        Assert.Equal((2, true), (line.Packs, line.IsEstimate));
        Assert.Contains("the parts in a plain layout", design.Figures.Find("ply.packs")!.Formula);
    }
}
