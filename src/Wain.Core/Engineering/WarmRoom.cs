using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Methods;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Takeoff;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Engineering;

/// <summary>A wall as heat and vapour see it: a stack with one share of members, in one direction of heat flow.</summary>
/// <param name="Framed">Share of the area that members take, 0 to 1.</param>
/// <param name="Bay">Layers through a bay, inside first.</param>
/// <param name="Member">Layers through a member, inside first; empty for a stack without a frame.</param>
public sealed record WarmWall(string Name, Stack Stack, double Framed, HeatFlow Flow, Transmittance U, ImmutableArray<MoistLayer> Bay, ImmutableArray<MoistLayer> Member)
{
    public double InsideSurface => Warmth.InsideSurface(Flow);

    /// <summary>W/(m2 K) through its coldest path.</summary>
    public double WorstU => 1 / (InsideSurface + Warmth.OutsideSurface + new[] { Bay, Member }.Where(p => !p.IsEmpty).Min(p => p.Sum(l => l.Resistance)));
}

/// <summary>One part of the shell of the warm room: area in m2, U in W/(m2 K).</summary>
public sealed record WarmArea(string Name, string Of, double Area, double U, WarmWall? Wall)
{
    public double Loss => Area * U;
}

/// <summary>A stated night: loss in W/K, heater in W, temperatures in degrees Celsius.</summary>
/// <param name="Coldest">The wall with the coldest inside surface, and how cold it is.</param>
/// <param name="DewPoint">Of the air inside; null if its humidity is not stated.</param>
/// <param name="Walls">Moisture of each wall over the night, from a dry start.</param>
public sealed record NightResult(
    string Name, double Inside, double Outside, HeatLossReport? Loss, double? Heater, double? Energy, string? Missing, (WarmWall Wall, double Temperature)? Coldest, double? DewPoint, ImmutableArray<(WarmWall Wall, MoistureReport Report)> Walls);

/// <summary>A stated climate: moisture of each wall over the year.</summary>
public sealed record ClimateResult(string Name, string? Source, ImmutableArray<(WarmWall Wall, MoistureReport Report)> Walls);

/// <param name="Volume">Of air inside, m3; null if it can't be had.</param>
public sealed record WarmthResult(ImmutableArray<WarmWall> Walls, ImmutableArray<WarmArea> Areas, double? Volume, ImmutableArray<NightResult> Nights, ImmutableArray<ClimateResult> Climates);

/// <summary>
/// Heat loss and moisture. The shell of the warm room is taken as every panel with a core (a frame with fill, or foam); furniture has none. Where a lifted shell laps a
/// standing wall both count, which is on the safe side.
/// </summary>
internal static class WarmRoom
{
    public static WarmthResult Of(Ledger ledger)
    {
        var walls = new Dictionary<(string, int, HeatFlow), WarmWall?>();
        var areas = ImmutableArray.CreateBuilder<WarmArea>();
        bool whole = true;
        bool wanted = ledger.Spec.All("night").Any() || ledger.Spec.All("climate").Any();
        foreach (var panel in ledger.Panels)
        {
            if (!wanted) break;
            if (!HasCore(panel.Stack)) continue;
            foreach (var slice in new PlacedZone?[] { null }.Concat(panel.Zones.Where(z => !z.Added)))
            {
                var stack = slice?.Stack ?? panel.Stack;
                double area = LayerAreas.AreaAt(panel, slice, (slice?.Offset ?? 0) + stack.Thickness / 2) / 1e6;
                if (area <= 0) continue;
                var wall = WallOf(ledger, walls, panel, slice, stack);
                string name = slice is null ? panel.Name : $"{panel.Name}.{slice.Name}";
                if (wall is null)
                {
                    whole = false;
                    continue;
                }
                areas.Add(new WarmArea(name, wall.Name, area, wall.U.U, wall));
                if (slice is null) ledger.Add(name + ".u", wall.U.U, Dimension.OfTransmittance, panel.Fact.HeadSpan, $"1 / ((upper + lower) / 2), upper = {Say.Number(wall.U.Upper, "0.000")} and lower = {Say.Number(wall.U.Lower, "0.000")} m2 K/W, {Say.Number(wall.Framed * 100, "0.0")} % of the area framed (ISO 6946)", [.. Inputs(stack), panel.Name + ".net_area"]);
            }
            foreach (var opening in panel.Openings)
            {
                if (opening.Unit is not { } unit) continue;
                string name = $"{panel.Name}.{opening.Name}";
                if (unit.Figure("transmittance") is not { } u)
                {
                    ledger.Lack(name + ".u", unit, "transmittance", opening.Fact.Span);
                    whole = false;
                    continue;
                }
                areas.Add(new WarmArea(name, unit.Fact.Find("kind")?.Word("kind") is { } kind ? $"{unit.Name} ({kind})" : unit.Name, opening.Hole.Area() / 1e6, u.Value.Value, null));
            }
        }
        var (volume, floors) = Volume(ledger);
        if (volume is { } m3 && wanted) ledger.Add("total.air_volume", m3, Dimension.OfVolume, null, "the level panels that nothing lies under, each by its area times its height under the roof, raised", [.. floors.Select(f => f + ".area")]);
        var distinct = areas.Where(a => a.Wall is not null).Select(a => a.Wall!).Distinct().OrderBy(w => w.Name, StringComparer.Ordinal).ToImmutableArray();
        var nights = ledger.Spec.All("night").Where(f => f.Name is not null).OrderBy(f => f.Name, StringComparer.Ordinal).Select(f => Nights.Of(ledger, f, areas.ToImmutable(), distinct, volume, whole)).OfType<NightResult>().ToImmutableArray();
        var climates = ledger.Spec.All("climate").Where(f => f.Name is not null).OrderBy(f => f.Name, StringComparer.Ordinal).Select(f => Climates.Of(ledger, f, distinct)).OfType<ClimateResult>().ToImmutableArray();
        return new WarmthResult(distinct, areas.ToImmutable(), volume, nights, climates);
    }

