using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Reporting;
using Wain.Core.Takeoff;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>The tables of engineering, in the units that the spec shows: pounds and inches, or kilograms and millimetres.</summary>
public static class EngineeringTables
{
    public static ImmutableArray<Table> Of(EngineeringResult result)
    {
        var show = Shown.Of(result.Input);
        IEnumerable<Table> all =
        [
            States(result, show), Weights(result, show), .. BalanceTables.Of(result, show), .. LiftTables.Of(result, show), StrengthTable(result, show), .. WarmthTables.Of(result, show),
            .. MixTables.Of(result, show), .. WorkTables.Of(result, show),
        ];
        return [.. all.Where(t => t.Rows.Length > 0)];
    }

    private static Table States(EngineeringResult result, Shown show) => new("states", "Weight and centre by state",
        [new("state", "State"), show.Mass("low", "Low"), show.Mass("likely", "Likely"), show.Mass("high", "High"), show.Length("x", "Centre forward"), show.Length("y", "Centre left"), show.Length("z", "Centre up"), new("lacks", "Missing from it")],
        [.. result.Masses.States.Select(s => new Row(s.Key.ToString().ToLowerInvariant(), [s.Key.ToString().ToLowerInvariant(), show.Kg(s.Value.Weight.Low), show.Kg(s.Value.Weight.Likely), show.Kg(s.Value.Weight.High), show.Mm(s.Value.Centre.X), show.Mm(s.Value.Centre.Y), show.Mm(s.Value.Centre.Z), Figures.Figure.InShort(result.Masses.Lacks)]))])
    {
        Note = "Measured from the front edge of the bed floor on the centre line. Spreads: what shares a density is high or low together; causes are independent and combine by the root of the sum of squares.",
    };

    private static Table Weights(EngineeringResult result, Shown show) => new("centres", "Weight and centre",
        [new("name", "Part"), new("kind", "Kind"), show.Mass("low", "Low"), show.Mass("likely", "Likely"), show.Mass("high", "High"), show.Length("x", "Centre forward"), show.Length("y", "Centre left"), show.Length("z", "Centre up")],
        [.. result.Masses.Assemblies.Select(a => Line(a.Key, "assembly", a.Value, show)), .. result.Masses.Panels.Where(p => !result.Masses.Assemblies.ContainsKey(p.Key)).Select(p => Line(p.Key, "panel", p.Value, show))])
    {
        Note = "A panel with the windows and doors that are fitted in it. What is weighed takes over from the estimate.",
    };

    private static Row Line(string name, string kind, MassSum sum, Shown show) =>
        new(name, [name, kind, show.Kg(sum.Weight.Low), show.Kg(sum.Weight.Likely), show.Kg(sum.Weight.High), show.Mm(sum.Centre.X), show.Mm(sum.Centre.Y), show.Mm(sum.Centre.Z)]);

    private static Table StrengthTable(EngineeringResult result, Shown show) => new("strength", "Strength and stiffness",
        [new("row", "Row"), new("case", "Case"), new("panel", "Panel"), new("load", "Load"), new("method", "Worked as"), new("what", "What"), new("of", "Of"), new("value", "Value", ColumnKind.Number, Style: new NumberStyle.Decimals(3)), new("allowable", "Allowable", ColumnKind.Number, Style: new NumberStyle.Decimals(3)), new("unit", "Unit"), new("margin", "Margin", ColumnKind.Number, Style: new NumberStyle.Percent(0)), new("source", "Allowable from")],
        [.. result.Strength.Index().Select(r =>
        {
            var (i, row) = r;
            string key = $"{row.Case} {i + 1}";
            bool sag = row.Kind == StrengthKind.Deflection;
            Cell Value(double? v) => v is not { } x ? Cell.Empty : sag ? show.Mm(x * 1000) : row.IsForce ? show.N(x) : show.Pa(x);
            return new Row(key, [key, row.Case, row.Panel, row.Load, row.Method, Strength.Words(row.Kind), row.Of, Value(row.Value), Value(row.Allowable), sag ? show.LengthUnit : row.IsForce ? show.ForceUnit : show.PressureUnit, row.Margin is { } m ? m : Cell.Empty, row.Source]);
        })])
    {
        Note = Cautions.Estimate + " A margin is allowable over value, less one; where no allowable is stated there is none. Each edge is taken to bear the strip that reaches to the middle of the panel; glue, screws and gussets of a joint each as if they held alone, since their strengths don't add. Fillets and tape are not counted, and a joint that its load presses together is left out.",
    };
}

