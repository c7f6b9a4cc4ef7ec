namespace Wain.Core.Text;

/// <summary>Names that count on: a to z, then aa, ab and so on, so that no two are ever the same.</summary>
internal static class Letters
{
    /// <param name="k">From 0.</param>
    /// <param name="first">'a', or 'A' for capitals.</param>
    public static string Of(int k, char first = 'a') => k < 26 ? ((char)(first + k)).ToString() : Of(k / 26 - 1, first) + (char)(first + k % 26);
}
