using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Wain.Core.CutLists;

/// <summary>The mark of a cut list: two lists with the same mark are cut alike, so a plan for one holds for the other.</summary>
public static class CutListKey
{
    // Raised when the planner itself changes so much that older plans should be made again.
    private const string Version = "wain cutting 4";

    /// <summary>Thirty-two hexadecimal digits over all that a plan follows from.</summary>
    public static string Of(CutList all)
    {
        var list = all.InLowestTerms();
        var text = new StringBuilder(Version);
        void Add(params object[] values)
        {
            foreach (object value in values) text.Append('\n').Append(Convert.ToString(value, CultureInfo.InvariantCulture));
        }
        Add(list.Material, list.Kind, list.Kerf, list.Trim, list.Guillotine, list.Thickness, list.CostUnit, list.OffcutValue, list.Stock.Length, list.Parts.Length);
        foreach (var s in list.Stock)
        {
            Add(s.Name, s.Width, s.Length, s.Cost, s.Count ?? -1, s.Owned, s.Faults.Length);
            foreach (var f in s.Faults) Add(f.From, f.To);
        }
        foreach (var p in list.Parts)
        {
            Add(p.Mark, p.Width, p.Length, p.Thickness, p.Count, p.MayTurn, p.LeftRun, p.RightRun, p.RunsOpposed, p.Outline.Length);
            foreach (var c in p.Outline) Add(c.X, c.Y);
        }
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..32];
    }
}
