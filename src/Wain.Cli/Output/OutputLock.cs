namespace Wain.Cli.Output;

/// <summary>
/// One writer at a time. What counts is the hold that the operating system keeps on the open file, not that the file is there: a killed process leaves the
/// file behind but not the hold, so there is no stale lock.
/// </summary>
internal static class OutputLock
{
    private const string Name = ".wain-lock";

    public static IDisposable? TryTake(string folder, out string? busy)
    {
        string path = Path.Combine(folder, Name);
        busy = null;
        for (int attempt = 0; attempt < 3; attempt++)
        {
            FileStream file;
            try
            {
                file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (File.Exists(path))
            {
                busy = $"Another build is writing to {folder}. Wait for it to end, then try again. Nothing was written.";
                return null;
            }
            // The one before may have removed the file between our opening and holding it; then another could hold a new one.
            if (File.Exists(path)) return new Held(file, path);
            file.Dispose();
        }
        busy = $"Other builds are writing to {folder}. Try again. Nothing was written.";
        return null;
    }

    private sealed class Held(FileStream file, string path) : IDisposable
    {
        public void Dispose()
        {
            // Removed while still held where the system allows it; a file left behind does no harm.
            try
            {
                if (!OperatingSystem.IsWindows()) File.Delete(path);
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
            }
            file.Dispose();
        }
    }
}
