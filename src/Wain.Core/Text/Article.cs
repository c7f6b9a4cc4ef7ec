namespace Wain.Core.Text;

/// <summary>The English article before a word that is known only when the program runs, such as the kind of a thing.</summary>
public static class Article
{
    /// <summary>"a panel", "an adhesive", "a unit": by how the words of the language sound, of which those that begin with "uni" begin like "you".</summary>
    public static string With(string word) => (word.Length > 0 && "aeiou".Contains(char.ToLowerInvariant(word[0])) && !word.StartsWith("uni", StringComparison.OrdinalIgnoreCase) ? "an " : "a ") + word;
}