/// <summary>The units that a spec shows.</summary>
internal sealed record Shown(Say Say)
{
    public static Shown Of(EngineeringInput input) => new(input.Structure.Spec.Say);

    public string MassUnit => Say.WeightUnit;
    public string LengthUnit => Say.LengthUnit;
    public string PressureUnit => Say.Metric ? "MPa" : "psi";
    public string ForceUnit => Say.Metric ? "N" : "lbf";
    public string TemperatureUnit => Say.Metric ? "degC" : "degF";

    private static Column Numbers(string key, string heading, string unit, int places) => new(key, heading, ColumnKind.Number, unit, new NumberStyle.Decimals(places));

    public Column Mass(string key, string heading) => Numbers(key, heading, MassUnit, 1);
    public Column Length(string key, string heading) => Numbers(key, heading, LengthUnit, 1);
    public Column Force(string key, string heading) => Numbers(key, heading, ForceUnit, 0);
    public Column Temperature(string key, string heading) => Numbers(key, heading, TemperatureUnit, 0);
    public static Column Plain(string key, string heading, string? unit, int places) => new(key, heading, ColumnKind.Number, unit, new NumberStyle.Decimals(places));

    public double Kg(double kg) => Say.Weighed(kg);
    public double Mm(double mm) => Say.Measured(mm);
    public double Pa(double pascal) => Say.Metric ? pascal / 1e6 : pascal / Customary.Psi;
    public double N(double newton) => Say.Metric ? newton : newton / Customary.PoundForce;
    public double C(double celsius) => Say.Metric ? celsius : celsius * 1.8 + 32;
}

