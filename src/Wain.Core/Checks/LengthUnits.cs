using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Syntax;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Checks;

/// <summary>
/// One height or length in another unit than those around it, where that is why panels do not fit. A wall that ends below its foot is told at the wall; whether a
/// unit is the cause is found by trying: with the other unit in its place nothing of it is left.
/// </summary>
internal static class LengthUnits
{
    private const string Text = """
        sheet ply { thickness 12 mm
            size 48 in by 96 in }
        stack board { sheet ply }
        let wall_top = TOP
        plan body {
            start at (0 in, 20 in)
            leg left run 80 in
            leg front across 40 in
            leg right run 80 in
            leg rear home, across 40 in
        }
        panel deck of board { covers plan body, top at 20 in }
        panel left_wall of board { stands on body.left, from deck.top to wall_top }
        panel front_wall of board { stands on body.front, from deck.top to wall_top }
        joint left_wall.bottom to deck.top { butt }
        joint front_wall.bottom to deck.top { butt }
        """;

    public static readonly FindingInfo Info = new("WN3021", "length-in-another-unit", Level.Error, "A length is in another unit than those around it, and panels do not fit for it",
        "Millimetres among inches make a height of next to nothing, and inches among millimetres one of a house. What follows is told at every wall that hangs on it; here the one number is told instead. It was found by trying: with the other unit all that is gone.",
        Text.With("TOP", "57 mm"), Text.With("TOP", "57 in"));

    /// <summary>Each trial is a compile of its own.</summary>
    private const int MostTrials = 6;

    /// <summary>A spec of more facts than this is not tried: who waits for it would wait many times.</summary>
    private const int MostFacts = 2_000;

    /// <summary>The findings with the one number in place of all that follows from it; as they are where no one number explains them.</summary>
    /// <param name="again">Compiles the spec with a change.</param>
    public static ImmutableArray<Finding> Explain(Spec spec, ImmutableArray<Finding> findings, Func<Fix, ImmutableArray<Finding>> again)
    {
        var misfits = findings.Where(IsMisfit).ToList();
        if (misfits.Count == 0 || spec.Facts.Length > MostFacts || findings.Any(f => f.Level == Level.Error && IsUnread(f))) return findings;
        // Errors of placing are told before anything is held against anything.
        bool placed = !misfits.Exists(f => f.Code.StartsWith("WN30", StringComparison.Ordinal));
        var known = findings.Select(f => (f.Code, f.Subject)).ToHashSet();
        foreach (var (measure, unit) in Odd(spec))
        {
            string text = measure.Span.Text[..^measure.Unit.Length] + unit;
            var fix = new Fix(measure.Span, text, $"write {text}");
            var left = again(fix);
            // Another mistake may stay; a new one, or one wall alone that happens to fit now, is no proof.
            if (left.Any(f => f.Level == Level.Error && IsUnread(f) || f.Level == Level.Error && !known.Contains((f.Code, f.Subject)) || placed && IsOfPlaces(f) && !known.Contains((f.Code, f.Subject)))) continue;
            int mended = misfits.Count - left.Count(IsMisfit);
            if (mended < Math.Min(2, misfits.Count)) continue;
            var stay = left.Select(f => (f.Code, f.Subject)).ToHashSet();
            var gone = findings.Where(f => f.AcceptedBecause is null && f.Level > Level.Note && !stay.Contains((f.Code, f.Subject))).ToList();
            int errors = gone.Count(f => f.Level == Level.Error);
            var told = new Finding(Info, $"{measure.Span.Text} stands among lengths in {UnitTable.Find(unit)!.Words}, and {(errors == 1 ? "an error follows" : $"{errors} errors follow")} from it; {text} mends {(errors == 1 ? "it" : "them")}.", measure.Span)
            {
                Related = [new Related(misfits[0].Place, misfits[0].Message)], Fixes = [fix],
            };
            return [.. findings.Except(gone), told];
        }
        return findings;
    }

    private static bool IsMisfit(Finding f) => f.Level == Level.Error && IsOfPlaces(f);

    private static bool IsOfPlaces(Finding f) => f.Level > Level.Note && f.AcceptedBecause is null && (f.Code.StartsWith("WN30", StringComparison.Ordinal) || f.Code.StartsWith("WN40", StringComparison.Ordinal) || f.Code.StartsWith("WN43", StringComparison.Ordinal));

    private static bool IsUnread(Finding f) => f.Info != BindingFindings.RequireFalse && f.Code[2] is '0' or '1' or '2';

    /// <summary>Lengths whose unit is not that of most lengths of panels, plans and names, the rarest unit first, with the unit of most.</summary>
    private static IEnumerable<(MeasureExpression Measure, string Unit)> Odd(Spec spec)
    {
        var expressions = spec.NamedValues.Select(v => v.Expression).OfType<Expression>().Concat(spec.Facts.Where(f => f.Keyword is "panel" or "plan" or "level" or "mirror").SelectMany(Terms));
        var byUnit = expressions.SelectMany(Measures).Where(m => m.Value.Dimension == Dimension.OfLength && m.Span.Text.EndsWith(m.Unit, StringComparison.Ordinal) && !m.Span.Text[..^m.Unit.Length].Any(char.IsLetter))
            .DistinctBy(m => m.Span).GroupBy(m => m.Unit).OrderByDescending(g => g.Count()).ToList();
        return byUnit.Count < 2 || byUnit[0].Count() < 3 ? [] : byUnit.Skip(1).Reverse().SelectMany(g => g).Take(MostTrials).Select(m => (m, byUnit[0].Key));
    }

    private static IEnumerable<Expression> Terms(BoundFact fact) => fact.Slots.All.SelectMany(s => s.Terms).Concat(fact.Body.SelectMany(Terms));

    private static IEnumerable<MeasureExpression> Measures(Expression expression) => expression switch
    {
        MeasureExpression measure => [measure],
        NegateExpression negate => Measures(negate.Operand),
        ChainExpression chain => chain.Operands.SelectMany(Measures),
        PlaceExpression place => place.Items.SelectMany(Measures),
        CallExpression call => call.Arguments.SelectMany(a => Measures(a.Value)),
        ChoiceExpression choice => choice.Branches.Select(b => b.Value).Append(choice.Otherwise).SelectMany(Measures),
        _ => [],
    };
}
