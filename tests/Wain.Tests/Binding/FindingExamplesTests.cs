using System.Reflection;
using System.Text.RegularExpressions;
using Wain.Core;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Tests.Binding;

/// <summary>Every finding's own examples, run: the bad one raises it and nothing else that is an error, the good one does not raise it.</summary>
public class FindingExamplesTests
{
    public static readonly IReadOnlyList<(string Field, FindingInfo Info)> All =
        [.. typeof(FindingInfo).Assembly.GetTypes().SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic))
            .Where(f => f.FieldType == typeof(FindingInfo)).Select(f => ($"{f.DeclaringType!.Name}.{f.Name}", (FindingInfo)f.GetValue(null)!)).OrderBy(f => f.Item2.Code, StringComparer.Ordinal)];

    public static TheoryData<string> WithExamples => [.. All.Where(f => f.Info.Bad is not null).Select(f => f.Info.Code)];

    private static FindingInfo Info(string code) => All.First(f => f.Info.Code == code).Info;

    private static Compilation Compile(string text) => Compiler.Compile(new SourceText("example.wain", text.ReplaceLineEndings("\n")));

    [Fact]
    public void Codes_and_names_are_given_once()
    {
        Assert.NotEmpty(All);
        Assert.All(All, f => Assert.Matches("^WN[0-9]{4}$", f.Info.Code));
        Assert.All(All, f => Assert.Matches("^[a-z][a-z0-9]*(-[a-z0-9]+)*$", f.Info.Name));
        Assert.Empty(All.GroupBy(f => f.Info.Code).Where(g => g.Count() > 1).Select(g => g.Key));
        Assert.Empty(All.GroupBy(f => f.Info.Name).Where(g => g.Count() > 1).Select(g => g.Key));
    }

    [Fact]
    public void Words_for_people_are_whole_sentences()
    {
        Assert.All(All, f => Assert.EndsWith(".", f.Info.Why));
        Assert.All(All, f => Assert.False(f.Info.Title.EndsWith('.')));
        Assert.All(All, f => Assert.DoesNotMatch(new Regex("\u2014|\u2013"), f.Info.Title + f.Info.Why));
        Assert.All(All, f => Assert.Equal(f.Info.Bad is null, f.Info.Good is null));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void The_bad_example_raises_it_and_no_other_error(string code)
    {
        var findings = Compile(Info(code).Bad!).Findings;
        string told = string.Join("\n", findings.Select(f => $"{f.Place} {f.Code} {f.Message}"));
        Assert.True(findings.Any(f => f.Code == code), told);
        Assert.True(findings.All(f => f.Level < Level.Error || f.Code == code), told);
        Assert.All(findings.Where(f => f.Code == code), f => Assert.True(f.Place.Length > 0 || f.Place.Start > 0, told));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void The_good_example_does_not(string code)
    {
        var findings = Compile(Info(code).Good!).Findings;
        Assert.True(findings.All(f => f.Code != code && f.Level < Level.Error), string.Join("\n", findings.Select(f => $"{f.Place} {f.Code} {f.Message}")));
    }

    [Theory, MemberData(nameof(WithExamples))]
    public void Every_fix_of_the_bad_example_makes_it_go_away(string code)
    {
        string bad = Info(code).Bad!.ReplaceLineEndings("\n");
        var first = Compile(bad).Findings.Where(f => f.Code == code).ToList();
        foreach (var fix in first.SelectMany(f => f.Fixes))
        {
            string mended = bad[..fix.Place.Start] + fix.Text + bad[fix.Place.End..];
            var left = Compile(mended).Findings.Count(f => f.Code == code);
            Assert.True(left < first.Count, $"{fix.Label}: {mended}");
        }
    }
}
