using System.Collections.Immutable;
using Wain.Core.CutLists;
using Wain.Cutting;

namespace Wain.Cli.Cutting;

/// <summary>How far a search is.</summary>
/// <param name="Cost">Of the best plan so far; -1 for none.</param>
public readonly record struct CutProgress(string Material, long StepsDone, long StepsAllowed, long Cost, long Bound);

/// <summary>
/// Runs the planner over cut lists. This and what else in its folder speaks of the planner is the only code that the planner's assembly is loaded for.
/// </summary>
public static class CutRun
{
    /// <summary>Plans one list with a budget of its own, so that a change of one material leaves the plans of the others as they are.</summary>
    /// <param name="steps">Of about a microsecond.</param>
    public static MaterialPlan Plan(CutList priced, long steps, Action<CutProgress> tell, CancellationToken cancel)
    {
        var list = priced.InLowestTerms();
        var budget = new StepBudget(steps, cancel, new Progress(p => tell(new CutProgress(list.Material, p.StepsDone, p.StepsAllowed, p.Cost < 0 ? p.Cost : p.Cost * priced.CostStep, p.Bound * priced.CostStep))));
        tell(new CutProgress(list.Material, 0, steps, -1, 0));
        var plan = list.Stock.IsEmpty ? Empty(list, [$"{list.Material} states no size that it is sold in."]) : list.Kind switch
        {
            CutKind.Stick => Sticks(list, budget),
            CutKind.Roll => Roll(list, budget),
            _ when list.CanRip => Boards(list, budget),
            _ => Sheets(list, budget),
        };
        return plan.At(priced) with { Key = CutListKey.Of(list), Steps = steps, Interrupted = cancel.IsCancellationRequested && plan.Net > plan.Bound };
    }

    private sealed class Progress(Action<SearchProgress> tell) : IProgress<SearchProgress>
    {
        public void Report(SearchProgress value) => tell(value);
    }

    private static MaterialPlan Empty(CutList list, ImmutableArray<string> problems) => new(list.Material, list.Called, list.Kind, "", 0, false, list.CostUnit, list.CostStep, 0, 0, [], [], [], problems, null);

    private static MaterialPlan Whole(CutList list, long cost, long bound, IEnumerable<CutPlanSheet> sheets, ImmutableArray<BoughtStock> bought, IEnumerable<CuttingIssue> issues, PlanProof? proof, long kept = 0)
    {
        // A material that comes whole from what is owned is bought no times, which is not the same as unplanned.
        if (bought.IsEmpty && list.Stock.FirstOrDefault(s => !s.Owned) is { } none) bought = [new BoughtStock(none.Width, none.Length, 0)];
        // What is kept is what the proof gives to whoever reads it.
        long proven = proof?.Bound(list) is { } p ? Math.Min(p, bound) : 0;
        return Empty(list, [.. issues.Select(i => i.Text).Distinct()]) with { Cost = cost, Kept = kept, Bound = Math.Min(proven, cost - kept), Sheets = [.. sheets], Bought = bought, Proof = proof?.ToJson() };
    }

    private static ImmutableArray<BoughtStock> Bought(CutList list, IEnumerable<(int Stock, int Times)> used) =>
        [.. used.Where(u => !list.Stock[u.Stock].Owned).GroupBy(u => (list.Stock[u.Stock].Width, list.Stock[u.Stock].Length)).OrderBy(g => g.Min(u => u.Stock)).Select(g => new BoughtStock(g.Key.Width, g.Key.Length, g.Sum(u => u.Times)))];

    private static MaterialPlan Sheets(CutList list, StepBudget budget)
    {
        var plan = SheetPlanner.Plan(Problems.Sheets(list), budget);
        return Whole(list, plan.Cost, plan.LowerBound, plan.Sheets.Select(s => SheetOf(list, s, list.Stock[s.Stock], 0)), Bought(list, plan.Sheets.Select(s => (s.Stock, s.Times))), plan.Issues,
            plan.Certificate is { } proof ? new PlanProof(Sheets: proof) : null, plan.Kept);
    }

    private static CutPlanSheet SheetOf(CutList list, CutSheet sheet, CutStock stock, long trim, long thickness = 0)
    {
        IEnumerable<PlannedCut> edges = trim == 0 ? [] :
        [
            new(true, trim, 0, stock.Length, 0, 0), new(true, stock.Width - trim, 0, stock.Length, 0, 0),
            new(false, trim, trim, stock.Width - trim, 0, 0), new(false, stock.Length - trim, trim, stock.Width - trim, 0, 0),
        ];
        return new CutPlanSheet(stock.Name, stock.Width, stock.Length, thickness, stock.Owned, sheet.Times, stock.Cost,
            [.. sheet.Pieces.OrderByDescending(p => p.Y + p.Height).ThenBy(p => p.X).Select(p => Placed(list.Parts[p.Piece], p, trim))],
            [.. edges, .. sheet.Cuts.Select(c => new PlannedCut(c.Upright, c.At + trim, c.From + trim, c.To + trim, c.Level, 0))],
            [.. sheet.Offcuts.Select(o => new KeptOffcut(o.X + trim, o.Y + trim, o.Width, o.Height))], []);
    }

