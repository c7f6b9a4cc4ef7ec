namespace Wain.Core.Units;

/// <summary>
/// A number with its kind, in base units: metre, kilogram, second, kelvin, degree of angle, and the currency named. <see cref="Exact"/> is kept
/// as long as everything that it came from was exact.
/// </summary>
public readonly record struct Quantity
{
    public Quantity(Rational exact, Dimension dimension)
    {
        Exact = exact;
        Value = exact.ToDouble();
        Dimension = dimension;
    }

    public Quantity(double value, Dimension dimension)
    {
        Exact = null;
        Value = value;
        Dimension = dimension;
    }

    public Rational? Exact { get; }

    /// <summary>In base units; for an angle, degrees.</summary>
    public double Value { get; }

    public Dimension Dimension { get; }

    public double Millimetres => Exact is { } x && Rational.Multiply(x, 1000) is { } mm ? mm.ToDouble() : Value * 1000;

    public double Radians => Value * (Math.PI / 180);

    /// <summary>True if the double is a number and not infinite.</summary>
    public bool IsFinite => double.IsFinite(Value);

    public static Quantity FromMillimetres(double mm) => new(mm / 1000, Dimension.OfLength);

    public static Quantity FromRadians(double radians) => new(radians * (180 / Math.PI), Dimension.OfAngle);

    public static Quantity Count(long n) => new((Rational)n, Dimension.None);

    /// <summary>Both of one kind; the caller has checked that.</summary>
    public static Quantity Add(Quantity a, Quantity b, Dimension kind) =>
        a.Exact is { } x && b.Exact is { } y && Rational.Add(x, y) is { } sum ? new Quantity(sum, kind) : new Quantity(a.Value + b.Value, kind);

    public static Quantity Multiply(Quantity a, Quantity b, Dimension kind) =>
        a.Exact is { } x && b.Exact is { } y && Rational.Multiply(x, y) is { } product ? new Quantity(product, kind) : new Quantity(a.Value * b.Value, kind);

    public Quantity Negate() => Exact is { } x ? new Quantity(x.Negate(), Dimension) : new Quantity(-Value, Dimension);

    public Quantity? Inverse()
    {
        if (Value == 0) return null;
        return Exact is { } x && x.Inverse() is { } inverse ? new Quantity(inverse, Dimension.Inverse()) : new Quantity(1 / Value, Dimension.Inverse());
    }

    /// <summary>
    /// Compares two of one kind: exactly if both are exact, else as equal when nearer than a micrometre for lengths, or a part in 10^9,
    /// since inch fractions and trigonometry meet.
    /// </summary>
    public int CompareTo(Quantity other)
    {
        if (Exact is { } x && other.Exact is { } y) return x.CompareTo(y);
        double tolerance = Dimension == Dimension.OfLength ? 1e-6 : 1e-9 * Math.Max(Math.Abs(Value), Math.Abs(other.Value));
        double difference = Value - other.Value;
        // What is no number stands before every number, as in every sort.
        return Math.Abs(difference) <= tolerance ? 0 : Value.CompareTo(other.Value);
    }
}
