using System.Globalization;
using Wain.Core.Binding;
using Wain.Core.Findings;

namespace Wain.Core.Checks;

/// <summary>Lengths are shown to a fraction that a tape measure has.</summary>
public static class TapeFraction
{
    private static string Text(string fraction) => $"camper \"Demo\" {{\n    lengths inches to {fraction}\n}}\n" + Examples.Wall(60, 30, "");

    public static readonly FindingInfo Info = new("WN2012", "no-such-fraction", Level.Warning, "Lengths are asked for in a fraction that no tape has",
        "A tape of inches is divided in halves, quarters, eighths and so on to 1/64 (common practice). Anything else is shown to the next finer one.",
        Text("1/10"), Text("1/16"));

    public static IEnumerable<Finding> Check(CheckInput input)
    {
        foreach (var camper in input.Spec.All("camper"))
        {
            if (camper.Find("lengths") is not { } lengths || !lengths.Has("fraction") || input.Spec.Evaluator.Number(lengths, "fraction") is not { } fraction) continue;
            if (fraction > 0 && 1 / fraction is var parts && parts is 1 or 2 or 4 or 8 or 16 or 32 or 64) continue;
            double finer = fraction is > 0 and <= 1 ? Math.Pow(2, Math.Clamp(Math.Ceiling(Math.Log2(1 / fraction) - 1e-9), 0, 6)) : 16;
            yield return new Finding(Info, string.Create(CultureInfo.InvariantCulture, $"{fraction:0.####} is no part of an inch that a tape shows; lengths are shown to 1/{finer:0} in."), input.Spec.Evaluator.SlotSpan(lengths, "fraction"))
            {
                Subject = lengths.Path,
                Fixes = [Fixing.Write(input.Spec, lengths, "fraction", string.Create(CultureInfo.InvariantCulture, $"1/{finer:0}"))],
            };
        }
    }
}
