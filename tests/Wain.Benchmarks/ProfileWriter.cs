using System.Collections.Immutable;
using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;

namespace Wain.Benchmarks;

/// <summary>Writes a profile in the MIBC layout: see <see cref="StartProfile"/>.</summary>
internal sealed class ProfileWriter(StartProfile.Assemblies library)
{
    /// <summary>The shared form of code over reference types is named in the profile by this type of an assembly that does not exist.</summary>
    private const string Shared = "System.__Canon";

    private readonly MetadataBuilder _metadata = new();
    private readonly Dictionary<string, EntityHandle> _assemblies = new(StringComparer.Ordinal);
    private readonly Dictionary<string, EntityHandle> _types = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, List<EntityHandle>> _groups = new(StringComparer.Ordinal);
    private readonly SortedSet<string> _needed = new(StringComparer.Ordinal);

    private static readonly Dictionary<string, SignatureTypeCode> Primitives = new(StringComparer.Ordinal)
    {
        ["bool"] = SignatureTypeCode.Boolean, ["char"] = SignatureTypeCode.Char, ["byte"] = SignatureTypeCode.SByte, ["sbyte"] = SignatureTypeCode.SByte, ["ubyte"] = SignatureTypeCode.Byte,
        ["short"] = SignatureTypeCode.Int16, ["ushort"] = SignatureTypeCode.UInt16, ["int"] = SignatureTypeCode.Int32, ["uint"] = SignatureTypeCode.UInt32, ["long"] = SignatureTypeCode.Int64,
        ["ulong"] = SignatureTypeCode.UInt64, ["float"] = SignatureTypeCode.Single, ["double"] = SignatureTypeCode.Double, ["nint"] = SignatureTypeCode.IntPtr, ["nuint"] = SignatureTypeCode.UIntPtr,
        ["System.String"] = SignatureTypeCode.String, ["System.Object"] = SignatureTypeCode.Object,
    };

    /// <summary>Adds every method of that name with as many parameters; gives how many there were. None where a type of it is not in the published program.</summary>
    public int Add(StartProfile.MethodName method)
    {
        if (library.Find(method.Type.Name) is not { } owner) return 0;
        _needed.Clear();
        var encoded = new BlobBuilder();
        if (!Encode(method.Type, encoded)) return 0;
        var arguments = new BlobBuilder();
        foreach (var argument in method.Arguments)
        {
            if (!Encode(argument, arguments)) return 0;
        }
        EntityHandle parent = method.Type.Arguments.Length == 0 ? TypeReference(method.Type.Name)!.Value : _metadata.AddTypeSpecification(_metadata.GetOrAddBlob(encoded));
        int added = 0;
        foreach (var handle in owner.Reader.GetTypeDefinition(owner.Type).GetMethods())
        {
            var definition = owner.Reader.GetMethodDefinition(handle);
            if (owner.Reader.GetString(definition.Name) != method.Name || definition.GetGenericParameters().Count != method.Arguments.Length) continue;
            var signature = new SignatureCopy(owner.Reader, this);
            if (signature.Of(definition.Signature) is not { } copy || signature.Parameters != method.Parameters) continue;
            EntityHandle entry = _metadata.AddMemberReference(parent, _metadata.GetOrAddString(method.Name), _metadata.GetOrAddBlob(copy));
            if (method.Arguments.Length > 0)
            {
                var instance = new BlobBuilder();
                instance.WriteByte((byte)SignatureKind.MethodSpecification);
                instance.WriteCompressedInteger(method.Arguments.Length);
                instance.WriteBytes(arguments.ToArray());
                entry = _metadata.AddMethodSpecification(entry, _metadata.GetOrAddBlob(instance));
            }
            // The list is named by its own assembly first, then by the others that its methods name.
            var group = owner.Assembly + ";" + string.Concat(_needed.Where(a => a != owner.Assembly).Select(a => a + ";"));
            if (!_groups.TryGetValue(group, out var entries)) _groups[group] = entries = [];
            entries.Add(entry);
            added++;
        }
        return added;
    }

