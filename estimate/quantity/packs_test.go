package quantity

import (
	"math/big"
	"testing"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
	"laybill/estimate/subfloor"
)

// quantityOf is the stated quantity and unit of an item, nought when it has no line.
func quantityOf(t *Takeoff, item string) string {
	for _, line := range t.Lines {
		if line.Item() == item {
			return line.Quantity.String() + " " + line.Unit
		}
	}
	return "0"
}

func work(code string, by job.Measure) *job.Line {
	return &job.Line{Operation: &job.Operation{Code: code}, Measure: by}
}

// 30 m2 levelled by 3 mm at 1.7 kg a m2 and mm are 153 kg, 6.12 bags of 25 kg; 5 %
// waste make them 6.426. Primer comes in tubs and the bag for waste is empty, so
// neither counts. An operation with a factor of 2 states twice as many.
func TestBagsAreThoseOfTheRoomWithTheirWaste(t *testing.T) {
	compound := &job.Product{Code: "LEV", Kind: job.Compound, SoldBy: job.PerBag, Spread: dec("1.7"), Weight: dec("25")}
	primer := &job.Product{Code: "PRIM", Kind: job.Adhesive, SoldBy: job.PerTub, SpreadArea: 10 * measure.SquareMetre}
	rubbish := &job.Product{Code: "WASTE", Kind: job.Each, SoldBy: job.PerBag, Holds: dec("1")}
	double := work("TWICE", job.Bags)
	double.Factor = dec("2")
	j, b := room(rectangle(6000, 5000), work("MIX", job.Bags), double, &job.Line{Product: primer, Measure: job.LevelledArea},
		&job.Line{Product: compound, Measure: job.AreaDepth, Waste: dec("5")}, &job.Line{Product: rubbish, Measure: job.WasteVolume})
	j.Rooms[0].LevelBy = mm(3)
	j.Rooms[0].OldFloor = &job.OldFloor{Thickness: mm(10)} // 0.3 m3 in bags of 1 m3
	takeoff := Take(j, b, make([]Laid, 1), subfloor.Look(j, b, noPrice))
	if got := quantityOf(takeoff, "MIX"); got != "6.426 bag" {
		t.Errorf("%s, want 6.426 bag", got)
	}
	if got := quantityOf(takeoff, "TWICE"); got != "12.852 bag" {
		t.Errorf("with a factor of 2 %s, want 12.852 bag", got)
	}
	for _, line := range takeoff.Lines {
		if isCompound := line.Product == compound; isCompound != (line.Bags != nil) || isCompound && line.Bags.Cmp(big.NewRat(6426, 1000)) != 0 {
			t.Errorf("%s: %v bags", line.Item(), line.Bags)
		}
	}
}

// 120 ft2 and 10 % in boxes of 24 ft2 is 5.5 boxes (laminatefloorings.net, as in
// TestSoldUnits): what has to be carried of a covering by area. Of planks the
// first cut count: 13 of 8 a pack are 1.625.
func TestPacksOfEveryCovering(t *testing.T) {
	tile := &job.Product{Code: "TILE", Kind: job.Tile, SoldBy: job.PerPack, AreaPerPack: 24 * measure.SquareFoot}
	plank := &job.Product{Code: "OAK", Kind: job.Plank, SoldBy: job.PerPack, PiecesPerPack: 8}
	floor := shape.Rectangle(shape.Box{X1: 12 * measure.Foot, Y1: 10 * measure.Foot})
	j, b := room(floor, work("CARRY", job.Packs), &job.Line{Product: tile, Measure: job.FloorArea, Waste: dec("10")})
	if got := quantityOf(take(j, b), "CARRY"); got != "5.5 pack" {
		t.Errorf("tiles: %s, want 5.5 pack", got)
	}
	j, b = room(floor, work("CARRY", job.Packs), &job.Line{Product: plank, Measure: job.LaidArea})
	takeoff := Take(j, b, []Laid{{ByPiece: true, Planks: 13}}, subfloor.Look(j, b, noPrice))
	if got := quantityOf(takeoff, "CARRY"); got != "1.625 pack" {
		t.Errorf("planks: %s, want 1.625 pack", got)
	}
}

