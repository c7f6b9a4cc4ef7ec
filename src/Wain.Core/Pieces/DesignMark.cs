using System.Globalization;
using System.IO.Hashing;
using System.Text;
using Wain.Core.Framing;
using Wain.Core.Geometry;
using Wain.Core.Geometry.Kernel;

namespace Wain.Core.Pieces;

/// <summary>A short name for what is cut for a panel or a part: shapes, sizes and materials, and not where it stands. Written down when a part is cut, it tells later that the design has changed.</summary>
public static class DesignMark
{
    /// <summary>Eight hexadecimal digits; null if the name is no panel and no part.</summary>
    /// <param name="name">Of a panel, "left_wall", or the mark of a part, "left_wall.rail_top".</param>
    public static string? Of(string name, Structure structure, Frames frames, PieceList pieces)
    {
        var text = new StringBuilder();
        var panel = structure.Panel(name);
        foreach (var piece in pieces.All.Where(p => panel is null ? p.PartMark == name : p.Panel.Name == name).OrderBy(p => p.PartMark, StringComparer.Ordinal))
        {
            Write(text, piece.Material.Name, piece.Thickness);
            Write(text, piece.Finished);
            foreach (var hole in piece.Holes) Write(text, hole);
        }
        foreach (var member in frames.Members.Where(m => panel is null ? m.PartMark == name : m.Panel.Name == name).OrderBy(m => m.PartMark, StringComparer.Ordinal))
        {
            Write(text, member.Stick.Name, member.Width, member.Depth, member.LongPoint, member.ShortPoint, member.RipBevel * 1000);
            foreach (var hole in member.Holes) Write(text, "hole", hole.At.X, hole.At.Y, hole.Diameter);
        }
        return text.Length == 0 ? null : XxHash32.HashToUInt32(Encoding.UTF8.GetBytes(text.ToString())).ToString("x8", CultureInfo.InvariantCulture);
    }

    // To 0.1 mm, finer than anybody cuts. Where a part stands moves the last bits of a size, so no size that people write may lie where one tenth goes over into the next:
    // 1/64 in is 127 and 0.1 mm is 32 times 1/320 mm, and the step is laid half of that off the middle between two tenths, on which quarters of an inch fall.
    private static void Write(StringBuilder text, string what, params ReadOnlySpan<double> sizes)
    {
        text.Append(what);
        foreach (double size in sizes) text.Append(' ').Append(((long)Math.Floor(size * 10 + 0.5 + 1.0 / 64)).ToString(CultureInfo.InvariantCulture));
        text.Append('\n');
    }

    private static void Write(StringBuilder text, Outline outline)
    {
        var corner = outline.Bounds.Min;
        foreach (var edge in outline.Edges) Write(text, "edge", edge.Start.X - corner.X, edge.Start.Y - corner.Y, edge.Sweep * 1000, edge.Tilt * 1000);
    }
}
