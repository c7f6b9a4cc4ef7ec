using Wain.Core.Methods;
using static Wain.Core.Methods.Customary;

namespace Wain.Tests.Engineering;

public static partial class CheckValues
{
    private const string Estimate = "published epoxy estimate with its own example";
    private const string Laminating = "published table of single-layer thickness";
    private const string Film = "published sheet on film coverage";

    private static IEnumerable<CheckValue> Mixes =>
    [
        new("Laminates.WithFillCoats", Estimate, "56 ft2, 12 oz/yd2, gal", 0.99, () => Laminates.WithFillCoats(8057 / 144.0 * SquareFoot, 12 * OuncePerSquareYard).Figure() / Gallon, 0.005),
        new("Laminates.WithFillCoats", Estimate, "61 ft2, 6 oz/yd2, gal", 0.77, () => Laminates.WithFillCoats(8777 / 144.0 * SquareFoot, 6 * OuncePerSquareYard).Figure() / Gallon, 0.005),
        new("Laminates.Resin", "boat supplier: resin weighs as much as the cloth, half glass", "203 g/m2", 0.203, () => Laminates.Resin(0.203, 0.5).Figure(), 1e-12),
        new("Laminates.Resin", "boat supplier: chopped mat takes twice its weight, a third glass", "0.3 kg/m2", 0.6, () => Laminates.Resin(0.3, 1.0 / 3).Figure(), 1e-12),
        new("Laminates.Thickness", Laminating, "6 oz at half glass, in (within 5 %)", 0.010, () => Laminates.Thickness(6 * OuncePerSquareYard, 0.5, 2560, 1150).Figure() / Inch, 0.0005),
        new("Laminates.Thickness", Laminating, "10 oz at half glass, in (within 5 %)", 0.016, () => Laminates.Thickness(10 * OuncePerSquareYard, 0.5, 2560, 1150).Figure() / Inch, 0.0009),
        new("Laminates.StandardThickness", "independent method: the general form at 2560 and 1200 kg/m3", "203 g/m2, woven 0.48, mm", 0.2626, () => 1000 * Laminates.StandardThickness(0.203, 0.48).Figure(), 1e-3),
        new("Laminates.StandardThickness", "boat-building practice, from memory: mat of 1 kg/m2 at 0.30 is about 2.3 mm", "mm", 2.3, () => 1000 * Laminates.StandardThickness(1, 0.30).Figure(), 0.05),
        new("Laminates.VolumeContent", "secondary laminate page: wet hand lay-up 30 to 40 % by volume", "0.5 by weight", 0.35, () => Laminates.VolumeContent(0.5).Figure(), 0.05),
        new("Laminates.VolumeContent", "secondary laminate page: vacuum bagged 45 to 55 % by volume", "0.68 by weight", 0.5, () => Laminates.VolumeContent(0.68).Figure(), 0.05),
        new("Coatings.ByFilm", "published sheet on coverage and yield", "50 by 36 in, 0.010 in, gal", 0.0779, () => Coatings.ByFilm(50 * 36 * Inch * Inch, 1, 0.010 * Inch).Figure() / Gallon, 5e-5),
        new("Coatings.ByFilm", "published sheet on coverage and yield (4195 g/gal)", "the same, g", 326.8, () => Coatings.ByFilm(50 * 36 * Inch * Inch, 1, 0.010 * Inch).Figure() / Gallon * 4195, 0.15),
        new("Coatings.Coverage", Film, "1 gal at 1/16 in, ft2", 25.6, () => Coatings.Coverage(Gallon, Inch / 16).Figure() / SquareFoot, 0.1),
        new("Coatings.Coverage", Film, "1 gal at 1/4 in, ft2", 6.4, () => Coatings.Coverage(Gallon, Inch / 4).Figure() / SquareFoot, 0.05),
        new("Coatings.Coverage", "identity: 231 in3 over a mil, exact 1604.17 (sheets print 1604 or 1608)", "1 gal at 1 mil, ft2", 1604, () => Coatings.Coverage(Gallon, Mil).Figure() / SquareFoot, 0.5),
        new("Coatings.ByCoverage", "independent method: film of the same coverage", "10 m2, 2 coats, 10 m2/l, l", 2, () => 1000 * Coatings.ByCoverage(10, 2, 10000).Figure(), 1e-12),
        new("Coatings.ByCoverage", "identity: 1604 ft2 mil/gal", "267 ft2 at 267 ft2/gal is a film of 6 mil, gal", 1, () => Coatings.ByCoverage(267.36 * SquareFoot, 1, 267.36 * SquareFoot / Gallon).Figure() / Gallon, 1e-9),
        new("Coatings.DryFilm", "coating practice: wet film times solids", "4 mil at 50 %, mil", 2, () => Coatings.DryFilm(4 * Mil, 0.5).Figure() / Mil, 1e-12),
        new("Coatings.DryFilm", "coating practice: a film without solvent does not shrink", "10 mil at 100 %, mil", 10, () => Coatings.DryFilm(10 * Mil, 1).Figure() / Mil, 1e-12),
        new("Coatings.Glue", "identity: 6 mil wet line is 267 ft2/gal", "267.36 ft2 of 6 mil glue at 1100 kg/m3, gal", 1, () => Coatings.Glue(267.36 * SquareFoot, 6 * Mil * 1100).Figure() / 1100 / Gallon, 1e-4),
        new("Coatings.Glue", "independent method: by hand", "3 m2, 0.2 kg/m2, both faces, 10 % waste, kg", 1.32, () => Coatings.Glue(3, 0.2, 2, 0.1).Figure(), 1e-12),
        new("PourFoam.KitYield", "by definition of the nominal density", "16 lb kit, 2 lb/ft3, free rise, ft3", 8, () => PourFoam.KitYield(16 * Pound, 2 * PoundPerCubicFoot).Figure() / Math.Pow(Foot, 3), 1e-9),
        new("PourFoam.KitYield", "page on polyurethane foam: 2 lb/ft3 is 6 board feet for each lb", "board feet", 6, () => PourFoam.KitYield(Pound, 2 * PoundPerCubicFoot).Figure() / (SquareFoot * Inch), 1e-9),
        new("PourFoam.Cavity", "independent method: inverse of the kit yield", "6.1538 ft3, over-pack 1.3, lb", 16, () => PourFoam.Cavity(8 / 1.3 * Math.Pow(Foot, 3), 2 * PoundPerCubicFoot, 1.3, 1, 1, 1).Figure(f => f.Mass) / Pound, 1e-9),
        new("PourFoam.Cavity", "page on mix and pour foam: a cubic foot of 2 lb foam takes 2 lb", "1 ft3, free rise, lb", 2, () => PourFoam.Cavity(Math.Pow(Foot, 3), 2 * PoundPerCubicFoot, 1, 1, 1, 1).Figure(f => f.Mass) / Pound, 1e-9),
        new("PourFoam.Cavity", "by hand: 45 cm in pours of 20 cm", "pours", 3, () => PourFoam.Cavity(0.01, 32, 1, 1, 0.45, 0.2).Figure(f => f.Pours), 1e-12),
        new("PourFoam.Flow", "independent method: by hand", "25 mm, 1 m, limit 20: spaces", 2, () => PourFoam.Flow(0.025, 1, 20).Figure(f => f.Spaces), 1e-12),
        new("PourFoam.Flow", "independent method: by hand", "50 mm, 1 m: ratio", 20, () => PourFoam.Flow(0.05, 1, 20).Figure(f => f.Ratio), 1e-12),
        new("Mixing.ByWeight", "by hand", "120 g at 5 : 1, hardener g", 20, () => 1000 * Mixing.ByWeight(0.12, 5, 1, 1150, 1000).Figure(m => m.MassB), 1e-9),
        new("Mixing.ByWeight", "by hand: 100 parts to 30", "130 g, resin g", 100, () => 1000 * Mixing.ByWeight(0.13, 100, 30, 1150, 1000).Figure(m => m.MassA), 1e-9),
        new("Mixing.ByWeight", "sheets of two-part foam, from memory: 100 parts to 108", "208 g, part A g", 100, () => 1000 * Mixing.ByWeight(0.208, 100, 108, null, null).Figure(m => m.MassA), 1e-9),
        new("Mixing.ByVolume", "by hand: 2 : 1 by volume of 1150 and 1000 kg/m3 is 100 : 43.5 by weight", "hardener to 100 of resin by weight", 43.48, () => Mixing.ByVolume(1, 2, 1, 1150, 1000).Figure(m => 100 * m.MassB / m.MassA), 0.005),
        new("Mixing.ByVolume", "sheets of 2 : 1 epoxies, from memory: 100 : 43 to 100 : 45 by weight", "hardener to 100 of resin by weight", 44, () => Mixing.ByVolume(1, 2, 1, 1150, 1000).Figure(m => 100 * m.MassB / m.MassA), 1),
        new("Mixing.ByVolume", "by definition", "2 : 1 by volume, ratio of volumes", 2, () => Mixing.ByVolume(1, 2, 1, 1150, 1000).Figure(m => m.VolumeA / m.VolumeB), 1e-12),
        new("Mixing.PotLifeAt", "common practice: half for 10 K", "20 min at 25, at 35, min", 10, () => Mixing.PotLifeAt(1200, 25, 35).Figure() / 60, 1e-9),
        new("Mixing.PotLifeAt", "common practice: double for 10 K", "20 min at 25, at 15, min", 40, () => Mixing.PotLifeAt(1200, 25, 15).Figure() / 60, 1e-9),
        new("Mixing.Batches", "by hand: pot governs", "1 kg in 300 g pots, batches", 4, () => Mixing.Batches(1, 0.3, 1, 1200).Figure(b => b.Count), 1e-12),
        new("Mixing.Batches", "by hand: 2 g a second for 60 % of 100 s", "1 kg, batches", 9, () => Mixing.Batches(1, 0.3, 0.002, 100).Figure(b => b.Count), 1e-12),
        new("Mixing.Batches", "by hand: a working time of 50 s governs at 2 g a second", "1 kg, batches", 10, () => Mixing.Batches(1, 0.3, 0.002, 100, 0.6, 50).Figure(b => b.Count), 1e-12),
        new("Mixing.Hands", "by hand", "2 kg at 1 g/s in 15 minutes, pairs of hands", 3, () => Mixing.Hands(2, 0.001, 900).Map(n => (double)n).Figure(), 1e-12),
        new("Mixing.Hands", "by hand", "0.5 kg at 1 g/s in 15 minutes", 1, () => Mixing.Hands(0.5, 0.001, 900).Map(n => (double)n).Figure(), 1e-12),
        new("Mixing.Filled", "independent method: volumes add up", "1 l of paste, ratio 2, l", 1, () => Mixing.Filled(0.001, 2, 1100, 50, 2200).Figure(m => 1000 * (m.ResinMass / 1100 + m.FillerMass / 2200)), 1e-12),
        new("Mixing.Filled", "common practice: fumed silica is 3 to 8 parts to 100 of resin by weight, from memory, low confidence", "ratio 1.2", 5.5, () => Mixing.Filled(0.001, 1.2, 1100, 50, 2200).Figure(m => 100 * m.FillerMass / m.ResinMass), 2.5),
    ];
}
