using Wain.Core.Binding;
using Wain.Core.Findings;
using Wain.Core.Text;

namespace Wain.Core.Geometry;

/// <summary>Every part has a mark of its own: those of a panel begin with the mark that it states, else with its name.</summary>
internal static class PartMarks
{
    public static void Tell(Resolver resolver, IEnumerable<PlacedPanel> panels)
    {
        var taken = new Dictionary<string, (PlacedPanel Panel, Span Place)>(StringComparer.Ordinal);
        foreach (var panel in panels)
        {
            // A mirror has no mark of its original: only what its own block states.
            var fact = panel.Fact.Body.FirstOrDefault(f => f.Keyword == "part_mark");
            string mark = (fact is null ? null : resolver.Evaluator.Text(fact, "mark")) ?? panel.Name;
            var place = fact?.HeadSpan ?? panel.Fact.NameSpan;
            // What stands round a hole or in a zone is marked with its name behind the panel's, and a mark may have a point in it.
            foreach (string start in (string[])[mark, .. panel.Zones.Select(z => $"{mark}.{z.Name}"), .. panel.Openings.Select(o => $"{mark}.{o.Name}")])
            {
                if (taken.TryAdd(start, (panel, place))) continue;
                var (other, first) = taken[start];
                if (ReferenceEquals(other, panel)) continue;
                var (told, related) = fact is null ? (first, place) : (place, first);
                resolver.Report(new Finding(BindingFindings.DoubleName, $"\"{start}\" marks parts of both {other.Name} and {panel.Name}.", told) { Subject = panel.Name, Related = [new Related(related, "the other panel")] });
                break;
            }
        }
    }
}