internal static class BalanceTables
{
    public static IEnumerable<Table> Of(EngineeringResult result, Shown show)
    {
        if (result.Balance is not { } balance) yield break;
        yield return new Table("axles", "Axle loads",
            [new("state", "State"), show.Mass("front", "Front axle"), show.Mass("rear", "Rear axle"), show.Mass("gross", "Whole truck"), show.Mass("front_high", "Front, high"), show.Mass("rear_high", "Rear, high"), show.Mass("rear_left", "Rear left"), show.Mass("rear_right", "Rear right"), new("tightest", "Tightest limit"), show.Mass("room", "Room under it")],
            [.. balance.States.Select(s => { string w = s.State.ToString().ToLowerInvariant(); return new Row(w, [w, show.Kg(s.Limits.Axles.Front), show.Kg(s.Limits.Axles.Rear), show.Kg(s.Limits.Axles.Total), show.Kg(s.FrontSpread.High), show.Kg(s.RearSpread.High), s.Rear is { } r ? show.Kg(r.Left) : Cell.Empty, s.Rear is { } q ? show.Kg(q.Right) : Cell.Empty, s.Limits.Tightest?.Name ?? "no rating is stated", s.Limits.Tightest?.Room is { } room ? show.Kg(room) : Cell.Empty]); })])
        { Note = "High: with the spread of the weights, what shares a density high together, causes independent. Room: how much more cargo the tightest limit allows, put where the cargo's centre is now. " + Cautions.Truck };
        if (!balance.IsSlideIn)
        {
            yield return new Table("slide_in", "49 CFR 575.103", [new("what", "What"), new("says", "Says")], [new Row("rule", ["rule", "It speaks of slide-in campers. This one is mounted on the chassis, so the rule does not apply; the axle loads stand by themselves."])]);
        }
        else
        {
            yield return Limits(balance, show);
            yield return SlideIn(result, balance, show);
        }
        yield return new Table("tie_downs", "Tipping and tie-downs",
            [new("direction", "Direction"), Shown.Plain("g", "Acceleration", "g", 2), Shown.Plain("tips", "Tips untied at", "g", 2), show.Force("each", "Most of one strap"), new("strap", "That strap"), show.Force("rated", "Rated"), show.Force("bed", "Left to the bed"), new("missing", "Not held")],
            [.. balance.TieDowns.Select(t => new Row(t.Direction, [t.Direction, t.Acceleration, t.TipsAt is { } tips ? tips : Cell.Empty, t.Worst is { } w ? show.N(w.Most) : Cell.Empty, t.Worst?.Name ?? "", t.Worst?.Rating is { } r ? show.N(r) : Cell.Empty, t.Bed > 0 ? show.N(t.Bed) : Cell.Empty, t.Missing]))])
        { Note = "Estimates: ready to travel, one acceleration at a time, those of 49 CFR 393.102 unless the spec states its own; no friction. Straps share a load as they stretch; the truck's frame twists and roads jolt, which statics does not know. Those are the accelerations at which that rule has straps not break; the maker of straps and turnbuckles comes first." };
        yield return new Table("straps", "Straps by direction",
            [new("row", "Row"), new("direction", "Direction"), new("strap", "Strap"), show.Force("tip", "Against tipping"), show.Force("slide", "Against sliding"), show.Force("rated", "Rated"), Shown.Plain("use", "Of the rating", "%", 0)],
            [.. balance.TieDowns.SelectMany(t => t.Straps.Select(s => new Row($"{t.Direction} {s.Name}", [$"{t.Direction} {s.Name}", t.Direction, s.Name, s.Tip is { } tip ? show.N(tip) : Cell.Empty, t.Direction != "upward" && s.Slide is { } slide ? show.N(slide) : Cell.Empty, s.Rating is { } r ? show.N(r) : Cell.Empty, s.Rating is > 0 and var of ? s.Most / of * 100 : Cell.Empty])))])
        { Note = "Upward stands under tipping. One force of a strap works against tipping and sliding at once, so the larger of the two is what it bears." };
    }

    private static Table Limits(BalanceResult balance, Shown show) => new("limits", "Limits of the truck",
        [new("row", "Row"), new("state", "State"), new("limit", "Limit"), show.Mass("load", "Load"), show.Mass("rating", "Rating"), show.Mass("in_hand", "In hand"), new("terms", "What counts")],
        [.. balance.States.SelectMany(s => s.Limits.Checks.Select(c => { string w = s.State.ToString().ToLowerInvariant(), key = $"{w} {c.Name}"; return new Row(key, [key, w, c.Name, show.Kg(c.Load), show.Kg(c.Limit), show.Kg(c.Margin), c.Terms]); }))])
    { Note = "Each limit on its own terms: one that is kept says nothing of another." };

