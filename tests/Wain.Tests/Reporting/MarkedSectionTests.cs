using Wain.Reports.Summaries;

namespace Wain.Tests.Reporting;

public class MarkedSectionTests
{
    private const string Begin = "<!-- wain:begin s -->", End = "<!-- wain:end s -->";

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void OnlyTheSectionChangesAndTheLineEndsStay(string end)
    {
        string before = $"\uFEFFfirst{end}  {Begin}  {end}old{end}{end}lines{end}{End}{end}last, with no line end";
        var result = MarkedSection.Replace(before, "s", "new\r\nlines\n");
        Assert.Equal($"\uFEFFfirst{end}  {Begin}  {end}new{end}lines{end}{End}{end}last, with no line end", result.Text);
        Assert.Equal(result.Text, MarkedSection.Replace(result.Text!, "s", "new\nlines").Text);
    }

    [Fact]
    public void AnEmptySectionIsFilledAndAFullOneEmptied()
    {
        string filled = MarkedSection.Replace($"{Begin}\n{End}", "s", "a").Text!;
        Assert.Equal($"{Begin}\na\n{End}", filled);
        Assert.Equal($"{Begin}\n{End}", MarkedSection.Replace(filled, "s", "").Text);
    }

    [Fact]
    public void OtherSectionsAndShownMarkersDoNotCount()
    {
        string text = $"```\n{Begin}\n{End}\n```\n<!-- wain:begin t -->\n<!-- wain:end t -->\n{Begin}\n{End}\n~~~~\n{Begin}\n~~~\n~~~~\n";
        Assert.Equal(text.Replace($"end t -->\n{Begin}\n", $"end t -->\n{Begin}\nx\n"), MarkedSection.Replace(text, "s", "x").Text);
    }

    [Theory]
    [InlineData("nothing", "no section")]
    [InlineData(Begin + "\n", "is not closed")]
    [InlineData("a\n" + End + "\n", "Line 2 ends a section that nothing begins")]
    [InlineData(End + "\n" + Begin + "\n", "ends in line 1 before it begins in line 2")]
    [InlineData(Begin + "\n" + Begin + "\n" + End + "\n", "stands twice, in lines 1 and 2")]
    [InlineData(Begin + "\n" + End + "\n" + End + "\n", "stands twice, in lines 2 and 3")]
    [InlineData("a " + Begin + "\n" + End + "\n", "nothing begins")]
    public void WrongMarkersAreTold(string text, string expected)
    {
        var result = MarkedSection.Replace(text, "s", "x");
        Assert.Null(result.Text);
        Assert.Contains(expected, result.Error);
    }

    [Theory]
    [InlineData(Begin)]
    [InlineData("a\n" + End)]
    [InlineData("```\nopen")]
    public void ContentThatWouldBreakTheMarkersIsRefused(string content) => Assert.Contains("break its own markers", MarkedSection.Replace($"{Begin}\n{End}\n", "s", content).Error);

    [Fact]
    public void AStrangeNameIsRefused() => Assert.NotNull(MarkedSection.Replace("", "a -->", "x").Error);
}
