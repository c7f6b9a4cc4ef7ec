using System.Collections.Immutable;
using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Methods;
using Wain.Core.Framing;
using Wain.Core.Model;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

public enum MixKind
{
    Resin,
    Paste,
    Foam,
    Glue,
    Coating,
}

/// <summary>What to mix or measure out for one step at one place. Masses in kg, volumes in m3.</summary>
/// <param name="Step">Such as "wet out and fill" or "pour".</param>
/// <param name="Total">Mixed mass with waste; null if it can't be had.</param>
/// <param name="Parts">Part A and part B of the whole; null for what comes ready.</param>
/// <param name="Batches">How many cups, and what limits one; null for what comes ready.</param>
/// <param name="Filler">Loose filler, mass and volume; null if there is none.</param>
/// <param name="Pours">Layers of foam, one after another.</param>
public sealed record MixRow(string Key, MixKind Kind, string Subject, string Step, Material Material, double Total, double? Volume, TwoParts? Parts, BatchPlan? Batches, (string Name, double Mass, double Volume)? Filler, int Pours, string Note);

internal static class Mixes
{
    public static ImmutableArray<MixRow> Of(Ledger ledger)
    {
        var rows = ImmutableArray.CreateBuilder<MixRow>();
        var shop = ledger.Spec.All("shop").FirstOrDefault();
        double temperature = (ledger.Stated("shop.temperature", shop?.Find("temperature"), "value") ?? ledger.Default("shop_temperature")) - Customary.IcePoint;
        double cup = ledger.Stated("shop.cup", shop?.Find("cup"), "volume") ?? ledger.Default("cup");
        var lines = ledger.Input.Takeoff.Lines;
        var fillers = lines.Where(l => l.Kind == LineKind.Filler).ToLookup(l => l.Subject, StringComparer.Ordinal);
        foreach (var line in lines.OrderBy(l => l.Key, StringComparer.Ordinal))
        {
            switch (line.Kind)
            {
                case LineKind.Resin or LineKind.Fillet when line.Measure == "mass" && line.Material.Kind == "resin":
                    if (Resin(ledger, line, temperature, cup, line.Kind == LineKind.Fillet ? fillers[line.Subject].FirstOrDefault() : null) is { } resin) rows.Add(resin);
                    break;
                case LineKind.Glue when line.Material.Kind == "resin":
                    if (Resin(ledger, line, temperature, cup, null) is { } bond) rows.Add(bond);
                    break;
                case LineKind.Glue:
                    rows.Add(new MixRow(line.Key, MixKind.Glue, line.Subject, "spread glue", line.Material, line.Gross.Value, line.Material.Density is > 0 ? line.Gross.Value / line.Material.Density : null, null, null, null, 1, GlueNote(ledger, line.Material)));
                    break;
                case LineKind.Coating:
                    rows.Add(new MixRow(line.Key, MixKind.Coating, line.Subject, "coat", line.Material, line.Gross.Value * (line.Material.Density ?? 0), line.Gross.Value, null, null, null, 1, CoatNote(ledger, line.Material)));
                    break;
            }
        }
        foreach (var cavity in ledger.Input.Frames.Cavities.Where(c => c.Fill is { Kind: "foam" }).OrderBy(c => c.Panel.Name, StringComparer.Ordinal).ThenBy(c => c.Key, StringComparer.Ordinal))
            if (Pour(ledger, cavity, temperature) is { } pour) rows.Add(pour);
        return rows.ToImmutable();
    }

