using System.Numerics;

namespace Wain.Core.Units;

/// <summary>
/// An exact fraction. Literals and what is computed from them by + - * / stay exact as long as both parts fit in 128 bits;
/// past that, and after any trigonometry, a <see cref="Quantity"/> goes on with a double alone.
/// </summary>
public readonly record struct Rational
{
    private readonly Int128 _numerator;
    private readonly Int128 _denominatorLessOne;

    private Rational(Int128 numerator, Int128 denominator)
    {
        _numerator = numerator;
        _denominatorLessOne = denominator - 1;
    }

    public static Rational Zero => default;

    public static Rational One => new(1, 1);

    public Int128 Numerator => _numerator;

    /// <summary>Always positive, and without a common factor with the numerator.</summary>
    public Int128 Denominator => _denominatorLessOne + 1;

    public static implicit operator Rational(long whole) => new(whole, 1);

    /// <summary>The reduced fraction, or null if the denominator is zero or a part does not fit.</summary>
    public static Rational? Of(Int128 numerator, Int128 denominator)
    {
        if (denominator == 0 || numerator == Int128.MinValue || denominator == Int128.MinValue) return null;
        if (denominator < 0) (numerator, denominator) = (-numerator, -denominator);
        Int128 divisor = Gcd(Int128.Abs(numerator), denominator);
        return new Rational(numerator / divisor, denominator / divisor);
    }

    /// <summary>Reads digits with an optional decimal point and exponent, such as 12, 0.75 and 1.95e6; null if it does not fit.</summary>
    public static Rational? ParseDecimal(ReadOnlySpan<char> text)
    {
        int exponent = 0;
        int e = text.IndexOfAny('e', 'E');
        if (e >= 0)
        {
            if (!int.TryParse(text[(e + 1)..], System.Globalization.NumberStyles.AllowLeadingSign, System.Globalization.CultureInfo.InvariantCulture, out exponent) || Math.Abs(exponent) > 36) return null;
            text = text[..e];
        }
        Int128 digits = 0;
        bool pastPoint = false;
        foreach (char c in text)
        {
            if (c == '.') { pastPoint = true; continue; }
            if (digits > Int128.MaxValue / 100) return null;
            digits = digits * 10 + (c - '0');
            if (pastPoint) exponent--;
        }
        if (Math.Abs(exponent) > 36) return null;
        Int128 power = 1;
        for (int i = 0; i < Math.Abs(exponent); i++) power *= 10;
        return exponent >= 0 ? Multiply(new Rational(digits, 1), new Rational(power, 1)) : Of(digits, power);
    }

    public static Rational? Add(Rational a, Rational b)
    {
        try
        {
            checked
            {
                Int128 divisor = Gcd(a.Denominator, b.Denominator);
                Int128 left = b.Denominator / divisor;
                return Of(a.Numerator * left + b.Numerator * (a.Denominator / divisor), a.Denominator * left);
            }
        }
        catch (OverflowException) { return null; }
    }

    public static Rational? Multiply(Rational a, Rational b)
    {
        try
        {
            checked
            {
                Int128 first = Gcd(Int128.Abs(a.Numerator), b.Denominator);
                Int128 second = Gcd(Int128.Abs(b.Numerator), a.Denominator);
                if (first == 0) first = 1;
                if (second == 0) second = 1;
                return Of((a.Numerator / first) * (b.Numerator / second), (a.Denominator / second) * (b.Denominator / first));
            }
        }
        catch (OverflowException) { return null; }
    }

    public Rational? Inverse() => Of(Denominator, Numerator);

    public Rational Negate() => new(-Numerator, Denominator);

    public double ToDouble() => Denominator == 1 ? (double)Numerator : DivideRounded(Numerator, Denominator);

    public int CompareTo(Rational other)
    {
        var left = (BigInteger)Numerator * (BigInteger)other.Denominator;
        return left.CompareTo((BigInteger)other.Numerator * (BigInteger)Denominator);
    }

    // Both parts below 2^53 divide with one correct rounding; larger ones lose at most a few units in the last place.
    private static double DivideRounded(Int128 numerator, Int128 denominator) => (double)numerator / (double)denominator;

    private static Int128 Gcd(Int128 a, Int128 b)
    {
        if (a >= 0 && a <= long.MaxValue && b >= 0 && b <= long.MaxValue)
        {
            ulong x = (ulong)a, y = (ulong)b;
            while (y != 0) (x, y) = (y, x % y);
            return x;
        }
        while (b != 0) (a, b) = (b, a % b);
        return a;
    }

    public override string ToString() => Denominator == 1 ? Numerator.ToString(System.Globalization.CultureInfo.InvariantCulture)
        : $"{Numerator.ToString(System.Globalization.CultureInfo.InvariantCulture)}/{Denominator.ToString(System.Globalization.CultureInfo.InvariantCulture)}";
}
