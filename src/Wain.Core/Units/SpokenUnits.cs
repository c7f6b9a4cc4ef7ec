namespace Wain.Core.Units;

/// <summary>Units as people say and write them, for those who meet a spec for the first time. None of these words is one of the language.</summary>
internal static class SpokenUnits
{
    // Built when a word first needs it: most specs never do.
    private static Dictionary<string, string>? _words;

    public static string? Find(string word) => (_words ??= Build()).GetValueOrDefault(word);

    private static Dictionary<string, string> Build()
    {
        var words = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var unit in UnitTable.All) if (unit.Name.Length > 1) words.TryAdd(unit.Name, unit.Name);
        foreach (string line in (string[])
        [
            "in inch inches ins", "ft foot feet", "yd yard yards", "mil mils thou", "mi mile miles", "mm millimetre millimetres millimeter millimeters mms", "cm centimetre centimetres centimeter centimeters cms",
            "m metre metres meter meters", "lb pound pounds lbs", "oz ounce ounces", "g gram grams gms", "kg kilogram kilograms kilo kilos kgs", "t tonne tonnes", "gal gallon gallons gals", "qt quart quarts", "pt pint pints",
            "l litre litres liter liters", "ml millilitre millilitres milliliter milliliters", "s second seconds sec secs", "min minute minutes mins", "h hour hours hr hrs", "deg degree degrees degs", "% percent pct",
            "ft2 sqft", "in2 sqin", "ft3 cuft", "in3 cuin", "fl_oz floz", "N newton newtons", "W watt watts", "K kelvin kelvins", "degF fahrenheit", "degC celsius",
        ])
        {
            var spoken = line.Split(' ');
            for (int i = 1; i < spoken.Length; i++) words[spoken[i]] = spoken[0];
        }
        return words;
    }
}