    private static MixRow? Resin(Ledger ledger, TakeoffLine line, double temperature, double cup, TakeoffLine? filler)
    {
        var (resin, total) = (line.Material, line.Gross.Value);
        if (total <= 0) return null;
        string need = line.Waste == 0 ? line.Name(line.Measure) : line.Name("need");
        var parts = Parts(ledger, resin, ("resin_density", "hardener_density"), total, need, line.Key + ".part", volumes: true, line.From);
        BatchPlan? batches = null;
        double? density = resin.Density;
        int? hands = null;
        double rate = ledger.Default(filler is null ? "resin_rate" : "paste_rate") / 3600;
        if (resin.Fact.Find("pot_life") is { } pot && ledger.Evaluator.Number(pot, "time") is { } life && density is > 0)
        {
            // A working time is taken to be stated at the temperature of the pot life, and to change with it.
            double at = pot.Has("at") ? (ledger.Evaluator.Number(pot, "at") ?? 0) - Customary.IcePoint : temperature;
            double working = resin.Fact.Find("working_time") is { } open && ledger.Evaluator.Number(open, "time") is > 0 and var stated && Mixing.PotLifeAt(stated, at, temperature).TryGet(out double here) ? here : double.PositiveInfinity;
            var plan = Mixing.PotLifeAt(life, at, temperature).Then(p => Mixing.Batches(total, cup * density.Value, rate, p, workingTime: working));
            if (!plan.TryGet(out batches)) ledger.Lack(line.Key + ".batches", plan.Reason!, line.From);
            else ledger.Add(line.Key + ".batches", batches.Count, Dimension.None, line.From, $"need / batch, rounded up; batch = the smallest of a cup ({Say.Number(cup * density.Value * 1000, "0")} g) and what is spread in six tenths of the pot life and in the working time at {ledger.Say.Temperature(temperature)} ({Say.Number(rate * 3600 * 1000, "0")} g an hour): here the {batches.Because}", [need, line.Material.Name + ".density"]);
            double coats = filler is null ? Coats(line) : 1;
            if (double.IsFinite(working) && Mixing.Hands(total / coats, rate, working).TryGet(out int pairs))
            {
                hands = pairs;
                ledger.Add(line.Key + ".hands", pairs, Dimension.None, line.From, $"need / {Say.Number(coats)} {(coats == 1 ? "coat" : "coats")} / ({Say.Number(rate * 3600 * 1000, "0")} g an hour) / working time of {Say.Number(working / 60, "0")} min, rounded up: people who spread, so that it is worked while all of it is wet", [need]);
            }
        }
        else ledger.Lack(line.Key + ".batches", resin, density is > 0 ? "pot_life" : "density", line.From);
        (string, double, double)? loose = null;
        if (filler is not null)
        {
            double bulk = filler.Material.Figure("bulk_density")?.Value.Value ?? double.NaN;
            loose = (filler.Material.Name, filler.Gross.Value, filler.Gross.Value / bulk);
        }
        string step = filler is not null ? "fillet" : line.Kind == LineKind.Glue ? "glue with resin" : line.Panels.Length > 1 ? "tape" : "wet out and fill";
        return new MixRow(line.Key, filler is null ? MixKind.Resin : MixKind.Paste, line.Subject, step, resin, total, density is > 0 ? total / density : null, parts, batches, loose, 1, string.Join("; ", new[] { batches?.Because is "pot life" or "working time" ? $"cups are small for the {batches.Because}" : "", hands is > 1 ? $"{hands} to spread it while it is wet" : "" }.Where(n => n.Length > 0)));
    }

    /// <summary>Wet-out, fill and flood coats go on one after another; each has its own working time.</summary>
    private static double Coats(TakeoffLine line) => 1 + line.Also.Where(a => a.Name is "fill_coats" or "flood_coats").Sum(a => a.Value.Value);

    /// <summary>
    /// Grams of each part and, where asked for or needed, millilitres. By weight, grams need no density; by volume they need both. What is missing is named, and that alone is missing.
    /// </summary>
    /// <param name="densities">The properties that state the density of each part.</param>
    /// <param name="figure">The figures are named after it: FIGURE_a, FIGURE_b, FIGURE_a_volume, FIGURE_b_volume.</param>
    private static TwoParts? Parts(Ledger ledger, Material material, (string A, string B) densities, double total, string need, string figure, bool volumes, Span from)
    {
        if (material.Fact.Find("mix") is not { } mix || ledger.Evaluator.Number(mix, "a") is not { } a || ledger.Evaluator.Number(mix, "b") is not { } b)
        {
            ledger.Lack(figure + "_a", material, "mix", from);
            return null;
        }
        double? Density(string property) => material.Figure(property)?.Value.Value is > 0 and var stated ? stated : null;
        var (densityA, densityB) = (Density(densities.A), Density(densities.B));
        bool byVolume = mix.Word("by") == "volume";
        if (byVolume && (densityA is null || densityB is null))
        {
            foreach (var (part, density, property) in new[] { ("_a", densityA, densities.A), ("_b", densityB, densities.B) })
                if (density is null) ledger.Lack(figure + part, material, property, from);
            return null;
        }
        var found = byVolume ? Mixing.ByVolume(total, a, b, densityA!.Value, densityB!.Value) : Mixing.ByWeight(total, a, b, densityA, densityB);
        if (!found.TryGet(out var parts))
        {
            ledger.Lack(figure + "_a", found.Reason!, from);
            return null;
        }
        foreach (var (part, share, mass, volume, density, property) in new[] { ("_a", a, parts.MassA, parts.VolumeA, densityA, densities.A), ("_b", b, parts.MassB, parts.VolumeB, densityB, densities.B) })
        {
            string words = byVolume
                ? $"{need} * {Say.Number(share)} * {material.Name}.{property} / ({Say.Number(a)} * {material.Name}.{densities.A} + {Say.Number(b)} * {material.Name}.{densities.B})"
                : $"{need} * {Say.Number(share)} / {Say.Number(a + b)}";
            ledger.Add(figure + part, mass, Dimension.OfMass, from, words, byVolume ? [need, $"{material.Name}.{densities.A}", $"{material.Name}.{densities.B}"] : [need]);
            if (density is not null) ledger.Add(figure + part + "_volume", volume, Dimension.OfVolume, from, $"{figure}{part} / {material.Name}.{property}", [figure + part, $"{material.Name}.{property}"]);
            else if (volumes) ledger.Lack(figure + part + "_volume", material, property, from);
        }
        return parts;
    }

