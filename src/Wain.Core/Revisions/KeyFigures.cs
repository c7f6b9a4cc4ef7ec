using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Revisions;

/// <summary>The few figures by which designs are compared over many values or revisions.</summary>
/// <param name="Weight">kg, without loads; null if it can't be told.</param>
/// <param name="Balance">Place of the centre of gravity along the truck with what is aboard on the road (mm, forward of the bed's front edge); null if no figure tells it.</param>
/// <param name="Errors">Open errors.</param>
/// <param name="Say">The units that the spec shows.</param>
public sealed record KeyFigures(double? Weight, double? WeightLow, double? WeightHigh, double? Cost, string Currency, double? Balance, int Errors, int Warnings, bool IsPlaced, Say Say)
{
    /// <summary>False if a material lacks what a part of the sum needs, so that it is too small.</summary>
    public bool IsWeightWhole { get; init; } = true;

    /// <summary>Likewise: false if something that is bought states no price.</summary>
    public bool IsCostWhole { get; init; } = true;

    public static KeyFigures Of(Compilation c)
    {
        var open = c.Findings.Where(f => f.AcceptedBecause is null).ToList();
        var weight = c.Design?.Figures.Find("total.weight");
        var cost = c.Design?.Figures.Find("total.cost");
        return new KeyFigures(
            weight?.Value.Value, weight?.Low?.Value ?? weight?.Value.Value, weight?.High?.Value ?? weight?.Value.Value, cost?.Value.Value, c.Design?.Takeoff.Currency ?? "",
            BalanceOf(c), open.Count(f => f.Level == Level.Error), open.Count(f => f.Level == Level.Warning), c.Design is not null, c.Spec.Say) { IsWeightWhole = weight?.IsComplete != false, IsCostWhole = cost?.IsComplete != false };
    }

    private static double? BalanceOf(Compilation c) =>
        (c.Design?.Figures.Find("total.centre_x_ready") ?? c.Design?.Figures.Find("total.centre_x_dry"))?.Value.Millimetres;
}
