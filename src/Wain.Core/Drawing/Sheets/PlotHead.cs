using System.Collections.Immutable;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Drawing;

/// <summary>A band over a plot that says which design it is of, and DRAFT with the errors while any stand: a plot is passed round without its workbook.</summary>
public static class PlotHead
{
    private const double Pad = 4, Line = TextMark.Small * Lettering.Leading;
    private const int ErrorLines = 6;

    /// <param name="about">Design, revision and hash of what the plot shows.</param>
    /// <param name="errors">Of the spec; empty if it is no draft.</param>
    public static Picture Over(Picture plot, string about, ImmutableArray<string> errors)
    {
        double room = plot.Width - 2 * Pad;
        List<TextMark> lines = [new(default, Lettering.Shorten(about, TextMark.Small, room))];
        if (!errors.IsEmpty)
        {
            lines.Insert(0, new(default, "DRAFT", TextMark.Large, Bold: true));
            int told = errors.Length <= ErrorLines ? errors.Length : ErrorLines - 1;
            lines.AddRange(errors.Take(told).Select(e => new TextMark(default, Lettering.Shorten(e, TextMark.Small, room))));
            if (told < errors.Length) lines.Add(new(default, $"and {errors.Length - told} more errors"));
        }
        double high = Pad + lines.Sum(l => l.Height + Line - TextMark.Small), y = plot.Height + high - Pad;
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.AddRange(plot.Marks);
        foreach (var line in lines)
        {
            y -= line.Height;
            marks.Add(line with { At = new Vec2(Pad, y) });
            y -= Line - TextMark.Small;
        }
        return plot with { Title = errors.IsEmpty ? plot.Title : "DRAFT: " + plot.Title, Height = plot.Height + high, Marks = marks.ToImmutable() };
    }
}
