using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Text;
using Wain.Core.Units;

namespace Wain.Core.Takeoff;

/// <summary>The currency that costs are shown in, the rates that the spec states, tax, and when a price counts as old.</summary>
/// <param name="Rates">What one of another currency is worth.</param>
/// <param name="Tax">Share; null if the spec states none.</param>
/// <param name="StaleAfter">Seconds, or null.</param>
/// <param name="AsOf">The day that ages are counted to: as stated, or the latest date of any price, since the result must not depend on a clock.</param>
public sealed record Money(string Currency, ImmutableDictionary<string, double> Rates, double? Tax, Span? TaxFrom, string? TaxSource, double? StaleAfter, DateOnly? AsOf)
{
    public static Money Read(Spec spec, IEnumerable<Pack> packs)
    {
        var e = spec.Evaluator;
        string? currency = null, taxSource = null;
        double? tax = null, stale = null;
        Span? taxFrom = null;
        DateOnly? asOf = null;
        var rates = ImmutableDictionary.CreateBuilder<string, double>(StringComparer.Ordinal);
        var all = packs.ToList();
        foreach (var camper in spec.All("camper"))
        {
            currency ??= camper.Find("currency")?.Word("currency");
            if (camper.Find("tax") is { } t && e.Number(t, "share") is { } share) (tax, taxFrom, taxSource) = (share, t.Span, e.Text(t, "source"));
            if (camper.Find("prices") is { } p && e.Number(p, "age") is { } age) (stale, asOf) = (age, e.Date(p, "date"));
        }
        foreach (var exchange in e.Exchanges())
        {
            // Kept both ways: the spec may state either. The latest comes first.
            if (e.Quantity(exchange, "money") is not { Value: > 0 } one || e.Quantity(exchange, "value") is not { Value: > 0 } other) continue;
            rates.TryAdd(one.Dimension.Currency! + ">" + other.Dimension.Currency!, other.Value / one.Value);
            rates.TryAdd(other.Dimension.Currency! + ">" + one.Dimension.Currency!, one.Value / other.Value);
        }
        currency ??= all.Select(p => p.Price?.Dimension.Currency).FirstOrDefault(c => c is not null) ?? "USD";
        asOf ??= all.Max(p => p.PricedOn);
        return new Money(currency, rates.ToImmutable(), tax, taxFrom, taxSource, stale, asOf);
    }

    /// <summary>An amount in the spec's currency; null if no rate is stated.</summary>
    public double? InCurrency(Quantity amount) =>
        amount.Dimension.Currency is not { } from ? null : from == Currency ? amount.Value : Rates.TryGetValue(from + ">" + Currency, out double rate) ? amount.Value * rate : null;

    public Quantity Of(double amount) => new(amount, Dimension.OfMoney(Currency));

    /// <summary>True if the price is older than the spec allows.</summary>
    public bool IsStale(DateOnly? on) => on is { } day && StaleAfter is { } age && AsOf is { } today && (today.DayNumber - day.DayNumber) * 86400.0 > age;
}