    public void Write(string path)
    {
        _metadata.AddModule(0, _metadata.GetOrAddString("cold-start.mibc"), _metadata.GetOrAddGuid(new Guid("b7b9be0f-7d0c-4f58-9d7e-5a1f0f0c1d01")), default, default);
        _metadata.AddAssembly(_metadata.GetOrAddString("cold-start.mibc"), new Version(0, 0, 0, 0), default, default, default, AssemblyHashAlgorithm.None);
        var code = new BlobBuilder();
        var bodies = new MethodBodyStreamEncoder(code);
        _metadata.AddTypeDefinition(default, default, _metadata.GetOrAddString("<Module>"), default, MetadataTokens.FieldDefinitionHandle(1), MetadataTokens.MethodDefinitionHandle(1));
        var signature = new BlobBuilder();
        new BlobEncoder(signature).MethodSignature().Parameters(0, r => r.Void(), _ => { });
        var none = _metadata.GetOrAddBlob(signature);

        MethodDefinitionHandle Method(string name, Action<InstructionEncoder> write)
        {
            var body = new InstructionEncoder(new BlobBuilder());
            write(body);
            body.OpCode(ILOpCode.Ret);
            return _metadata.AddMethodDefinition(MethodAttributes.Public | MethodAttributes.Static, MethodImplAttributes.IL, _metadata.GetOrAddString(name), none, bodies.AddMethodBody(body, 8), default);
        }

        var lists = _groups.Select((g, i) => (g.Key, Handle: Method($"Assemblies_{g.Key}_{i}", body =>
        {
            foreach (var entry in g.Value)
            {
                body.OpCode(ILOpCode.Ldtoken);
                body.Token(entry);
                body.OpCode(ILOpCode.Pop);
            }
        }))).ToList();
        Method("AssemblyDictionary", body =>
        {
            foreach (var (name, handle) in lists)
            {
                body.LoadString(_metadata.GetOrAddUserString(name));
                body.OpCode(ILOpCode.Ldtoken);
                body.Token(handle);
                body.OpCode(ILOpCode.Pop);
            }
        });
        Method("MibcConfig", body =>
        {
            foreach (var text in (string[])["FormatVersion", "1.0"]) body.LoadString(_metadata.GetOrAddUserString(text));
            body.OpCode(ILOpCode.Pop);
            body.OpCode(ILOpCode.Pop);
        });
        var image = new ManagedPEBuilder(PEHeaderBuilder.CreateLibraryHeader(), new MetadataRootBuilder(_metadata), code, deterministicIdProvider: content => BlobContentId.FromHash(System.Security.Cryptography.SHA256.HashData(Bytes(content))));
        var bytes = new BlobBuilder();
        image.Serialize(bytes);
        File.WriteAllBytes(path, bytes.ToArray());
    }

    private static byte[] Bytes(IEnumerable<Blob> blobs) => [.. blobs.SelectMany(b => b.GetBytes())];

    private bool Encode(StartProfile.TypeName type, BlobBuilder to)
    {
        for (int i = 0; i < type.Ranks; i++) to.WriteByte((byte)SignatureTypeCode.SZArray);
        if (Primitives.TryGetValue(type.Name, out var code))
        {
            to.WriteByte((byte)code);
            return true;
        }
        if (TypeReference(type.Name) is not { } reference) return false;
        if (type.Arguments.Length > 0) to.WriteByte((byte)SignatureTypeCode.GenericTypeInstance);
        to.WriteByte((byte)(IsValueType(type.Name) ? SignatureTypeKind.ValueType : SignatureTypeKind.Class));
        to.WriteCompressedInteger(CodedIndex.TypeDefOrRefOrSpec(reference));
        if (type.Arguments.Length == 0) return true;
        to.WriteCompressedInteger(type.Arguments.Length);
        return type.Arguments.All(a => Encode(a, to));
    }

    private bool IsValueType(string name)
    {
        if (name == Shared || library.Find(name) is not { } found || found.Reader.GetTypeDefinition(found.Type).BaseType is not { IsNil: false } parent) return false;
        var parentName = parent.Kind switch
        {
            HandleKind.TypeReference => found.Reader.GetString(found.Reader.GetTypeReference((TypeReferenceHandle)parent).Name),
            HandleKind.TypeDefinition => found.Reader.GetString(found.Reader.GetTypeDefinition((TypeDefinitionHandle)parent).Name),
            _ => "",
        };
        return parentName is "ValueType" or "Enum" && name is not ("System.Enum" or "System.ValueType");
    }

