using System.Collections.Immutable;
using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;

namespace Wain.Benchmarks;

/// <summary>
/// Turns the just-in-time compiler's own list of what it had to compile during a run into a profile for the ahead-of-time compiler, so that the next published program has that code ready.
/// Ahead-of-time compilation follows direct calls only: code of the framework over our own value types that is reached through an interface is left to the run, a quarter of a millisecond a method.
/// </summary>
/// <remarks>
/// The profile is an assembly without types of its own in the runtime's MIBC layout (the one of the runtime pack's StandardOptimizationData.mibc): global methods whose code is a list of
/// <c>ldtoken METHOD; pop</c>, and a global method <c>AssemblyDictionary</c> that names the assemblies which each list needs.
/// </remarks>
internal static class StartProfile
{
    /// <summary>Usage: profile LIST PUBLISHED-FOLDER PROFILE. The list is made by a run with DOTNET_JitStdOutFile=LIST and DOTNET_JitDisasmSummary=1.</summary>
    public static int Run(string[] args)
    {
        if (args.Length != 3)
        {
            Console.Error.WriteLine("profile LIST PUBLISHED-FOLDER PROFILE");
            return 2;
        }
        var library = new Assemblies(args[1]);
        var writer = new ProfileWriter(library);
        int known = 0, unknown = 0;
        foreach (var line in File.ReadLines(args[0]).Select(CompiledMethod).Where(l => l is not null).Distinct().Order(StringComparer.Ordinal))
        {
            int added = MethodName.Parse(line!) is { } name ? writer.Add(name) : 0;
            if (added > 0) known++;
            else unknown++;
        }
        writer.Write(args[2]);
        Console.WriteLine($"{known} methods in the profile, {unknown} that have no name outside the run");
        return 0;
    }

    /// <summary><c>12: JIT compiled NAME [Tier0, ...]</c> to <c>NAME</c>.</summary>
    private static string? CompiledMethod(string line)
    {
        const string before = ": JIT compiled ";
        int start = line.IndexOf(before, StringComparison.Ordinal), end = line.LastIndexOf(" [", StringComparison.Ordinal);
        return start < 0 || end < start ? null : line[(start + before.Length)..end];
    }

    /// <summary>A type as the just-in-time compiler prints it: <c>System.Span`1[int]</c>, <c>A.B+C`1[System.__Canon]</c>, <c>double[]</c>.</summary>
    internal sealed record TypeName(string Name, ImmutableArray<TypeName> Arguments, int Ranks);

    /// <summary>A method as the just-in-time compiler prints it.</summary>
    internal sealed record MethodName(TypeName Type, string Name, ImmutableArray<TypeName> Arguments, int Parameters)
    {
        public static MethodName? Parse(string text)
        {
            int at = 0;
            if (ReadType(text, ref at, ":") is not { } type || at >= text.Length || text[at++] != ':') return null;
            int end = text.IndexOfAny(['[', '('], at);
            if (end < 0) return null;
            var name = text[at..end];
            at = end;
            var arguments = text[at] == '[' ? ReadArguments(text, ref at) : [];
            if (arguments.IsDefault || at >= text.Length || text[at++] != '(') return null;
            int parameters = 0;
            for (int depth = 0; at < text.Length && (text[at] != ')' || depth > 0); at++)
            {
                if (parameters == 0) parameters = 1;
                if (text[at] == '[') depth++;
                if (text[at] == ']') depth--;
                if (text[at] == ',' && depth == 0) parameters++;
            }
            return new MethodName(type, name, arguments, parameters);
        }

        private static TypeName? ReadType(string text, ref int at, string ends)
        {
            int start = at;
            while (at < text.Length && text[at] != '[' && text[at] != ',' && text[at] != ']' && !ends.Contains(text[at])) at++;
            if (at == start) return null;
            var name = text[start..at];
            ImmutableArray<TypeName> arguments = at + 1 < text.Length && text[at] == '[' && text[at + 1] != ']' ? ReadArguments(text, ref at) : [];
            if (arguments.IsDefault) return null;
            int ranks = 0;
            while (at + 1 < text.Length && text[at] == '[' && text[at + 1] == ']')
            {
                ranks++;
                at += 2;
            }
            return new TypeName(name, arguments, ranks);
        }

        /// <summary>Default (not empty) where the brackets don't close.</summary>
        private static ImmutableArray<TypeName> ReadArguments(string text, ref int at)
        {
            var found = ImmutableArray.CreateBuilder<TypeName>();
            do
            {
                at++;
                if (ReadType(text, ref at, "") is not { } type) return default;
                found.Add(type);
            }
            while (at < text.Length && text[at] == ',');
            if (at >= text.Length || text[at] != ']') return default;
            at++;
            return found.ToImmutable();
        }
    }

    /// <summary>The metadata of every assembly of a published program, by the full names of its types.</summary>
    internal sealed class Assemblies
    {
        private readonly Dictionary<string, (MetadataReader Reader, TypeDefinitionHandle Type, string Assembly)> _types = new(StringComparer.Ordinal);

        public Assemblies(string folder)
        {
            foreach (var path in Directory.EnumerateFiles(folder, "*.dll").Order(StringComparer.Ordinal))
            {
                var image = new PEReader(File.ReadAllBytes(path).ToImmutableArray());
                if (!image.HasMetadata) continue;
                var reader = image.GetMetadataReader();
                if (!reader.IsAssembly) continue;
                var assembly = reader.GetString(reader.GetAssemblyDefinition().Name);
                foreach (var handle in reader.TypeDefinitions)
                {
                    var name = FullName(reader, handle);
                    // The core library comes first: its types are what the others forward to. <PrivateImplementationDetails> is in many and can't be told apart.
                    if (!_types.ContainsKey(name) || assembly == "System.Private.CoreLib") _types[name] = (reader, handle, assembly);
                }
            }
        }

        public (MetadataReader Reader, TypeDefinitionHandle Type, string Assembly)? Find(string name) => _types.TryGetValue(name, out var found) ? found : null;

        public static string FullName(MetadataReader reader, TypeDefinitionHandle handle)
        {
            var type = reader.GetTypeDefinition(handle);
            var name = reader.GetString(type.Name);
            if (type.GetDeclaringType() is { IsNil: false } outer) return FullName(reader, outer) + "+" + name;
            var space = reader.GetString(type.Namespace);
            return space.Length == 0 ? name : space + "." + name;
        }
    }
}
