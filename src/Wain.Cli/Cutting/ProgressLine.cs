using System.Globalization;

namespace Wain.Cli.Cutting;

/// <summary>One line on the terminal that says how far a search is, written over itself. Nothing where nobody watches.</summary>
public sealed class ProgressLine(TextWriter output, bool watched)
{
    private const int Width = 78;
    private bool _shown;

    public void Tell(CutProgress p)
    {
        if (!watched) return;
        string share = p.StepsAllowed > p.StepsDone ? $"{100 * p.StepsDone / p.StepsAllowed} % of the search" : p.StepsAllowed > 0 ? $"{p.StepsDone} tried" : "";
        string cost = p.Cost < 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", cost {p.Cost / 100.0:0.00}, at least {p.Bound / 100.0:0.00}");
        string text = $"{p.Material}: {share}{cost}; Ctrl-C keeps the best so far";
        output.Write("\r" + (text.Length > Width ? text[..Width] : text.PadRight(Width)));
        _shown = true;
    }

    public void Clear()
    {
        if (_shown) output.Write("\r" + new string(' ', Width) + "\r");
        _shown = false;
    }
}
