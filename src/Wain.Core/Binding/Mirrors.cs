using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Binding;

/// <summary>
/// Makes each <c>mirror A as B</c> a thing like A: the facts of A stand in it, but for those that its own block states anew. Geometry then mirrors
/// the placed A; what is built is never copied.
/// </summary>
internal static class Mirrors
{
    /// <summary>A name with left and right exchanged, where it has one of them as a word of its own.</summary>
    public static string OtherSide(string name) => string.Join('_', name.Split('_').Select(w => w switch { "left" => "right", "right" => "left", _ => w }));

    public static void Fill(Spec spec, Action<Finding> report)
    {
        var mirrors = spec.Facts.Where(f => f.Keyword == "mirror").ToList();
        foreach (var mirror in mirrors)
        {
            if (spec.Evaluator.PathOf(mirror, "of") is not { } path) continue;
            var (original, rest) = path;
            if (original.Keyword == "mirror" || !rest.IsEmpty || original.Keyword is not ("panel" or "load"))
            {
                report(new Finding(BindingFindings.WrongThing, $"Only a panel or a load has a mirror; \"{original.Name}\" is {Article.With(original.Keyword)}.", spec.Evaluator.SlotSpan(mirror, "of")) { Subject = mirror.Path });
                continue;
            }
            mirror.MirrorOf = original;
        }
    }
}
