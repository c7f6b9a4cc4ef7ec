using System.Collections.Immutable;

namespace Wain.Core.Engineering;

/// <summary>Lays steps out over days.</summary>
internal static class Schedule
{
    /// <summary>
    /// One crew, hour by hour: of all steps that may start, the earliest stage first; nobody waits for a cure while other work stands open. Cures run by night as well. Where what
    /// must be reached first makes a circle, that is told and let go, so that there is a plan of the rest.
    /// </summary>
    public static ImmutableArray<PlannedStep> Of(Ledger ledger, ImmutableArray<WorkStep> steps, List<Reach> reach, Dictionary<string, string> done, Shop shop)
    {
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        for (int i = 0; i < steps.Length; i++) index[steps[i].Key] = i;
        var told = new HashSet<string>(StringComparer.Ordinal);
        var wanted = new List<Reach>();
        foreach (var edge in reach)
        {
            if (!index.ContainsKey(edge.Before)) continue;
            if (index.ContainsKey(edge.After)) wanted.Add(edge);
            // What closes the way is in place already.
            else if (done.ContainsKey(edge.After) && told.Add(edge.Message)) edge.Tell(ledger);
        }
        while (true)
        {
            var plan = Plan(steps, index, wanted, shop, out var open);
            if (plan.Length == steps.Length) return plan;
            var circle = Circle(steps, index, wanted, open);
            var closing = wanted.Find(e => circle.Exists(s => s.Key == e.Before) && circle.Exists(s => s.Key == e.After) && circle[(circle.FindIndex(s => s.Key == e.Before) + 1) % circle.Count].Key == e.After);
            if (closing is null)
            {
                TellCircle(ledger, circle);
                return plan;
            }
            if (told.Add(closing.Message)) closing.Tell(ledger);
            // All that asks the same of the same panel goes with it, or it would be told once for each joint.
            wanted.RemoveAll(e => e.Message == closing.Message);
        }
    }

    private static ImmutableArray<PlannedStep> Plan(ImmutableArray<WorkStep> steps, Dictionary<string, int> index, List<Reach> wanted, Shop shop, out int[] open)
    {
        var followers = new List<int>[steps.Length];
        open = new int[steps.Length];
        for (int i = 0; i < steps.Length; i++) followers[i] = [];
        void Follow(int before, int after)
        {
            if (followers[before].Contains(after)) return;
            followers[before].Add(after);
        }
        for (int i = 0; i < steps.Length; i++)
            foreach (string key in steps[i].After) if (index.TryGetValue(key, out int before)) Follow(before, i);
        foreach (var edge in wanted) Follow(index[edge.Before], index[edge.After]);
        foreach (var list in followers) foreach (int f in list) open[f]++;
        // Steps stand in the order of their stages, so of those that are ready the first is taken; of those that wait, the one that is free first.
        var ready = new Heap(steps.Length);
        var waiting = new Heap(steps.Length);
        var free = new double[steps.Length];
        for (int i = 0; i < steps.Length; i++) if (open[i] == 0) ready.Add(i, 0);
        var plan = ImmutableArray.CreateBuilder<PlannedStep>(steps.Length);
        double now = 0;
        while (ready.Count > 0 || waiting.Count > 0)
        {
            while (waiting.Count > 0 && waiting.LeastKey <= now + 1e-9) ready.Add(waiting.Take(), 0);
            if (ready.Count == 0)
            {
                now = InWorkingHours(waiting.LeastKey, shop.HoursADay);
                continue;
            }
            int at = ready.Take();
            var step = steps[at];
            now = InWorkingHours(now, shop.HoursADay);
            int day = DayOf(now);
            now = Work(now, step.Hours / shop.People, shop.HoursADay);
            double done = now + step.Waits;
            plan.Add(new PlannedStep(step, day, DateOf(shop.Start, day), DayOf(done - 1e-9), step.Lifted is { } kg ? Math.Max(1, (int)Math.Ceiling(kg / shop.PersonLifts - 1e-9)) : 1));
            foreach (int f in followers[at])
            {
                free[f] = Math.Max(free[f], done);
                if (--open[f] == 0) waiting.Add(f, free[f]);
            }
        }
        return plan.ToImmutable();
    }

