using System.Diagnostics;

namespace Wain.Benchmarks;

/// <summary>Seconds of processor time that this process has used since the clock was made: what else runs on the machine does not count.</summary>
public sealed class ProcessorClock
{
    private readonly TimeSpan _start = Process.GetCurrentProcess().TotalProcessorTime;

    public double Seconds => (Process.GetCurrentProcess().TotalProcessorTime - _start).TotalSeconds;
}
