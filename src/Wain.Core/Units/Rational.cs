using System.Globalization;
using System.Numerics;

namespace Wain.Core.Units;

/// <summary>
/// An exact fraction. Literals and what is computed from them by + - * / stay exact as long as both parts stay below <see cref="BitLimit"/> bits;
/// past that, and after any trigonometry, a <see cref="Quantity"/> goes on with a double alone.
/// </summary>
/// <remarks>Big integers, and not the 128-bit ones of the framework: code that touches those can't be compiled ahead of time, and start-up would pay for it.</remarks>
public readonly record struct Rational
{
    /// <summary>Both parts stay below this many bits, so that a long chain of products can't grow without end.</summary>
    public const int BitLimit = 256;

    private readonly BigInteger _numerator;
    private readonly BigInteger _denominatorLessOne;

    private Rational(BigInteger numerator, BigInteger denominator)
    {
        _numerator = numerator;
        _denominatorLessOne = denominator - BigInteger.One;
    }

    public static Rational Zero => default;

    public static Rational One => new(BigInteger.One, BigInteger.One);

    public BigInteger Numerator => _numerator;

    /// <summary>Always positive, and without a common factor with the numerator.</summary>
    public BigInteger Denominator => _denominatorLessOne + BigInteger.One;

    public static implicit operator Rational(long whole) => new(whole, BigInteger.One);

    /// <summary>The reduced fraction, or null if the denominator is zero or a part has too many bits.</summary>
    public static Rational? Of(BigInteger numerator, BigInteger denominator)
    {
        if (denominator.IsZero) return null;
        if (denominator.Sign < 0) (numerator, denominator) = (-numerator, -denominator);
        var divisor = BigInteger.GreatestCommonDivisor(numerator, denominator);
        if (!divisor.IsOne) (numerator, denominator) = (numerator / divisor, denominator / divisor);
        return numerator.GetBitLength() > BitLimit || denominator.GetBitLength() > BitLimit ? null : new Rational(numerator, denominator);
    }

    /// <summary>Reads digits with an optional decimal point and exponent, such as 12, 0.75 and 1.95e6; null if it does not fit.</summary>
    public static Rational? ParseDecimal(ReadOnlySpan<char> text)
    {
        int exponent = 0;
        int e = text.IndexOfAny('e', 'E');
        if (e >= 0)
        {
            if (!int.TryParse(text[(e + 1)..], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out exponent) || Math.Abs(exponent) > 36) return null;
            text = text[..e];
        }
        if (text.Length > 60) return null;
        BigInteger digits = BigInteger.Zero;
        long small = 0;
        int held = 0;
        bool pastPoint = false;
        foreach (char c in text)
        {
            if (c == '.') { pastPoint = true; continue; }
            small = small * 10 + (c - '0');
            if (pastPoint) exponent--;
            // Eighteen digits at a time: most literals never need a big number.
            if (++held == 18)
            {
                digits = digits * BigInteger.Pow(10, held) + small;
                (small, held) = (0, 0);
            }
        }
        if (held > 0) digits = digits.IsZero ? small : digits * BigInteger.Pow(10, held) + small;
        if (Math.Abs(exponent) > 60) return null;
        var power = BigInteger.Pow(10, Math.Abs(exponent));
        return exponent >= 0 ? Of(digits * power, BigInteger.One) : Of(digits, power);
    }

    public static Rational? Add(Rational a, Rational b) => Of(a.Numerator * b.Denominator + b.Numerator * a.Denominator, a.Denominator * b.Denominator);

    public static Rational? Multiply(Rational a, Rational b) => Of(a.Numerator * b.Numerator, a.Denominator * b.Denominator);

    public Rational? Inverse() => Of(Denominator, Numerator);

    public Rational Negate() => new(-Numerator, Denominator);

    /// <summary>The nearest double: both parts below 2^53 divide with one correct rounding, larger ones are scaled to 64 bits of quotient first.</summary>
    public double ToDouble()
    {
        var denominator = Denominator;
        if (denominator.IsOne) return (double)_numerator;
        if (_numerator.GetBitLength() <= 53 && denominator.GetBitLength() <= 53) return (double)_numerator / (double)denominator;
        long shift = 66 - (_numerator.GetBitLength() - denominator.GetBitLength());
        var quotient = shift >= 0 ? (BigInteger.Abs(_numerator) << (int)shift) / denominator : BigInteger.Abs(_numerator) / (denominator << (int)-shift);
        return _numerator.Sign * Math.ScaleB((double)quotient, (int)-shift);
    }

    public int CompareTo(Rational other) => (Numerator * other.Denominator).CompareTo(other.Numerator * Denominator);

    public override string ToString() => Denominator.IsOne ? Numerator.ToString(CultureInfo.InvariantCulture)
        : $"{Numerator.ToString(CultureInfo.InvariantCulture)}/{Denominator.ToString(CultureInfo.InvariantCulture)}";
}
