using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>The stages of building, in the order that they come; within what must come before what, work is laid out stage by stage.</summary>
public enum Stage
{
    Frame,
    Holes,
    Skin,
    Boards,
    Close,
    Pour,
    Cloth,
    Fit,
    Fillet,
    Tape,
    Coat,
    Seal,
    Unit,
    Set,
    Own,
}

/// <summary>How long a step takes, and what that comes from.</summary>
/// <param name="Hours">Of work by one person.</param>
/// <param name="How">In words.</param>
/// <param name="Inputs">Names of the figures that it comes from.</param>
public sealed record Effort(double Hours, string How, ImmutableArray<string> Inputs)
{
    /// <summary>So much of something, at a shipped or stated time for each.</summary>
    /// <param name="of">What is counted, in the singular.</param>
    /// <param name="rate">The default's name.</param>
    /// <param name="inputs">Figures that the amount comes from.</param>
    internal static Effort Of(Ledger ledger, double amount, string of, string rate, params ReadOnlySpan<string> inputs) =>
        new(amount * ledger.Default(rate) / 3600, $"{Say.Number(amount, "0.###")} {of}{(amount == 1 || of == "m2" || of == "m" ? "" : "s")} * default.{rate}", [.. inputs, "default." + rate]);

    public static Effort operator +(Effort a, Effort b) => new(a.Hours + b.Hours, $"{a.How} + {b.How}", [.. a.Inputs, .. b.Inputs]);
}

/// <summary>A step of work.</summary>
/// <param name="Key">What it is done to, then what is done: <c>rear_wall.frame</c>; for a step of the spec's own, its name.</param>
/// <param name="Waits">Hours before the next step may touch it.</param>
/// <param name="After">Keys of the steps that must be done before.</param>
/// <param name="Lifted">kg of what is lifted or turned over; null where nothing is.</param>
public sealed record WorkStep(string Key, Stage Stage, string Subject, Effort Effort, double Waits, ImmutableArray<string> After, double? Lifted, string Note, Span From)
{
    /// <summary>Of work by one person.</summary>
    public double Hours => Effort.Hours;

    /// <summary>The figure of its hours.</summary>
    public string Figure => Key.Replace(" ", "_", StringComparison.Ordinal) + ".work";
}

/// <summary>A step in the plan.</summary>
/// <param name="Day">From 1.</param>
/// <param name="Date">Null if the shop states no first day, or the calendar ends before.</param>
/// <param name="FreeDay">The day that the next step may touch it.</param>
public sealed record PlannedStep(WorkStep Step, int Day, DateOnly? Date, int FreeDay, int Hands);

/// <summary>What is lifted or turned over (kg, mm).</summary>
/// <param name="Hands">People that it takes at the stated weight for one.</param>
public sealed record LiftedPart(string Name, double Weight, double Width, double Height, double Thickness, double CentreU, double CentreV, int Hands, bool PassesDoor, bool FitsBench);

/// <param name="Steps">What is left to do.</param>
/// <param name="Done">What is built already, with the words for it: "fitted on 2026-05-04".</param>
/// <param name="Hours">Of work, all steps that are left.</param>
public sealed record WorkPlan(ImmutableArray<PlannedStep> Steps, ImmutableArray<(WorkStep Step, string How)> Done, ImmutableArray<LiftedPart> Lifted, double Hours, int Days, int People);

/// <summary>What the shop is and has.</summary>
internal sealed record Shop(double Temperature, double PersonLifts, int People, double HoursADay, DateOnly? Start, (double Width, double Height, BoundFact Fact)? Door, (double Length, double Width, BoundFact Fact)? Bench)
{
    public static Shop Read(Ledger ledger)
    {
        var fact = ledger.Spec.All("shop").FirstOrDefault();
        var e = ledger.Evaluator;
        double Stated(string keyword, string slot, string otherwise) => ledger.Stated("shop." + keyword, fact?.Find(keyword), slot) ?? ledger.Default(otherwise);
        (double, double, BoundFact)? Size(string keyword, string a, string b) => fact?.Find(keyword) is { } f && e.Length(f, a) is { } x && e.Length(f, b) is { } y ? (x, y, f) : null;
        return new Shop(Stated("temperature", "value", "shop_temperature") - Customary.IcePoint, Math.Max(1, Stated("person", "value", "person_lifts")), (int)Math.Clamp(ledger.Stated("shop.people", fact?.Find("people"), "count") ?? 1, 1, 1000),
            Math.Clamp(Stated("hours", "hours", "work_day") / 3600, 0.25, 24), fact?.Find("start") is { } s ? e.Date(s, "date") : null, Size("door", "width", "height"), Size("bench", "length", "width"));
    }
}

/// <summary>The order of work: steps from the model, what must come before what, and a plan by days.</summary>
internal static class WorkOrder
{
    public static WorkPlan Of(Ledger ledger, MassModel masses)
    {
        var shop = Shop.Read(ledger);
        var (all, reach) = WorkSteps.Of(ledger, masses, shop);
        var done = WorkSteps.Done(ledger, all);
        var lifted = LiftedParts(ledger, masses, shop);
        var left = ImmutableArray.CreateBuilder<WorkStep>(all.Length);
        var behind = ImmutableArray.CreateBuilder<(WorkStep, string)>();
        foreach (var step in all)
            if (done.TryGetValue(step.Key, out string? how)) behind.Add((step, how));
            else left.Add(step);
        var plan = Schedule.Of(ledger, left.ToImmutable(), reach, done, shop);
        double hours = 0;
        foreach (var step in left) hours += step.Hours;
        int days = 0;
        foreach (var step in plan) days = Math.Max(days, step.FreeDay);
        foreach (var step in left) ledger.Add(step.Figure, step.Hours * 3600, Dimension.OfTime, step.From, step.Effort.How, step.Effort.Inputs);
        ledger.Add("total.work", hours * 3600, Dimension.OfTime, null, "the hours of all steps that are left, by one person", [.. left.Select(s => s.Figure)]);
        ledger.Add("total.days", days, Dimension.None, null, "the last day that something still cures, work laid out in order", ["total.work"]);
        return new WorkPlan(plan, behind.ToImmutable(), lifted, hours, days, shop.People);
    }

