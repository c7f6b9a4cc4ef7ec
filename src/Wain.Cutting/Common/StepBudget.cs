namespace Wain.Cutting;

/// <summary>What a running search tells whoever waits for it.</summary>
/// <param name="StepsDone">Steps done so far.</param>
/// <param name="StepsAllowed">Steps allowed in all.</param>
/// <param name="Cost">Cost of the best plan so far, or -1 while there is none.</param>
/// <param name="Bound">Proven lower bound of the cost so far.</param>
public readonly record struct SearchProgress(long StepsDone, long StepsAllowed, long Cost, long Bound);

/// <summary>
/// Counts work instead of time, so that the same budget stops the same search at the same place on every machine.
/// A step is about a microsecond of work on a desktop computer; searches count work in simple operations, some hundreds to a step.
/// Nothing in a search may depend on how much is left, only on whether anything is: then a larger budget walks the same way further.
/// </summary>
public sealed class StepBudget(long steps, CancellationToken cancel = default, IProgress<SearchProgress>? progress = null)
{
    private StepBudget? _whole;
    private const long PerStep = 300;
    private const long ReportEvery = 200_000 * PerStep;
    private readonly long _limit = steps >= long.MaxValue / PerStep ? long.MaxValue : Math.Max(0, steps) * PerStep;
    private long _done;
    private long _nextReport = ReportEvery;

    public long StepsDone => _done / PerStep;

    /// <summary>Best cost and bound to report; kept by the search.</summary>
    public long Cost { get; set; } = -1;

    public long Bound { get; set; }

    public bool IsSpent => _done >= _limit || cancel.IsCancellationRequested || _whole?.IsSpent == true;

    /// <summary>A part of this budget with a limit of its own; what it spends counts here too.</summary>
    public StepBudget Part(long steps) => new(steps) { _whole = this };

    /// <summary>Counts work done and says whether the search may go on.</summary>
    public bool Spend(long work)
    {
        _done += work;
        _whole?.Spend(work);
        if (_done >= _nextReport)
        {
            _nextReport = _done + ReportEvery;
            progress?.Report(new SearchProgress(StepsDone, _limit / PerStep, Cost, Bound));
        }

        return !IsSpent;
    }
}
