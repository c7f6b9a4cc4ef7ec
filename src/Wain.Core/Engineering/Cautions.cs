using System.Collections.Immutable;

namespace Wain.Core.Engineering;

/// <summary>The cautions of the trade, said where their subject stands in the design.</summary>
internal static class Cautions
{
    public const string Estimate = "These figures are estimates for a design of one's own, not certified engineering. Local codes and licensed practice come first.";
    public const string Truck = "Weigh the loaded truck, each axle by itself, before it goes on the road. A rating that is exceeded on the scale stays exceeded, whatever this says.";
    public const string Roof = "Nobody goes under a raised roof that is not propped: a strut can let go without a sign.";
    public const string Epoxy = "Epoxy sensitises skin, for life: gloves, no bare skin, moving air. A large batch in one cup can boil and smoke.";
    public const string Foam = "The A part of pour foam is an isocyanate: a fitting respirator, gloves, goggles, and air from outside. Rising foam pushes thin skins apart and a deep pour overheats.";
    public const string Dust = "Fumed silica and glass dust harm the lungs: a dust mask when it is poured, mixed or sanded.";

    public static ImmutableArray<string> Of(BalanceResult? balance, ImmutableArray<LiftResult> lifts, ImmutableArray<StrengthRow> strength, ImmutableArray<MixRow> mixes)
    {
        var said = ImmutableArray.CreateBuilder<string>();
        said.Add(Estimate);
        if (balance is not null) said.Add(Truck);
        if (!lifts.IsEmpty) said.Add(Roof);
        if (mixes.Any(m => m.Kind is MixKind.Resin or MixKind.Paste)) said.Add(Epoxy);
        if (mixes.Any(m => m.Kind == MixKind.Foam)) said.Add(Foam);
        if (mixes.Any(m => m.Kind is MixKind.Paste or MixKind.Resin)) said.Add(Dust);
        return said.ToImmutable();
    }
}
