using Wain.Core.Drawing;
using Wain.Core.Drawing.Panels;
using Wain.Core.Geometry.Kernel;
using Wain.Core.Reporting;
using Paper = Wain.Core.Drawing.Paper;

namespace Wain.Core.CutLists;

/// <summary>Each sheet and stick as it is cut, in black and white: parts are white, what is kept has its diagonals dashed, waste is grey.</summary>
public static class CuttingPictures
{
    // Rolls are cut with shears or a knife.
    private static string CautionOf(CutKind kind) => kind == CutKind.Roll ? "Measure the roll before you cut. Dry glass cloth sheds fibres: wear gloves, long sleeves and a dust mask."
        : "Measure the stock before you cut, and keep the kerf on the waste side. Wear eye, ear and dust protection; guard the blade.";

    /// <summary>One for each different sheet, with another where its lists run on, and as many as the sticks of a material take.</summary>
    /// <param name="options">Of the drawings that these go with.</param>
    public static IEnumerable<LaidSheet> Of(CuttingPlan plan, ReportUnits units, DrawingOptions options)
    {
        foreach (var m in plan.Materials)
        {
            TitleBlock Title(string name, string view) => options.Title(name, "", view) with { Units = "", Caution = CautionOf(m.Kind) };
            if (m.Kind == CutKind.Stick)
            {
                int page = 0;
                foreach (var sheet in StickPicture.Of(m, units, options.Paper, Title)) yield return Laid(FormattableString.Invariant($"{File(m)}_{++page}"), sheet);
                continue;
            }
            string view = m.Kind switch { CutKind.Sheet => "face that becomes the outside", CutKind.Roll => "from above, off the roll", _ => "from above" };
            for (int i = 0; i < m.Sheets.Length; i++)
            {
                int page = 0;
                var title = Title(CuttingTables.Mark(m, i) + (m.Sheets[i].Times > 1 ? $", {m.Sheets[i].Times} alike" : ""), $"{i + 1} of {m.Sheets.Length}, {view}");
                foreach (var sheet in SheetPicture.Of(m, m.Sheets[i], units, title, options.Paper)) yield return Laid($"{File(m)}_{i + 1}{(++page == 1 ? "" : $"_{page}")}", sheet);
            }
        }
    }

    private static LaidSheet Laid(string name, Sheet sheet) => new(name, sheet, [.. sheet.Marks.OfType<TextMark>().Select(t => new LabelBox(t.Text, t.Bounds))]);

    private static string File(MaterialPlan plan) => string.Concat(plan.Material.Select(c => char.IsAsciiLetterOrDigit(c) ? c : '_'));
}
