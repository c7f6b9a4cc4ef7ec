using System.Security.Cryptography;

namespace Wain.Cli.Output;

/// <summary>What writers made of which input, so that a writer whose input is equal is not run again. Several may ask at once.</summary>
public sealed class WriterMemory
{
    private readonly Dictionary<string, (string Key, object Made)> _made = new(StringComparer.Ordinal);

    /// <summary>How many writers ran so far.</summary>
    public int Ran { get; private set; }

    /// <param name="name">The output.</param>
    /// <param name="inputs">All that the writer is given.</param>
    public T Once<T>(string name, IEnumerable<byte[]> inputs, Func<T> write) where T : notnull
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (byte[] input in inputs)
        {
            hash.AppendData(BitConverter.GetBytes(input.Length));
            hash.AppendData(input);
        }
        string key = Convert.ToHexStringLower(hash.GetHashAndReset());
        lock (_made)
        {
            if (_made.TryGetValue(name, out var known) && known.Key == key) return (T)known.Made;
            Ran++;
        }
        var made = write();
        lock (_made) _made[name] = (key, made);
        return made;
    }
}
