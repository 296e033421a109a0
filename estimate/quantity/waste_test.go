package quantity

import (
	"math/big"
	"testing"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/subfloor"
)

// A room of 5 x 4 m whose carpet of 12 mm and 3.5 kg a m2 is lifted, and whose
// planks, 8 mm and 7 kg a m2, leave over 0.5 m2: 0.24 + 0.004 m3 and 70 + 3.5 kg.
// Twice as much loose, a skip of 4.6 m3 takes 0.488 / 4.6; in a job of feet and
// inches the same is stated in cubic yards of 0.764554857984 m3 (exact: 0.9144 m
// cubed).
func TestWasteIsTheOldFloorAndTheLayouts(t *testing.T) {
	oak := &job.Product{Code: "OAK", Kind: job.Plank, SoldBy: job.PerSquareMetre, Thickness: mm(8), Weight: dec("7")}
	skip := &job.Product{Code: "SKIP", Kind: job.Each, SoldBy: job.PerEach, Holds: dec("4.6")}
	tip := &job.Product{Code: "TIP", Kind: job.Each, SoldBy: job.PerEach, Weight: dec("1000")}
	lift := &job.Operation{Code: "LIFT"}
	j, b := room(rectangle(5000, 4000), &job.Line{Product: oak, Measure: job.LaidArea}, &job.Line{Product: skip, Measure: job.WasteVolume, Factor: dec("2")}, &job.Line{Product: tip, Measure: job.WasteWeight})
	j.Rooms[0].OldFloor = &job.OldFloor{Thickness: mm(12), Weight: dec("3.5"), Operation: lift}
	laid := []Laid{{ByPiece: true, Area: 19 * measure.SquareMetre, Waste: measure.SquareMetre / 2}}
	for unit, volume := range map[measure.Unit]string{measure.MM: "0.488 m3", measure.Ft: "0.6383 yd3"} {
		j.Settings.LengthUnit = unit
		takeoff := Take(j, b, laid, subfloor.Look(j, b, noPrice))
		takeoff.AddWaste(j, b, laid, []Waste{NoWaste()})
		got := map[string]string{}
		for _, line := range takeoff.Lines {
			got[line.Item()] = line.Quantity.String() + " " + line.Unit
		}
		if got["SKIP"] != volume || got["TIP"] != "73.5 kg" || got["LIFT"] != "20 m2" {
			t.Errorf("in %s: %v, want SKIP %s, TIP 73.5 kg, LIFT 20 m2", unit, got, volume)
		}
		if skips := takeoff.Demands[0].Sold; skips.Cmp(big.NewRat(488, 4600)) != 0 {
			t.Errorf("in %s: %s skips, want 0.1061", unit, skips.FloatString(4))
		}
	}
}

// A covering counted by area leaves over its waste per cent: 20 m2 x 5 % x 9 mm.
func TestWasteOfACoveringByArea(t *testing.T) {
	tile := &job.Product{Code: "TILE", Kind: job.Tile, SoldBy: job.PerSquareMetre, Thickness: mm(9)}
	skip := &job.Product{Code: "SKIP", Kind: job.Each, SoldBy: job.PerEach, Holds: dec("4.6")}
	j, b := room(rectangle(5000, 4000), &job.Line{Product: tile, Measure: job.FloorArea, Waste: dec("5")}, &job.Line{Product: skip, Measure: job.WasteVolume})
	takeoff := take(j, b)
	takeoff.AddWaste(j, b, make([]Laid, 1), []Waste{NoWaste()})
	if got := takeoff.Lines[1].Quantity.String(); got != "0.009" {
		t.Errorf("%s m3, want 0.009", got)
	}
}

// Three planks of 1200 x 200 x 10 mm are replaced, two by planks on hand: the
// damaged ones and what is cut off are 3 x 0.24 m2 x 10 mm = 0.0072 m3 and, at 7 kg a
// m2, 5.04 kg; a quarter of a pack of four leaves a quarter of 0.004 m3 and 0.6 kg.
func TestWasteOfARepair(t *testing.T) {
	oak := &job.Product{Code: "OAK", Kind: job.Plank, SoldBy: job.PerPack, Length: mm(1200), Width: mm(200), Thickness: mm(10), PiecesPerPack: 4,
		AreaPerPack: 4 * mm(1200).Times(mm(200)), Weight: dec("6.72"), Packing: dec("0.004"), PackingWeight: dec("0.6")}
	repair := building.Repair{Repair: &job.Repair{Product: oak, Pieces: 3, Length: mm(1200), FromStock: 2}}
	w := repairWaste(&repair)
	volume := new(big.Rat).Quo(w.Volume, cubicMetre)
	if volume.FloatString(6) != "0.008200" || w.Weight.FloatString(4) != "5.1900" {
		t.Errorf("%s m3 and %s kg, want 0.0082 and 5.19", volume.FloatString(6), w.Weight.FloatString(4))
	}
}
