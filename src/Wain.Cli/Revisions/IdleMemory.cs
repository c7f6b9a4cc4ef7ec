using System.Runtime;

namespace Wain.Cli.Revisions;

/// <summary>
/// Clears memory between two compilations of a watch, while nobody waits, and sets room aside for what the next one will use, so that none is cleared in the
/// middle of it: with a thousand panels that would take as long as all the passes together.
/// </summary>
internal sealed class IdleMemory
{
    // A spec that uses more than this is compiled as on any other run.
    private const long MostRoom = 1L << 30;

    private long _before, _used;
    private bool _isClear = true;

    /// <summary>A compilation begins.</summary>
    public void Begin() => _before = GC.GetAllocatedBytesForCurrentThread();

    /// <summary>Its findings are there.</summary>
    public void End()
    {
        _used = GC.GetAllocatedBytesForCurrentThread() - _before;
        _isClear = false;
        // Where more was used than was set aside, the region has ended by itself.
        if (GCSettings.LatencyMode != GCLatencyMode.NoGCRegion) return;
        try
        {
            GC.EndNoGCRegion();
        }
        catch (InvalidOperationException)
        {
            // It has ended between the question and the call.
        }
    }

    /// <summary>Nothing has happened for a while.</summary>
    public void Clear()
    {
        if (_isClear) return;
        _isClear = true;
        GC.Collect();
        long room = _used + _used / 4;
        if (room <= 0 || room > Math.Min(MostRoom, GC.GetGCMemoryInfo().TotalAvailableMemoryBytes / 8)) return;
        try
        {
            GC.TryStartNoGCRegion(room);
        }
        catch (Exception e) when (e is ArgumentOutOfRangeException or InvalidOperationException)
        {
            // More than this runtime sets aside at once, or another loop of this process has room set aside: the next compilation is as on any other run.
        }
    }
}
