using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Wain.Tests.Revisions;

/// <summary>The one line of the README that sets git up, run by a shell in a repository of its own, with the program on the path as <c>wain</c>.</summary>
public sealed partial class GitSetUpTests : IDisposable
{
    private readonly RevisionFolder _folder = new();
    private readonly string _work;

    public GitSetUpTests()
    {
        _work = _folder.At("old");
        string bin = Directory.CreateDirectory(_folder.At("bin")).FullName;
        string script = Path.Combine(bin, "wain");
        File.WriteAllText(script, $"#!/bin/sh\nexec dotnet \"{Path.Combine(AppContext.BaseDirectory, "wain.dll")}\" \"$@\"\n");
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(script, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        // A repository may call workbooks binary; the set-up must hold all the same.
        File.WriteAllText(Path.Combine(_work, ".gitattributes"), "* text=auto eol=lf\n*.xlsx binary\n");
        Shell("git init -q && " + SetUp());
    }

    public void Dispose() => _folder.Dispose();

    private static string SetUp() => OneLine().Match(File.ReadAllText(Path.Combine(Repository.Root, "README.md"))).Value;

    [GeneratedRegex("git config diff\\.wain\\.command .*")]
    private static partial Regex OneLine();

    private string Shell(string command)
    {
        var start = new ProcessStartInfo("sh", ["-c", command]) { WorkingDirectory = _work, RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["PATH"] = _folder.At("bin") + Path.PathSeparator + Environment.GetEnvironmentVariable("PATH");
        foreach (string who in (string[])["AUTHOR", "COMMITTER"]) (start.Environment[$"GIT_{who}_NAME"], start.Environment[$"GIT_{who}_EMAIL"]) = ("builder", "builder@example.invalid");
        using var shell = Process.Start(start)!;
        var errors = shell.StandardError.ReadToEndAsync();
        string output = shell.StandardOutput.ReadToEnd();
        shell.WaitForExit();
        Assert.True(shell.ExitCode == 0, output + errors.Result);
        return output;
    }

    private void Edit(string file, string from, string to)
    {
        string path = Path.Combine(_work, file), text = File.ReadAllText(path);
        Assert.Contains(from, text);
        File.WriteAllText(path, text.Replace(from, to, StringComparison.Ordinal));
    }

    [Fact]
    public void Git_shows_what_changed_in_meaning_of_spec_and_workbook()
    {
        Assert.NotEqual("", SetUp());
        Shell("wain build camper.wain --draft --out outputs; git add -A && git commit -qm first");
        Edit("camper.wain", "at (10 in, 8 in)", "at (12 in, 8 in)");
        Edit("materials.wain", "price 31 USD", "price 33 USD");
        Shell("wain build camper.wain --draft --out outputs || true");

        string spec = Shell("git --no-pager diff -- camper.wain");
        Assert.StartsWith("camper.wain (files it uses are read from the work tree)", spec, StringComparison.Ordinal);
        Assert.Contains("left_nose_wall.vent, and its mirror right_nose_wall.vent: moved", spec);
        // Both sides see the materials as they are now, so that only this file's own change is told.
        Assert.DoesNotContain("33 USD", spec);

        // The file of materials is no spec of its own: its declarations are compared.
        string materials = Shell("git --no-pager diff -- materials.wain");
        Assert.Contains("+ size 48 in by 96 in, price 33 USD", materials);

        string workbook = Shell("git --no-pager diff -- outputs/camper/workbook.xlsx");
        Assert.Contains("\n-ply_5mm", workbook);
        Assert.Contains("\n+ply_5mm", workbook);

        // Through the history as well, and a broken spec keeps git from nothing.
        Shell("git add -A && git commit -qm second");
        Assert.Contains("vent, and its mirror", Shell("git --no-pager log -p --ext-diff -1 -- camper.wain"));
        Edit("camper.wain", "let body_width = 64 in", "let body_width = (");
        Edit("materials.wain", "price 33 USD", "price 34 USD");
        string both = Shell("git --no-pager diff");
        Assert.Contains("camper.wain (files it uses", both);
        Assert.Contains("+ size 48 in by 96 in, price 34 USD", both);
        Shell("git checkout -q -- . && git rm -q camper.wain");
        Assert.Contains("The file is gone.", Shell("git --no-pager diff HEAD -- camper.wain"));
    }
}
