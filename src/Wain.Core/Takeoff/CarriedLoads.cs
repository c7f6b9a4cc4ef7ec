using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Model;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>The states that a camper is weighed in.</summary>
public enum LoadState
{
    Dry,
    Ready,
    Camped,
    Raised,
}

/// <summary>Something heavy with a place, and how much of it is aboard in each state.</summary>
/// <param name="Weight">Of the whole load, full (kg).</param>
/// <param name="At">Its centre (mm); null if the spec does not say.</param>
/// <param name="Share">Part of it that is aboard, by state, 0 to 1.</param>
/// <param name="On">The panel that it rests on and moves with.</param>
public sealed record CarriedLoad(string Name, BoundFact Fact, LineWeight Weight, ImmutableArray<double>? At, ImmutableDictionary<LoadState, double> Share, string? On, bool IsPeople)
{
    /// <summary>What states it: for a mirror the load that it copies.</summary>
    public BoundFact Stated => Fact.MirrorOf ?? Fact;

    public double ShareIn(LoadState state) => Share.GetValueOrDefault(state);
}

/// <summary>Reads loads: what they weigh, and when they are aboard.</summary>
public static class CarriedLoads
{
    internal static ImmutableArray<CarriedLoad> Add(LineList lines)
    {
        var loads = ImmutableArray.CreateBuilder<CarriedLoad>();
        foreach (var fact in lines.Spec.All("load").Concat(lines.Spec.All("mirror").Where(m => m.MirrorOf?.Keyword == "load")))
        {
            if (fact.Name is not { } name) continue;
            var (e, said, mirrored) = (lines.Spec.Evaluator, fact.MirrorOf ?? fact, fact.MirrorOf is not null);
            var item = said.Find("item");
            var material = item is null ? null : lines.Of(item, "item");
            int pieces = item is null ? 0 : (int)Math.Clamp(e.Number(item, "count") ?? 1, 0, 100_000);
            if (material is not null) Fastenings.AddCount(lines, name, [], material.Kind == "hardware" ? LineKind.Hardware : LineKind.Item, material, pieces, "as the spec says", item!.Span);
            bool people = said.Find("people") is { } p && e.Number(p, "count") is > 0;
            var at = said.Find("at") is { } place ? e.Place(place, "at") : null;
            if (mirrored && at is { Length: >= 2 } original) at = original.SetItem(1, -original[1]);
            var bearer = said.Find("on") is { } on ? e.Thing(on, "panel") : null;
            // What rests on a panel that has a mirror rests on that mirror.
            if (mirrored && lines.Spec.All("mirror").FirstOrDefault(m => m.MirrorOf == bearer) is { } other) bearer = other;
            loads.Add(new CarriedLoad(name, fact, WeightOf(lines, name, said, material, pieces), at, Shares(e, said, people), bearer?.Name, people));
        }
        return loads.ToImmutable();
    }

    private static LineWeight WeightOf(LineList lines, string name, BoundFact fact, Material? material, int pieces)
    {
        var e = lines.Spec.Evaluator;
        if (fact.Find("weighs") is { } weighs && e.Number(weighs, "value") is { } likely)
        {
            double low = Math.Min(likely, e.Number(weighs, "low") ?? likely), high = Math.Max(likely, e.Number(weighs, "high") ?? likely);
            return new LineWeight([new CausedSpread(name + ".weighs", new Spread(low, likely, high))], name + ".weighs", [name + ".weighs"], null);
        }
        if (fact.Find("full") is { } full && e.Number(full, "volume") is { } volume)
        {
            bool stated = full.Has("density");
            double density = stated ? e.Number(full, "density") ?? double.NaN : lines.Defaults["water_density"].Value.Value;
            if (double.IsNaN(density)) return LineWeight.Missing("density");
            string figure = stated ? name + ".full.density" : "default.water_density";
            return new LineWeight([new CausedSpread(name + ".full", Spread.Exactly(volume * density))], $"{name}.full * {figure}", [name + ".full", figure], null);
        }
        if (material is null) return LineWeight.Missing("weighs");
        // The item's own line weighs it; here the whole is told again by the load's name.
        return Weighing.Times($"{name}.{material.Name}.count", pieces, material, "weight");
    }

    // Liquids and people come aboard; everything else stays in the camper unless the spec says otherwise. The roof goes up over what is camped in.
    private static ImmutableDictionary<LoadState, double> Shares(Evaluator e, BoundFact fact, bool people)
    {
        var shares = ImmutableDictionary.CreateBuilder<LoadState, double>();
        foreach (var when in fact.All("when"))
        {
            if (Enum.TryParse<LoadState>(when.Word("state"), true, out var state)) shares[state] = Math.Clamp(e.Number(when, "share") ?? 1, 0, 1);
        }
        if (shares.Count == 0)
        {
            shares[LoadState.Camped] = 1;
            if (!people) shares[LoadState.Ready] = 1;
            if (!people && fact.Find("full") is null) shares[LoadState.Dry] = 1;
        }
        if (!shares.ContainsKey(LoadState.Raised) && shares.TryGetValue(LoadState.Camped, out double camped)) shares[LoadState.Raised] = camped;
        return shares.ToImmutable();
    }
}
