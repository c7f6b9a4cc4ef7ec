using System.Numerics;

namespace Wain.Cutting;

/// <summary>
/// Prices for widths and for heights. No set of widths that fits side by side across a sheet is worth more than the sheet's own worth across, and
/// no set of heights more than its worth up; then no set of pieces that fits the sheet is worth more, each at the product of its two prices,
/// than the product of both (conservative scales: Fekete and Schepers 2004).
/// </summary>
/// <param name="Weight">What the term counts among several.</param>
/// <param name="Across">A price for each size, in the order of <see cref="SheetCertificate.Sizes"/>.</param>
/// <param name="Up">The same for heights.</param>
public sealed record PriceTerm(BigInteger Weight, IReadOnlyList<long> Across, IReadOnlyList<long> Up);

/// <summary>
/// The proof of a lower bound of cost for sheets: each piece is worth the weighted sum of its price terms, in the cheaper of its positions, and no sheet
/// may hold pieces worth more than it costs; a stock of which there are few may fall short by a surcharge, paid once for each that there is.
/// </summary>
/// <param name="Sizes">The sizes that are priced, kerf included.</param>
/// <param name="Scale">What one unit of cost is in these prices.</param>
/// <param name="Sharing">Prices by which pieces keep each other off a sheet; null for none. Where they prove more than the others, theirs is the bound.</param>
public sealed record SheetCertificate(IReadOnlyList<long> Sizes, IReadOnlyList<PriceTerm> Terms, BigInteger Scale, SharingPrices? Sharing = null);

/// <summary>
/// Prices of whole pieces, such that no pieces are worth more than the sheet costs of which any two and any three could lie on it, and which have room on it by their area. So pieces of
/// which no two can share a sheet are each worth one, and those of which no three can are worth half of one.
/// </summary>
/// <param name="Pieces">Pieces that have a price, by their index in the problem.</param>
/// <param name="Prices">The price of one of each.</param>
/// <param name="Weight">What a unit of these prices counts.</param>
/// <param name="Scale">What a unit of cost counts likewise.</param>
public sealed record SharingPrices(IReadOnlyList<int> Pieces, IReadOnlyList<long> Prices, long Weight, long Scale);
