using System.Diagnostics;

namespace Wain.Benchmarks;

/// <summary>Seconds of processor time that this process has used since the clock was made: what else runs on the machine does not count.</summary>
public sealed class ProcessorClock
{
    private readonly TimeSpan _start = Process.GetCurrentProcess().TotalProcessorTime;

    private readonly TimeSpan _collecting = GC.GetTotalPauseDuration();

    public double Seconds => (Process.GetCurrentProcess().TotalProcessorTime - _start).TotalSeconds;

    /// <summary>The same without what collecting memory took, which hangs on all that is alive and so grows for any pass that keeps what it makes.</summary>
    public double OwnSeconds => Seconds - (GC.GetTotalPauseDuration() - _collecting).TotalSeconds;
}
