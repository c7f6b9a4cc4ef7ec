using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Takeoff;
using Wain.Core.Text;

namespace Wain.Core.Engineering;

/// <summary>Steps that follow from the model, and the spec's own.</summary>
internal static class WorkSteps
{
    private static readonly ImmutableArray<(string Word, Stage Stage)> Words =
    [
        ("frame", Stage.Frame), ("holes", Stage.Holes), ("skin", Stage.Skin), ("boards", Stage.Boards), ("close", Stage.Close), ("pour", Stage.Pour), ("cloth", Stage.Cloth),
        ("fit", Stage.Fit), ("fillet", Stage.Fillet), ("tape", Stage.Tape), ("coat", Stage.Coat), ("seal", Stage.Seal), ("unit", Stage.Unit), ("set", Stage.Set),
    ];

    /// <summary>All steps in the order of their stages, and what must come before what so that hands can get at it.</summary>
    public static (ImmutableArray<WorkStep> Steps, List<Reach> Reach) Of(Ledger ledger, MassModel masses, Shop shop)
    {
        var steps = new List<WorkStep>();
        var lastOf = new Dictionary<string, string>(StringComparer.Ordinal);
        var lines = ledger.Input.Takeoff.Lines.Where(l => l.Panels.Length == 1).ToLookup(l => l.Panels[0], StringComparer.Ordinal);
        var ofJoint = ledger.Input.Takeoff.Lines.Where(l => l.Panels.Length > 1).ToLookup(l => l.Subject, StringComparer.Ordinal);
        foreach (var panel in ledger.Panels) PanelSteps(ledger, masses, shop, panel, [.. lines[panel.Name]], steps, lastOf);
        var jointed = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var joint in ledger.Structure.Joints.OrderBy(j => j.Name, StringComparer.Ordinal)) JointSteps(ledger, masses, shop, joint, [.. ofJoint[JointTakeoff.NameOf(joint)]], steps, lastOf, jointed);
        var reach = new WorkReach(ledger, steps);
        var edges = reach.OfJoints(steps);
        foreach (var panel in ledger.Panels) FinishSteps(ledger, shop, panel, [.. lines[panel.Name]], steps, lastOf, jointed, reach, edges);
        foreach (var joint in ledger.Structure.Joints.OrderBy(j => j.Name, StringComparer.Ordinal)) SealStep(ledger, shop, joint, steps);
        foreach (var lift in ledger.Structure.Lifts.OrderBy(l => l.Name, StringComparer.Ordinal)) SetStep(ledger, masses, lift, steps);
        Own(ledger, steps);
        return ([.. steps.DistinctBy(s => s.Key, StringComparer.Ordinal).OrderBy(s => s.Stage).ThenBy(s => s.Key, StringComparer.Ordinal)], edges);
    }

    private static void PanelSteps(Ledger ledger, MassModel masses, Shop shop, PlacedPanel panel, List<TakeoffLine> lines, List<WorkStep> steps, Dictionary<string, string> lastOf)
    {
        var from = panel.Fact.HeadSpan;
        string name = panel.Name;
        double area = panel.Outline.Area() / 1e6;
        double? weight = masses.Panels.TryGetValue(name, out var sum) ? sum.Weight.Likely : null;
        string? last = null;
        void Add(string word, Stage stage, Effort effort, double waits, string note, double? lifted = null)
        {
            steps.Add(new WorkStep($"{name}.{word}", stage, name, effort, waits, last is null ? [] : [last], lifted, note, from));
            last = $"{name}.{word}";
        }
        var frames = ledger.FramesOf(panel).ToList();
        int members = frames.Sum(f => f.Members.Length), holes = frames.Sum(f => f.Members.Sum(m => m.Holes.Length));
        if (members > 0) Add("frame", Stage.Frame, Effort.Of(ledger, members, "member", "hours_member"), 0, $"{members} members");
        if (holes > 0) Add("holes", Stage.Holes, Effort.Of(ledger, holes, "hole", "hours_hole"), 0, $"{holes} holes, before a skin goes on");
        var solid = panel.Stack.Layers.Where(l => l.Kind is LayerKind.Sheet).ToList();
        var glue = panel.Stack.Layers.Select(l => l.Glue).FirstOrDefault(g => g is not null);
        double clamps = Wait(ledger, glue, "clamp_time", "clamp_time", shop);
        bool cored = panel.Stack.Layers.Any(l => l.Kind is LayerKind.Frame or LayerKind.Foam);
        if (solid.Count > 0) Add("skin", Stage.Skin, Effort.Of(ledger, area, "m2", "hours_skin", name + ".area"), cored ? clamps : 0, cored ? $"{Prepare(solid)}, one skin on, under clamps or weight" : "cut to size");
        if (cored)
        {
            if (lines.Any(l => l.Kind == LineKind.FoamBoard)) Add("boards", Stage.Boards, Effort.Of(ledger, area, "m2", "hours_boards", name + ".area"), 0, "foam boards into the bays");
            if (solid.Count > 1) Add("close", Stage.Close, Effort.Of(ledger, area, "m2", "hours_skin", name + ".area"), Wait(ledger, glue, "cure", "clamp_time", shop), $"turn over, {Prepare(solid)}, the other skin, under clamps or weight", weight);
            int bays = frames.Sum(f => f.Cavities.Count(c => c.Fill is { Kind: "foam" }));
            if (bays > 0) Add("pour", Stage.Pour, Effort.Of(ledger, bays, "bay", "hours_pour"), ledger.Default("foam_cure") / 3600, $"{bays} bays, skins braced while it rises", weight);
        }
        var cloth = panel.Stack.Layers.Where(l => l.Kind == LayerKind.Cloth).ToList();
        if (cloth.Count > 0)
        {
            var resin = cloth.Select(c => c.Resin).FirstOrDefault(r => r is not null);
            int coats = cloth.Sum(c => c.Count + c.FillCoats + c.FloodCoats);
            Add("cloth", Stage.Cloth, Effort.Of(ledger, area * coats, "m2", "hours_cloth", name + ".area"), Wait(ledger, resin, "cure", "resin_cure", shop), "sand and wipe its face, then cloth and coats, while it lies open to the bench", weight);
        }
        if (last is not null) lastOf[name] = last;
    }

    /// <summary>What a face wants before glue, by what it is made of; common practice.</summary>
    private static string Prepare(List<StackLayer> skins) => string.Join(" and ", skins.Select(s => s.Material?.Fact.Find("kind")?.Word("kind") switch
    {
        "metal" => "abrade metal to bright and wipe it, and glue it the same hour",
        "plastic" => "abrade and wipe plastic",
        "wood" => "sand and wipe wood",
        _ => "prepare the faces that are glued",
    }).Distinct(StringComparer.Ordinal));

    private static void JointSteps(Ledger ledger, MassModel masses, Shop shop, PlacedJoint joint, List<TakeoffLine> lines, List<WorkStep> steps, Dictionary<string, string> lastOf, Dictionary<string, List<string>> jointed)
    {
        if (joint.Fact.Find("unglued") is not null && joint.Fact.Find("screws") is null) return;
        string key = joint.Name;
        double metres = joint.Length / 1000;
        string[] panels = [joint.First.Panel.Name, joint.Second.Panel.Name];
        ImmutableArray<string> before = [.. panels.Select(p => lastOf.GetValueOrDefault(p)).OfType<string>().Distinct(StringComparer.Ordinal)];
        double? lifted = panels.Select(p => masses.Panels.TryGetValue(p, out var s) ? s.Weight.Likely : (double?)null).Min();
        var glue = lines.FirstOrDefault(l => l.Kind == LineKind.Glue)?.Material;
        var from = joint.Fact.HeadSpan;
        string last = key + ".fit";
        steps.Add(new WorkStep(last, Stage.Fit, key, Effort.Of(ledger, 1, "joint", "hours_fit") + Effort.Of(ledger, metres, "m", "hours_joint"), Wait(ledger, glue, "clamp_time", "clamp_time", shop), before, lifted, "dry fit, glue, screw", from));
        void Then(string word, Stage stage, Effort effort, Material? resin, string note)
        {
            steps.Add(new WorkStep($"{key}.{word}", stage, key, effort, Wait(ledger, resin, "cure", "resin_cure", shop), [last], null, note, from));
            last = $"{key}.{word}";
        }
        // From what the spec says and not from its quantities: what lacks a density is still to be done.
        var fillets = joint.Fact.All("fillet").ToList();
        if (fillets.Count > 0) Then("fillet", Stage.Fillet, Effort.Of(ledger, metres, "m", "hours_fillet"), lines.FirstOrDefault(l => l.Kind == LineKind.Fillet)?.Material, "cove of thickened resin");
        if (joint.Fact.Find("taped") is not null || fillets.Exists(f => f.Has("tape"))) Then("tape", Stage.Tape, Effort.Of(ledger, metres, "m", "hours_tape"), lines.FirstOrDefault(l => l.Kind == LineKind.Resin)?.Material, "tape over the seam");
        foreach (string panel in panels)
        {
            if (!jointed.TryGetValue(panel, out var list)) jointed[panel] = list = [];
            list.Add(last);
        }
    }

    private static void FinishSteps(Ledger ledger, Shop shop, PlacedPanel panel, List<TakeoffLine> lines, List<WorkStep> steps, Dictionary<string, string> lastOf, Dictionary<string, List<string>> jointed, WorkReach reach, List<Reach> edges)
    {
        var from = panel.Fact.HeadSpan;
        ImmutableArray<string> built = lastOf.GetValueOrDefault(panel.Name) is { } last ? [last] : [], before = built.AddRange(jointed.GetValueOrDefault(panel.Name) ?? []), fitted = before;
        var coats = lines.Where(l => l.Kind == LineKind.Coating).ToList();
        double area = coats.Sum(l => l.Also.Where(a => a.Name == "area").Sum(a => a.Value.Value) * Math.Max(1, l.Also.Where(a => a.Name == "coats").Select(a => a.Value.Value).FirstOrDefault()));
        if (coats.Count > 0)
        {
            // Between coats what the can says; after the last the cure, before a frame is bedded on it or a hand leans on it.
            double waits = coats.Max(l => Time(ledger, l.Material, "recoat") * (Math.Max(1, l.Also.Where(a => a.Name == "coats").Select(a => a.Value.Value).FirstOrDefault()) - 1) + Math.Max(Time(ledger, l.Material, "recoat"), Wait(ledger, l.Material, "cure", shop)));
            string note = string.Join(", ", coats.Select(c => c.Material.Name).Distinct(StringComparer.Ordinal)), key = panel.Name + ".coat";
            var covering = reach.Covering(panel);
            if (covering.Count > 0)
            {
                // A face that others will cover is coated while the panel lies free, before it or they are fitted.
                before = built;
                note += $"; before it is fitted, since {covering[0].Name} will cover it: mask where glue comes";
                foreach (var other in covering.Prepend(panel))
                    foreach (var joint in ledger.JointsOf(other))
                        if (reach.FitOf(joint) is { } fit) edges.Add(new Reach(key, fit, EngineeringFindings.FaceUnreachable, $"{panel.Name} can't be coated when its turn comes: {covering[0].Name} covers its face by then.", "Coat it before it is fitted, or leave the other panel off until it is coated.", from, key));
            }
            steps.Add(new WorkStep(key, Stage.Coat, panel.Name, Effort.Of(ledger, area, "m2", "hours_coat", [.. coats.Select(c => c.Key + ".area").Distinct(StringComparer.Ordinal)]), waits, before, null, note, from));
            before = covering.Count > 0 ? [key, .. fitted] : [key];
        }
        foreach (var opening in panel.Openings)
            if (opening.Unit is { } unit) steps.Add(new WorkStep($"{panel.Name}.{opening.Name}.unit", Stage.Unit, $"{panel.Name}.{opening.Name}", Effort.Of(ledger, 1, "unit", "hours_unit"), 0, before, unit.Figure("weight")?.Value.Value, "bed and fasten " + unit.Name, opening.Fact.HeadSpan));
    }

    /// <summary>A bead of sealant goes on once the joint is made and both its panels are coated; it cures before the next thing leans on it.</summary>
    private static void SealStep(Ledger ledger, Shop shop, PlacedJoint joint, List<WorkStep> steps)
    {
        if (joint.Fact.Find("sealant") is not { } fact || ledger.Of(fact, "sealant") is not { } sealant) return;
        string[] panels = [joint.First.Panel.Name, joint.Second.Panel.Name];
        var before = new List<string>();
        foreach (var step in steps) if (step.Subject == joint.Name || step.Stage == Stage.Coat && panels.Contains(step.Subject)) before.Add(step.Key);
        steps.Add(new WorkStep(joint.Name + ".seal", Stage.Seal, joint.Name, Effort.Of(ledger, joint.Length / 1000, "m", "hours_seal"), Wait(ledger, sealant, "cure", shop), [.. before], null, "a bead of " + sealant.Name, joint.Fact.HeadSpan));
    }

    /// <summary>What a lift carries is set on once all of it, and all that stands, is coated and has its windows.</summary>
    private static void SetStep(Ledger ledger, MassModel masses, PlacedLift lift, List<WorkStep> steps)
    {
        var before = new List<string>();
        foreach (var step in steps) if (step.Stage is Stage.Fit or Stage.Fillet or Stage.Tape or Stage.Coat or Stage.Seal or Stage.Unit) before.Add(step.Key);
        double? kg = masses.Lifted.TryGetValue(lift.Name, out double its) ? its : null;
        steps.Add(new WorkStep(lift.Name + ".set", Stage.Set, lift.Name, Effort.Of(ledger, 1, "lift", "hours_set"), 0, [.. before], kg, "set what it carries on its struts or cables, and prop it", lift.Fact.HeadSpan));
    }

    /// <summary>Steps that what is built has behind it: glued up to its last core, fitted with its cloth, and a joint once both its panels are fitted. By key, with the words for it.</summary>
    public static Dictionary<string, string> Done(Ledger ledger, ImmutableArray<WorkStep> steps)
    {
        var fitted = new Dictionary<string, string>(StringComparer.Ordinal);
        var glued = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var fact in ledger.Spec.All("built"))
        {
            if (ledger.Evaluator.Thing(fact, "of") is not { Name: { } name }) continue;
            string Day(string word) => fact.Find(word) is { } done && ledger.Evaluator.Date(done, "date") is { } date ? $"{word} on {date.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}" : word;
            if (fact.Find("fitted") is not null) fitted[name] = Day("fitted");
            if (fact.Find("glued") is not null) glued[name] = Day("glued");
        }
        var done = new Dictionary<string, string>(StringComparer.Ordinal);
        if (fitted.Count == 0 && glued.Count == 0) return done;
        foreach (var step in steps)
            if (step.Stage <= Stage.Cloth && fitted.TryGetValue(step.Subject, out string? how) || step.Stage < Stage.Cloth && glued.TryGetValue(step.Subject, out how)) done[step.Key] = how;
        foreach (var joint in ledger.Structure.Joints)
        {
            if (!fitted.TryGetValue(joint.First.Panel.Name, out string? first) || !fitted.ContainsKey(joint.Second.Panel.Name)) continue;
            foreach (var step in steps) if (step.Subject == joint.Name) done[step.Key] = first;
        }
        return done;
    }

    private static double Time(Ledger ledger, Material? material, string keyword) => material?.Fact.Find(keyword) is { } fact ? (ledger.Evaluator.Number(fact, "time") ?? 0) / 3600 : 0;

    /// <summary>The same without a default: none where the material says nothing.</summary>
    private static double Wait(Ledger ledger, Material material, string keyword, Shop shop) => material.Fact.Find(keyword) is null ? 0 : Wait(ledger, material, keyword, "clamp_time", shop);

    /// <summary>Hours until the next step: as the material states, at the shop's temperature by the rule of pot lives where it states its own; else a default.</summary>
    private static double Wait(Ledger ledger, Material? material, string keyword, string otherwise, Shop shop)
    {
        if (material?.Fact.Find(keyword) is not { } fact || ledger.Evaluator.Number(fact, "time") is not { } seconds) return material is null && keyword != "clamp_time" && otherwise == "clamp_time" ? 0 : ledger.Default(otherwise) / 3600;
        double hours = seconds / 3600;
        return fact.Has("at") && ledger.Evaluator.Number(fact, "at") is { } at && Mixing.PotLifeAt(hours, at - Customary.IcePoint, shop.Temperature).TryGet(out double here) ? here : hours;
    }

    /// <summary>Steps of the spec's own. One that is named as a stage of the model changes that stage for the panels that it is on, or for all.</summary>
    private static void Own(Ledger ledger, List<WorkStep> steps)
    {
        var e = ledger.Evaluator;
        foreach (var fact in ledger.Spec.All("work").OrderBy(f => f.Name, StringComparer.Ordinal))
        {
            if (fact.Name is not { } name) continue;
            Effort? takes = fact.Find("takes") is { } t && e.Number(t, "time") is { } time ? new(time / 3600, "as the spec says", []) : null;
            double? waits = fact.Find("waits") is { } w ? e.Number(w, "time") / 3600 : null;
            var on = fact.All("on").Select(o => e.Thing(o, "panel")?.Name).OfType<string>().ToList();
            string note = fact.Find("note") is { } n ? e.Text(n, "text") ?? "" : "";
            var after = new List<(string Word, Span At)>();
            foreach (var a in fact.All("after")) if (a.Word("step") is { } word) after.Add((word, e.SlotSpan(a, "step")));
            var changed = Words.Any(x => x.Word == name) ? steps.FindAll(s => s.Key.EndsWith("." + name, StringComparison.Ordinal) && (on.Count == 0 || on.Contains(s.Subject))) : [];
            if (changed.Count > 0)
            {
                foreach (var step in changed) steps[steps.IndexOf(step)] = step with { Effort = takes ?? step.Effort, From = takes is null ? step.From : fact.HeadSpan, Waits = waits ?? step.Waits, After = [.. step.After, .. Resolve(ledger, steps, after, on, name)], Note = note.Length > 0 ? note : step.Note };
                continue;
            }
            steps.Add(new WorkStep(name, Stage.Own, on.Count == 0 ? "" : string.Join(", ", on), takes ?? new(0, "the spec states no time", []), waits ?? 0, [.. Resolve(ledger, steps, after, on, name)], null, note, fact.HeadSpan));
        }
    }

    /// <summary>A word after "after": a step by its key, a stage of the panels that the work is on (of all panels if on none), or another step of the spec's own.</summary>
    private static IEnumerable<string> Resolve(Ledger ledger, List<WorkStep> steps, List<(string Word, Span At)> after, List<string> on, string name)
    {
        foreach (var (word, at) in after)
        {
            if (ledger.Spec.All("work").Any(w => w.Name == word) && !Words.Any(w => w.Word == word) || steps.Any(s => s.Key == word))
            {
                yield return word;
                continue;
            }
            if (Words.Any(w => w.Word == word))
            {
                foreach (var step in steps.Where(s => s.Key.EndsWith("." + word, StringComparison.Ordinal) && (on.Count == 0 || on.Contains(s.Subject)))) yield return step.Key;
                continue;
            }
            var known = Words.Select(w => w.Word).Concat(steps.Select(s => s.Key)).Concat(ledger.Spec.All("work").Select(w => w.Name).OfType<string>());
            var nearest = NearestName.Of(word, known);
            ledger.Tell(EngineeringFindings.WorkUnknown, $"There is no step of work named \"{word}\".{NearestName.Ask(nearest)}", at, name + ".after", fixes: [.. nearest.Take(1).Select(n => new Findings.Fix(at, n, $"write {n}"))]);
        }
    }
}
