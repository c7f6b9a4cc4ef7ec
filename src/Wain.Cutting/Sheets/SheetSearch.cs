namespace Wain.Cutting;

/// <summary>What the sheet search hands back.</summary>
internal sealed record SheetResult(SheetSolution? Best, long Bound, SheetCertificate Certificate);

/// <summary>Runs the bounds and the searches for a sheet problem in a fixed order of work, until bound and plan meet or the budget ends.</summary>
internal static class SheetSearch
{
    public static SheetResult Run(SheetCore core, StepBudget budget)
    {
        var certificate = SheetBound.ByArea(core);
        var bound = SheetProof.Bound(core, certificate) ?? 0;
        budget.Bound = bound;
        var search = new RuinRecreate(core, budget, 1);
        search.Construct();
        while (search.Run(1000, bound) && !(search.Best is not null && search.Best.Cost <= bound))
        {
        }

        return new SheetResult(search.Best, bound, certificate);
    }
}
