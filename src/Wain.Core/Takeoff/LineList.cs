using System.Collections.Immutable;
using Wain.Core.Binding;
using Wain.Core.Geometry;
using Wain.Core.Model;
using Wain.Core.Text;

namespace Wain.Core.Takeoff;

/// <summary>Collects lines, gives each a key of its own, and finds materials by name.</summary>
internal sealed class LineList(Structure structure)
{
    private readonly List<TakeoffLine> _lines = [];
    private readonly List<MissingLine> _missing = [];
    private readonly Dictionary<string, int> _keys = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Material> _materials = structure.Materials.ToDictionary(m => m.Name, StringComparer.Ordinal);

    public Spec Spec => structure.Spec;

    public Dictionary<string, DefaultValue> Defaults { get; } = Model.Defaults.Of(structure.Spec);

    public ImmutableArray<TakeoffLine> Lines => [.. _lines];

    public ImmutableArray<MissingLine> Missing => [.. _missing];

    /// <summary>Share of glue that is pressed out, with the name of the figure that says so.</summary>
    public (string Name, double Share) SqueezeOut
    {
        get
        {
            foreach (var camper in Spec.All("camper"))
            {
                if (camper.Find("squeeze_out") is { } fact && Spec.Evaluator.Number(fact, "share") is { } share) return (camper.Name ?? "camper.squeeze_out", share);
            }
            return ("default.squeeze_out", Defaults["squeeze_out"].Value.Value);
        }
    }

    /// <summary>Keeps a key for an opening or a zone, so that a layer whose material has the same name gets another.</summary>
    public void Reserve(string key) => _keys[key] = Math.Max(1, _keys.GetValueOrDefault(key));

    /// <summary>A key that no other line has: the subject and the material, with a number from the second on.</summary>
    public string Key(string subject, string material)
    {
        string key = subject + "." + material;
        int count = _keys[key] = _keys.GetValueOrDefault(key) + 1;
        return count == 1 ? key : $"{key}_{count.ToString(System.Globalization.CultureInfo.InvariantCulture)}";
    }

    public void Add(TakeoffLine line) => _lines.Add(line);

    public void Lack(string key, string subject, ImmutableArray<string> panels, LineKind kind, Material? material, string lacks, Span from) => _missing.Add(new MissingLine(key, subject, panels, kind, material, lacks, from));

    /// <summary>The material that a slot of a fact names; null if the slot is empty or names nothing that could be read.</summary>
    public Material? Of(BoundFact fact, string slot) => fact.Has(slot) && Spec.Evaluator.Thing(fact, slot) is { Name: { } name } ? _materials.GetValueOrDefault(name) : null;

    public T? Of<T>(BoundFact fact, string slot) where T : Material => Of(fact, slot) as T;

    public Material? Named(string name) => _materials.GetValueOrDefault(name);
}
