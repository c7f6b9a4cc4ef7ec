using CsCheck;

namespace Wain.Tests;

/// <summary>
/// Property tests draw the same cases in every run: a suite that now and then finds a new counterexample belongs at the bench, where WAIN_SEED gives
/// another seed, and not in front of a change that has nothing to do with it. Nearer than the library's own methods, so tests call these without a word.
/// </summary>
public static class FixedSampling
{
    private const int UsualCases = 100;

    // A seed that is written down stands for one case: the counterexample that it once led to.
    private static PCG Generator(string? seed) => seed is null ? new(1, ulong.TryParse(Environment.GetEnvironmentVariable("WAIN_SEED"), out ulong other) ? other : 1) : PCG.Parse(seed);

    public static void Sample<T>(this Gen<T> gen, Action<T> check, string? seed = null, long iter = -1, int threads = -1)
    {
        var pcg = Generator(seed);
        for (long i = 0; i < (iter < 0 ? seed is null ? UsualCases : 1 : iter); i++)
        {
            var value = gen.Generate(pcg, null, out _);
            try
            {
                check(value);
            }
            catch (Exception e)
            {
                throw new Xunit.Sdk.XunitException($"Case {i}: {value}\n{e}");
            }
        }
    }

    public static void Sample<T>(this Gen<T> gen, Func<T, bool> holds, string? seed = null, long iter = -1, int threads = -1) => gen.Sample(v => Assert.True(holds(v)), seed, iter, threads);

    public static void Sample<A, B>(this Gen<(A, B)> gen, Action<A, B> check, string? seed = null, long iter = -1, int threads = -1) => gen.Sample(v => check(v.Item1, v.Item2), seed, iter, threads);

    public static void Sample<A, B, C>(this Gen<(A, B, C)> gen, Action<A, B, C> check, string? seed = null, long iter = -1, int threads = -1) => gen.Sample(v => check(v.Item1, v.Item2, v.Item3), seed, iter, threads);

    public static void Sample<A, B, C, D>(this Gen<(A, B, C, D)> gen, Action<A, B, C, D> check, string? seed = null, long iter = -1, int threads = -1) => gen.Sample(v => check(v.Item1, v.Item2, v.Item3, v.Item4), seed, iter, threads);

    public static void Sample<A, B, C, D, E>(this Gen<(A, B, C, D, E)> gen, Action<A, B, C, D, E> check, string? seed = null, long iter = -1, int threads = -1) => gen.Sample(v => check(v.Item1, v.Item2, v.Item3, v.Item4, v.Item5), seed, iter, threads);

    public static void Sample<A, B, C, D, E, F>(this Gen<(A, B, C, D, E, F)> gen, Action<A, B, C, D, E, F> check, string? seed = null, long iter = -1, int threads = -1) => gen.Sample(v => check(v.Item1, v.Item2, v.Item3, v.Item4, v.Item5, v.Item6), seed, iter, threads);
}
