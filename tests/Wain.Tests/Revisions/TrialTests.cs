namespace Wain.Tests.Revisions;

public sealed class TrialTests : IDisposable
{
    private readonly RevisionFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string Spec(string more = "") => Path.Combine(_folder.Write("spec", RevisionFolder.Main + more), "camper.wain");

    [Fact]
    public void A_sweep_tries_every_value_and_plots()
    {
        var (code, output, _) = RevisionFolder.Run("sweep", Spec(), "nose_width", "50 in", "53 in", "1 in", "--plot", _folder.At("s.svg"));
        Assert.Equal(0, code);
        Assert.Equal(["50 in", "51 in", "52 in", "53 in"], output.Split('\n').Skip(1).Take(4).Select(l => l.Trim()[..5]));
        Assert.Contains("<svg", File.ReadAllText(_folder.At("s.svg")));
    }

    [Fact]
    public void Seek_finds_a_good_value_beyond_bad_ones()
    {
        // Good at 1, 2 and 8, 9; bad between: a search that halves would stop at 2.
        string spec = Spec("let width_of_bed = 1\nrequire width_of_bed < 3 or width_of_bed > 7, \"two ranges\"\n");
        var (code, output, _) = RevisionFolder.Run("seek", spec, "largest", "width_of_bed", "1", "9", "1");
        Assert.True(code == 0, output);
        Assert.Contains("The largest width_of_bed without errors is 9, of 9 values tried.", output);
        Assert.Contains("3 to 7: errors", output);
        Assert.Equal(1, RevisionFolder.Run("seek", spec, "smallest", "width_of_bed", "4", "6", "1").Code);
    }

    [Theory]
    [InlineData("nose_widht", "50 in", "53 in", "1 in", "nose_width")]
    [InlineData("nose_width", "50 in", "53 in", "0 in", "nowhere")]
    [InlineData("nose_width", "50 in", "53 lb", "1 in", "not of one kind")]
    [InlineData("nose_width", "50 in", "40 in", "1 in", "never come")]
    [InlineData("nose_width", "0 in", "5000 in", "1 in", "larger step")]
    public void Wrong_values_are_told(string name, string from, string to, string step, string told)
    {
        var (code, _, errors) = RevisionFolder.Run("sweep", Spec(), name, from, to, step);
        Assert.Equal(2, code);
        Assert.Contains(told, errors);
    }
}
