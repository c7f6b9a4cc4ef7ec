using Wain.Core.Text;
using System.Collections.Immutable;
using Wain.Core.Drawing;
using Wain.Core.Methods;
using Wain.Core.Takeoff;

namespace Wain.Core.Engineering;

/// <summary>The plots of engineering.</summary>
public static class EngineeringPictures
{
    private const double Width = 240, Height = 150;

    public static ImmutableArray<NamedPicture> Of(EngineeringResult result)
    {
        var show = Shown.Of(result.Input);
        var pictures = ImmutableArray.CreateBuilder<NamedPicture>();

        var weights = (result.Masses.Assemblies.Count > 0 ? result.Masses.Assemblies : result.Masses.Panels).OrderByDescending(a => a.Value.Weight.Likely).ThenBy(a => a.Key, StringComparer.Ordinal).Take(40).ToList();
        if (weights.Count > 0)
            pictures.Add(new("weights", new BarPlot("Weight by assembly", $"Weight, {show.MassUnit}", [.. weights.Select(w => new PlotBar(w.Key, show.Kg(w.Value.Weight.Likely), Say.Number(show.Kg(w.Value.Weight.Likely), "0")))]).Draw(Width)));

        if (result.Balance is { States.Length: > 0 } balance)
        {
            // Forward is to the right, as in a side view of the truck from its right.
            var states = result.Masses.States.Select(s => new PlotSeries(s.Key.ToString().ToLowerInvariant(), [(show.Mm(s.Value.Centre.X), show.Kg(s.Value.Weight.Likely))], Dots: true));
            var plot = new LinePlot("Centre of gravity on the wheelbase", $"Forward of the front edge of the bed floor, {show.LengthUnit}", $"Weight of the camper, {show.MassUnit}", [.. states])
            {
                Bands = [new PlotBand("wheelbase", show.Mm(balance.RearAxle * 1000), show.Mm(balance.FrontAxle * 1000)), .. balance.Ratings.CargoZone is { } z ? [new PlotBand("zone of the truck's maker", show.Mm(z.Rear * 1000), show.Mm(z.Front * 1000))] : Array.Empty<PlotBand>()],
                Limits = balance.Ratings.CargoWeightRating is { } rating ? [new PlotLimit("cargo weight rating", show.Kg(rating))] : [],
            };
            pictures.Add(new("balance", plot.Draw(Width, Height)));
        }
        foreach (var lift in result.Lifts.Where(l => l.Steps.Length > 0))
        {
            double X(LiftStep s) => lift.Hinged ? s.Travel : show.Mm(s.Travel);
            pictures.Add(new("lift_" + lift.Name, new LinePlot($"{lift.Name}: force over travel", lift.Hinged ? "Opening, deg" : $"Travel, {show.LengthUnit}", $"Force, {show.ForceUnit}",
            [
                new PlotSeries("to hold", [.. lift.Steps.Select(s => (X(s), show.N(s.Weight)))]),
                new PlotSeries("struts give", [.. lift.Steps.Select(s => (X(s), show.N(s.Struts)))]),
                new PlotSeries("by hand, lowering", [.. lift.Steps.Select(s => (X(s), show.N(s.HandLowering)))]),
            ]).Draw(Width, Height)));
        }
        foreach (var night in result.Warmth.Nights)
            foreach (var (wall, report) in night.Walls)
                pictures.AddRange(Through(night, wall, report.Spells[0], show.Mm, show.C, show));
        return pictures.ToImmutable();
    }

    /// <summary>Temperature with dew point, and vapour pressure with saturation, from the inside face outward.</summary>
    private static IEnumerable<NamedPicture> Through(NightResult night, WarmWall wall, SpellResult spell, Func<double, double> length, Func<double, double> temperature, Shown show)
    {
        var bands = ImmutableArray.CreateBuilder<PlotBand>();
        double depth = 0, sd = 0;
        var depths = new List<(double Sd, double Depth)> { (0, 0) };
        // The methods know layers by their resistance; the picture shows them by their thickness, inside first.
        foreach (var layer in wall.Bay)
        {
            double thick = Thickness(wall, layer);
            if (thick > 0) bands.Add(new PlotBand(layer.Name, length(depth), length(depth + thick)));
            depth += thick;
            sd += Math.Max(layer.Sd, 1e-7);
            depths.Add((sd, depth));
        }
        double At(double s)
        {
            for (int i = 1; i < depths.Count; i++)
                if (s <= depths[i].Sd * (1 + 1e-9) + 1e-12) return depths[i].Sd > depths[i - 1].Sd ? depths[i - 1].Depth + (depths[i].Depth - depths[i - 1].Depth) * Math.Clamp((s - depths[i - 1].Sd) / (depths[i].Sd - depths[i - 1].Sd), 0, 1) : depths[i].Depth;
            return depth;
        }
        string x = $"From the inside face outward, {show.LengthUnit}", name = $"{night.Name}_{wall.Stack.Name}";
        var planes = spell.Planes.Select(p => (X: length(At(p.Depth)), Plane: p)).ToList();
        yield return new($"temperature_{name}", new LinePlot($"{wall.Stack.Name}, night {night.Name}: temperature", x, $"Temperature, {show.TemperatureUnit}",
        [
            new PlotSeries("temperature", [.. planes.Select(p => (p.X, temperature(p.Plane.Temperature)))]),
            new PlotSeries("dew point", [.. planes.Select(p => (p.X, temperature(Vapour.DewPointOf(Math.Max(1, p.Plane.Pressure)).Or(double.NaN))))]),
        ])
        { Bands = bands.ToImmutable() }.Draw(Width, Height));
        yield return new($"vapour_{name}", new LinePlot($"{wall.Stack.Name}, night {night.Name}: vapour", x, "Vapour pressure, Pa",
        [
            new PlotSeries("saturation", [.. planes.Select(p => (p.X, p.Plane.Saturation))]),
            new PlotSeries("vapour", [.. planes.Select(p => (p.X, p.Plane.Pressure))]),
        ])
        { Bands = bands.ToImmutable() }.Draw(Width, Height));
    }

    /// <summary>mm, by the stack's own layer of that material.</summary>
    private static double Thickness(WarmWall wall, MoistLayer layer) =>
        wall.Stack.Layers.FirstOrDefault(l => l.Material?.Name == layer.Name || l.Fill?.Name == layer.Name || l.Material is null && layer.Name == "air")?.Thickness is { } t and > 0 ? t : 0;
}