    private static PlacedPart Placed(CutPart part, SheetPlacement p, long trim)
    {
        ImmutableArray<CutPoint> outline = [.. part.Outline.Select(c => p.Turned ? new CutPoint(part.Length - c.Y, c.X) : c)
            .Select(c => p.HeadToFoot ? new CutPoint(p.Width - c.X, p.Height - c.Y) : c).Select(c => new CutPoint(p.X + c.X + trim, p.Y + c.Y + trim))];
        return new PlacedPart(part.Mark, p.X + trim, p.Y + trim, p.Width, p.Height, part.Thickness, p.Turned, outline);
    }

    /// <summary>From bought boards alone. Where odd ones are owned that might save some, nothing is proven of the plan.</summary>
    private static MaterialPlan Boards(CutList list, StepBudget budget)
    {
        var (problem, stockOf) = Problems.Boards(list);
        var plan = FoamPlanner.Plan(problem, budget);
        if (plan.Boards.Count == 0) return Whole(list, plan.Cost, 0, [], [], plan.Issues, null);
        var face = list.Stock[stockOf[plan.Boards[0].Board]] with { Cost = 0 };
        var sheets = plan.Layers.Select(l => SheetOf(list, l.Sheet with { Stock = 0 }, face, list.Trim, l.Thickness));
        var rips = plan.Boards.Select(b => (b, Stock: list.Stock[stockOf[b.Board]])).Select(b => new RippedBoards(b.Stock.Name, b.Stock.Width, b.Stock.Length, b.b.Times, [.. b.b.Layers], b.b.Left));
        return Whole(list, plan.Cost, plan.LowerBound, sheets, Bought(list, plan.Boards.Select(b => (stockOf[b.Board], b.Times))), plan.Issues,
            list.Stock.Any(s => s.Owned) ? null : plan.Certificate is { } proof ? new PlanProof(Boards: proof) : new PlanProof(ByVolume: true)) with { Rips = [.. rips] };
    }

    private static MaterialPlan Sticks(CutList list, StepBudget budget)
    {
        var plan = StickPlanner.Plan(Problems.Sticks(list), budget);
        var sheets = plan.Sticks.Select(s => (s, Stock: list.Stock[s.Stock])).Select(x => new CutPlanSheet(x.Stock.Name, 0, x.Stock.Length, 0, x.Stock.Owned, x.s.Times, x.Stock.Cost,
            [.. x.s.Pieces.Select(p => StickPart(list.Parts[p.Piece], p))],
            [.. x.s.Cuts.Select(c => new PlannedCut(true, c.At, 0, 0, 1, c.MakesLeftEnd ? c.Run : -c.Run))],
            [.. x.s.Offcuts.Select(o => new KeptOffcut(o.From, 0, 0, o.Length))], x.Stock.Faults));
        return Whole(list, plan.Cost, plan.LowerBound, sheets, Bought(list, plan.Sticks.Select(s => (s.Stock, s.Times))), plan.Issues, plan.Certificate is { } proof ? new PlanProof(Sticks: proof) : null);
    }

    private static PlacedPart StickPart(CutPart part, StickPlacement p) => new(part.Mark, p.From, 0, 0, p.To - p.From, 0, p.TurnedEnd,
        [.. StickShape.Of(part, p.TurnedEnd, p.Rolled).Select(c => new CutPoint(c.X + p.From, c.Y))]);

    /// <summary>The shortest run of one roll; where no single roll holds all parts, or owned pieces of cloth save a whole one, whole rolls.</summary>
    private static MaterialPlan Roll(CutList list, StepBudget budget)
    {
        var stock = list.Stock[0];
        var (problem, byTheRun) = Problems.Roll(list);
        bool owned = list.Stock.Any(s => s.Owned);
        if (owned && !byTheRun) return Sheets(list with { Guillotine = true }, budget);
        var plan = RollPlanner.Plan(problem, budget);
        if (plan.Layout is not { } layout) return Sheets(list with { Guillotine = true }, budget);
        int count = (int)((plan.Length + stock.Length - 1) / stock.Length);
        long cost = count * stock.Cost;
        return Whole(list, cost, cost, [SheetOf(list, layout, stock with { Length = plan.Length }, 0) with { UnitCost = cost }], [new BoughtStock(stock.Width, stock.Length, count)], plan.Issues,
            owned ? null : new PlanProof(Roll: new RollProof(plan.LowerBound, plan.Certificate)));
    }
}
