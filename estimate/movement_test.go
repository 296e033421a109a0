package estimate

import (
	"math"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/published"
)

// Published worked examples of the formula of the Wood Handbook: mesquite of 5 in
// from 6 to 9 % (flooringartists.com after NWFA A200), red alder of 8 in over 6
// points (WOOD magazine 2021), and white fir of 232 mm from 8 to 11 % (Wood
// Handbook chapter 13, from memory).
func TestMovementOfPublishedExamples(t *testing.T) {
	examples := published.Keyed(t, "quantity_examples.csv")
	for _, c := range []struct {
		name                string
		width               measure.Length
		coefficient, points string
		unit                measure.Length
	}{
		{"wood_mesquite", 5 * measure.Inch, "0.00129", "3", measure.Inch},
		{"wood_red_alder", 8 * measure.Inch, "0.0026", "6", measure.Inch},
		{"wood_white_fir", 232 * measure.Millimetre, "0.00245", "3", measure.Millimetre},
	} {
		want, err := strconv.ParseFloat(examples[c.name][4], 64)
		if err != nil {
			t.Fatal(err)
		}
		got := movement(c.width, dec(c.coefficient), dec(c.points))
		// To the unit of 1/320 mm.
		if math.Abs(float64(got)-want*float64(c.unit)) > 0.5 {
			t.Errorf("%s: %s, want %g of %s", c.name, got.Format(measure.MM), want, c.unit.Format(measure.MM))
		}
	}
}

// The moistures that a caution reckons with are the Wood Handbook's for its two
// humidities (table at 70 F as reprinted in NWFA A100).
func TestMoisturesOfTheCaution(t *testing.T) {
	table := published.Keyed(t, "emc_70F.csv")
	for humidity, moisture := range map[string]decimal.Decimal{"45": moistureLaid, "60": moistureSummer} {
		if want := dec(table[humidity][1]); !moisture.Equal(want) {
			t.Errorf("%s %% relative humidity: %s, want %s", humidity, moisture, want)
		}
	}
}

// Red oak moves 0.00369 of its width a point (Wood Handbook as listed in NWFA
// A200). The living room's floor, 4800 less two gaps of 10 mm across the planks,
// grows by 4780 x 0.00369 x 2.5 = 44.1 mm, more than 20 mm. A wood that hardly
// moves is not named.
func TestWideFloorOfSolidWoodIsNamed(t *testing.T) {
	coefficient := published.Keyed(t, "wood_dimensional_change.csv")["red oak"][1]
	j := smallJob()
	for _, p := range j.Products {
		if p.Code == "OAK" {
			p.Movement = dec(coefficient)
		}
	}
	named := func() (found []problem.Problem) {
		r := run(t, j)
		for _, p := range r.Problems {
			if p.Code == problem.WoodMovement {
				found = append(found, p)
			}
		}
		return found
	}
	if found := named(); len(found) != 1 || found[0].Room != "Living" {
		t.Errorf("cautions %+v, want one for the living room", found)
	}
	for _, p := range j.Products {
		p.Movement = dec("0.00001")
	}
	if found := named(); len(found) != 0 {
		t.Errorf("cautions %+v, want none", found)
	}
}
