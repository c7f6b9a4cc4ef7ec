using System.Text.Json;
using System.Text.Json.Nodes;
using Wain.Core.Findings;
using Wain.Core.Findings.Renderers;
using Wain.Core.Text;

namespace Wain.Tests.Output;

public class RendererTests
{
    private static readonly FindingInfo Info = new("WN4998", "sample-check", Level.Error, "A sample", "It matters to the builder.", "bad", "good");

    private static Finding At(string text, string marked, string message = "the opening is 1/2 in too wide", string path = "my spec.wain") =>
        new(Info, message, new Span(new SourceText(path, text), text.IndexOf(marked, StringComparison.Ordinal), marked.Length)) { Subject = "left_wall.vent" };

    private static Finding Full()
    {
        var finding = At("panel left_wall {\n\topening vent_window {\n\t\twidth 18 in\n}\n", "18 in");
        var place = finding.Place;
        return finding with
        {
            Hint = "Make it at most 17 1/2 in wide.",
            Related = [new Related(new Span(place.Source, 6, 9), "the panel is this one")],
            Fixes = [new Fix(place, "17 1/2 in", "write 17 1/2 in")],
        };
    }

    /// <summary>Of many notes of one kind the first two are shown at length; the others keep their words, place and line, and what there is to do if it was not said before.</summary>
    [Fact]
    public void ManyNotesOfAKindAreShort()
    {
        var source = new SourceText("spec.wain", "sheet a {\n}\nsheet b {\n}\nsheet c {\n}\nsheet d {\n}\n");
        var notes = Enumerable.Range(0, 4).Select(i => new Finding(Full().Info, $"Sheet {"abcd"[i]} has no price.", new Span(source, i * 12 + 6, 1)) { Level = Level.Note, Hint = i == 3 ? "Ask the yard." : "Add a price." }).ToList();
        string text = PeopleRenderer.Render(notes);
        Assert.Equal(2, text.Split("wain explain").Length - 1);
        Assert.Equal(2, text.Split("Add a price.").Length - 1);
        Assert.Contains("Note: Sheet c has no price.\n    spec.wain, line 5, column 7\n        sheet c {\n\nNote: Sheet d has no price.\n    spec.wain, line 7, column 7\n        sheet d {\n    To do: Ask the yard.\n", text, StringComparison.Ordinal);
        Assert.Equal(3, PeopleRenderer.Render([.. notes.Take(3).Select(n => n with { Level = Level.Warning })]).Split("wain explain").Length - 1);
    }

    [Fact]
    public void PeopleSeeTheLineWithTheMarkerUnderIt()
    {
        const string expected = """
            Error: the opening is 1/2 in too wide
                my spec.wain, line 3, column 9, left_wall.vent

                    width 18 in
                          ~~~~~

                See also: the panel is this one
                my spec.wain, line 1, column 7

                    panel left_wall {
                          ~~~~~~~~~

                To do: Make it at most 17 1/2 in wide.
                Fix: write 17 1/2 in, instead of "18 in"
                More: wain explain WN4998

            1 error, 0 warnings, 0 notes.

            """;
        Assert.Equal(expected.ReplaceLineEndings("\n"), PeopleRenderer.Render([Full()]));
    }

    [Fact]
    public void ErrorsComeFirstAndTheLastLineSaysWhereTheFirstStands()
    {
        var error = At("one\ntwo", "two");
        var note = At("one", "one", "a note") with { Level = Level.Note };
        string text = PeopleRenderer.Render([note, error, note]);
        Assert.StartsWith("Error: ", text);
        Assert.EndsWith("1 error, 0 warnings, 2 notes.\nThe first error: my spec.wain, line 2.\n", text);
    }

    /// <summary>No renderer hands a terminal what could move its cursor, whatever a file or its name holds.</summary>
    [Fact]
    public void NoControlCharacterReachesATerminal()
    {
        var finding = At("a\u001b[2Jb\u009bc\u202ed here", "here", "bad \u001b]0;x\u0007 \u0085 name", "p\u001b[31m.wain") with { Hint = "to \u001b do" };
        finding = finding with { Fixes = [new Fix(finding.Place, "new\u001b", "write \u009b")], Related = [new Related(finding.Place, "see \u001b")] };
        foreach (string text in (string[])[PeopleRenderer.Render([finding]), LinesRenderer.Render([finding]), JsonRenderer.Render([finding]), SarifRenderer.Render([finding])])
        {
            Assert.DoesNotContain(text, c => char.IsControl(c) && c != '\n');
        }
    }

