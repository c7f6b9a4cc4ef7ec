using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Wain.Cutting;

namespace Wain.Benchmarks;

/// <summary>Solves benchmark instances, writes their solutions and prints how good they are, how well proven and how fast found.</summary>
public static class CuttingBenchmark
{
    private sealed record Row(CuttingInstance Instance, double Value, double Bound, bool Proven, double Seconds, double Simple, double Utilisation);

    public static int Run(string[] args)
    {
        string? instances = null, solutions = null, only = null;
        long steps = 1_000_000_000;
        var seconds = 2.0;
        var tenth = false;
        for (var i = 0; i < args.Length; i++)
        {
            string Next() => ++i < args.Length ? args[i] : throw new InstanceException($"{args[i - 1]} needs a value.");
            try
            {
                switch (args[i])
                {
                    case "--instances": instances = Next(); break;
                    case "--solutions": solutions = Next(); break;
                    case "--only": only = Next(); break;
                    case "--steps": steps = long.Parse(Next(), CultureInfo.InvariantCulture); break;
                    case "--seconds": seconds = double.Parse(Next(), CultureInfo.InvariantCulture); break;
                    case "--tenth": tenth = true; break;
                    default: throw new InstanceException($"What is {args[i]}? Known: --instances, --solutions, --only, --steps, --seconds, --tenth.");
                }
            }
            catch (Exception e) when (e is InstanceException or FormatException or OverflowException)
            {
                Console.Error.WriteLine(e.Message);
                return 2;
            }
        }

        if (instances is null || solutions is null)
        {
            Console.Error.WriteLine("cutting --instances FOLDER --solutions FOLDER [--only REGEX] [--steps N] [--seconds S] [--tenth]");
            return 2;
        }

        IReadOnlyList<CuttingInstance> all;
        try
        {
            all = CuttingInstances.Read(instances);
            if (only is not null)
                all = [.. all.Where(i => Regex.IsMatch(i.Name, only))];
        }
        catch (Exception e) when (e is InstanceException or ArgumentException or IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(e.Message);
            return 2;
        }

        if (tenth)
            all = [.. all.Where((_, n) => n % 10 == 0)];
        Directory.CreateDirectory(solutions);
        var rows = new List<Row>();
        var written = new List<object>();
        foreach (var instance in all)
        {
            var stop = new CancellationTokenSource();
            var watch = new ProcessorClock();
            using var guard = new Timer(_ =>
            {
                if (watch.Seconds > seconds)
                    stop.Cancel();
            }, null, 10, 10);
            var budget = new StepBudget(steps, stop.Token);
            rows.Add(instance.Sticks is not null ? Sticks(instance, budget, watch, written) : Sheets(instance, budget, watch, written));
        }

        File.WriteAllText(Path.Combine(solutions, "solutions.json"), JsonSerializer.Serialize(written));
        Print(rows);
        return 0;
    }

    private static Row Sticks(CuttingInstance instance, StepBudget budget, ProcessorClock watch, List<object> written)
    {
        var plan = StickPlanner.Plan(instance.Sticks!, budget);
        var time = watch.Seconds;
        if (plan.Issues.Count > 0)
            Console.Error.WriteLine($"{instance.Name}: {plan.Issues[0].Text}");
        var bars = plan.Sticks.SelectMany(s => Enumerable.Repeat(s.Pieces.Select(p => p.Piece).ToArray(), s.Times)).ToArray();
        var checkedBound = plan.Certificate is null ? 0 : StickPlanner.CheckBound(instance.Sticks!, plan.Certificate) ?? -1;
        if (checkedBound != plan.LowerBound)
            Console.Error.WriteLine($"{instance.Name}: the checker derives {checkedBound}, the plan states {plan.LowerBound}");
        written.Add(new { name = instance.Name, bars, value = plan.Cost, bound = checkedBound, proven = plan.Proven, seconds = Math.Round(time, 3), steps = plan.StepsDone });
        return new Row(instance, plan.Cost, checkedBound, plan.Proven, time, SimpleMethods.FirstFitDecreasing(instance.Sticks!), 0);
    }

    private static Row Sheets(CuttingInstance instance, StepBudget budget, ProcessorClock watch, List<object> written)
    {
        var problem = instance.Sheets!;
        var plan = SheetPlanner.Plan(problem, budget);
        var time = watch.Seconds;
        if (plan.Issues.Count > 0)
            Console.Error.WriteLine($"{instance.Name}: {plan.Issues[0].Text}");
        var bins = plan.Sheets.SelectMany(s => Enumerable.Repeat(
            new { stock = s.Stock, pieces = s.Pieces.Select(p => new { item = p.Piece, x = p.X, y = p.Y, w = p.Width, h = p.Height }).ToArray() }, s.Times)).ToArray();
        var checkedBound = plan.Certificate is null ? 0 : SheetPlanner.CheckBound(problem, plan.Certificate) ?? -1;
        if (checkedBound != plan.LowerBound)
            Console.Error.WriteLine($"{instance.Name}: the checker derives {checkedBound}, the plan states {plan.LowerBound}");
        written.Add(new { name = instance.Name, bins, value = plan.Cost, bound = checkedBound, proven = plan.Proven, seconds = Math.Round(time, 3), steps = plan.StepsDone });
        var area = problem.Pieces.Sum(p => (double)p.Width * p.Height * p.Count);
        var sheetArea = plan.Sheets.Sum(s => (double)problem.Stock[s.Stock].Width * problem.Stock[s.Stock].Height * s.Times);
        return new Row(instance, plan.Cost, checkedBound, plan.Proven, time, SimpleMethods.Shelves(problem), 100 * area / sheetArea);
    }

    private static void Print(List<Row> rows)
    {
        Console.WriteLine($"{"set",-22} {"var",3} {"n",4} {"value",12} {"best",12} {"gap%",6} {"bound",12} {"proven",6} {"simple",12} {"mean s",7} {"max s",6}  utilisation");
        foreach (var group in rows.GroupBy(r => (r.Instance.Set, r.Instance.Variant)).OrderBy(g => g.Key.Variant, StringComparer.Ordinal))
            Line(group.Key.Set, group.Key.Variant, [.. group]);
        Console.WriteLine("totals");
        foreach (var group in rows.GroupBy(r => (Set: r.Instance.Set.Split(' ')[0], r.Instance.Variant)))
            Line(group.Key.Set, group.Key.Variant, [.. group]);
    }

    private static void Line(string set, string variant, List<Row> rows)
    {
        var known = rows.TrueForAll(r => r.Instance.Best is not null);
        var best = rows.Sum(r => r.Instance.Best ?? 0);
        var value = rows.Sum(r => r.Value);
        var use = rows.TrueForAll(r => r.Instance.ClassUtilisation is not null)
            ? string.Create(CultureInfo.InvariantCulture, $"  {rows.Average(r => r.Utilisation):F2} (class mean {rows.Average(r => r.Instance.ClassUtilisation!.Value):F2})") : "";
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{set,-22} {variant,3} {rows.Count,4} {value,12} {(known ? best.ToString(CultureInfo.InvariantCulture) : "-"),12} {(known ? (100 * (value - best) / best).ToString("F2", CultureInfo.InvariantCulture) : "-"),6} {rows.Sum(r => r.Bound),12} {rows.Count(r => r.Proven),6} {rows.Sum(r => r.Simple),12} {rows.Average(r => r.Seconds),7:F3} {rows.Max(r => r.Seconds),6:F2}{use}"));
    }
}
