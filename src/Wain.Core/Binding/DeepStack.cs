using System.Runtime.CompilerServices;
using System.Runtime.ExceptionServices;

namespace Wain.Core.Binding;

/// <summary>Goes on with a fresh stack when this one runs short: a stack overflow can't be caught, and a long chain of values is no mistake.</summary>
internal static class DeepStack
{
    private const int FreshStack = 16 * 1024 * 1024;

    public static T Run<T>(Func<T> work)
    {
        if (RuntimeHelpers.TryEnsureSufficientExecutionStack()) return work();
        T result = default!;
        ExceptionDispatchInfo? fault = null;
        var thread = new Thread(() =>
        {
            try { result = work(); }
            catch (Exception e) { fault = ExceptionDispatchInfo.Capture(e); }
        }, FreshStack);
        thread.Start();
        thread.Join();
        fault?.Throw();
        return result;
    }
}
