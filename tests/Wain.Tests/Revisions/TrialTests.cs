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

    /// <summary>In the units that the spec shows, in the table and in the plot: 0.45359237 kg to the pound.</summary>
    /// <summary>Materials of a shipped list have no price: what they would cost is missing from every sum that shows.</summary>
    [Fact]
    public void A_sum_that_lacks_parts_says_so()
    {
        string spec = Path.Combine(Repository.Root, "tests", "Wain.Tests", "Campers", "plover.wain");
        string swept = RevisionFolder.Run("sweep", spec, "wall_top", "66 in", "66 in", "1 in").Output;
        Assert.Matches(@"\d\+ ", swept);
        Assert.Contains("A + stands behind a sum that lacks parts", swept, StringComparison.Ordinal);
        Assert.Contains("total.cost is not whole", RevisionFolder.Run("query", spec, "total.cost").Errors, StringComparison.Ordinal);
        Assert.Contains("not whole: it lacks", RevisionFolder.Run("trace", spec, "total.cost").Output, StringComparison.Ordinal);
        Assert.DoesNotContain("+ ", RevisionFolder.Run("sweep", Path.Combine(Repository.Root, "specs", "heron", "heron.wain"), "wing_height", "22 in", "22 in", "1 in").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sweep_speaks_the_units_of_the_spec()
    {
        string pounds = RevisionFolder.Run("sweep", Spec(), "nose_width", "50 in", "50 in", "1 in").Output;
        string spec = Path.Combine(_folder.Write("metric", RevisionFolder.Main.Replace("lengths inches to 1/16", "lengths millimetres\n    weights kilograms", StringComparison.Ordinal)), "camper.wain");
        var (_, kilograms, _) = RevisionFolder.Run("sweep", spec, "nose_width", "50 in", "50 in", "1 in", "--plot", _folder.At("m.svg"));
        static double Weight(string table) => double.Parse(table.Split('\n')[1].Split(' ', StringSplitOptions.RemoveEmptyEntries)[2], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains("weight lb", pounds);
        Assert.Contains("weight kg", kilograms);
        Assert.Equal(Weight(pounds) * 0.45359237, Weight(kilograms), 0.1);
        Assert.Contains(">kg<", File.ReadAllText(_folder.At("m.svg")));
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
    [InlineData("nose_width", "50", "53", "1", "nose_width is a length and 50 a plain number.")]
    [InlineData("nose_width", "50 in", "40 in", "1 in", "never come")]
    [InlineData("nose_width", "0 in", "5000 in", "1 in", "larger step")]
    public void Wrong_values_are_told(string name, string from, string to, string step, string told)
    {
        var (code, _, errors) = RevisionFolder.Run("sweep", Spec(), name, from, to, step);
        Assert.Equal(2, code);
        Assert.Contains(told, errors);
    }
}
