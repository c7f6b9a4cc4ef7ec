using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>Air on one side: degrees Celsius, humidity as a fraction or null.</summary>
internal sealed record Air(double Temperature, double? Humidity)
{
    public static Air? Read(Ledger ledger, BoundFact? fact, string owner, string side, string temperature = "temperature", string humidity = "humidity")
    {
        if (fact is null || ledger.Stated($"{owner}.{side}", fact, temperature) is not { } kelvin) return null;
        double? share = ledger.Stated($"{owner}.{side}_humidity", fact, humidity);
        if (share is <= 0 or > 1)
        {
            var place = ledger.Evaluator.SlotSpan(fact, humidity);
            // A bare 80 was meant as 80 %.
            bool bare = share is > 1 and <= 100 && fact.Slots.TryGetValue(humidity, out var written) && written.Terms[0] is Syntax.NumberExpression;
            ledger.Tell(EngineeringFindings.ImpossibleHumidity, $"A humidity of {place.Text} can't be: air holds more than none and at most 100 %.", place, $"{owner}.{side}_humidity", bare ? "A bare number is a share of one." : null, fixes: bare ? [new(place, place.Text + " %", $"write {place.Text} %")] : []);
            share = null;
        }
        return new Air(kelvin - Customary.IcePoint, share);
    }
}

/// <summary>Heater, surfaces and condensation of a stated night.</summary>
internal static class Nights
{
    public static NightResult? Of(Ledger ledger, BoundFact fact, ImmutableArray<WarmArea> areas, ImmutableArray<WarmWall> walls, double? volume, bool whole)
    {
        string name = fact.Name!;
        if (Air.Read(ledger, fact.Find("inside"), name, "inside") is not { } inside || Air.Read(ledger, fact.Find("outside"), name, "outside") is not { } outside)
        {
            ledger.Lack(name + ".heater", $"night {name} does not state the air inside and outside", fact.NameSpan);
            ledger.Tell(EngineeringFindings.NightIncomplete, $"Night {name} must state the temperature inside and outside.", fact.NameSpan, name);
            return null;
        }
        if (outside.Temperature >= inside.Temperature)
            ledger.Tell(EngineeringFindings.NightWarm, $"Night {name} is {ledger.Say.Temperature(outside.Temperature)} outside and {ledger.Say.Temperature(inside.Temperature)} inside: it takes no heat.", fact.Find("outside")!.Span, name, "Look at the sign and the unit of both.");
        double hours = (ledger.Stated(name + ".lasts", fact.Find("lasts"), "time") ?? ledger.Default("night_length")) / 3600;
        var loss = Loss(ledger, fact, areas, volume, whole, out string? missing);
        double? heater = null, energy = null;
        if (loss is not null)
        {
            double margin = 1 + (ledger.Stated(name + ".margin", fact.Find("margin"), "value") ?? 0), people = ledger.Stated(name + ".people", fact.Find("people"), "count") ?? 0;
            double gains = people * ledger.Default("sleeper_heat");
            ledger.Add(name + ".heat_loss", loss.Total * (inside.Temperature - outside.Temperature), Dimension.OfPower, fact.NameSpan, $"(sum of U * area and bridges + air) * ({name}.inside - {name}.outside) = ({Say.Number(loss.Transmission, "0.0")} + {Say.Number(loss.Ventilation, "0.0")} W/K) * {Say.Number(inside.Temperature - outside.Temperature, "0.0")} K", [.. areas.Where(a => a.Wall is not null && !a.Name.Contains('.')).Select(a => a.Name + ".u"), name + ".inside", name + ".outside"]);
            if (HeatLoss.Heater(loss.Total, inside.Temperature, outside.Temperature, margin, gains).TryGet(out double w))
            {
                heater = w;
                // Over the whole night without the margin, which is there to warm up from cold; what people give off counts in full.
                energy = HeatLoss.Heater(loss.Total, inside.Temperature, outside.Temperature, 1, gains).Or(0) * hours * 3600;
                ledger.Add(name + ".heater", w, Dimension.OfPower, fact.NameSpan, $"{name}.heat_loss * {Say.Number(margin)} - {Say.Number(people)} * default.sleeper_heat", [name + ".heat_loss", "default.sleeper_heat"]);
                ledger.Add(name + ".heat", energy.Value, Dimension.OfEnergy, fact.NameSpan, $"({name}.heat_loss - {Say.Number(people)} * default.sleeper_heat, not below none) * {Say.Number(hours)} h", [name + ".heat_loss", "default.sleeper_heat"]);
            }
        }
        else ledger.Lack(name + ".heater", missing!, fact.NameSpan);
        (WarmWall, double)? coldest = null;
        foreach (var wall in walls)
        {
            double surface = inside.Temperature - wall.WorstU * wall.InsideSurface * (inside.Temperature - outside.Temperature);
            if (coldest is null || surface < coldest.Value.Item2) coldest = (wall, surface);
        }
        if (coldest is { } c) ledger.Add(name + ".coldest_surface", c.Item2 + Customary.IcePoint, Dimension.OfTemperature, fact.NameSpan, $"{name}.inside - U * Rsi * ({name}.inside - {name}.outside), U = {Say.Number(c.Item1.WorstU, "0.00")} W/m2/K through the coldest path of {c.Item1.Stack.Name}, Rsi = {Say.Number(c.Item1.InsideSurface)} m2 K/W", [name + ".inside", name + ".outside"]);
        double? dew = inside.Humidity is { } rh && Vapour.DewPoint(inside.Temperature, rh).TryGet(out double d) ? d : null;
        if (dew is { } t && coldest is { } cold && cold.Item2 < t)
            ledger.Tell(EngineeringFindings.WetSurface, $"Night {name}: the inside of {cold.Item1.Stack.Name} over its members is at {ledger.Say.Temperature(cold.Item2)}, below the dew point of {ledger.Say.Temperature(t)}; water will stand on it.", fact.NameSpan, $"{name}.{cold.Item1.Stack.Name}.surface", "More air change, less humidity, or a break in the members.");
        return new NightResult(name, inside.Temperature, outside.Temperature, loss, heater, energy, missing, coldest, dew, Moist.Of(ledger, fact, walls, inside, outside, hours));
    }