    private static Table SlideIn(EngineeringResult result, BalanceResult balance, Shown show)
    {
        var e = result.Input.Structure.Spec.Evaluator;
        var rows = new List<Row>();
        void Say_(string what, Cell value, string says) => rows.Add(new Row(what, [what, value, says]));
        if (result.Masses.States.TryGetValue(LoadState.Ready, out var ready))
        {
            Say_("camper weight, most", show.Kg(ready.Weight.High), $"{show.MassUnit}, with its standard equipment and what is named below, the high value of the estimate");
            Say_("camper weight, likely", show.Kg(ready.Weight.Likely), show.MassUnit);
            Say_("centre of gravity", show.Mm(-ready.Centre.X), $"{show.LengthUnit} behind the front edge of the bed floor; the rule asks it within 2 in");
        }
        foreach (var (load, mass) in result.Masses.Loads.Where(l => !l.Load.IsPeople && l.Load.ShareIn(LoadState.Ready) > 0))
        {
            string liquid = load.Stated.Find("full") is { } full && e.Quantity(full, "volume") is { } v ? $", {Say.Number(v.Value * load.ShareIn(LoadState.Ready) / Customary.Gallon, "0.#")} gal" : "";
            Say_($"with {load.Name}", show.Kg(mass.Likely * load.ShareIn(LoadState.Ready)), show.MassUnit + liquid);
        }
        if (balance.Ratings.CargoWeightRating is { } rating) Say_("truck's cargo weight rating", show.Kg(rating), $"{show.MassUnit}, people in seats not counted");
        if (result.Figures.Find(balance.Carrier + ".cargo_rating_by_seats") is { } bySeats) Say_("rating by its seats", show.Kg(bySeats.Value.Value), $"{show.MassUnit}, gross rating less the empty truck and 150 lb a seat, as the rule has it");
        foreach (string how in new[] { "closed", "raised" })
            if (result.Figures.Find($"{balance.Carrier}.height_{how}") is { } high) Say_($"height over the road, {how}", show.Mm(high.Value.Value * 1000), $"{show.LengthUnit}, springs and tyres not yet pressed down");
        if (balance.Ratings.CargoZone is { } zone)
        {
            Say_("zone, rear end", show.Mm(-zone.Rear * 1000), $"{show.LengthUnit} behind the front edge of the bed floor");
            Say_("zone, front end", show.Mm(-zone.Front * 1000), $"{show.LengthUnit} behind the front edge of the bed floor");
        }
        return new Table("slide_in", "Camper and truck, after 49 CFR 575.103", [new("what", "What"), Shown.Plain("value", "Value", null, 1), new("says", "In")], [.. rows])
        {
            Note = "For one's own use: the figures that the rule asks of a maker of slide-in campers. Read the rule before you sell or label anything.",
        };
    }
}

internal static class LiftTables
{
    public static IEnumerable<Table> Of(EngineeringResult result, Shown show)
    {
        if (result.Lifts.IsEmpty) yield break;
        yield return new Table("lifts", "Lifted weight and its points",
            [new("point", "Point"), show.Mass("carried", "Lifted"), show.Force("force", "Force"), show.Force("most", "Most, uneven"), show.Force("least", "Least, uneven"), show.Force("after", "Worst rise on another if it fails"), new("fails", "If it fails")],
            [.. result.Lifts.SelectMany(l => l.Forces is not { } f
                ? [new Row(l.Name, [l.Name, show.Kg(l.Carried.Weight.Likely), Cell.Empty, Cell.Empty, Cell.Empty, Cell.Empty, l.ForcesMissing ?? "no lift points are stated"])]
                : l.Points.Select((p, i) => new Row($"{l.Name}.{p}", [$"{l.Name}.{p}", show.Kg(l.Carried.Weight.Likely), show.N(f.Elastic[i]), show.N(f.Most[i]), show.N(f.Least[i]), f.Failures[i].WorstRise is { } rise ? show.N(rise) : Cell.Empty, f.Failures[i].Falls ? "the corner drops" : "the rest hold it"])))])
        { Note = Cautions.Roof };
        yield return new Table("strut_failures", "If one strut fails",
            [new("strut", "Strut"), show.Force("left", "Other gas springs give"), show.Force("weight", "To hold"), show.Force("by_hand", "Left to hold by hand"), show.Force("load", "On each other actuator"), Shown.Plain("racking", "Couple that racks it", !show.Say.Metric ? "lbf in" : "N m", 0), new("then", "Then")],
            [.. result.Lifts.SelectMany(l => l.Failures.Select(f => new Row($"{l.Name}.{f.Strut}", [$"{l.Name}.{f.Strut}", show.N(f.Left), show.N(f.ToHold), f.Load is null ? show.N(Math.Max(0, f.ToHold - f.Left)) : Cell.Empty, f.Load is { } load ? show.N(load) : Cell.Empty, !show.Say.Metric ? f.Racking / (Customary.PoundForce * Customary.Inch) : f.Racking, Then(l, f)])))])
        { Note = "At the end of a straight travel; of a hinged roof at the angle where least is left, forces at its free edge. Gas springs take over nothing from each other; actuators share what they leave. The couple is borne by guides, walls or hinges, or the roof turns over. " + Cautions.Roof };
        yield return new Table("lift_travel", "Lift over its travel",
            [new("row", "Row"), new("lift", "Lift"), Shown.Plain("travel", "Travel (in, mm or deg)", null, 2), show.Force("needed", "To hold"), show.Force("given", "Struts give"), show.Force("raising", "By hand, raising"), show.Force("lowering", "By hand, lowering"), new("fits", "Within stroke")],
            [.. result.Lifts.SelectMany(l => l.Steps.Where((_, i) => i % 4 == 0).Select((s, i) => { string key = $"{l.Name} {i + 1}"; return new Row(key, [key, l.Name, l.Hinged ? s.Travel : show.Mm(s.Travel), show.N(s.Weight), show.N(s.Struts), show.N(s.HandRaising), show.N(s.HandLowering), s.Fits ? "yes" : "no"]); }))])
        { Note = "A negative force by hand is one that the struts have to spare. " + Cautions.Roof };
    }

