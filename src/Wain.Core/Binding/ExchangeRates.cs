using Wain.Core.Findings;

namespace Wain.Core.Binding;

/// <summary>The rates between currencies that a spec states. Of a pair the latest day counts, so that an older rate may stay as a record.</summary>
internal static class ExchangeRates
{
    /// <summary>All rates, the latest first.</summary>
    public static IEnumerable<BoundFact> Of(Spec spec) => spec.All("camper").SelectMany(c => c.All("exchange")).OrderByDescending(r => spec.Evaluator.Date(r, "date"));

    /// <summary>Two rates of one pair on one day, whichever way round they are stated: one of them would be lost.</summary>
    public static void TellTwice(Spec spec)
    {
        var known = new Dictionary<(string, string, DateOnly), BoundFact>();
        foreach (var camper in spec.All("camper"))
            foreach (var rate in camper.Body.Where(f => f.Keyword == "exchange").OrderBy(f => f.HeadSpan.Start))
            {
                if (CurrencyOf(spec, rate, "money") is not { } a || CurrencyOf(spec, rate, "value") is not { } b || spec.Evaluator.Date(rate, "date") is not { } day) continue;
                var pair = string.CompareOrdinal(a, b) <= 0 ? (a, b, day) : (b, a, day);
                if (known.TryAdd(pair, rate)) continue;
                spec.Evaluator.Report(new Finding(BindingFindings.FactTwice, $"A second rate between {a} and {b} on {day:yyyy-MM-dd} is stated here.", rate.Span)
                {
                    Subject = rate.Path, Hint = "Keep one of the two, or give each its own day: the latest counts.", Related = [new Related(known[pair].Span, "first stated here")],
                });
            }
    }

    private static string? CurrencyOf(Spec spec, BoundFact rate, string slot) => spec.Evaluator.Quantity(rate, slot)?.Dimension.Currency;
}
