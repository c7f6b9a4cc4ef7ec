using System.Globalization;
using Wain.Core.Binding;

namespace Wain.Core.Revisions;

/// <summary>What a spec says is built already.</summary>
internal static class BuiltState
{
    /// <summary>By the name of the panel or part: "cut on 2026-10-17", the furthest step that is stated.</summary>
    public static IEnumerable<KeyValuePair<string, string>> Of(Spec spec)
    {
        foreach (var fact in spec.All("built"))
        {
            if (!fact.Slots.TryGetValue("of", out var text) || text.Terms[0] is not Syntax.NameExpression name) continue;
            var words = spec.Evaluator.WholeName(name, fact.Scope);
            if (words.IsDefaultOrEmpty) continue;
            string state = "built";
            foreach (string step in (string[])["cut", "glued", "fitted"])
            {
                if (fact.Find(step) is { } done) state = $"{step} on {spec.Evaluator.Date(done, "date")?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}";
            }
            yield return new(string.Join('.', words), state);
        }
    }
}
