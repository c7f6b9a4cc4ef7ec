namespace Wain.Cutting;

/// <summary>A generator with a stated algorithm (xorshift64*), because the library's own may change between versions and a plan must not.</summary>
internal struct FixedRandom(ulong seed)
{
    private ulong _state = (seed * 0x9E3779B97F4A7C15UL) | 1UL;

    public uint Next()
    {
        _state ^= _state >> 12;
        _state ^= _state << 25;
        _state ^= _state >> 27;
        return (uint)((_state * 0x2545F4914F6CDD1DUL) >> 32);
    }

    /// <summary>A whole number from 0 up to, not including, <paramref name="below"/>.</summary>
    public int Below(int below) => (int)(((ulong)Next() * (uint)below) >> 32);

    public double Unit() => Next() * (1.0 / 4294967296.0);

    /// <summary>
    /// How long one waits for what comes once in a while on the mean: minus the logarithm of a number from 0 to 1. By sums and products alone, which are the same on
    /// every machine; the library's logarithm differs in its last digit.
    /// </summary>
    public double Waiting()
    {
        var m = (Next() + 0.5) * (1.0 / 4294967296.0);
        var halvings = 0;
        for (; m < 0.5; m *= 2)
            halvings++;
        // ln m = 2 (s + s^3/3 + s^5/5 + ...) with s = (m - 1)/(m + 1), which lies between -1/3 and 0.
        double s = (m - 1) / (m + 1), square = s * s, power = s, sum = 0;
        for (var k = 1; k < 24; k += 2)
        {
            sum += power / k;
            power *= square;
        }

        return (halvings * Ln2) - (2 * sum);
    }

    private const double Ln2 = 0.69314718055994531;
}
