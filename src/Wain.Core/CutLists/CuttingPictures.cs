using Wain.Core.Drawing;
using Wain.Core.Reporting;

namespace Wain.Core.CutLists;

/// <summary>A picture with the name of its file.</summary>
public sealed record CuttingPicture(string Name, Picture Picture);

/// <summary>Each sheet and stick as it is cut, in black and white: parts are white, what is kept has its diagonals dashed, waste is grey.</summary>
public static class CuttingPictures
{
    private const int SticksOnPage = 12;

    /// <summary>One picture for each different sheet, with another where its lists run on, and one for every twelve different sticks.</summary>
    /// <param name="title">The title block for a name, what the view shows, and which of how many.</param>
    public static IEnumerable<CuttingPicture> Of(CuttingPlan plan, ReportUnits units, Func<string, string, string, TitleBlock> title)
    {
        foreach (var m in plan.Materials)
        {
            if (m.Kind == CutKind.Stick)
            {
                int page = 0;
                foreach (var some in m.Sheets.Select((s, i) => (Sheet: s, Index: i)).Chunk(SticksOnPage))
                    yield return new($"{File(m)}_{++page}", StickPicture.Of(some, units, title($"{m.Material}, sticks", "side that slanted ends lean in", $"{some[0].Index + 1} to {some[^1].Index + 1} of {m.Sheets.Length}")).ToPicture());
                continue;
            }
            string view = m.Kind switch { CutKind.Sheet => "face that becomes the outside", CutKind.Roll => "from above, off the roll", _ => "from above" };
            for (int i = 0; i < m.Sheets.Length; i++)
            {
                int page = 0;
                foreach (var sheet in SheetPicture.Of(m, m.Sheets[i], units, title(CuttingTables.Mark(m, i) + (m.Sheets[i].Times > 1 ? $", {m.Sheets[i].Times} alike" : ""), view, $"{i + 1} of {m.Sheets.Length}")))
                    yield return new($"{File(m)}_{i + 1}{(++page == 1 ? "" : $"_{page}")}", sheet.ToPicture());
            }
        }
    }

    private static string File(MaterialPlan plan) => string.Concat(plan.Material.Select(c => char.IsAsciiLetterOrDigit(c) ? c : '_'));
}
