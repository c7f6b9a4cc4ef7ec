namespace Wain.Cutting;

/// <summary>Goes through the tree of a closure and believes nothing of it.</summary>
internal static class ClosureProof
{
    /// <summary>Whether the tree proves that no plan costs as little as its target. The certificate's prices must hold.</summary>
    public static bool Holds(StickCore core, StickCertificate certificate, StickClosure closure)
    {
        if (ClosureProblem.Of(core, certificate, closure.Target, out _) is not { } problem)
            return false;
        var open = new Stack<ClosureState>();
        open.Push(problem.Root);
        foreach (var node in closure.Nodes)
        {
            if (!open.TryPop(out var state))
                return false;
            if (node.Prices is not null)
            {
                if (problem.Excess(state, node.Prices) is not { } excess)
                    return false;
                if (excess > 0)
                    continue;
                state = problem.Without(state, node.Prices, excess);
            }

            if (problem.Children(state, node) is not { } children)
                return false;
            for (var c = children.Count - 1; c >= 0; c--)
                open.Push(children[c]);
        }

        return open.Count == 0;
    }
}
