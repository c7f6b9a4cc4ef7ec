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
    /// Where the rules let cuts stop inside a board, those of a board free its parts and what is kept of it, exactly.
    /// </summary>
    public static string? FirstProblem(CutPlanSheet sheet, long kerf, bool guillotine)
    {
        var boards = new List<Board> { new(0, 0, sheet.Width, sheet.Length) };
        var stops = new Dictionary<Board, List<PlannedCut>>();
        foreach (var cut in sheet.Cuts)
        {
            if (cut.Level == PlannedCut.Stopped && !guillotine)
            {
                int on = boards.FindIndex(b => cut.Upright ? b.X1 - kerf <= cut.At && cut.At < b.X2 && b.Y1 <= cut.From && cut.To <= b.Y2 : b.Y1 - kerf <= cut.At && cut.At < b.Y2 && b.X1 <= cut.From && cut.To <= b.X2);
                if (on < 0 || cut.From >= cut.To) return "A cut that stops lies on no board.";
                if (Struck(sheet, boards[on], cut, kerf) is { } mark) return $"A cut strikes {mark}.";
                if (!stops.TryGetValue(boards[on], out var those)) stops[boards[on]] = those = [];
                those.Add(cut);
                continue;
            }
            // A cut may skim off less than a kerf, with a part of the blade beyond the edge.
            int at = boards.FindIndex(b => cut.Upright ? b.X1 - kerf < cut.At && cut.At < b.X2 && b.Y1 == cut.From && b.Y2 == cut.To : b.Y1 - kerf < cut.At && cut.At < b.Y2 && b.X1 == cut.From && b.X2 == cut.To);
            if (at < 0 || stops.ContainsKey(boards[at])) return "A cut does not run from edge to edge of a board.";
            var board = boards[at];
            if (cut.Level == 0)
            {
                boards[at] = Trimmed(board, cut);
                continue;
            }
            if (Struck(sheet, board, cut, kerf) is { } struck) return $"A cut strikes {struck}.";
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
            if ((stops.TryGetValue(board, out var those) ? StoppedCutFollower.FirstProblem(sheet, on, (board.X1, board.Y1, board.X2, board.Y2), those, kerf) : Together(on, kerf)) is { } problem) return problem;
        }
        return null;
    }

    /// <summary>What is wrong with parts that no cut divides; null for one alone, and for outlines that lap.</summary>
    internal static string? Together(List<PlacedPart> parts, long kerf)
    {
        for (int i = 0; i < parts.Count; i++)
            for (int j = 0; j < i; j++)
                if (parts[i].Outline.IsEmpty || parts[j].Outline.IsEmpty || Apart(parts[i], parts[j], kerf)) return $"No cut parts {parts[i].Mark} from {parts[j].Mark}.";
        return null;
    }

    private static bool Apart(PlacedPart a, PlacedPart b, long kerf) => a.X + a.Width + kerf <= b.X || b.X + b.Width + kerf <= a.X || a.Y + a.Length + kerf <= b.Y || b.Y + b.Length + kerf <= a.Y;

    private static string? Struck(CutPlanSheet sheet, Board board, PlannedCut cut, long kerf)
    {
        foreach (var p in sheet.Parts)
        {
            if (p.X >= board.X2 || p.X + p.Width <= board.X1 || p.Y >= board.Y2 || p.Y + p.Length <= board.Y1) continue;
            bool beside = cut.Upright ? p.Y >= cut.To || p.Y + p.Length <= cut.From : p.X >= cut.To || p.X + p.Width <= cut.From;
            if (!beside && (cut.Upright ? p.X < cut.At + kerf && cut.At < p.X + p.Width : p.Y < cut.At + kerf && cut.At < p.Y + p.Length)) return p.Mark;
        }
        return null;
    }
}
