using Wain.Benchmarks;

switch (args.FirstOrDefault())
{
    case "cutting":
        return CuttingBenchmark.Run(args[1..]);
    case "clearance":
        return ClearanceRows.Run();
    default:
        Console.Error.WriteLine("Name what to measure: cutting, clearance.");
        return 2;
}
