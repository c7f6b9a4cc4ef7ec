using System.Collections;
using System.Reflection;
using System.Text;
using Wain.Core.Findings;

namespace Wain.Cli.Output;

/// <summary>
/// The content of what a writer is given, as bytes: two values give the same bytes if the writer could not tell them apart. Records hold arrays, which
/// compare by reference, so their own equality would call the pages of two runs different.
/// </summary>
internal static class ContentHash
{
    private static readonly Dictionary<Type, PropertyInfo[]> Stated = [];

    public static byte[] Of(object? value)
    {
        var stream = new MemoryStream();
        using (var to = new BinaryWriter(stream, Encoding.UTF8, leaveOpen: true)) Write(to, value);
        return stream.ToArray();
    }

    private static void Write(BinaryWriter to, object? value)
    {
        switch (value)
        {
            case null: to.Write((byte)0); return;
            case string text: to.Write((byte)1); to.Write(text); return;
            case double number: to.Write((byte)2); to.Write(number); return;
            case int whole: to.Write((byte)3); to.Write(whole); return;
            case bool yes: to.Write((byte)4); to.Write(yes); return;
            case Enum or char or DateOnly: to.Write((byte)5); to.Write(FormattableString.Invariant($"{value}")); return;
            // Where a finding stands in the text is in no output.
            case Finding f: to.Write((byte)6); Write(to, new object?[] { f.Code, f.Level, f.Message, f.Subject, f.AcceptedBecause, f.Hint }); return;
            case byte[] bytes: to.Write((byte)7); to.Write(bytes.Length); to.Write(bytes); return;
            case IEnumerable items:
                to.Write((byte)8);
                foreach (object? item in items)
                {
                    to.Write((byte)9);
                    Write(to, item);
                }
                to.Write((byte)10);
                return;
        }
        var type = value.GetType();
        to.Write((byte)11);
        to.Write(type.Name);
        if (!Stated.TryGetValue(type, out var properties))
            // What can be set makes the value; the rest follows from it.
            Stated[type] = properties = [.. type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.CanWrite && p.GetIndexParameters().Length == 0)];
        foreach (var property in properties) Write(to, property.GetValue(value));
    }
}