// 8 planks of 8 a pack and 6.426 bags of the levelling are 7.426 to carry: three
// storeys 22.278, in a lift 7.426, and on the ground floor no line.
func TestCarriedByTheStorey(t *testing.T) {
	plank := &job.Product{Code: "OAK", Kind: job.Plank, SoldBy: job.PerPack, PiecesPerPack: 8}
	compound := &job.Product{Code: "LEV", Kind: job.Compound, SoldBy: job.PerBag, Spread: dec("1.7"), Weight: dec("25")}
	for _, c := range []struct {
		floor string
		lift  bool
		want  string
	}{{"3", false, "22.278 pack x storey"}, {"3", true, "7.426 pack x storey"}, {"ground", false, "0"}} {
		j, _ := room(rectangle(6000, 5000), work("STAIRS", job.Carried), &job.Line{Product: compound, Measure: job.AreaDepth, Waste: dec("5")}, &job.Line{Product: plank, Measure: job.LaidArea})
		j.Rooms[0].LevelBy, j.Settings.Lift, j.Apartments[0].Floor = mm(3), c.lift, c.floor
		b := building.Build(j)
		if got := quantityOf(Take(j, b, []Laid{{ByPiece: true, Planks: 8}}, subfloor.Look(j, b, noPrice)), "STAIRS"); got != c.want {
			t.Errorf("floor %s, lift %v: %s, want %s", c.floor, c.lift, got, c.want)
		}
	}
}

// The room of TestEndsAndAllowances: six corners, one of them an outside one. A
// gap of 1200 mm whose sides take skirting adds two outside corners; a door that
// begins at a corner takes that corner away. Without skirting there are none.
func TestCornersOfTheSkirting(t *testing.T) {
	for _, c := range []struct {
		name            string
		openings        []job.Opening
		bare            bool
		inside, outside string
	}{
		{"no opening", nil, false, "5 each", "1 each"},
		{"returns", []job.Opening{{Wall: 0, From: mm(1500), Width: mm(1200), Return: mm(130)}}, false, "5 each", "3 each"},
		{"door in a corner", []job.Opening{{Wall: 0, From: 0, Width: mm(900)}}, false, "4 each", "1 each"},
		{"no skirting", nil, true, "0", "0"},
	} {
		j, _ := room(pier(), work("IN", job.InsideCorners), work("OUT", job.OutsideCorners))
		j.Rooms[0].Openings, j.Rooms[0].Skirting = c.openings, !c.bare
		takeoff := take(j, building.Build(j))
		if in, out := quantityOf(takeoff, "IN"), quantityOf(takeoff, "OUT"); in != c.inside || out != c.outside {
			t.Errorf("%s: %s inside and %s outside, want %s and %s", c.name, in, out, c.inside, c.outside)
		}
	}
}

// What the layout counts is stated as it is.
func TestRipsAndNotches(t *testing.T) {
	plank := &job.Product{Code: "OAK", Kind: job.Plank, SoldBy: job.PerPack, PiecesPerPack: 8}
	j, b := room(rectangle(4000, 3000), work("RIP", job.Rips), work("NOTCH", job.Notches), &job.Line{Product: plank, Measure: job.LaidArea})
	takeoff := Take(j, b, []Laid{{ByPiece: true, Planks: 13, Cuts: 21, Rips: 4, Notches: 2}}, subfloor.Look(j, b, noPrice))
	if rips, notches := quantityOf(takeoff, "RIP"), quantityOf(takeoff, "NOTCH"); rips != "4 each" || notches != "2 each" {
		t.Errorf("%s ripped, %s notched", rips, notches)
	}
}
