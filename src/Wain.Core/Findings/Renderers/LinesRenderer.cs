using System.Text;
using Wain.Core.Text;

namespace Wain.Core.Findings.Renderers;

/// <summary>One finding a line in the form of the GNU Coding Standards, which editors can jump by: <c>path:line:column: level: CODE message</c>.</summary>
public static class LinesRenderer
{
    /// <summary>All findings that are not accepted; related places follow as notes.</summary>
    public static string Render(IEnumerable<Finding> findings)
    {
        var text = new StringBuilder();
        foreach (var finding in findings)
        {
            if (finding.AcceptedBecause is not null) continue;
            Line(finding.Place, finding.Level, $"{finding.Code} {finding.Message}", text);
            foreach (var related in finding.Related) Line(related.Place, Level.Note, $"{finding.Code} {related.Message}", text);
        }
        return text.ToString();
    }

    private static void Line(Span place, Level level, string message, StringBuilder text)
    {
        var (line, column) = place.Source.Position(place.Start);
        text.Append(DisplayText.Plain(place.Source.Path)).Append(':').Append(line).Append(':').Append(column).Append(": ")
            .Append(LevelName(level)).Append(": ").Append(DisplayText.Plain(message.ReplaceLineEndings(" "))).Append('\n');
    }

    internal static string LevelName(Level level) => level switch { Level.Error => "error", Level.Warning => "warning", _ => "note" };
}
