using Wain.Core.Units;

namespace Wain.Core.Parsing;

/// <summary>Numbers as a builder writes them.</summary>
internal static class NumberText
{
    public const string VulgarFractions = "\u00BC\u00BD\u00BE\u215B\u215C\u215D\u215E";
    public static readonly string[] VulgarSpellings = ["1/4", "1/2", "3/4", "1/8", "3/8", "5/8", "7/8"];

    /// <summary>12, 0.5, 5/16 and 5 1/2; null for a zero denominator or too many digits.</summary>
    public static Rational? Parse(string text)
    {
        int vulgar = VulgarFractions.IndexOf(text[^1]);
        if (vulgar >= 0) return Parse((text[..^1].Trim() + " " + VulgarSpellings[vulgar]).TrimStart());
        int stroke = text.IndexOf('/');
        if (stroke < 0) return Rational.ParseDecimal(text);
        int blank = text.LastIndexOfAny([' ', '\t'], stroke);
        var whole = blank < 0 ? Rational.Zero : Rational.ParseDecimal(text.AsSpan(0, blank).TrimEnd());
        var numerator = Rational.ParseDecimal(text.AsSpan(blank + 1, stroke - blank - 1));
        var denominator = Rational.ParseDecimal(text.AsSpan(stroke + 1));
        if (whole is null || numerator is null || denominator?.Inverse() is not { } inverse) return null;
        return Rational.Multiply(numerator.Value, inverse) is { } fraction ? Rational.Add(whole.Value, fraction) : null;
    }

    public static string TooManyDigits(string text) => $"{Shorten(text)} has more digits than can be held exactly.";

    public static string Shorten(string text) => text.Length <= 24 ? text : text[..20] + "...";
}
