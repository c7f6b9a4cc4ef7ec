using Wain.Core.Findings;
using static Wain.Tests.Engineering.ModelSpecs;

namespace Wain.Tests.Engineering;

/// <summary>Values that can't be are told, are not called missing, and no figure is made of them.</summary>
public class ModelValueTests
{
    private static readonly string Deck1 = Ply + Deck("deck", "skin", "1 m", "1 m");
    private const string Truck = "carrier truck {\n wheelbase 3 m\n front_axle at 2 m\n empty front 1000 kg rear 800 kg weighed 2026-01-01\n track 1.6 m\n}\n";
    private const string Foam = "foam pour {\n free_rise 32 kg/m3\n overpack 20 %\n mix 1 to 1 by weight\n}\n";
    private const string Case = "case people on deck {\n patch 1 kN on 300 mm by 300 mm\n}\n";

    public static TheoryData<string, string, string> Impossible => new()
    {
        { "shear_modulus 0.5 GPa", "shear_modulus 0 GPa", "ply.shear_modulus" },
        { "safety 2.5", "safety 0.5", "ply.safety" },
        { "conductivity 0.13 W/m/K", "conductivity 0 W/m/K", "ply.conductivity" },
        { "vapour 200", "vapour 0.5", "ply.vapour" },
        { "density 600 kg/m3 from 550 kg/m3 to 700 kg/m3", "density 600 kg/m3\n specific_gravity 1.6", "ply.specific_gravity" },
        { "wheelbase 3 m", "wheelbase 0 m", "truck.wheelbase" },
        { "track 1.6 m", "track 0 m", "truck.track" },
        { "rear 800 kg", "rear 0 kg", "truck.empty" },
        { "mix 1 to 1", "mix 1 to 0", "pour.mix" },
        { "on 300 mm by 300 mm", "on 0 mm by 300 mm", "people.patch" },
    };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void An_impossible_value_is_told_once_and_by_its_name(string good, string bad, string subject)
    {
        string text = Deck1 + Truck + Foam + Case;
        Assert.DoesNotContain(Compile(text).Findings, f => f.Code == "WN6002");
        var run = Compile(text.Replace(good, bad, StringComparison.Ordinal));
        var told = Assert.Single(run.Findings, f => f.Code == "WN6002");
        Assert.Equal(Level.Error, told.Level);
        Assert.Equal(subject, told.Subject);
        Assert.DoesNotContain(run.Findings, f => f.Code is "WN6001" or "WN6302");
        Assert.All(run.Design!.Figures.All, f => Assert.True(double.IsFinite(f.Value.Value), f.Name));
    }

    /// <summary>A figure that needs the impossible value is missing and says why; the others are there.</summary>
    [Fact]
    public void What_needs_it_is_missing_and_nothing_else()
    {
        var run = Compile((Deck1 + Case).Replace("shear_modulus 0.5 GPa", "shear_modulus 0 GPa", StringComparison.Ordinal));
        Assert.Contains("no possible value", run.Design!.Figures.FindMissing("people.deflection")!.Reason, StringComparison.Ordinal);
        Assert.Equal(7.2, run.Figure("total.weight"), 9);
    }
}