    /// <summary>Foam for one bay, in grams of each part, by what it rises to at the shop's temperature.</summary>
    private static MixRow? Pour(Ledger ledger, Cavity cavity, double temperature)
    {
        var foam = cavity.Fill!;
        string key = cavity.Panel.Name + "." + cavity.Key;
        var from = cavity.Panel.Fact.HeadSpan;
        Flow(ledger, cavity, foam, key);
        if (foam.Figure("free_rise") is not { } rise || foam.Fact.Find("overpack") is not { } pack || ledger.Evaluator.Number(pack, "share") is not { } overpack)
        {
            ledger.Lack(key + ".foam", foam, foam.Figure("free_rise") is null ? "free_rise" : "overpack", from);
            return null;
        }
        double deepest = foam.Fact.Find("pour_depth") is { } depth ? ledger.Evaluator.Number(depth, "value") ?? double.PositiveInfinity : double.PositiveInfinity;
        double? warm = foam.Fact.Find("data_sheet_temperature") is { } sheet ? ledger.Evaluator.Number(sheet, "value") - Customary.IcePoint : null;
        // The stated loss is for each ten Fahrenheit degrees; parts warmer than the sheet's are taken as at the sheet's.
        double factor = warm is { } w && foam.Figure("cold_loss") is { } loss ? Math.Max(0.2, 1 - loss.Value.Value * Math.Max(0, w - temperature) / (50.0 / 9)) : 1;
        double rises = cavity.Outline.Bounds.Height / 1000;
        var found = PourFoam.Cavity(cavity.Volume / 1e9, rise.Value.Value, 1 + overpack, factor, rises, deepest);
        if (!found.TryGet(out var pour))
        {
            ledger.Lack(key + ".foam", found.Reason!, from);
            return null;
        }
        ImmutableArray<string> inputs = [foam.Name + ".free_rise"];
        ledger.Add(key + ".foam", pour.Mass, Dimension.OfMass, from, $"V * {foam.Name}.free_rise * (1 + overpack) / cold, V = {Say.Number(cavity.Volume / 1e6, "0.00")} l, overpack = {Say.Number(overpack, "0.00")}, cold = {Say.Number(factor, "0.000")} at {ledger.Say.Temperature(temperature)}", inputs);
        var parts = Parts(ledger, foam, ("part_a_density", "part_b_density"), pour.Mass, key + ".foam", key + ".foam", volumes: false, from);
        ledger.Add(key + ".pours", pour.Pours, Dimension.None, from, double.IsFinite(deepest) ? $"height / deepest pour = {ledger.Say.Roughly(rises * 1000)} / {ledger.Say.Roughly(deepest * 1000)}, rounded up" : "one, since no depth is stated", [key + ".foam"]);
        string cold = factor < 1 ? $"colder than its data sheet by {ledger.Say.Warmer(warm!.Value - temperature)}: {Say.Percent(1 / factor - 1)} more" : "";
        string cream = foam.Fact.Find("cream") is { } rising && ledger.Evaluator.Number(rising, "time") is { } seconds ? $"mix and pour within {Say.Number(seconds, "0")} s" : "";
        return new MixRow(key + ".foam", MixKind.Foam, key, "pour", foam, pour.Mass, cavity.Volume / 1e9, parts, null, null, pour.Pours, string.Join("; ", new[] { cream, cold }.Where(n => n.Length > 0)));
    }

