namespace Wain.Core.Binding;

/// <summary>
/// Makes each <c>sheet B like A</c> a material like A: the facts of A stand in it, but for those whose keyword its own block states anew. They keep the place that they were read at, so a figure
/// of B traces to the line of A that it comes from.
/// </summary>
internal sealed class Likenesses
{
    private readonly HashSet<BoundFact> _busy = [];

    /// <summary>Called once the fact's own block is read. A circle of likenesses is told with its whole chain.</summary>
    public void Fill(BoundFact fact, Evaluator evaluator)
    {
        if (!fact.Slots.ContainsKey("like")) return;
        _busy.Add(fact);
        if (evaluator.Thing(fact, "like") is { } other)
        {
            if (_busy.Contains(other)) evaluator.ReportCircle(other.Path, other.HeadSpan);
            else fact.Body = FactOrder.Of([.. fact.Body, .. other.Body.Where(o => !fact.Body.Any(f => f.Keyword == o.Keyword))]);
        }
        _busy.Remove(fact);
    }
}