    private static ImmutableArray<LiftedPart> LiftedParts(Ledger ledger, MassModel masses, Shop shop)
    {
        var parts = ImmutableArray.CreateBuilder<LiftedPart>();
        foreach (var panel in ledger.Panels)
        {
            if (!masses.Panels.TryGetValue(panel.Name, out var sum)) continue;
            double kg = sum.Weight.Likely, w = panel.Width, h = panel.Height;
            int hands = Math.Max(1, (int)Math.Ceiling(kg / shop.PersonLifts - 1e-9));
            // A flat panel goes through a door on edge: its narrower side must clear the door's longer way.
            bool door = shop.Door is not { } d || Math.Min(w, h) <= Math.Max(d.Width, d.Height) && panel.Thickness <= Math.Min(d.Width, d.Height);
            bool bench = shop.Bench is not { } b || Math.Min(w, h) <= Math.Min(b.Length, b.Width) && Math.Max(w, h) <= Math.Max(b.Length, b.Width);
            var local = panel.Face.ToLocal(sum.Centre);
            parts.Add(new LiftedPart(panel.Name, kg, w, h, panel.Thickness, local.X - panel.Outline.Bounds.Min.X, local.Y - panel.Outline.Bounds.Min.Y, hands, door, bench));
            ledger.Add(panel.Name + ".hands", hands, Dimension.None, panel.Fact.HeadSpan, $"{panel.Name}.weight with what is fitted in it / {ledger.Say.Weight(shop.PersonLifts)} for one person, rounded up", [panel.Name + ".weight"]);
            if (panel.Mirrored is not null) continue;
            if (hands > shop.People)
                ledger.Tell(EngineeringFindings.TooHeavy, $"{panel.Name} weighs {ledger.Say.Weight(kg)}; {shop.People} {(shop.People == 1 ? "person lifts" : "people lift")} {ledger.Say.Weight(shop.PersonLifts * shop.People)}.", panel.Fact.NameSpan, panel.Name + ".hands", $"Have {hands} people for it, or a hoist; turn it over with its windows out.");
            if (!door) ledger.Tell(EngineeringFindings.DoorTooSmall, $"{panel.Name}, {ledger.Say.ToTape(w)} by {ledger.Say.ToTape(h)}, does not go through the shop's door of {ledger.Say.Length(shop.Door!.Value.Width)} by {ledger.Say.Length(shop.Door.Value.Height)}.", panel.Fact.NameSpan, panel.Name + ".door", "A flat panel goes through on edge: the shorter of its sides must be less than the longer of the door's. Build it outside, or in two pieces.");
            if (!bench) ledger.Tell(EngineeringFindings.BenchTooSmall, $"{panel.Name}, {ledger.Say.ToTape(w)} by {ledger.Say.ToTape(h)}, reaches over the bench of {ledger.Say.Length(shop.Bench!.Value.Length)} by {ledger.Say.Length(shop.Bench.Value.Width)}.", panel.Fact.NameSpan, panel.Name + ".bench", "Glue it on a flat floor, or lengthen the bench with a board at the same height.");
        }
        foreach (var (lift, kg) in masses.Lifted)
            if (kg > shop.PersonLifts * shop.People + 1e-9 && ledger.Structure.Lifts.FirstOrDefault(l => l.Name == lift) is { } its)
                ledger.Tell(EngineeringFindings.TooHeavy, $"What {lift} carries weighs {ledger.Say.Weight(kg)} when it is set on; {shop.People} {(shop.People == 1 ? "person lifts" : "people lift")} {ledger.Say.Weight(shop.PersonLifts * shop.People)}.", its.Fact.NameSpan, lift + ".hands", $"Have {(int)Math.Ceiling(kg / shop.PersonLifts - 1e-9)} people for it, or a hoist, or set it on in parts.");
        return parts.ToImmutable();
    }
}
