using System.Collections.Immutable;
using Wain.Core.CutLists;
using Wain.Cutting;

namespace Wain.Cli.Cutting;

/// <summary>
/// Cut lists to the problems of the planner and its plans back. The only code that the planner's assembly is loaded for, so nothing else may
/// name its types.
/// </summary>
public static class CutRun
{
    /// <summary>Remainders smaller than these are waste (hundredths of a mm): 4 in by 12 in, and 12 in of a stick; common practice.</summary>
    private const long ShortSide = 10160, LongSide = 30480;

    /// <summary>Plans every list, each with a budget of its own, so that a change of one material leaves the plans of the others as they are.</summary>
    /// <param name="tell">Told the material with steps done and allowed, the best cost so far (-1 for none) and the bound.</param>
    public static CuttingPlan Plan(ImmutableArray<CutList> lists, string key, long steps, Action<string, long, long, long, long> tell, CancellationToken cancel)
    {
        var plans = lists.Select(list =>
        {
            var budget = new StepBudget(steps, cancel, new Progress(p => tell(list.Material, p.StepsDone, p.StepsAllowed, p.Cost, p.Bound)));
            tell(list.Material, 0, steps, -1, 0);
            return list.Stock.IsEmpty ? Empty(list, [$"{list.Material} states no size that it is sold in."]) : list.Kind switch
            {
                CutKind.Stick => Sticks(list, budget),
                CutKind.Roll => Roll(list, budget),
                CutKind.Board when CanRip(list) => Boards(list, budget),
                _ => Sheets(list, budget),
            };
        }).ToImmutableArray();
        return new CuttingPlan(key, steps, cancel.IsCancellationRequested, plans);
    }

    private sealed class Progress(Action<SearchProgress> tell) : IProgress<SearchProgress>
    {
        public void Report(SearchProgress value) => tell(value);
    }

    private static MaterialPlan Empty(CutList list, ImmutableArray<string> problems) => new(list.Material, list.Called, list.Kind, list.CostUnit, 0, 0, [], [], problems);

    private static MaterialPlan Whole(CutList list, long cost, long bound, IEnumerable<CutPlanSheet> sheets, ImmutableArray<BoughtStock> bought, IEnumerable<CuttingIssue> issues)
    {
        // A material that comes whole from what is owned is bought no times, which is not the same as unplanned.
        if (bought.IsEmpty && list.Stock.FirstOrDefault(s => !s.Owned) is { } none) bought = [new BoughtStock(none.Width, none.Length, 0)];
        return new(list.Material, list.Called, list.Kind, list.CostUnit, cost, bound, [.. sheets], bought, [.. issues.Select(i => i.Text).Distinct()]);
    }

    private static ImmutableArray<BoughtStock> Bought(CutList list, IEnumerable<(int Stock, int Times)> used) =>
        [.. used.Where(u => !list.Stock[u.Stock].Owned).GroupBy(u => u.Stock).OrderBy(g => g.Key).Select(g => new BoughtStock(list.Stock[g.Key].Width, list.Stock[g.Key].Length, g.Sum(u => u.Times)))];

    private static SheetPiece PieceOf(CutPart p) => new(p.Mark, p.Width, p.Length, p.Count, p.MayTurn, p.Outline.IsEmpty ? null : [.. p.Outline.Select(c => new OutlinePoint(c.X, c.Y))]);

    private static MaterialPlan Sheets(CutList list, StepBudget budget)
    {
        var problem = new SheetProblem(
            [.. list.Stock.Select((s, i) => new StockSheet($"{s.Name} {i + 1}", s.Width, s.Length, s.Cost, s.Count, s.Owned, s.Owned ? default : new SheetTrim(list.Trim, list.Trim, list.Trim, list.Trim)))],
            [.. list.Parts.Select(PieceOf)], list.Kerf, list.Guillotine, new OffcutRule(ShortSide, LongSide, list.OffcutValue));
        var plan = SheetPlanner.Plan(problem, budget);
        long bound = plan.Certificate is { } proof ? SheetPlanner.CheckBound(problem, proof) ?? 0 : 0;
        return Whole(list, plan.Cost, Math.Min(bound, plan.LowerBound), plan.Sheets.Select(s => SheetOf(list, s, list.Stock[s.Stock], 0, "")), Bought(list, plan.Sheets.Select(s => (s.Stock, s.Times))), plan.Issues);
    }

    private static CutPlanSheet SheetOf(CutList list, CutSheet sheet, CutStock stock, long trim, string note)
    {
        return new CutPlanSheet(stock.Name, stock.Width, stock.Length, stock.Owned, sheet.Times, stock.Cost,
            [.. sheet.Pieces.OrderByDescending(p => p.Y + p.Height).ThenBy(p => p.X).Select(p => Placed(list.Parts[p.Piece], p, trim))],
            [.. sheet.Cuts.Select(c => new PlannedCut(c.Upright, c.At + trim, c.From + trim, c.To + trim, c.Level, 0))],
            [.. sheet.Offcuts.Select(o => new KeptOffcut(o.X + trim, o.Y + trim, o.Width, o.Height))], [], note);
    }

