using Wain.Benchmarks;

switch (args.FirstOrDefault())
{
    case "cutting":
        return CuttingBenchmark.Run(args[1..]);
    case "clearance":
        return ClearanceRows.Run();
    case "speed":
        return SpeedBenchmark.Run(args[1..]);
    case "frames":
        return FrameRows.Run();
    case "profile":
        return StartProfile.Run(args[1..]);
    case "revisions" when args is [_, var program, var demo]:
        return RevisionRows.Run(program, demo);
    default:
        Console.Error.WriteLine("Name what to measure: cutting, clearance, frames, speed, profile, revisions PROGRAM DEMO.");
        return 2;
}