    /// <summary>The day that an hour falls on, from 1. A design whose sizes are slips of the pen asks for more days than there are numbers.</summary>
    private static int DayOf(double hour) => (int)Math.Min(Math.Floor(hour / 24), 1e9) + 1;

    /// <summary>Null where the calendar ends before.</summary>
    private static DateOnly? DateOf(DateOnly? start, int day) => start is { } first && day - 1 <= DateOnly.MaxValue.DayNumber - first.DayNumber ? first.AddDays(day - 1) : null;

    /// <summary>Numbers of steps, the one with the least key first and among equal keys the least number. By hand, since the library's queue over plain values is compiled at run time.</summary>
    private sealed class Heap(int most)
    {
        private readonly int[] _items = new int[most];
        private readonly double[] _keys = new double[most];

        public int Count { get; private set; }

        public double LeastKey => _keys[0];

        private bool Less(int a, int b) => _keys[a] < _keys[b] || _keys[a] == _keys[b] && _items[a] < _items[b];

        private void Swap(int a, int b)
        {
            (_items[a], _items[b]) = (_items[b], _items[a]);
            (_keys[a], _keys[b]) = (_keys[b], _keys[a]);
        }

        public void Add(int item, double key)
        {
            int at = Count++;
            (_items[at], _keys[at]) = (item, key);
            for (int up = (at - 1) / 2; at > 0 && Less(at, up); at = up, up = (at - 1) / 2) Swap(at, up);
        }

        public int Take()
        {
            int least = _items[0];
            Count--;
            Swap(0, Count);
            for (int at = 0, down = 1; down < Count; at = down, down = 2 * at + 1)
            {
                if (down + 1 < Count && Less(down + 1, down)) down++;
                if (!Less(down, at)) break;
                Swap(at, down);
            }
            return least;
        }
    }

    private static double InWorkingHours(double time, double hoursADay)
    {
        double day = Math.Floor(time / 24), hour = time - day * 24;
        return hour < hoursADay - 1e-9 ? time : (day + 1) * 24;
    }

    private static double Work(double now, double hours, double hoursADay)
    {
        double left = hours, room = hoursADay - (now - Math.Floor(now / 24) * 24);
        if (left <= room) return now + left;
        left -= room;
        double days = Math.Floor(left / hoursADay);
        return (Math.Floor(now / 24) + 1 + days) * 24 + (left - days * hoursADay);
    }

    /// <summary>Every step that is stuck waits for another that is: walking back must come round. In the order of the waiting, each before the next.</summary>
    private static List<WorkStep> Circle(ImmutableArray<WorkStep> steps, Dictionary<string, int> index, List<Reach> wanted, int[] open)
    {
        var before = new List<int>[steps.Length];
        for (int i = 0; i < steps.Length; i++)
        {
            before[i] = [];
            foreach (string key in steps[i].After) if (index.TryGetValue(key, out int b) && open[b] > 0) before[i].Add(b);
        }
        foreach (var edge in wanted) if (open[index[edge.Before]] > 0) before[index[edge.After]].Add(index[edge.Before]);
        int at = 0;
        while (open[at] == 0) at++;
        var seen = new List<int>();
        while (!seen.Contains(at))
        {
            seen.Add(at);
            at = before[at][0];
        }
        var circle = new List<WorkStep>();
        for (int i = seen.Count - 1; i >= seen.IndexOf(at); i--) circle.Add(steps[seen[i]]);
        return circle;
    }

    private static void TellCircle(Ledger ledger, List<WorkStep> circle)
    {
        var place = circle.Find(s => s.Stage == Stage.Own) ?? circle[0];
        ledger.Tell(EngineeringFindings.WorkCycle, $"Steps of work wait for each other in a circle: {string.Join(", then ", circle.Append(circle[0]).Select(s => s.Key))}.", place.From, place.Key, "Take one \"after\" out.");
    }
}
