using Wain.Core.Drawing;

namespace Wain.Tests.Drawing;

/// <summary>Rounding to a tape's marks. The roundings of 0.3333 in, 0.205 in, 5.2 mm and the tie 3/32 in are plain arithmetic (nearest multiple, halves up).</summary>
public class LengthTextTests
{
    [Theory]
    [InlineData(0.3333, 16, "5/16 in")]
    [InlineData(0.3333, 32, "11/32 in")]
    [InlineData(0.205, 16, "3/16 in")]
    [InlineData(0.205, 32, "7/32 in")]
    [InlineData(5.2 / 25.4, 16, "3/16 in")]
    [InlineData(5.2 / 25.4, 32, "7/32 in")]
    [InlineData(0.09375, 16, "1/8 in")]
    [InlineData(0.03125, 16, "1/16 in")]
    [InlineData(0.03124, 16, "0 in")]
    [InlineData(70, 16, "70 in")]
    [InlineData(69.98, 16, "70 in")]
    [InlineData(14.5, 32, "14 1/2 in")]
    [InlineData(-0.25, 16, "-1/4 in")]
    [InlineData(-0.01, 16, "0 in")]
    public void Inches(double inches, int denominator, string expected) => Assert.Equal(expected, LengthText.OfInches(inches * 25.4, denominator));

    [Theory]
    [InlineData(70, "5 ft 10 in")]
    [InlineData(70.5, "5 ft 10 1/2 in")]
    [InlineData(72, "6 ft")]
    [InlineData(72.25, "6 ft 1/4 in")]
    [InlineData(71.99, "6 ft")]
    [InlineData(11.99, "1 ft")]
    [InlineData(11.5, "11 1/2 in")]
    [InlineData(0, "0 in")]
    public void Feet(double inches, string expected) => Assert.Equal(expected, LengthText.Of(inches * 25.4, new(LengthStyle.FeetAndInches)));

    [Theory]
    [InlineData(1778, 1, "1778 mm")]
    [InlineData(2.5, 1, "3 mm")]
    [InlineData(2.25, 0.5, "2.5 mm")]
    [InlineData(2.2, 0.5, "2 mm")]
    [InlineData(-0.4, 1, "0 mm")]
    public void Millimetres(double mm, double step, string expected) => Assert.Equal(expected, LengthText.OfMillimetres(mm, step));

    [Fact]
    public void SideBySide() => Assert.Equal("14 1/2 [368]", LengthText.Of(14.5 * 25.4, new(LengthStyle.InchesWithMillimetres, WithUnit: false)));

    /// <summary>Every tie at every mark of ten feet rounds up, though 25.4 has no exact binary form.</summary>
    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    public void TiesRoundUp(int denominator)
    {
        for (int parts = 0; parts < 120 * denominator; parts++)
        {
            double tie = (parts + 0.5) / denominator * 25.4, mark = (parts + 1.0) / denominator * 25.4;
            Assert.Equal(LengthText.OfInches(mark, denominator), LengthText.OfInches(tie, denominator));
        }
    }

    [Theory]
    [InlineData(22.5, "22.5\u00B0")]
    [InlineData(35.26, "35.5\u00B0")]
    [InlineData(8.25, "8.5\u00B0")]
    [InlineData(4.249999, "4.5\u00B0")]
    [InlineData(4.24, "4\u00B0")]
    [InlineData(44.76, "45\u00B0")]
    public void Angles(double degrees, string expected) => Assert.Equal(expected, LengthText.OfAngle(degrees * Math.PI / 180));

    /// <summary>A quarter of a degree over 1000 mm is 1000 sin(0.25 deg) = 4.363 mm off.</summary>
    [Fact]
    public void FarEnd() => Assert.Equal(4.3633, LengthText.FarEndError(8.25 * Math.PI / 180, 1000), 4);

    [Fact]
    public void RefusesWhatIsNoNumber() => Assert.Throws<ArgumentOutOfRangeException>(() => LengthText.OfInches(double.NaN));
}
