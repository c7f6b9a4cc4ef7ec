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

    /// <summary>One splice is laid through both skins of a wall: each of its slips is told once, of the skin where it is worst, and what is written mends it for both.</summary>
    [Theory]
    [InlineData("WN4201", "{\n lap width 3 in\n lap depth 1/8 in", "thin", Level.Error)]
    [InlineData("WN4202", "{\n lap width 1/2 in\n lap depth half", "thin", Level.Warning)]
    [InlineData("WN4202", "{\n scarf 5", "thin", Level.Warning)]
    [InlineData("WN4206", "at 50 in {\n lap width 3 in\n lap depth half\n over stud", "thin", Level.Warning)]
    public void A_slip_of_a_splice_is_told_once_for_all_skins(string code, string splice, string other, Level level)
    {
        string text = $$"""
            sheet ply { thickness 3/8 in
                size 48 in by 96 in
                grain none }
            sheet thin { thickness 5/16 in
                size 48 in by 96 in
                grain none }
            stick strip { section 3/4 in by 1 1/2 in
                length 144 in }
            stack framed { sheet ply
                core frame of strip flat
                sheet thin }
            panel deck of framed { through (0 in, 20 in, 0 in) along (0 in, -20 in, 0 in) up (120 in, 20 in, 0 in)
                frame {
                    studs every 24 in, on centre
                }
                splice across length {{splice}}
                }
            }
            """.ReplaceLineEndings("\n");
        var told = Assert.Single(Compile(text).Findings, f => f.Code == code);
        Assert.Equal(level, told.Level);
        Assert.Contains($"(as in {other})", told.Message);
        var fix = told.Fixes[0];
        string whole = fix.Place.Source.Text;
        Assert.DoesNotContain(Compiler.Compile(new SourceText("example.wain", whole[..fix.Place.Start] + fix.Text + whole[fix.Place.End..])).Findings, f => f.Code == code);
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
