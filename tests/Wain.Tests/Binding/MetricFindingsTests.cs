using System.Text.RegularExpressions;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Binding;

/// <summary>A builder who asks for millimetres and kilograms is told nothing in inches and pounds, and what is suggested mends all the same.</summary>
public sealed class MetricFindingsTests
{
    private const string Facts = " lengths millimetres\n weights kilograms\n";

    private static readonly Regex Customary = new(@"(?<![\w.])[0-9][0-9/. ]* (in|ft|lb|lbf|psi|lb/ft2|degF|mph|oz|gal|ft2|lb/ft3)\b", RegexOptions.CultureInvariant);

    /// <summary>The example in a camper block that asks for metric figures.</summary>
    private static string Metric(string text)
    {
        text = text.ReplaceLineEndings("\n");
        var block = Regex.Match(text, "camper \"[^\"]*\"[^{\n]*{");
        if (!block.Success) return $"{text}\ncamper \"Metric\" {{\n{Facts}}}\n";
        return text.Insert(block.Index + block.Length, "\n" + Facts);
    }

    private static List<Finding> Told(string text) => [.. Compiler.Compile(new SourceText("example.wain", text)).Findings];

    /// <summary>WN2010 says what a mass in pounds weighs in pounds of force, WN2007 keeps to the unit of the rule, and WN3021, WN4127 and WN4135 try other units in place of the one that is written.</summary>
    private static readonly string[] AboutUnits = ["WN2007", "WN2010", "WN3021", "WN4127", "WN4135"];

    [Theory, MemberData(nameof(FindingExamplesTests.WithExamples), MemberType = typeof(FindingExamplesTests))]
    public void Findings_speak_in_the_units_that_the_spec_asks_for(string code)
    {
        string bad = Metric(FindingExamplesTests.All.First(f => f.Info.Code == code).Info.Bad);
        foreach (var finding in Told(bad).Where(f => f.Code == code))
        {
            string[] said = [finding.Message, finding.Hint ?? "", .. finding.Fixes.Select(f => f.Label), .. finding.Related.Select(r => r.Message)];
            // What a finding quotes stands in the spec.
            foreach (Match match in AboutUnits.Contains(code) ? [] : said.SelectMany(s => Customary.Matches(s))) Assert.True(bad.Contains(match.Value.Trim(), StringComparison.Ordinal), $"{match.Value}: {string.Join("\n", said)}");
        }
    }

    [Theory, MemberData(nameof(FindingExamplesTests.WithExamples), MemberType = typeof(FindingExamplesTests))]
    public void Every_value_that_is_suggested_mends_in_millimetres_too(string code)
    {
        string bad = Metric(FindingExamplesTests.All.First(f => f.Info.Code == code).Info.Bad);
        var first = Told(bad).Where(f => f.Code == code).ToList();
        foreach (var fix in first.SelectMany(f => f.Fixes))
        {
            string mended = bad[..fix.Place.Start] + fix.Text + bad[fix.Place.End..];
            Assert.True(Told(mended).Count(f => f.Code == code) < first.Count, $"{fix.Label}: {mended}");
        }
    }

    [Theory]
    [InlineData(1778, "1778 mm", "70 in")]
    [InlineData(6.35, "6.35 mm", "1/4 in")]
    [InlineData(-9.525, "-9.53 mm", "-3/8 in")]
    [InlineData(0, "0 mm", "0 in")]
    [InlineData(1.23, "1.23 mm", "0.048 in")]
    public void A_length_is_exact_enough_to_act_on(double mm, string metric, string customary)
    {
        Assert.Equal(metric, new Say(true, true).Length(mm));
        Assert.Equal(customary, Say.Usual.Length(mm));
    }

    [Theory]
    [InlineData(100.2, "101 mm", "100 mm", "4 in", "3 15/16 in")]
    [InlineData(101.6, "102 mm", "101 mm", "4 in", "4 in")]
    public void What_is_to_be_written_is_rounded_to_the_safe_side(double mm, string least, string most, string leastCustomary, string mostCustomary)
    {
        var metric = new Say(true, true);
        Assert.Equal((least, most, leastCustomary, mostCustomary), (metric.AtLeast(mm), metric.AtMost(mm), Say.Usual.AtLeast(mm), Say.Usual.AtMost(mm)));
    }

    /// <summary>By the definitions of NIST SP 811: a pound is 0.45359237 kg, a pound of force 4.4482216152605 N, a psi 6894.757 Pa.</summary>
    [Fact]
    public void Weights_forces_and_pressures_follow()
    {
        var metric = new Say(true, true);
        Assert.Equal(("45.4 kg", "445 N", "0.69 MPa", "0 degC", "1.44 kPa"), (metric.Weight(45.359237), metric.Force(444.82216152605), metric.Pressure(689475.7), metric.Temperature(0), metric.Spread(1436.4)));
        Assert.Equal(("100 lb", "100 lbf", "100 psi", "32 degF", "30 lb/ft2"), (Say.Usual.Weight(45.359237), Say.Usual.Force(444.82216152605), Say.Usual.Pressure(689475.7), Say.Usual.Temperature(0), Say.Usual.Spread(1436.4)));
    }
}