    private static HeatLossReport? Loss(Ledger ledger, BoundFact fact, ImmutableArray<WarmArea> areas, double? volume, bool whole, out string? missing)
    {
        missing = !whole ? "a part of the shell lacks its transmittance" : volume is null ? "no room between level panels was found" : areas.IsEmpty ? "no panel has a core" : null;
        if (missing is not null) return null;
        double? change = ledger.Stated(fact.Name + ".air_change", fact.Find("air_change"), "rate");
        if (change is null)
        {
            missing = $"night {fact.Name} states no air_change";
            return null;
        }
        var bridges = fact.All("bridge").Select(b => (b, Value: ledger.Evaluator.Number(b, "value"))).Where(b => b.Value is not null).Select(b => new HeatLine(b.b.Name ?? "bridge", b.Value!.Value, 1));
        var found = HeatLoss.Coefficient([.. areas.Select(a => new HeatArea(a.Name, a.U, a.Area))], [.. bridges], volume!.Value, change.Value);
        missing = found.Reason;
        return found.TryGet(out var report) ? report : null;
    }
}

/// <summary>Water within walls: for a night from a dry start, and month by month.</summary>
internal static class Moist
{
    public static ImmutableArray<(WarmWall, MoistureReport)> Of(Ledger ledger, BoundFact fact, ImmutableArray<WarmWall> walls, Air inside, Air outside, double hours)
    {
        if (inside.Humidity is not { } hi || outside.Humidity is not { } ho || !ClimateSpell.Of(fact.Name!, inside.Temperature, hi, outside.Temperature, ho, hours * 3600).TryGet(out var spell)) return [];
        var results = ImmutableArray.CreateBuilder<(WarmWall, MoistureReport)>();
        foreach (var wall in Worst(walls))
        {
            if (!Layers(ledger, fact, wall, out var layers) || !Glaser.Spells(layers, wall.InsideSurface, Warmth.OutsideSurface, [spell]).TryGet(out var report)) continue;
            results.Add((wall, report));
            ledger.Add($"{fact.Name}.{wall.Stack.Name}.condensate", report.Peak, Dimension.OfMassPerArea, fact.NameSpan, "vapour that reaches the plane less what leaves it, over the night, from a dry start (ISO 13788)", [fact.Name + ".inside", fact.Name + ".outside"]);
            if (report.PeakPlane is { } plane)
                ledger.Tell(EngineeringFindings.WetWithin, $"Night {fact.Name}: {Say.Grams(report.Peak)} of water gathers in {wall.Stack.Name} at {plane}.", fact.NameSpan, $"{fact.Name}.{wall.Stack.Name}", "It must dry by day; a tighter inside face keeps vapour out of the wall.");
        }
        return results.ToImmutable();
    }

