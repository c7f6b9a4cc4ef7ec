using System.Collections.Immutable;
using Wain.Core.Text;

namespace Wain.Core.Shipped;

/// <summary>The materials that the program ships, in the language itself: generic types, each figure with its source. A spec takes one in by <c>use "library/woods.wain"</c>.</summary>
public static class ShippedMaterials
{
    /// <summary>What the paths of library files begin with.</summary>
    public const string Folder = "library/";

    private const string Resources = "Wain.Core.Shipped.";

    private static readonly Dictionary<string, Lazy<SourceText>> Files = typeof(ShippedMaterials).Assembly.GetManifestResourceNames().Where(n => n.StartsWith(Resources, StringComparison.Ordinal))
        .ToDictionary(n => Folder + n[Resources.Length..], n => new Lazy<SourceText>(() => Read(n)), StringComparer.Ordinal);

    /// <summary>Paths of all files, in order.</summary>
    public static ImmutableArray<string> Paths { get; } = [.. Files.Keys.Order(StringComparer.Ordinal)];

    /// <summary>A library file by the path that a spec uses it by; null if there is none.</summary>
    public static SourceText? Find(string path) => Files.TryGetValue(path, out var file) ? file.Value : null;

    /// <summary>True for a text that the program ships.</summary>
    public static bool Ships(SourceText source) => Files.TryGetValue(source.Path, out var file) && file.IsValueCreated && ReferenceEquals(file.Value, source);

    private static SourceText Read(string resource)
    {
        using var stream = typeof(ShippedMaterials).Assembly.GetManifestResourceStream(resource)!;
        using var reader = new StreamReader(stream);
        return new SourceText(Folder + resource[Resources.Length..], reader.ReadToEnd());
    }
}
