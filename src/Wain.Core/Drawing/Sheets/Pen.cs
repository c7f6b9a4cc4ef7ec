using System.Collections.Immutable;

namespace Wain.Core.Drawing;

/// <summary>Line types of ISO 128-2 (in brackets its numbers).</summary>
public enum LineType
{
    /// <summary>Continuous (01).</summary>
    Continuous,

    /// <summary>Dashed (02): hidden edges.</summary>
    Dashed,

    /// <summary>Long-dashed dotted (04): centre lines; wide, cutting planes.</summary>
    LongDashDot,

    /// <summary>Long-dashed double-dotted (05): other positions of moving parts, neighbouring parts.</summary>
    LongDashDoubleDot,

    /// <summary>Dotted (07).</summary>
    Dotted,
}

/// <summary>How a line is drawn. Everything is drawn in black, so that a sheet survives any printer and copier.</summary>
/// <param name="Width">mm on paper; ISO 128-2's series is 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.</param>
public sealed record Pen(LineType Type, double Width)
{
    /// <summary>Wide continuous: visible outlines.</summary>
    public static readonly Pen Outline = new(LineType.Continuous, 0.5);

    /// <summary>Medium continuous: edges inside the outline, such as frame members and openings in a busy view.</summary>
    public static readonly Pen Edge = new(LineType.Continuous, 0.35);

    /// <summary>Narrow continuous: dimensions, leaders, hatching.</summary>
    public static readonly Pen Narrow = new(LineType.Continuous, 0.18);

    /// <summary>Narrow dashed: hidden edges.</summary>
    public static readonly Pen Hidden = new(LineType.Dashed, 0.25);

    /// <summary>Narrow long-dashed dotted: centre lines and axes of symmetry.</summary>
    public static readonly Pen Centre = new(LineType.LongDashDot, 0.25);

    /// <summary>Wide long-dashed dotted: where a section is cut.</summary>
    public static readonly Pen CuttingPlane = new(LineType.LongDashDot, 0.5);

    /// <summary>Narrow long-dashed double-dotted: the other position of what moves.</summary>
    public static readonly Pen Alternate = new(LineType.LongDashDoubleDot, 0.25);

    /// <summary>Dashes and gaps in mm, empty for a continuous line. ISO 128-2's lengths, in line widths: dash 12, long dash 24, gap 3, dot 0.5.
    /// Widths under 0.25 are treated as 0.25 here, because finer dots vanish on an office printer.</summary>
    public ImmutableArray<double> Dashes
    {
        get
        {
            double d = Math.Max(Width, 0.25);
            double dash = 12 * d, longDash = 24 * d, gap = 3 * d, dot = 0.5 * d;
            return Type switch
            {
                LineType.Dashed => [dash, gap],
                LineType.LongDashDot => [longDash, gap, dot, gap],
                LineType.LongDashDoubleDot => [longDash, gap, dot, gap, dot, gap],
                LineType.Dotted => [dot, gap],
                _ => [],
            };
        }
    }
}