    private static bool HasCore(Stack stack) => stack.Layers.Any(l => l.Kind == LayerKind.Foam || l.Kind == LayerKind.Frame && l.Fill is not null);

    private static IEnumerable<string> Inputs(Stack stack) => stack.Layers.SelectMany(l => new[] { l.Material, l.Fill }).OfType<Material>().Where(m => m.Figure("conductivity") is not null).Select(m => m.Name + ".conductivity").Distinct(StringComparer.Ordinal);

    private static WarmWall? WallOf(Ledger ledger, Dictionary<(string, int, HeatFlow), WarmWall?> walls, PlacedPanel panel, PlacedZone? zone, Stack stack)
    {
        // Inside is the other side of the outside face; heat goes out along its normal.
        var flow = Warmth.Flow(Math.Asin(Math.Clamp(panel.Face.N.Z, -1, 1))).Or(HeatFlow.Horizontal);
        var frame = ledger.FramesOf(panel).FirstOrDefault(f => f.Zone?.Name == zone?.Name);
        double framed = frame is null ? 0 : frame.Members.Sum(m => m.Area) / Math.Max(1, frame.Members.Sum(m => m.Area) + frame.Cavities.Sum(c => c.Area));
        // Shares that round to one per mille have one U: a wall is worked once and not for each panel.
        var key = (stack.Name, (int)Math.Round(framed * 1000), flow);
        if (walls.TryGetValue(key, out var known)) return known;
        return walls[key] = Build(ledger, panel, stack, key.Item2 / 1000.0, flow);
    }

