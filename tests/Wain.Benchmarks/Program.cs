using Wain.Benchmarks;

switch (args.FirstOrDefault())
{
    case "cutting":
        return CuttingBenchmark.Run(args[1..]);
    default:
        Console.Error.WriteLine("Name what to measure: cutting.");
        return 2;
}
