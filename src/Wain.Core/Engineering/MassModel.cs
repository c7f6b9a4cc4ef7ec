using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>One weight at one place.</summary>
/// <param name="Name">The figure that holds it.</param>
/// <param name="Parts">kg, by cause of spread.</param>
/// <param name="At">Its centre with everything closed (mm).</param>
/// <param name="Panels">The panels that it belongs to; empty for loads and struts.</param>
/// <param name="Lift">The lift that it rises with, or null.</param>
public sealed record PlacedMass(string Name, ImmutableArray<CausedSpread> Parts, Vec3 At, ImmutableArray<string> Panels, string? Lift)
{
    /// <summary>kg.</summary>
    public double Likely { get; } = Parts.Sum(p => p.Value.Likely);
}

/// <summary>Weight and centre of something (kg, mm), the centre with how far the spread of the weights moves it.</summary>
public sealed record MassSum(Spread Weight, Vec3 Centre, Vec3 Lowest, Vec3 Highest);

/// <summary>The whole camper as weights at places, and its sum in each state.</summary>
/// <param name="Lacks">Names of weights that are missing from every sum.</param>
/// <param name="Raised">Where each lift takes what it carries.</param>
public sealed record MassModel(
    ImmutableArray<PlacedMass> Masses, ImmutableArray<(CarriedLoad Load, PlacedMass Mass)> Loads, ImmutableSortedDictionary<string, MassSum> Panels,
    ImmutableSortedDictionary<string, MassSum> Assemblies, ImmutableSortedDictionary<LoadState, MassSum> States, ImmutableArray<string> Lacks, ImmutableDictionary<string, RigidMove> Raised)
{
    /// <summary>Where a mass is in a state (mm).</summary>
    public Vec3 Place(PlacedMass mass, LoadState state) => Place(Raised, mass, state);

    private static Vec3 Place(ImmutableDictionary<string, RigidMove> raised, PlacedMass mass, LoadState state) =>
        state == LoadState.Raised && mass.Lift is { } lift && raised.TryGetValue(lift, out var move) ? move.Apply(mass.At) : mass.At;

    /// <summary>kg of what each lift carries, without loads.</summary>
    public SortedDictionary<string, double> Lifted { get; } = LiftedOf(Masses);

    private static SortedDictionary<string, double> LiftedOf(ImmutableArray<PlacedMass> masses)
    {
        var lifted = new SortedDictionary<string, double>(StringComparer.Ordinal);
        foreach (var mass in masses) if (mass.Lift is { } lift) lifted[lift] = lifted.GetValueOrDefault(lift) + mass.Likely;
        return lifted;
    }

    internal static MassModel Of(Ledger ledger)
    {
        var takeoff = ledger.Input.Takeoff;
        var lifted = ledger.Structure.Lifts.SelectMany(l => l.Carries.Select(c => (Panel: c, l.Name))).GroupBy(x => x.Panel, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Name, StringComparer.Ordinal);
        var raised = ledger.Structure.Lifts.ToImmutableDictionary(l => l.Name, l => l.Raised, StringComparer.Ordinal);
        var masses = PlacedLines(ledger, lifted);
        var loads = ImmutableArray.CreateBuilder<(CarriedLoad, PlacedMass)>();
        foreach (var load in takeoff.Loads)
        {
            if (!load.Weight.IsKnown) continue;
            if (load.At is not { } at)
            {
                ledger.Tell(EngineeringFindings.LoadUnplaced, $"Load {load.Name} does not say where it is, so it is in the weights and in no centre of gravity.", load.Fact.NameSpan, load.Name + ".at", $"Add a line such as: at {ledger.Say.Such("(0 in, 0 in, 12 in)", "(0 mm, 0 mm, 300 mm)")}.");
                continue;
            }
            loads.Add((load, new PlacedMass(load.Name + ".weight", load.Weight.Parts, new Vec3(at[0], at[1], at[2]), [], load.On is { } on ? lifted.GetValueOrDefault(on) : null)));
        }
        var lacks = (ledger.Input.Figures.Find("total.weight")?.Lacks ?? []).AddRange(takeoff.Loads.Where(l => !l.Weight.IsKnown).Select(l => l.Name + ".weight"));
        var byPanel = masses.Where(m => m.Panels.Length == 1).ToLookup(m => m.Panels[0], StringComparer.Ordinal);
        var panels = ImmutableSortedDictionary.CreateBuilder<string, MassSum>(StringComparer.Ordinal);
        foreach (var panel in ledger.Panels)
        {
            if (Sum(byPanel[panel.Name], m => m.At, _ => 1) is not { } sum) continue;
            panels[panel.Name] = sum;
            AddCentre(ledger, panel.Name, "", sum, panel.Fact.HeadSpan, "sum of weight times place of its layers, members, foam and what is fitted in it, over its weight", [panel.Name + ".weight"]);
        }
        var groups = ImmutableSortedDictionary.CreateBuilder<string, MassSum>(StringComparer.Ordinal);
        foreach (var group in takeoff.Assemblies)
        {
            var members = group.Panels.ToHashSet(StringComparer.Ordinal);
            if (Sum(masses.Where(m => m.Panels.Length > 0 && m.Panels.All(members.Contains)), m => m.At, _ => 1) is not { } sum) continue;
            groups[group.Name] = sum;
            AddCentre(ledger, group.Name, "", sum, group.Fact.HeadSpan, "sum of weight times place of its panels and what joins them, over its weight", [group.Name + ".weight"]);
        }
        var states = ImmutableSortedDictionary.CreateBuilder<LoadState, MassSum>();
        foreach (var state in Enum.GetValues<LoadState>())
        {
            var shares = loads.ToDictionary(l => l.Item2, l => l.Item1.ShareIn(state), (IEqualityComparer<PlacedMass>)ReferenceEqualityComparer.Instance);
            if (Sum(masses.Concat(loads.Select(l => l.Item2).Where(m => shares[m] > 0)), m => Place(raised, m, state), m => shares.GetValueOrDefault(m, 1)) is not { } sum) continue;
            states[state] = sum;
            string word = state.ToString().ToLowerInvariant();
            AddCentre(ledger, "total", "_" + word, sum, null, "sum of weight times place of all that is aboard then, over the weight", ["total.weight_" + word, .. ledger.Structure.Panels.Where(p => panels.ContainsKey(p.Name)).Select(p => p.Name + ".centre_x").Order(StringComparer.Ordinal)], lacks);
        }
        return new MassModel([.. masses], loads.ToImmutable(), panels.ToImmutable(), groups.ToImmutable(), states.ToImmutable(), lacks, raised);
    }

    /// <summary>
    /// Sum by the stated rule: what shares a cause is high or low together, causes are independent. Null if nothing weighs anything.
    /// </summary>
    /// <param name="at">Where each is (mm).</param>
    /// <param name="share">How much of it is aboard.</param>
    public static MassSum? Sum(IEnumerable<PlacedMass> of, Func<PlacedMass, Vec3> at, Func<PlacedMass, double> share)
    {
        var masses = of as IReadOnlyList<PlacedMass> ?? [.. of];
        var (total, first) = (0.0, Vec3.Zero);
        var causes = new List<CausedSpread>();
        foreach (var m in masses)
        {
            double part = share(m), kg = m.Likely * part;
            total += kg;
            first += at(m) * kg;
            causes.AddRange(part == 1 ? m.Parts : m.Parts.Select(p => p with { Value = p.Value.Times(part) }));
        }
        if (total <= 0) return null;
        var centre = first / total;
        // To first order a weight that is dm off moves the centre by dm (at - centre) / total; within a cause these add, between causes their squares do.
        var moves = new Dictionary<string, (Vec3 Up, Vec3 Down)>(StringComparer.Ordinal);
        foreach (var m in masses)
        {
            var arm = (at(m) - centre) * (share(m) / total);
            foreach (var p in m.Parts)
            {
                if (p.Value.Above == 0 && p.Value.Below == 0) continue;
                var (up, down) = moves.GetValueOrDefault(p.Cause);
                moves[p.Cause] = (up + arm * p.Value.Above, down - arm * p.Value.Below);
            }
        }
        double Reach(Func<Vec3, double> axis, double sign) => Math.Sqrt(moves.Values.Sum(v => Math.Pow(Math.Max(0, Math.Max(sign * axis(v.Up), sign * axis(v.Down))), 2)));
        Vec3 Way(double sign) => new(Reach(v => v.X, sign), Reach(v => v.Y, sign), Reach(v => v.Z, sign));
        return new MassSum(Spreads.SumByCause(causes), centre, centre - Way(-1), centre + Way(1));
    }

    private static void AddCentre(Ledger ledger, string thing, string state, MassSum sum, Span? from, string formula, ImmutableArray<string> inputs, ImmutableArray<string> lacks = default)
    {
        foreach (var (axis, of) in new (string, Func<Vec3, double>)[] { ("x", v => v.X), ("y", v => v.Y), ("z", v => v.Z) })
            ledger.Add($"{thing}.centre_{axis}{state}", new Spread(of(sum.Lowest) / 1000, of(sum.Centre) / 1000, of(sum.Highest) / 1000), Dimension.OfLength, from, formula, [.. inputs.Select(i => i.Replace(".centre_x", ".centre_" + axis, StringComparison.Ordinal))], lacks);
    }

    private static List<PlacedMass> PlacedLines(Ledger ledger, Dictionary<string, string> lifted)
    {
        var takeoff = ledger.Input.Takeoff;
        var centres = ledger.Panels.ToDictionary(p => p.Name, p => new PanelCentres(ledger, p), StringComparer.Ordinal);
        var joints = ledger.Structure.Joints.GroupBy(JointTakeoff.NameOf, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var struts = ledger.Structure.Lifts.SelectMany(l => l.Fact.All("strut").Select(s => (Lift: l, Strut: s))).ToLookup(s => $"{s.Lift.Name}.{s.Strut.Name}", StringComparer.Ordinal);
        var loads = takeoff.Loads.Select(l => l.Name).ToHashSet(StringComparer.Ordinal);
        var weighed = takeoff.Built.Where(b => b.Weighed is not null).GroupBy(b => b.Panel, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Weighed!.Value, StringComparer.Ordinal);
        var masses = new List<PlacedMass>();
        string? LiftOf(ImmutableArray<string> panels)
        {
            // What joins a panel that rises to one that stands stays with the one that stands.
            var lifts = panels.Select(p => lifted.GetValueOrDefault(p)).Distinct().ToList();
            return lifts.Count == 1 ? lifts[0] : null;
        }
        foreach (var line in takeoff.Lines)
        {
            if (!line.Weight.IsKnown || loads.Contains(line.Subject)) continue;
            if (line.IsOfBarePanel && weighed.ContainsKey(line.Panels[0])) continue;
            Vec3 at;
            if (line.Panels.Length == 1) at = centres[line.Panels[0]].Of(line);
            else if (joints.TryGetValue(line.Subject, out var joint)) at = joint.From.Lerp(joint.To, 0.5);
            else if (line.Panels.Length > 1) at = line.Panels.Aggregate(Vec3.Zero, (s, p) => s + centres[p].Whole) / line.Panels.Length;
            else if (struts[line.Subject].FirstOrDefault() is { Strut: { } strut } && ledger.Evaluator.Place(strut, "fixed") is { } a && ledger.Evaluator.Place(strut, "moving") is { } b) at = new Vec3(a[0] + b[0], a[1] + b[1], a[2] + b[2]) / 2;
            else if (ledger.Structure.Lifts.FirstOrDefault(l => l.Name == line.Subject) is { } lift && lift.Carries.Where(centres.ContainsKey).ToList() is { Count: > 0 } carried) at = carried.Aggregate(Vec3.Zero, (s, p) => s + centres[p].Whole) / carried.Count;
            else if (SubframeTakeoff.PlaceOf(ledger.Structure, line.Subject) is { } place) at = place;
            else continue;
            masses.Add(new PlacedMass(line.Name("weight"), line.Weight.Parts, at, line.Panels, LiftOf(line.Panels)));
        }
        // The scale takes over; the centre stays where the estimate puts it.
        foreach (var (panel, kg) in weighed.OrderBy(w => w.Key, StringComparer.Ordinal))
        {
            var estimate = Sum(takeoff.Lines.Where(l => l.IsOfBarePanel && l.Panels[0] == panel && l.Weight.IsKnown).Select(l => new PlacedMass(l.Key, l.Weight.Parts, centres[panel].Of(l), l.Panels, null)), m => m.At, _ => 1);
            masses.Add(new PlacedMass(panel + ".weight", [new CausedSpread(panel + ".weighed", Spread.Exactly(kg))], estimate?.Centre ?? centres[panel].Whole, [panel], lifted.GetValueOrDefault(panel)));
        }
        return masses;
    }
}
