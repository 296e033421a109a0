package quantity

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Grout for tiles of 300 x 300 mm, 8 mm thick, joints of 3 mm, by the formula of
// makers of grout with 1.6 kg a litre: (300 + 300) / (300 x 300) x 8 x 3 x 1.6 =
// 0.256 kg a square metre (handbook of references, section 2; the factor 1.6
// also in consumption.csv). 10 m2 take 2.56 kg, 0.512 bags of 5 kg.
func TestGrout(t *testing.T) {
	tile := &job.Product{Code: "TILE", Kind: job.Tile, Length: mm(300), Width: mm(300), Thickness: mm(8), JointWidth: mm(3), SoldBy: job.PerPack, AreaPerPack: measure.SquareMetre}
	grout := &job.Product{Code: "GROUT", Kind: job.Compound, SoldBy: job.PerBag, Weight: dec("5"), Spread: dec("1.6")}
	j, b := room(rectangle(4000, 2500), &job.Line{Product: tile, Measure: job.FloorArea}, &job.Line{Product: grout, Measure: job.TileJoints})
	takeoff := take(j, b)
	// 2.56 kg / 1.6 = 1.6 litres of joints.
	if line := takeoff.Lines[1]; line.Quantity.String() != "1.6" || line.Unit != "l" {
		t.Errorf("%s %s of joints, want 1.6 l", line.Quantity, line.Unit)
	}
	if sold := takeoff.Demands[1].Sold; sold.Cmp(big.NewRat(512, 1000)) != 0 {
		t.Errorf("%s bags, want 0.512", sold.FloatString(4))
	}
}

// The formula counts the crossings of joints twice, so it is a little more than
// the exact volume, 1 - AB / ((A+D)(B+D)) of the bed (geometry), and never more
// than by the share of a joint in a tile.
func TestGroutIsJustAboveTheExactVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) int64 { return rapid.Int64Range(20, 1500).Draw(t, name) }
		a, b, d, thick := side("length"), side("width"), rapid.Int64Range(1, 12).Draw(t, "joint"), rapid.Int64Range(3, 20).Draw(t, "thickness")
		tile := &job.Product{Length: mm(a), Width: mm(b), Thickness: mm(thick), JointWidth: mm(d)}
		formula, _ := jointDepth(tile).Float64()
		exact := float64(thick) * (1 - float64(a*b)/float64((a+d)*(b+d)))
		most := exact * (1 + float64(d)/float64(a)) * (1 + float64(d)/float64(b))
		if formula < exact || formula > most*(1+1e-12) {
			t.Fatalf("%d x %d x %d, joint %d: %g mm, want from %g to %g", a, b, thick, d, formula, exact, most)
		}
	})
}

// A 50 lb bag of thin-set covers, by the notch of the trowel, the square feet of
// consumption.csv (two articles of a public page, read). A mortar of one density
// must fall into all three bands: 0.80 kg of powder a litre of bed does.
// A coat of 1 mm on the tiles' backs takes as much as 2 mm of notch.
func TestAdhesiveByNotchIsWithinPublishedBands(t *testing.T) {
	const in = measure.Inch
	bag := &job.Product{Code: "THINSET", Kind: job.Compound, SoldBy: job.PerBag, Weight: dec("22.6796185"), Spread: dec("0.8")}
	for _, c := range []struct {
		notch     measure.Length
		low, high float64 // ft2 a bag
	}{{in / 4, 80, 100}, {in * 3 / 8, 60, 80}, {in / 2, 40, 50}} {
		if got := covered(t, bag, c.notch, 0); got < c.low || got > c.high {
			t.Errorf("a notch of %s: a bag covers %.1f ft2, want %g to %g", c.notch, got, c.low, c.high)
		}
	}
	if plain, buttered := covered(t, bag, mm(10), 0), covered(t, bag, mm(8), mm(1)); plain != buttered {
		t.Errorf("a notch of 10 mm covers %g ft2 and one of 8 mm with 1 mm on the back %g", plain, buttered)
	}
}

// covered is the floor in ft2 that one bag does.
func covered(t *testing.T, bag *job.Product, notch, back measure.Length) float64 {
	t.Helper()
	tile := &job.Product{Code: "TILE", Kind: job.Tile, SoldBy: job.PerPack, AreaPerPack: measure.SquareMetre, Notch: notch, BackCoat: back}
	outline := shape.Rectangle(shape.Box{X1: 10 * measure.Foot, Y1: 10 * measure.Foot})
	j, b := room(outline, &job.Line{Product: tile, Measure: job.FloorArea}, &job.Line{Product: bag, Measure: job.TileBed})
	bags, _ := take(j, b).Demands[1].Sold.Float64()
	return 100 / bags
}

// Levelling compound against consumption.csv: a 50 lb bag covers 40 to 50 ft2 an
// eighth of an inch deep, half at a quarter, a quarter at a half inch (read).
// One consumption per mm and m2 must fall into all bands: 1.7 kg, between the
// 1.5 and 1.8 of data sheets (the same file, from memory), does.
func TestCompoundIsWithinPublishedBands(t *testing.T) {
	bag := &job.Product{Code: "LEVEL", Kind: job.Compound, SoldBy: job.PerBag, Weight: dec("22.6796185"), Spread: dec("1.7")}
	for _, c := range []struct {
		depth     measure.Length
		low, high float64 // ft2 a bag
	}{{measure.Inch / 8, 40, 50}, {measure.Inch / 4, 20, 25}, {measure.Inch / 2, 10, 12}} {
		outline := shape.Rectangle(shape.Box{X1: 10 * measure.Foot, Y1: 10 * measure.Foot})
		j, b := room(outline, &job.Line{Product: bag, Measure: job.AreaDepth})
		j.Rooms[0].LevelBy = c.depth
		bags, _ := take(j, b).Demands[0].Sold.Float64()
		if got := 100 / bags; got < c.low || got > c.high {
			t.Errorf("%s deep: a bag covers %.1f ft2, want %g to %g", c.depth, got, c.low, c.high)
		}
	}
}
