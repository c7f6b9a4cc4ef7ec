using Wain.Core.Binding;
using Wain.Core.CutLists;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Checks;

/// <summary>A kerf is a few millimetres, and narrower than anything that is cut.</summary>
public static class KerfSize
{
    private static readonly string Text = "camper \"Demo\" { kerf KERF }\n" + Examples.Wall(48, 24, "    frame { studs every 16 in }");

    public static readonly FindingInfo Info = new("WN7002", "kerf-size", Level.Error, "The kerf is less than nothing, or wider than a part",
        "The kerf is what one cut of the saw turns to dust. It is added between any two parts, so a wrong figure wastes stock or makes parts come out short. A circular saw or table saw takes about 1/8 in (common practice).",
        Text.With("KERF", "-1/8 in"), Text.With("KERF", "1/8 in"));

    // mm.
    private const double Usual = 3.2;

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        string usual = input.Say.Such("1/8 in", "3 mm"), hint = $"Write what your blade takes; {usual} is usual (common practice).";
        foreach (var camper in input.Spec.All("camper"))
        {
            if (camper.Find("kerf") is not { } fact || input.Spec.Evaluator.Length(fact, "value") is not { } kerf) continue;
            if (kerf < 0)
            {
                yield return new Finding(Info, $"The kerf is {input.Say.Length(kerf)}; a cut can't add to what it cuts.", input.Spec.Evaluator.SlotSpan(fact, "value")) { Hint = hint, Subject = "kerf", Fixes = [Fixing.Write(input.Spec, fact, "value", usual)] };
                continue;
            }
            var narrow = input.CutLists.Where(l => l.Kind != CutKind.Roll).SelectMany(l => l.Parts.Select(p => (Part: p, Size: l.Kind == CutKind.Stick ? p.Length : Math.Min(p.Width, p.Length))))
                .Where(p => p.Size < kerf * CutList.UnitsPerMillimetre).OrderBy(p => p.Size).ThenBy(p => p.Part.Mark, StringComparer.Ordinal).ToList();
            if (narrow.Count == 0) continue;
            yield return new Finding(Info, $"The kerf of {input.Say.Length(kerf)} is wider than {narrow[0].Part.Mark}, which is {input.Say.Length(narrow[0].Size / CutList.UnitsPerMillimetre)}{(narrow.Count > 1 ? $", and than {narrow.Count - 1} more" : "")}.", input.Spec.Evaluator.SlotSpan(fact, "value"))
            {
                Level = Level.Warning,
                Subject = "kerf",
                // A usual kerf is right, and the part is what to look at.
                Hint = kerf > Usual ? hint : "The saw turns so narrow a piece to dust: cut it with a knife, or move the member, splice or opening beside it.",
                Fixes = kerf > Usual ? [Fixing.Write(input.Spec, fact, "value", usual)] : [],
            };
        }
    }
}
