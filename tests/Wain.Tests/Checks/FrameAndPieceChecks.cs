using System.Reflection;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Checks;

/// <summary>The examples of the checks of frames, openings and pieces, run as specs.</summary>
public class FrameAndPieceChecks
{
    public static TheoryData<string> Codes => [.. Infos().Select(i => i.Code)];

    private static IEnumerable<FindingInfo> Infos() =>
        typeof(Compiler).Assembly.GetTypes().Where(t => t.Namespace == "Wain.Core.Checks").SelectMany(t => t.GetFields(BindingFlags.Public | BindingFlags.Static))
            .Where(f => f.FieldType == typeof(FindingInfo)).Select(f => (FindingInfo)f.GetValue(null)!).Where(i => (i.Code.StartsWith("WN41", StringComparison.Ordinal) || i.Code.StartsWith("WN42", StringComparison.Ordinal)));

    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("example.wain", "written for wain 1\n" + text));

    // Of the checks alone: an example leaves out what they do not need, such as densities.
    private static IEnumerable<Finding> Serious(Compilation c) => c.Findings.Where(f => f.Level == Level.Error || (f.Level == Level.Warning && f.Code.StartsWith("WN4", StringComparison.Ordinal)));

    private static string Tell(Compilation c) => string.Join("\n", Serious(c).Select(f => $"{f.Code} {f.Place}: {f.Message}"));

    [Theory]
    [MemberData(nameof(Codes))]
    public void Bad_raises_it_and_good_does_not(string code)
    {
        var info = Infos().Single(i => i.Code == code);
        var (bad, good) = (Compile(info.Bad), Compile(info.Good));
        Assert.True(bad.Structure is not null && good.Structure is not null, Tell(bad) + Tell(good));
        Assert.Contains(bad.Findings, f => f.Code == code);
        Assert.True(!Serious(good).Any(), Tell(good));
        Assert.DoesNotContain(good.Findings, f => f.Code == code);
    }

    /// <summary>Each value that a finding suggests makes that finding go when it is written in.</summary>
    [Theory]
    [MemberData(nameof(Codes))]
    public void What_it_suggests_satisfies_it(string code)
    {
        var info = Infos().Single(i => i.Code == code);
        var finding = Compile(info.Bad).Findings.First(f => f.Code == code);
        foreach (var fix in finding.Fixes)
        {
            string text = fix.Place.Source.Text;
            var mended = Compiler.Compile(new SourceText("example.wain", text[..fix.Place.Start] + fix.Text + text[fix.Place.End..]));
            Assert.True(mended.Structure is not null, $"{fix.Text}\n{Tell(mended)}");
            Assert.True(mended.Findings.All(f => f.Code != code), $"{fix.Text}\n{Tell(mended)}");
        }
    }

    private const string LapDeck = "sheet ply { thickness THICK\n size 48 in by 96 in\n grain none }\nstack skin { sheet ply }\npanel deck of skin {\n through (0 in, 33 in, 0 in) along (0 in, -33 in, 0 in) up (90 in, 33 in, 0 in)\n splice across length {\n lap width 2 in\n lap depth DEPTH\n }\n}\n";

    /// <summary>The two limits of the brief for laps: a step over 1/64 in is a warning, over 1/16 in an error; half the true thickness never errs.</summary>
    [Theory]
    [InlineData("1/4 in", "1/8 in", null)]
    [InlineData("1/4 in", "0.118 in", null)]
    [InlineData("1/4 in", "0.116 in", Level.Warning)]
    [InlineData("1/4 in", "0.094 in", Level.Warning)]
    [InlineData("1/4 in", "0.093 in", Level.Error)]
    [InlineData("5.2 mm", "1/8 in", Level.Warning)]
    [InlineData("5.2 mm", "half", null)]
    public void Lap_depths_against_the_true_thickness(string thick, string depth, Level? level)
    {
        var found = Compile(LapDeck.Replace("THICK", thick, StringComparison.Ordinal).Replace("DEPTH", depth, StringComparison.Ordinal)).Findings.Where(f => f.Code == "WN4201").ToList();
        Assert.Equal(level, found.Count == 0 ? null : Assert.Single(found).Level);
    }
}