    private static string Then(LiftResult lift, StrutFailure failure) => (failure.Sinks, failure.SinksFrom) switch
    {
        (true, _) => lift.Hinged ? "it comes down, that side first" : "the roof comes down, that corner first",
        (_, { } from) => $"it stays fully open, and comes down by itself from {Say.Number(from, "0")} deg",
        _ => "the others hold the weight; the couple racks it",
    };
}

internal static class WarmthTables
{
    public static IEnumerable<Table> Of(EngineeringResult result, Shown show)
    {
        var warm = result.Warmth;
        yield return new Table("walls", "Heat through the walls",
            [new("wall", "Wall"), Shown.Plain("framed", "Framed", "%", 0), Shown.Plain("upper", "Upper limit", "m2 K/W", 3), Shown.Plain("lower", "Lower limit", "m2 K/W", 3), Shown.Plain("u", "U", "W/m2/K", 3), Shown.Plain("r", "R", "ft2 F h/Btu", 1), Shown.Plain("error", "Most error", "%", 1), new("method", "ISO 6946 allows it")],
            [.. warm.Walls.Select(w => new Row(w.Name, [w.Name, w.Framed * 100, w.U.Upper, w.U.Lower, w.U.U, 1 / w.U.U / Customary.RValue, w.U.ErrorBound * 100, w.U.Applicable ? "yes" : "no: upper is over 1.5 times lower"]))]);
        yield return new Table("heat_loss", "Heat loss by part",
            [new("part", "Part"), new("of", "Of"), Shown.Plain("area", "Area", "m2", 2), Shown.Plain("u", "U", "W/m2/K", 2), Shown.Plain("loss", "Loss", "W/K", 2)],
            [.. warm.Areas.OrderByDescending(a => a.Loss).ThenBy(a => a.Name, StringComparer.Ordinal).Select(a => new Row(a.Name, [a.Name, a.Of, a.Area, a.U, a.Loss]))])
        { Note = "Every panel with a core counts as shell of the warm room. Where a lifted shell laps a standing wall both count, which is on the safe side." };
        yield return new Table("nights", "Heater by night",
            [new("night", "Night"), show.Temperature("inside", "Inside"), show.Temperature("outside", "Outside"), Shown.Plain("through", "Through the shell", "W/K", 1), Shown.Plain("air", "By air", "W/K", 1), Shown.Plain("heater", "Heater", "W", 0), Shown.Plain("btu", "Heater", "Btu/h", 0), Shown.Plain("energy", "Heat over the night", "Wh", 0), show.Temperature("surface", "Coldest surface"), show.Temperature("dew", "Dew point"), new("missing", "Missing")],
            [.. warm.Nights.Select(n => new Row(n.Name, [n.Name, show.C(n.Inside), show.C(n.Outside), n.Loss is { } l ? l.Transmission : Cell.Empty, n.Loss is { } a ? a.Ventilation : Cell.Empty, n.Heater is { } h ? h : Cell.Empty, n.Heater is { } b ? b * 3.412142 : Cell.Empty, n.Energy is { } e ? e / 3600 : Cell.Empty, n.Coldest is { } c ? show.C(c.Temperature) : Cell.Empty, n.DewPoint is { } d ? show.C(d) : Cell.Empty, n.Missing ?? ""]))])
        { Note = "Steady state; the margin stands for warming up. Gas heaters need an outlet and fresh air: follow the maker and local codes." };
        var wet = warm.Nights.SelectMany(n => n.Walls.SelectMany(w => w.Report.Spells.Select(s => (Of: n.Name, w.Wall, Spell: s))))
            .Concat(warm.Climates.SelectMany(c => c.Walls.SelectMany(w => w.Report.Spells.Select(s => (Of: c.Name, w.Wall, Spell: s)))));
        yield return new Table("moisture", "Water in the walls",
            [new("row", "Row"), new("of", "Night or climate"), new("wall", "Stack"), new("spell", "Spell"), new("where", "Gathers at"), Shown.Plain("change", "Change", "g/m2", 1), Shown.Plain("held", "Held at its end", "g/m2", 1), new("surface", "Inside surface")],
            [.. wet.Select(x =>
            {
                string key = $"{x.Of} {x.Wall.Stack.Name} {x.Spell.Name}";
                var most = x.Spell.Water.OrderByDescending(w => w.Held).FirstOrDefault();
                return new Row(key, [key, x.Of, x.Wall.Stack.Name, x.Spell.Name, most?.Plane ?? "nowhere", x.Spell.Water.Sum(w => w.Change) * 1000, x.Spell.Held * 1000, x.Spell.WetSurface ? "wet" : "dry"]);
            }).DistinctBy(r => r.Key)])
        { Note = "ISO 13788: steady diffusion through a bay, no air leaking through, no water drawn along. Real walls leak; seal the inside face." };
    }
}

