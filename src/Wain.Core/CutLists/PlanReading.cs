using System.Collections.Immutable;
using Wain.Core.Pieces;

namespace Wain.Core.CutLists;

/// <summary>A plan as it lies in its file, which anybody can write into.</summary>
/// <param name="Plan">Null if there is none that can be read.</param>
/// <param name="Fault">Why it can't be read, as part of a sentence; null if it can, or if there is no file.</param>
/// <param name="Prove">The lower bound of cost that a material's proof gives for its list, re-derived in exact arithmetic; null if it proves none.</param>
public sealed record PlanFile(CuttingPlan? Plan, string? Fault, Func<CutList, MaterialPlan, long?> Prove)
{
    public ImmutableArray<ChosenSplice> Splices => Plan?.Splices ?? [];
}

/// <summary>A material whose plan breaks a rule.</summary>
public sealed record BrokenPlan(string Material, string Why);

/// <summary>What of a kept plan holds for the parts and stock as they are now.</summary>
/// <param name="Plan">The materials whose plans hold; null if there is none.</param>
/// <param name="Stale">Materials whose parts or stock have changed since, or that no plan was made for.</param>
/// <param name="Fault">Why the file can't be read at all; null if it can.</param>
public sealed record PlanReading(CuttingPlan? Plan, ImmutableArray<string> Stale, ImmutableArray<BrokenPlan> Broken, string? Fault)
{
    public static readonly PlanReading None = new(null, [], [], null);

    /// <summary>Takes each material's plan if it was made for the list as it is, keeps every rule and proves its bound.</summary>
    public static PlanReading Of(PlanFile? file, ImmutableArray<CutList> lists)
    {
        if (file is null) return None;
        if (file.Plan is not { } plan) return None with { Fault = file.Fault };
        var (fresh, stale, broken) = (ImmutableArray.CreateBuilder<MaterialPlan>(), ImmutableArray.CreateBuilder<string>(), ImmutableArray.CreateBuilder<BrokenPlan>());
        foreach (var list in lists)
        {
            if (plan.Of(list.Material) is not { } kept || kept.Key != CutListKey.Of(list))
            {
                stale.Add(list.Material);
                continue;
            }
            var its = kept.At(list);
            if (PlanCheck.FirstProblem(its, list) is { } why) broken.Add(new BrokenPlan(list.Material, why));
            else if (its.Bound > 0 && (its.Proof is null || !(file.Prove(list, its) >= its.Bound))) broken.Add(new BrokenPlan(list.Material, $"The bound of {list.Material} does not follow from its proof."));
            else fresh.Add(its);
        }
        return new PlanReading(fresh.Count > 0 ? plan with { Materials = fresh.ToImmutable() } : null, stale.ToImmutable(), broken.ToImmutable(), null);
    }
}
