namespace Wain.Cutting;

/// <summary>What the sheet search hands back.</summary>
internal sealed record SheetResult(SheetSolution? Best, long Bound, SheetCertificate Certificate);

/// <summary>Runs the bounds and the searches for a sheet problem in a fixed order of work, until bound and plan meet or the budget ends.</summary>
internal static class SheetSearch
{
    public static SheetResult Run(SheetCore core, StepBudget budget)
    {
        var bound = new SheetBound(core, budget);
        budget.Bound = bound.Bound;
        var search = new RuinRecreate(core, budget, 1);
        search.Construct();
        search.Run(2000, bound.Bound);
        for (var round = 1; ; round++)
        {
            bound.Raise(1, Done);
            if (Done() || !search.Run(1500 * round, bound.Bound) || Done())
                break;
        }

        if (Environment.GetEnvironmentVariable("DBG") != null) Console.Error.WriteLine($"iterations {search.Iterations} steps {budget.StepsDone}");
        return new SheetResult(search.Best, bound.Bound, bound.Certificate);

        bool Done() => search.Best is not null && search.Best.Cost <= bound.Bound;
    }
}
