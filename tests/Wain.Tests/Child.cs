using System.Diagnostics;
using Wain.Reports.Workbooks;
using Wain.Tests.Reporting;

namespace Wain.Tests;

/// <summary>What tests run in a process of their own: to be killed, to have a small stack, another time zone or other hash seeds.</summary>
internal static class Child
{
    public static int Main(string[] args)
    {
        switch (args)
        {
            case ["workbook", var file]:
                File.WriteAllBytes(file, Workbook.Make(SampleReport.Make()).Bytes!);
                return 0;
            case ["templates"]:
                return DeepTemplate.Run();
            case ["outputs", var folder]:
                return Output.OutputSetTests.WriteForEver(folder);
            case ["output", var folder, var mark]:
                var report = Cli.Output.OutputSet.Write(folder, Output.OutputSetTests.Set(mark), replace: false, (_, _) => null);
                Console.Error.WriteLine(report.Error);
                return report.Error is null ? 0 : 2;
            case ["commands", var folder]: return Commands.BadInputCases.TryAll(folder);
            case ["wain", .. var command]: return Cli.Entry.Run(command, Console.Out, Console.Error);
            // As published: without the sentences of the runtime.
            case ["keyed", .. var command]:
                AppContext.SetSwitch("System.Resources.UseSystemResourceKeys", true);
                return Cli.Entry.Run(command, Console.Out, Console.Error);
            case ["hostile"]: return Binding.HostileTests.TryAll();
            case ["loads", .. var command]:
                int code = Cli.Entry.Run(command, TextWriter.Null, TextWriter.Null);
                Console.WriteLine($"{code} {AppDomain.CurrentDomain.GetAssemblies().Any(a => a.GetName().Name == "Wain.Cutting")}");
                return 0;
            default:
                Console.Error.WriteLine("This is the test assembly: run it with dotnet test.");
                return 2;
        }
    }

    public static Process Start(string[] args, params (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo("dotnet", ["exec", typeof(Child).Assembly.Location, .. args]) { RedirectStandardError = true, RedirectStandardOutput = true };
        foreach (var (name, value) in environment) start.Environment[name] = value;
        return Process.Start(start)!;
    }

    public static (int ExitCode, string Output, string Error) Run(string[] args, params (string Name, string Value)[] environment)
    {
        using var child = Start(args, environment);
        var error = child.StandardError.ReadToEndAsync();
        string output = child.StandardOutput.ReadToEnd();
        child.WaitForExit();
        return (child.ExitCode, output, error.Result);
    }
}