    /// <summary>A reference to a type by its full name; null where the published program has none of that name.</summary>
    internal EntityHandle? TypeReference(string name)
    {
        string? assembly = name == Shared ? "System.Private.Canon" : library.Find(name)?.Assembly;
        if (assembly is null) return null;
        if (name != Shared) _needed.Add(assembly);
        if (_types.TryGetValue(name, out var known)) return known;
        if (!_assemblies.TryGetValue(assembly, out var scope))
            _assemblies[assembly] = scope = _metadata.AddAssemblyReference(_metadata.GetOrAddString(assembly), new Version(0, 0, 0, 0), default, default, default, default);
        int nested = name.LastIndexOf('+');
        if (nested > 0)
        {
            if (TypeReference(name[..nested]) is not { } outer) return null;
            return _types[name] = _metadata.AddTypeReference(outer, default, _metadata.GetOrAddString(name[(nested + 1)..]));
        }
        int dot = name.LastIndexOf('.');
        return _types[name] = _metadata.AddTypeReference(scope, dot < 0 ? default : _metadata.GetOrAddString(name[..dot]), _metadata.GetOrAddString(name[(dot + 1)..]));
    }

    /// <summary>Copies a method's signature so that its types are references of the profile. Null where one of them can't be named.</summary>
    private sealed class SignatureCopy(MetadataReader reader, ProfileWriter writer)
    {
        public int Parameters { get; private set; }

        public BlobBuilder? Of(BlobHandle signature)
        {
            var from = reader.GetBlobReader(signature);
            var to = new BlobBuilder();
            var header = from.ReadSignatureHeader();
            to.WriteByte(header.RawValue);
            if (header.IsGeneric) to.WriteCompressedInteger(from.ReadCompressedInteger());
            Parameters = from.ReadCompressedInteger();
            to.WriteCompressedInteger(Parameters);
            for (int i = 0; i <= Parameters; i++)
            {
                if (!Type(ref from, to)) return null;
            }
            return to;
        }

        private bool Type(ref BlobReader from, BlobBuilder to)
        {
            byte code = from.ReadByte();
            to.WriteByte(code);
            switch (code)
            {
                case (byte)SignatureTypeCode.SZArray or (byte)SignatureTypeCode.ByReference or (byte)SignatureTypeCode.Pointer:
                    return Type(ref from, to);
                case (byte)SignatureTypeCode.GenericTypeParameter or (byte)SignatureTypeCode.GenericMethodParameter:
                    to.WriteCompressedInteger(from.ReadCompressedInteger());
                    return true;
                case (byte)SignatureTypeKind.Class or (byte)SignatureTypeKind.ValueType:
                    return Reference(ref from, to);
                case (byte)SignatureTypeCode.RequiredModifier or (byte)SignatureTypeCode.OptionalModifier:
                    return Reference(ref from, to) && Type(ref from, to);
                case (byte)SignatureTypeCode.GenericTypeInstance:
                    to.WriteByte(from.ReadByte());
                    if (!Reference(ref from, to)) return false;
                    int count = from.ReadCompressedInteger();
                    to.WriteCompressedInteger(count);
                    for (int i = 0; i < count; i++)
                    {
                        if (!Type(ref from, to)) return false;
                    }
                    return true;
                case (byte)SignatureTypeCode.FunctionPointer or (byte)SignatureTypeCode.Array:
                    return false;
                default:
                    return true;
            }
        }

        private bool Reference(ref BlobReader from, BlobBuilder to)
        {
            var handle = from.ReadTypeHandle();
            string name = handle.Kind switch
            {
                HandleKind.TypeDefinition => StartProfile.Assemblies.FullName(reader, (TypeDefinitionHandle)handle),
                HandleKind.TypeReference => ReferredName((TypeReferenceHandle)handle),
                _ => "",
            };
            if (writer.TypeReference(name) is not { } reference) return false;
            to.WriteCompressedInteger(CodedIndex.TypeDefOrRefOrSpec(reference));
            return true;
        }

        private string ReferredName(TypeReferenceHandle handle)
        {
            var type = reader.GetTypeReference(handle);
            var name = reader.GetString(type.Name);
            if (type.ResolutionScope.Kind == HandleKind.TypeReference) return ReferredName((TypeReferenceHandle)type.ResolutionScope) + "+" + name;
            var space = reader.GetString(type.Namespace);
            return space.Length == 0 ? name : space + "." + name;
        }
    }
}
