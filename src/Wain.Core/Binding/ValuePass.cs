namespace Wain.Core.Binding;

/// <summary>
/// The last look at a spec, after every pass: the builder's rules are judged, facts that no pass read are told, and every value that nobody asked for
/// is evaluated all the same, so that a wrong unit or a misspelled name never hides in a fact without a use.
/// </summary>
public static class ValuePass
{
    /// <param name="placed">False if errors stopped the spec before its panels were placed: then figures of panels are unknown and not told as missing.</param>
    public static void Run(Spec spec, bool placed)
    {
        spec.Evaluator.FiguresUnknown = !placed;
        Requirements.Check(spec);
        ExchangeRates.TellTwice(spec);
        if (placed) Unused.TellFacts(spec);
        foreach (var fact in spec.Facts) Evaluate(spec, fact);
        foreach (var value in spec.NamedValues)
        {
            bool used = value.Used;
            spec.Evaluator.ValueOf(value);
            value.Used = used;
        }
        if (placed) Unused.TellNames(spec);
    }

    private static void Evaluate(Spec spec, BoundFact fact)
    {
        bool used = fact.Used;
        foreach (var text in fact.Slots.All) Evaluate(spec.Evaluator, fact, text);
        fact.Used = used;
        foreach (var inner in fact.Body) Evaluate(spec, inner);
    }

    private static void Evaluate(Evaluator evaluator, BoundFact fact, SlotText text)
    {
        string name = text.Slot.Name, kind = text.Slot.Kind;
        switch (kind)
        {
            case "new" or "word" or "subject" or "call" or "date" or "leg" or "edge": break;
            case "text": evaluator.Text(fact, name); break;
            case "place2" or "place3":
                // A corner or an edge by name is a place that only placing can tell.
                if (text.Terms[0] is Syntax.PlaceExpression) evaluator.Place(fact, name);
                break;
            case "depths" or "lengths": evaluator.Lengths(fact, name); break;
            case var range when range.StartsWith("bounds_", StringComparison.Ordinal): evaluator.Bounds(fact, name); break;
            default:
                if (!text.Slot.Things.IsEmpty)
                {
                    if (fact.Keyword is not ("mirror" or "built")) evaluator.Thing(fact, name);
                }
                // A level may be a face that is not level; placing judges those.
                else if (text.Slot.Choices.IsEmpty && !(kind == "level" && text.Terms[0] is Syntax.NameExpression)) evaluator.Quantity(fact, name);
                break;
        }
    }
}