    [Theory]
    [InlineData("a\tb here", "here", 8, 4)] // a, tab to column 4, b
    [InlineData("\u5e8a\u5e8a here", "here", 8 + 5, 4)] // two wide characters take four columns
    [InlineData("e\u0301 here", "here", 8 + 2, 4)] // a mark takes none
    [InlineData("x \u5e8a\u5e8a y", "\u5e8a\u5e8a", 8 + 2, 4)]
    [InlineData("x \U0001F6BF y", "\U0001F6BF", 8 + 2, 2)]
    public void TheMarkerStandsUnderTheText(string line, string marked, int column, int length)
    {
        string marker = PeopleRenderer.Render([At(line, marked)]).Split('\n').Single(l => l.Trim().Length > 0 && l.Trim().All(c => c == '~'));
        int expected = line.Contains('\t') ? 8 + 6 : column;
        Assert.Equal((expected, length), (marker.IndexOf('~'), marker.Trim().Length));
    }

    [Fact]
    public void NothingIsWiderThanEightyColumns()
    {
        string words = string.Join(' ', Enumerable.Repeat("lumber", 60));
        var findings = new[]
        {
            At(words + " here " + words, "here", words),
            At(new string('x', 500) + "here" + new string('y', 500), "here", new string('z', 300), new string('p', 200)),
            At(string.Concat(Enumerable.Repeat("\u5e8a", 200)) + "here", "here", string.Concat(Enumerable.Repeat("\u5e8a", 200))),
            At("panel " + new string('x', 300), new string('x', 300)),
            Full() with { Hint = words, Fixes = [new Fix(Full().Place, words, words)] },
        };
        foreach (var finding in findings)
        {
            string[] lines = PeopleRenderer.Render([finding]).Split('\n');
            Assert.All(lines, line => Assert.True(DisplayText.Width(line) <= 80, line));
            int marker = Array.FindIndex(lines, line => line.Trim().Length > 0 && line.Trim().All(c => c == '~'));
            string marked = finding.Place.Text[0] == 'x' ? "x" : finding.Place.Text;
            // Columns, not units: what stands above the marker is the marked text itself.
            int column = lines[marker].IndexOf('~');
            string before = DisplayText.Start(lines[marker - 1], column);
            Assert.StartsWith(marked, lines[marker - 1][before.Length..]);
        }
    }

    [Fact]
    public void TextOfASpecCannotSteerTheTerminal()
    {
        var finding = At("bad \u001b[2J\u202ehere\u0007", "here", "message \u001b]0;x\u0007", "p\u001bath.wain");
        foreach (string text in new[] { PeopleRenderer.Render([finding]), LinesRenderer.Render([finding]) })
        {
            Assert.DoesNotContain('\u001b', text.Replace("\u001b[1;31m", ""));
            Assert.DoesNotContain('\u0007', text);
            Assert.DoesNotContain('\u202e', text);
        }
    }

    [Fact]
    public void ColourOnlyWhenAsked()
    {
        Assert.DoesNotContain('\u001b', PeopleRenderer.Render([Full()]));
        string coloured = PeopleRenderer.Render([Full()], colour: true);
        Assert.StartsWith("\u001b[1;31mError\u001b[0m: the", coloured);
        Assert.Equal(PeopleRenderer.Render([Full()]), System.Text.RegularExpressions.Regex.Replace(coloured, "\u001b\\[[0-9;]*m", ""));
    }

    [Fact]
    public void AcceptedFindingsAreCountedAndNotShown()
    {
        var accepted = Full() with { AcceptedBecause = "it is meant so" };
        Assert.Equal("0 errors, 0 warnings, 0 notes; 1 accepted with a reason.\n", PeopleRenderer.Render([accepted]));
        Assert.Equal("", LinesRenderer.Render([accepted]));
    }

