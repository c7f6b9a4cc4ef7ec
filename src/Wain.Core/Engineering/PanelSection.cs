using System.Collections.Immutable;
using Wain.Core.Methods;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Engineering;

/// <summary>One layer as it bears along the panel's two axes. Moduli in Pa, thickness in m.</summary>
/// <param name="Core">True for a frame or foam, false for a face.</param>
/// <param name="Rib">Modulus of the members of a frame, of which <paramref name="AlongU"/> and <paramref name="AlongV"/> run each way, as shares of its area.</param>
public sealed record BearingLayer(
    StackLayer Layer, Material Material, double Thickness, double ModulusU, double ModulusV, double ShearU, double ShearV, bool Core, double? Rib = null, double AlongU = 0, double AlongV = 0)
{
    /// <summary>E and G of what is between the members, or of the whole layer.</summary>
    public double Bare { get; init; }

    public double BareShear { get; init; }

    public double RibShear { get; init; }
}

/// <summary>The layers of a panel that bear, from the outside face inward, or what keeps them from being known.</summary>
/// <param name="LeftOut">Layers that are taken to bear nothing.</param>
public sealed record PanelSection(ImmutableArray<BearingLayer> Layers, ImmutableArray<string> LeftOut, ImmutableArray<(Material Material, string Property, Span From)> Lacks, string? Missing)
{
    /// <summary>
    /// Skins at their moduli along and across the grain; a frame smeared over its area, inner members each counted along the way that it runs (those round the border are the
    /// supports); foam as it is. Cloth bears where it states a modulus. Coats, films and linings bear nothing.
    /// </summary>
    internal static PanelSection Of(Ledger ledger, PlacedPanel panel)
    {
        var layers = ImmutableArray.CreateBuilder<BearingLayer>();
        var out_ = ImmutableArray.CreateBuilder<string>();
        var lacks = ImmutableArray.CreateBuilder<(Material, string, Span)>();
        string? missing = null;
        double? Needed(Material material, string property, Span from)
        {
            if (material.Figure(property) is { Value.Value: > 0 } figure) return figure.Value.Value;
            if (!lacks.Any(l => l.Item1 == material && l.Item2 == property)) lacks.Add((material, property, from));
            return null;
        }
        bool grainAlongU = GrainAlongU(panel);
        foreach (var layer in panel.Stack.Layers)
        {
            var from = layer.Fact.Span;
            switch (layer)
            {
                case { Kind: LayerKind.Sheet, Material: SheetMaterial sheet }:
                    {
                        double? along = Needed(sheet, "modulus", from), shear = Needed(sheet, "shear_modulus", from), across = sheet.HasGrain ? Needed(sheet, "modulus_across", from) : along;
                        if (along is not { } e || across is not { } e2 || shear is not { } g) break;
                        bool u = grainAlongU != layer.GrainAcross;
                        layers.Add(new BearingLayer(layer, sheet, layer.Thickness / 1000, u ? e : e2, u ? e2 : e, g, g, false) { Bare = e, BareShear = g });
                        break;
                    }
                case { Kind: LayerKind.Foam, Material: { } foam }:
                    {
                        if (Needed(foam, "modulus", from) is not { } e || Needed(foam, "shear_modulus", from) is not { } g) break;
                        layers.Add(new BearingLayer(layer, foam, layer.Thickness / 1000, e, e, g, g, true) { Bare = e, BareShear = g });
                        break;
                    }
                case { Kind: LayerKind.Frame, Material: { } stick }:
                    {
                        if (Needed(stick, "modulus", from) is not { } rib || Needed(stick, "shear_modulus", from) is not { } ribShear) break;
                        var frame = ledger.FramesOf(panel).FirstOrDefault(f => f.Zone is null && ReferenceEquals(f.Layer, layer));
                        if (layer.Fill is null)
                        {
                            missing ??= $"the bays of {stick.Name} in {panel.Name} are empty, so nothing holds its skins together between members";
                            break;
                        }
                        if (Needed(layer.Fill, "modulus", from) is not { } e || Needed(layer.Fill, "shear_modulus", from) is not { } g) break;
                        var (alongU, alongV) = frame is null ? (0, 0) : Shares(frame);
                        double Mix(double share, double a, double b) => share * a + (1 - share) * b;
                        layers.Add(new BearingLayer(layer, layer.Fill, layer.Thickness / 1000, Mix(alongU, rib, e), Mix(alongV, rib, e), Mix(alongU, ribShear, g), Mix(alongV, ribShear, g), true, rib, alongU, alongV)
                        {
                            Bare = e, BareShear = g, RibShear = ribShear,
                        });
                        break;
                    }
                case { Kind: LayerKind.Cloth, Material: { } cloth } when cloth.Figure("modulus") is { Value.Value: > 0 } modulus && cloth.Figure("weight") is { } weight && cloth.Figure("glass") is { } glass
                    && Laminates.Thickness(weight.Value.Value * layer.Count, glass.Value.Value, cloth.Figure("fibre_density")?.Value.Value ?? 2560).TryGet(out double thick):
                    {
                        if (Needed(cloth, "shear_modulus", from) is not { } g) break;
                        layers.Add(new BearingLayer(layer, cloth, thick, modulus.Value.Value, modulus.Value.Value, g, g, false) { Bare = modulus.Value.Value, BareShear = g });
                        break;
                    }
                case { Kind: LayerKind.Air }:
                    missing ??= $"an air space parts the layers of {panel.Stack.Name}";
                    break;
                default:
                    if (layer.Material is { } other && !out_.Contains(other.Name)) out_.Add(other.Name);
                    break;
            }
        }
        if (layers.Count == 0 && lacks.Count == 0) missing ??= $"{panel.Stack.Name} has no layer that bears";
        return new PanelSection(layers.ToImmutable(), out_.ToImmutable(), lacks.ToImmutable(), missing);
    }

    /// <summary>Shares of the frame's area that inner members take, by the way that they run.</summary>
    private static (double AlongU, double AlongV) Shares(PanelFrame frame)
    {
        double area = frame.Area.SignedArea(), u = 0, v = 0;
        if (area <= 0) return (0, 0);
        foreach (var member in frame.Members)
        {
            if (member.Role is MemberRole.Rail or MemberRole.Stile) continue;
            var run = member.CentreLine.To - member.CentreLine.From;
            double length = run.Length;
            if (length <= 0) continue;
            // A member that runs slantwise bears each way by the square of its direction.
            u += member.Area * run.X * run.X / (length * length);
            v += member.Area * run.Y * run.Y / (length * length);
        }
        return (Math.Min(1, u / area), Math.Min(1, v / area));
    }

    private static bool GrainAlongU(PlacedPanel panel) => PanelFacts.Find(panel, "grain")?.Word("along") switch
    {
        "along" => true,
        "up" => false,
        _ => panel.Width >= panel.Height,
    };
}
