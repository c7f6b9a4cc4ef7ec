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
        { "overpack 20 %", "overpack 300 %", "pour.overpack" },
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

    /// <summary>More glass than a laminate holds, and more solids than there is paint: told once each, and neither resin nor dry coat is made of them.</summary>
    [Fact]
    public void Goods_of_impossible_values_are_missing()
    {
        string text = Deck1.Replace("stack skin { sheet ply }", "cloth glass {\n weight 200 g/m2\n glass 85 %\n}\nresin epoxy { density 1.1 g/cm3 }\ncoating paint {\n coverage 10 m2/l\n density 1.2 kg/l\n solids 140 %\n}\nstack skin {\n coating paint\n cloth glass wet with epoxy\n sheet ply\n}", StringComparison.Ordinal);
        var run = Compile(text);
        Assert.Single(run.Findings, f => f.Code == "WN5005");
        Assert.Single(run.Findings, f => f.Code == "WN6002" && f.Subject == "paint.solids");
        Assert.DoesNotContain(run.Findings, f => f.Code == "WN5001" && f.Subject is "glass.glass" or "paint.solids");
        Assert.Equal("glass.glass is no possible value", run.Design!.Figures.FindMissing("deck.epoxy.weight")!.Reason);
        Assert.Equal("paint.solids is no possible value", run.Design.Figures.FindMissing("deck.paint.weight")!.Reason);
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