    // The form "sourcefile:lineno:column: message" of the GNU Coding Standards, section 4.4, Formatting Error Messages.
    [Fact]
    public void LinesAreThoseOfTheGnuStandard() => Assert.Equal(
        "my spec.wain:3:9: error: WN4998 the opening is 1/2 in too wide\nmy spec.wain:1:7: note: WN4998 the panel is this one\n", LinesRenderer.Render([Full()]));

    [Fact]
    public void JsonHoldsEverythingThatItsSchemaNames()
    {
        var accepted = Full() with { AcceptedBecause = "lone \ud800 surrogate" };
        var json = JsonNode.Parse(JsonRenderer.Render([Full(), accepted]))!;
        var schema = JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "grammar", "findings.schema.json")))!;
        SchemaCheck.Holds(json, schema, schema, "$");
        var place = json["findings"]![0]!["place"]!;
        Assert.Equal((3, 9, 3, 14), ((int)place["line"]!, (int)place["column"]!, (int)place["end_line"]!, (int)place["end_column"]!));
        Assert.Equal((1, 1), ((int)json["counts"]!["errors"]!, (int)json["counts"]!["accepted"]!));
        json["findings"]![0]!["level"] = "fatal";
        Assert.ThrowsAny<Exception>(() => SchemaCheck.Holds(json, schema, schema, "$"));
    }

    // The properties that SARIF 2.1.0 requires (OASIS standard: 3.13 sarifLog, 3.14 run, 3.18 tool, 3.19 toolComponent, 3.27 result, 3.49
    // reportingDescriptor, 3.55 fix, 3.56 artifactChange, 3.57 replacement, 3.35 suppression) and the values that it fixes.
    [Fact]
    public void SarifHasWhatTheStandardRequires()
    {
        var accepted = Full() with { AcceptedBecause = "it is meant so" };
        using var log = JsonDocument.Parse(SarifRenderer.Render([Full(), accepted]));
        Assert.Equal("2.1.0", log.RootElement.GetProperty("version").GetString());
        var run = log.RootElement.GetProperty("runs")[0];
        var driver = run.GetProperty("tool").GetProperty("driver");
        Assert.Equal("wain", driver.GetProperty("name").GetString());
        Assert.Equal("utf16CodeUnits", run.GetProperty("columnKind").GetString());
        var rule = driver.GetProperty("rules")[0];
        Assert.Equal("WN4998", rule.GetProperty("id").GetString());
        Assert.Contains("It matters", rule.GetProperty("help").GetProperty("text").GetString());
        var result = run.GetProperty("results")[0];
        Assert.Equal("WN4998", result.GetProperty("ruleId").GetString());
        Assert.Equal(0, result.GetProperty("ruleIndex").GetInt32());
        Assert.Contains(result.GetProperty("level").GetString(), new[] { "none", "note", "warning", "error" });
        Assert.NotEmpty(result.GetProperty("message").GetProperty("text").GetString()!);
        var physical = result.GetProperty("locations")[0].GetProperty("physicalLocation");
        Assert.Equal("my%20spec.wain", physical.GetProperty("artifactLocation").GetProperty("uri").GetString());
        Assert.Equal(9, physical.GetProperty("region").GetProperty("startColumn").GetInt32());
        var change = result.GetProperty("fixes")[0].GetProperty("artifactChanges")[0];
        Assert.Equal(5, change.GetProperty("replacements")[0].GetProperty("deletedRegion").GetProperty("charLength").GetInt32());
        Assert.Equal("17 1/2 in", change.GetProperty("replacements")[0].GetProperty("insertedContent").GetProperty("text").GetString());
        Assert.False(result.TryGetProperty("suppressions", out _));
        var suppression = run.GetProperty("results")[1].GetProperty("suppressions")[0];
        Assert.Equal(("inSource", "it is meant so"), (suppression.GetProperty("kind").GetString(), suppression.GetProperty("justification").GetString()));
    }

    [Fact]
    public void NoFindingsAreValidToo()
    {
        Assert.Equal("0 errors, 0 warnings, 0 notes.\n", PeopleRenderer.Render([]));
        Assert.Empty(JsonNode.Parse(JsonRenderer.Render([]))!["findings"]!.AsArray());
        Assert.Empty(JsonNode.Parse(SarifRenderer.Render([]))!["runs"]![0]!["results"]!.AsArray());
    }
}
