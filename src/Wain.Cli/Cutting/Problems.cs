using Wain.Core.CutLists;
using Wain.Cutting;

namespace Wain.Cli.Cutting;

/// <summary>Cut lists as the problems of the planner: the same for a search and for the check of what it proved.</summary>
internal static class Problems
{
    /// <summary>Remainders smaller than these are waste (hundredths of a mm): 4 in by 12 in, and 12 in of a stick; common practice.</summary>
    private const long ShortSide = 10160, LongSide = 30480;

    /// <summary>What a roll is cut to where it is sold whole, and the longest run where it is sold by the run.</summary>
    private const long Inch = 2540, Yard = 36 * Inch, MostRuns = 200;

    private static SheetPiece PieceOf(CutPart p) => new(p.Mark, p.Width, p.Length, p.Count, p.MayTurn, p.Outline.IsEmpty ? null : [.. p.Outline.Select(c => new OutlinePoint(c.X, c.Y))]);

    public static SheetProblem Sheets(CutList list) => new(
        [.. list.Stock.Select((s, i) => new StockSheet($"{s.Name} {i + 1}", s.Width, s.Length, s.Cost, s.Count, s.Owned, s.Owned ? default : new SheetTrim(list.Trim, list.Trim, list.Trim, list.Trim)))],
        [.. list.Parts.Select(PieceOf)], list.Kerf, list.Guillotine, new OffcutRule(ShortSide, LongSide, list.Kind == CutKind.Roll ? 0 : list.OffcutValue));

    public static StickProblem Sticks(CutList list) => new(
        [.. list.Stock.Select((s, i) => new StockStick($"{s.Name} {i + 1}", s.Length, s.Cost, s.Count, s.Owned, [.. s.Faults.Select(f => new FaultyStretch(f.From, f.To))]))],
        [.. list.Parts.Select(p => new StickPiece(p.Mark, p.Length, p.Count, p.LeftRun, p.RightRun, p.RunsOpposed, p.Thickness))], list.Kerf, LongSide);

    /// <summary>Boards of odd sizes that are owned are not ripped: a layer is laid out on a whole face that is sold.</summary>
    public static (FoamProblem Problem, int[] StockOf) Boards(CutList list)
    {
        int[] stock = [.. Enumerable.Range(0, list.Stock.Length).Where(i => !list.Stock[i].Owned)];
        return (new FoamProblem(
            [.. stock.Select(i => new StockBoard($"{list.Stock[i].Name} {i + 1}", list.Stock[i].Width - 2 * list.Trim, list.Stock[i].Length - 2 * list.Trim, list.Thickness, list.Stock[i].Cost, list.Stock[i].Count))],
            [.. list.Parts.Select(p => new FoamPiece(p.Mark, p.Width, p.Length, p.Thickness, p.Count, p.MayTurn))], list.Kerf, list.Kerf, list.Guillotine, new OffcutRule(ShortSide, LongSide)), stock);
    }

    /// <summary>The shortest run off the first roll; of cloth sold by the foot or the yard in whole ones of these.</summary>
    public static (RollProblem Problem, bool ByTheRun) Roll(CutList list)
    {
        var stock = list.Stock[0];
        bool byTheRun = stock.Length <= Yard + 1;
        return (new RollProblem(stock.Width, byTheRun ? stock.Length * MostRuns : stock.Length, byTheRun ? stock.Length : Inch, byTheRun ? stock.Cost : 1, [.. list.Parts.Select(PieceOf)], Offcuts: new OffcutRule(ShortSide, LongSide)), byTheRun);
    }
}
