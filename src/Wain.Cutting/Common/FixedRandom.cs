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
}