    /// <summary>One wall for each stack: moisture goes through the bays, whatever share the members take.</summary>
    public static IEnumerable<WarmWall> Worst(ImmutableArray<WarmWall> walls) => walls.GroupBy(w => w.Stack.Name, StringComparer.Ordinal).Select(g => g.MinBy(w => w.InsideSurface)!);

    public static bool Layers(Ledger ledger, BoundFact fact, WarmWall wall, out ImmutableArray<MoistLayer> layers)
    {
        layers = wall.Bay;
        if (layers.FirstOrDefault(l => double.IsNaN(l.Sd)) is not { } silent) return true;
        var material = ledger.Structure.Materials.First(m => m.Name == silent.Name);
        ledger.Lack($"{fact.Name}.{wall.Stack.Name}.condensate", material, "vapour", wall.Stack.Fact.Span);
        return false;
    }
}

/// <summary>The year of a stated climate, by ISO 13788.</summary>
internal static class Climates
{
    private static readonly string[] Months = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];
    private static readonly int[] Days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    public static ClimateResult? Of(Ledger ledger, BoundFact fact, ImmutableArray<WarmWall> walls)
    {
        var spells = new List<(int Order, ClimateSpell Spell)>();
        foreach (var month in fact.All("month"))
        {
            string name = (month.Name ?? "").ToLowerInvariant();
            name = name[(name.LastIndexOf('.') + 1)..];
            int index = Array.FindIndex(Months, m => name.Length >= 3 && m.StartsWith(name, StringComparison.Ordinal));
            var inside = Air.Read(ledger, month, month.Path, "inside", "inside", "inside_humidity");
            var outside = Air.Read(ledger, month, month.Path, "outside", "outside", "outside_humidity");
            if (inside?.Humidity is not { } hi || outside?.Humidity is not { } ho) continue;
            if (ClimateSpell.Of(name, inside.Temperature, hi, outside.Temperature, ho, (index < 0 ? 30.4375 : Days[index]) * 86400).TryGet(out var spell)) spells.Add((index < 0 ? 12 + spells.Count : index, spell));
        }
        if (spells.Count != 12) ledger.Tell(EngineeringFindings.ClimateIncomplete, $"Climate {fact.Name} has {spells.Count} whole months of 12; the year is run with those.", fact.NameSpan, fact.Name!);
        if (spells.Count == 0) return null;
        ImmutableArray<ClimateSpell> year = [.. spells.OrderBy(s => s.Order).Select(s => s.Spell)];
        var results = ImmutableArray.CreateBuilder<(WarmWall, MoistureReport)>();
        foreach (var wall in Moist.Worst(walls))
        {
            if (!Moist.Layers(ledger, fact, wall, out var layers) || !Glaser.Year(layers, wall.InsideSurface, Warmth.OutsideSurface, year).TryGet(out var report)) continue;
            results.Add((wall, report));
            ledger.Add($"{fact.Name}.{wall.Stack.Name}.condensate", report.Peak, Dimension.OfMassPerArea, fact.NameSpan, "the most that is held at the end of any month, the year begun with the first month that condenses (ISO 13788)", []);
            if (report.PeakPlane is { } plane)
                ledger.Tell(report.DriesOut ? EngineeringFindings.WetSeason : EngineeringFindings.NeverDries, $"Climate {fact.Name}: up to {Say.Grams(report.Peak)} of water gathers in {wall.Stack.Name} at {plane}{(report.DriesOut ? ", and dries within the year" : ", and does not dry within the year")}.", fact.NameSpan, $"{fact.Name}.{wall.Stack.Name}");
        }
        return new ClimateResult(fact.Name!, fact.Find("source") is { } s ? ledger.Evaluator.Text(s, "text") : null, results.ToImmutable());
    }
}