    private static void Flow(Ledger ledger, Cavity cavity, Material foam, string key)
    {
        double? shallow = foam.Fact.Find("shallow") is { } s ? ledger.Evaluator.Length(s, "value") : null, flow = foam.Fact.Find("flow") is { } f ? ledger.Evaluator.Length(f, "value") : null;
        if (flow is not { } reach) return;
        var bounds = cavity.Outline.Bounds;
        double farthest = Math.Max(bounds.Width, bounds.Height), narrow = Math.Min(bounds.Width, bounds.Height);
        if (shallow is { } thin && cavity.Depth < thin - 0.01 && farthest > reach)
        {
            int spaces = (int)Math.Ceiling(farthest / reach);
            ledger.Tell(EngineeringFindings.CavityTooShallow, $"Bay {key} is {ledger.Say.Length(Math.Round(cavity.Depth, 1))} deep and reaches {ledger.Say.Length(Math.Round(farthest))}; {foam.Name} fills badly under {ledger.Say.Length(thin)} beyond {ledger.Say.Length(reach)}.", cavity.Panel.Fact.HeadSpan, key, $"Fill it with foam boards, or part it into {spaces} spaces that are poured one by one.", fixes: Parted(ledger, cavity, reach, both: true));
        }
        else if (narrow > reach)
            ledger.Tell(EngineeringFindings.CavityWide, $"Bay {key} is {ledger.Say.Length(Math.Round(narrow))} across its narrower way, more than the {ledger.Say.Length(reach)} that {foam.Name} flows; it wants more than one pour hole.", cavity.Panel.Fact.HeadSpan, key, fixes: Parted(ledger, cavity, reach, both: false));
    }

    /// <summary>Studs so close that foam reaches across every bay; nothing where a bay is too long along them as well, or holes and zones lay it out otherwise.</summary>
    /// <param name="both">True if the bay's length must be within reach too.</param>
    private static ImmutableArray<Fix> Parted(Ledger ledger, Cavity cavity, double reach, bool both)
    {
        if (cavity.Panel is not { Mirrored: null, Openings.IsEmpty: true } || ledger.FramesOf(cavity.Panel).FirstOrDefault() is not { Zone: null, Clear: { } clear } frame) return [];
        var (row, along) = frame.Rules.Turned ? (clear.Bounds.Height, cavity.Outline.Bounds.Width) : (clear.Bounds.Width, cavity.Outline.Bounds.Height);
        if (both && along > reach) return [];
        int count = (int)Math.Ceiling((row - reach) / (reach + frame.Layer.FaceWidth) - 1e-9);
        string studs = count.ToString(CultureInfo.InvariantCulture);
        return (frame.Rules.Fact, frame.Rules.Fact?.Find("studs")) switch
        {
            (_, { } stated) when stated.Has("count") => [Fixing.Write(ledger.Spec, stated, "count", studs)],
            (_, { } stated) when stated.Has("every") => [Fixing.Write(ledger.Spec, stated, "every", ledger.Say.AtMost(reach))],
            ({ } fact, null) => Fixing.One(Fixing.AddLine(fact, $"studs count {studs}")),
            (null, _) => Fixing.One(Fixing.AddLine(cavity.Panel.Fact, $"frame {{\n    studs count {studs}\n}}")),
            _ => [],
        };
    }

    private static string GlueNote(Ledger ledger, Material glue)
    {
        string Time(string keyword, string words) => glue.Fact.Find(keyword) is { } fact && ledger.Evaluator.Number(fact, "time") is { } s ? $"{words} {Say.Number(s / 60, "0")} min" : "";
        return string.Join(", ", new[] { Time("open_time", "close within"), Time("clamp_time", "under clamps") }.Where(t => t.Length > 0));
    }

    private static string CoatNote(Ledger ledger, Material coating) => coating.Fact.Find("recoat") is { } fact && ledger.Evaluator.Number(fact, "time") is { } s ? $"next coat after {Say.Number(s / 3600, "0.#")} h" : "";
}