internal static class MixTables
{
    public static IEnumerable<Table> Of(EngineeringResult result, Shown show)
    {
        _ = show;
        Cell Grams(double? kg) => kg is { } v && double.IsFinite(v) ? v * 1000 : Cell.Empty;
        Cell Millilitres(double? m3) => m3 is { } v && double.IsFinite(v) && v > 0 ? v * 1e6 : Cell.Empty;
        var cautions = string.Join(" ", new[] { Cautions.Epoxy, Cautions.Dust, Cautions.Foam });
        yield return new Table("mixes", "What to mix",
            [new("row", "For"), new("step", "Step"), new("material", "Material"), Shown.Plain("total", "Mixed", "g", 0), Shown.Plain("volume", "Mixed volume", "ml", 0), Shown.Plain("a", "Part A", "g", 0), Shown.Plain("b", "Part B", "g", 0), Shown.Plain("batches", "Cups", null, 0), Shown.Plain("each_a", "A in each", "g", 0), Shown.Plain("each_b", "B in each", "g", 0), Shown.Plain("each_a_ml", "A in each", "ml", 0), Shown.Plain("each_b_ml", "B in each", "ml", 0), new("filler", "Filler"), Shown.Plain("filler_ml", "Loose filler", "ml", 0), new("note", "Note")],
            [.. result.Mixes.Where(m => m.Kind != MixKind.Foam).Select(m =>
            {
                double n = m.Batches?.Count ?? 1;
                return new Row(m.Key, [m.Key, m.Step, m.Material.Name, Grams(m.Total), Millilitres(m.Volume), Grams(m.Parts?.MassA), Grams(m.Parts?.MassB), m.Batches is { } b ? b.Count : Cell.Empty, Grams(m.Batches is null ? null : m.Parts?.MassA / n), Grams(m.Batches is null ? null : m.Parts?.MassB / n), Millilitres(m.Batches is null ? null : m.Parts?.VolumeA / n), Millilitres(m.Batches is null ? null : m.Parts?.VolumeB / n), m.Filler?.Name ?? "", Millilitres(m.Filler?.Volume), m.Note]);
            })])
        { Note = cautions };
        yield return new Table("pours", "Foam by bay",
            [new("bay", "Bay"), new("material", "Foam"), Shown.Plain("volume", "Bay", "l", 2), Shown.Plain("total", "Mixed", "g", 1), Shown.Plain("a", "Part A", "g", 1), Shown.Plain("b", "Part B", "g", 1), Shown.Plain("pours", "Pours", null, 0), Shown.Plain("each_a", "A in each pour", "g", 1), Shown.Plain("each_b", "B in each pour", "g", 1), Shown.Plain("each_a_ml", "A in each pour", "ml", 0), Shown.Plain("each_b_ml", "B in each pour", "ml", 0), new("note", "Note")],
            [.. result.Mixes.Where(m => m.Kind == MixKind.Foam).Select(m => new Row(m.Subject, [m.Subject, m.Material.Name, m.Volume is { } v ? v * 1000 : Cell.Empty, Grams(m.Total), Grams(m.Parts?.MassA), Grams(m.Parts?.MassB), m.Pours, Grams(m.Parts?.MassA / m.Pours), Grams(m.Parts?.MassB / m.Pours), Millilitres(m.Parts?.VolumeA / m.Pours), Millilitres(m.Parts?.VolumeB / m.Pours), m.Note]))])
        { Note = Cautions.Foam };
    }
}

