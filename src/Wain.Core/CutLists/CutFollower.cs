namespace Wain.Core.CutLists;

/// <summary>Follows the cuts of a sheet in their order, as a person at the saw does.</summary>
public static class CutFollower
{
    private readonly record struct Board(long X1, long Y1, long X2, long Y2);

    // The edge that is nearer is the one that comes off.
    private static Board Trimmed(Board b, PlannedCut cut) => cut.Upright
        ? 2 * cut.At < b.X1 + b.X2 ? b with { X1 = cut.At } : b with { X2 = cut.At }
        : 2 * cut.At < b.Y1 + b.Y2 ? b with { Y1 = cut.At } : b with { Y2 = cut.At };

    /// <summary>
    /// What is wrong with the cuts, in words; null if each runs from edge to edge of what lies on the saw, strikes no part, and each part ends up alone.
    /// Parts with outlines may end up together if their rectangles lap: the last cut between these is the slanted one of their outlines.
    /// </summary>
    public static string? FirstProblem(CutPlanSheet sheet, long kerf)
    {
        var boards = new List<Board> { new(0, 0, sheet.Width, sheet.Length) };
        foreach (var cut in sheet.Cuts)
        {
            // A cut may skim off less than a kerf, with a part of the blade beyond the edge.
            int at = boards.FindIndex(b => cut.Upright ? b.X1 - kerf < cut.At && cut.At < b.X2 && b.Y1 == cut.From && b.Y2 == cut.To : b.Y1 - kerf < cut.At && cut.At < b.Y2 && b.X1 == cut.From && b.X2 == cut.To);
            if (at < 0) return "A cut does not run from edge to edge of a board.";
            var board = boards[at];
            if (cut.Level == 0)
            {
                boards[at] = Trimmed(board, cut);
                continue;
            }
            foreach (var p in sheet.Parts)
            {
                if (p.X >= board.X2 || p.X + p.Width <= board.X1 || p.Y >= board.Y2 || p.Y + p.Length <= board.Y1) continue;
                if (cut.Upright ? p.X < cut.At + kerf && cut.At < p.X + p.Width : p.Y < cut.At + kerf && cut.At < p.Y + p.Length) return $"A cut strikes {p.Mark}.";
            }
            var (near, far) = cut.Upright
                ? (board with { X2 = cut.At }, board with { X1 = Math.Min(board.X2, cut.At + kerf) })
                : (board with { Y2 = cut.At }, board with { Y1 = Math.Min(board.Y2, cut.At + kerf) });
            boards.RemoveAt(at);
            boards.AddRange(new[] { near, far }.Where(b => b.X2 > b.X1 && b.Y2 > b.Y1));
        }
        foreach (var board in boards)
        {
            var on = sheet.Parts.Where(p => p.X < board.X2 && p.X + p.Width > board.X1 && p.Y < board.Y2 && p.Y + p.Length > board.Y1).ToList();
            if (on.Exists(p => p.X < board.X1 || p.X + p.Width > board.X2 || p.Y < board.Y1 || p.Y + p.Length > board.Y2)) return $"{on[0].Mark} lies across a cut.";
            for (int i = 0; i < on.Count; i++)
                for (int j = 0; j < i; j++)
                    if (on[i].Outline.IsEmpty || on[j].Outline.IsEmpty || on[i].X + on[i].Width + kerf <= on[j].X || on[j].X + on[j].Width + kerf <= on[i].X || on[i].Y + on[i].Length + kerf <= on[j].Y || on[j].Y + on[j].Length + kerf <= on[i].Y)
                        return $"No cut parts {on[i].Mark} from {on[j].Mark}.";
        }
        return null;
    }
}