    private static PlacedPart Placed(CutPart part, SheetPlacement p, long trim)
    {
        ImmutableArray<CutPoint> outline = [.. part.Outline.Select(c => p.Turned ? new CutPoint(part.Length - c.Y, c.X) : c)
            .Select(c => p.HeadToFoot ? new CutPoint(p.Width - c.X, p.Height - c.Y) : c).Select(c => new CutPoint(p.X + c.X + trim, p.Y + c.Y + trim))];
        return new PlacedPart(part.Mark, p.X + trim, p.Y + trim, p.Width, p.Height, part.Thickness, p.Turned, outline);
    }

    /// <summary>True if a board gives more than one layer of the thinnest part.</summary>
    private static bool CanRip(CutList list) => list.Parts.Length > 0 && 2 * list.Parts.Min(p => p.Thickness) + list.Kerf <= list.Thickness && list.Parts.All(p => p.Thickness > 0);

    private static MaterialPlan Boards(CutList list, StepBudget budget)
    {
        long trim = list.Trim;
        // Boards of odd sizes that are owned are not laid out in layers; whole ones of a face that is sold are.
        var stock = list.Stock.Select((s, i) => (Stock: s, Index: i)).Where(s => !s.Stock.Owned).ToList();
        var problem = new FoamProblem(
            [.. stock.Select(s => new StockBoard($"{s.Stock.Name} {s.Index + 1}", s.Stock.Width - 2 * trim, s.Stock.Length - 2 * trim, list.Thickness, s.Stock.Cost, s.Stock.Count))],
            [.. list.Parts.Select(p => new FoamPiece(p.Mark, p.Width, p.Length, p.Thickness, p.Count, p.MayTurn))], list.Kerf, list.Kerf, list.Guillotine, new OffcutRule(ShortSide, LongSide));
        var plan = FoamPlanner.Plan(problem, budget);
        if (plan.Boards.Count == 0) return Whole(list, plan.Cost, 0, [], [], plan.Issues);
        var face = stock[plan.Boards[0].Board].Stock with { Cost = 0 };
        var sheets = plan.Layers.Select(l => SheetOf(list, l.Sheet with { Stock = 0 }, face, trim, l.Thickness < list.Thickness ? "a layer ripped to thickness" : ""));
        return Whole(list, plan.Cost, plan.LowerBound, sheets, Bought(list, plan.Boards.Select(b => (stock[b.Board].Index, b.Times))), plan.Issues);
    }

    private static MaterialPlan Sticks(CutList list, StepBudget budget)
    {
        var problem = new StickProblem(
            [.. list.Stock.Select((s, i) => new StockStick($"{s.Name} {i + 1}", s.Length, s.Cost, s.Count, s.Owned, [.. s.Faults.Select(f => new FaultyStretch(f.From, f.To))]))],
            [.. list.Parts.Select(p => new StickPiece(p.Mark, p.Length, p.Count, p.LeftRun, p.RightRun, p.RunsOpposed))], list.Kerf, LongSide, list.Thickness);
        var plan = StickPlanner.Plan(problem, budget);
        long bound = plan.Certificate is { } proof ? StickPlanner.CheckBound(problem, proof) ?? 0 : 0;
        var sheets = plan.Sticks.Select(s => new CutPlanSheet(list.Stock[s.Stock].Name, 0, list.Stock[s.Stock].Length, list.Stock[s.Stock].Owned, s.Times, list.Stock[s.Stock].Cost,
            [.. s.Pieces.Select(p => new PlacedPart(list.Parts[p.Piece].Mark, p.From, 0, 0, p.To - p.From, 0, p.TurnedEnd, []))],
            [.. s.Cuts.Select(c => new PlannedCut(true, c.At, 0, 0, 1, c.MakesLeftEnd ? c.Run : -c.Run))],
            [.. s.Offcuts.Select(o => new KeptOffcut(o.From, 0, 0, o.Length))], list.Stock[s.Stock].Faults, ""));
        return Whole(list, plan.Cost, Math.Min(bound, plan.LowerBound), sheets, Bought(list, plan.Sticks.Select(s => (s.Stock, s.Times))), plan.Issues);
    }

    /// <summary>The shortest run of one roll; where no single roll holds all parts, whole rolls.</summary>
    private static MaterialPlan Roll(CutList list, StepBudget budget)
    {
        const long Inch = 2540;
        var stock = list.Stock[0];
        bool byTheRun = stock.Length <= 36 * Inch + 1;
        long increment = byTheRun ? stock.Length : Inch, longest = byTheRun ? stock.Length * 200 : stock.Length;
        var problem = new RollProblem(stock.Width, longest, increment, byTheRun ? stock.Cost : 1, [.. list.Parts.Select(PieceOf)]);
        var plan = RollPlanner.Plan(problem, budget);
        if (plan.Layout is not { } layout) return Sheets(list with { Guillotine = true }, budget);
        var run = stock with { Length = plan.Length };
        bool holds = RollPlanner.CheckBound(problem, plan);
        int count = (int)((plan.Length + stock.Length - 1) / stock.Length);
        long cost = count * stock.Cost, bound = !holds ? 0 : byTheRun ? plan.LowerBound / increment * stock.Cost : stock.Cost;
        return Whole(list, cost, bound, [SheetOf(list, layout, run, 0, "the length to cut off the roll") with { UnitCost = cost }], [new BoughtStock(stock.Width, stock.Length, count)], plan.Issues);
    }
}