    private static WarmWall? Build(Ledger ledger, PlacedPanel panel, Stack stack, double framed, HeatFlow flow)
    {
        string name = $"{stack.Name}, {Say.Number(framed * 100, "0.0")} % framed{(flow switch { HeatFlow.Up => ", roof", HeatFlow.Down => ", floor", _ => "" })}";
        var bay = ImmutableArray.CreateBuilder<MoistLayer>();
        var member = ImmutableArray.CreateBuilder<MoistLayer>();
        var bridged = new List<BridgedLayer>();
        bool complete = true;
        MoistLayer? Layer(Material material, double metres, Span from)
        {
            if (material.Figure("conductivity") is not { Value.Value: > 0 } conductivity)
            {
                ledger.Lack(panel.Name + ".u", material, "conductivity", from);
                complete = false;
                return null;
            }
            return new MoistLayer(material.Name, metres / conductivity.Value.Value, (material.Figure("vapour")?.Value.Value ?? double.NaN) * metres);
        }
        // The methods take the warm side first; a stack is told from the outside.
        foreach (var layer in stack.Layers.Reverse())
        {
            var from = layer.Fact.Span;
            switch (layer)
            {
                case { Kind: LayerKind.Frame, Material: { } stick }:
                    {
                        double depth = layer.Thickness / 1000;
                        var wood = Layer(stick, depth, from);
                        MoistLayer? between = layer.Fill is { } fill ? Layer(fill, depth, from) : Warmth.Airspace(depth, flow).TryGet(out double r) ? new MoistLayer("air", r, 0.01) : null;
                        if (wood is null || between is null) break;
                        bay.Add(between);
                        member.Add(wood);
                        bridged.Add(BridgedLayer.With(framed, wood.Resistance, between.Resistance));
                        break;
                    }
                case { Kind: LayerKind.Air }:
                    {
                        if (!Warmth.Airspace(layer.Thickness / 1000, flow).TryGet(out double r)) break;
                        Both(new MoistLayer("air", r, 0.01));
                        break;
                    }
                case { Kind: LayerKind.Cloth, Material: { } cloth }:
                    {
                        // A cloth that says nothing of heat is too thin to matter to it; one that says how tight it is matters to vapour.
                        if (cloth.Figure("weight") is not { } weight || cloth.Figure("glass") is not { } glass || !Laminates.Thickness(weight.Value.Value * layer.Count, glass.Value.Value).TryGet(out double thick)) break;
                        if (cloth.Figure("conductivity") is null && cloth.Figure("vapour") is null) break;
                        if (Layer(cloth, thick, from) is { } its) Both(its);
                        break;
                    }
                case { Kind: LayerKind.Coating, Material: { } coating }:
                    {
                        if (coating.Figure("vapour") is not { } mu || coating.Figure("coverage") is not { Value.Value: > 0 } coverage) break;
                        double film = layer.Count / coverage.Value.Value * (coating.Figure("solids")?.Value.Value ?? 1);
                        Both(new MoistLayer(coating.Name, 0, mu.Value.Value * film));
                        break;
                    }
                case { Thickness: > 0, Material: { } material }:
                    if (Layer(material, layer.Thickness / 1000, from) is { } plain) Both(plain);
                    break;
            }
        }
        void Both(MoistLayer layer)
        {
            bay.Add(layer);
            member.Add(layer);
            bridged.Add(BridgedLayer.Plain(layer.Resistance));
        }
        if (!complete) return null;
        var found = Warmth.Paths(bridged).Then(p => Warmth.Combined(p, Warmth.InsideSurface(flow), Warmth.OutsideSurface));
        if (!found.TryGet(out var u))
        {
            ledger.Lack(panel.Name + ".u", found.Reason!, panel.Fact.NameSpan);
            return null;
        }
        return new WarmWall(name, stack, framed, flow, u, bay.ToImmutable(), stack.Frame is null || framed <= 0 ? [] : member.ToImmutable());
    }

    /// <summary>Level panels with nothing level under them, each by area times height to the underside of the highest panel, with the lifts raised.</summary>
    private static (double? Volume, List<string> Floors) Volume(Ledger ledger)
    {
        var level = ledger.Panels.Where(p => p.IsLevel && HasCore(p.Stack)).ToList();
        var travel = ledger.Structure.Lifts.ToDictionary(l => l.Name, l => l.Direction.Z * l.Travel, StringComparer.Ordinal);
        double Middle(PlacedPanel p) => p.Face.ToWorld(p.Outline.Centroid(), p.Thickness / 2).Z + (p.Lift is { } lift ? travel.GetValueOrDefault(lift) : 0);
        var floors = new List<string>();
        if (level.Count < 2) return (null, floors);
        var roof = level.MaxBy(Middle)!;
        double ceiling = Middle(roof) - roof.Thickness / 2, sum = 0;
        foreach (var panel in level)
        {
            if (panel == roof) continue;
            var at = panel.Face.ToWorld(panel.Outline.Centroid());
            bool covered = level.Any(o => o != panel && o != roof && Middle(o) < Middle(panel) && o.Outline.Contains(Local(o, at)));
            if (covered) continue;
            floors.Add(panel.Name);
            sum += panel.Outline.Area() * (ceiling - Middle(panel) - panel.Thickness / 2);
        }
        return (sum > 0 ? sum / 1e9 : null, floors);
    }

    private static Vec2 Local(PlacedPanel panel, Vec3 at)
    {
        var local = panel.Face.ToLocal(at);
        return new Vec2(local.X, local.Y);
    }
}