internal static class WorkTables
{
    public static IEnumerable<Table> Of(EngineeringResult result, Shown show)
    {
        bool dated = result.Work.Steps.Any(s => s.Date is not null);
        yield return new Table("work", "Plan by days",
            [new("step", "Step"), Shown.Plain("day", "Day", null, 0), .. dated ? [new Column("date", "Date", ColumnKind.Date)] : Array.Empty<Column>(), Shown.Plain("hours", "Hours of work", "h", 1), Shown.Plain("waits", "Then wait", "h", 0), Shown.Plain("free", "Free on day", null, 0), show.Mass("lifted", "Lifted or turned"), Shown.Plain("hands", "Hands", null, 0), new("note", "What"), new("after", "After"), new("done", "Done", ColumnKind.Builder)],
            [.. result.Work.Steps.Select(p => new Row(p.Step.Key, [p.Step.Key, p.Day, .. dated ? [p.Date is { } d ? d : Cell.Empty] : Array.Empty<Cell>(), p.Step.Hours, p.Step.Waits, p.FreeDay, p.Step.Lifted is { } kg ? show.Kg(kg) : Cell.Empty, p.Step.Lifted is null ? Cell.Empty : p.Hands, p.Step.Note, string.Join(", ", p.Step.After.Length <= 4 ? p.Step.After : [.. p.Step.After.Take(3), $"{p.Step.After.Length - 3} more"]), Cell.Empty])),
             .. result.Work.Done.Select(d => new Row(d.Step.Key, [d.Step.Key, Cell.Empty, .. dated ? [Cell.Empty] : Array.Empty<Cell>(), Cell.Empty, Cell.Empty, Cell.Empty, Cell.Empty, Cell.Empty, $"done: {d.How}", "", Cell.Empty]))])
        { Note = $"{result.Work.Days} days, {Say.Number(result.Work.Hours, "0")} hours of work by one person. Hours are defaults that a spec can replace; cures run by night as well." };
        yield return new Table("lifting", "What is lifted and turned over",
            [new("panel", "Panel"), show.Mass("weight", "Weight"), show.Length("width", "Width"), show.Length("height", "Height"), show.Length("from_left", "Centre from left"), show.Length("from_bottom", "Centre from bottom"), Shown.Plain("hands", "Hands", null, 0), new("door", "Through the door"), new("bench", "On the bench")],
            [.. result.Work.Lifted.Select(p => new Row(p.Name, [p.Name, show.Kg(p.Weight), show.Mm(p.Width), show.Mm(p.Height), show.Mm(p.CentreU), show.Mm(p.CentreV), p.Hands, p.PassesDoor ? "yes" : "no", p.FitsBench ? "yes" : "no"]))]);
    }
}
