package job

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/problem"
)

// carbideMost tells readings apart: a carbide reading is a few per cent, a
// humidity probe reads tens of per cent.
var carbideMost = decimal.New(15, 0)

// checkSite finds rooms whose floor is not fit to be laid as it is: too long
// for its covering, or too damp.
func checkSite(j *Job) []Finding {
	var found []Finding
	for _, room := range j.Rooms {
		found = append(found, checkRun(room)...)
		found = append(found, checkMoisture(room)...)
	}
	return found
}

// checkRun finds a room that is longer than its covering may run without an
// expansion profile.
func checkRun(room *Room) []Finding {
	if room.BuildUp == nil || room.BuildUp.Covering() == nil {
		return nil
	}
	product := room.BuildUp.Covering().Product
	bounds := room.Outline.Bounds()
	long := max(bounds.X1-bounds.X0, bounds.Y1-bounds.Y0)
	if product.LongestRun == 0 || long <= product.LongestRun {
		return nil
	}
	return []Finding{{Cells: append(cells(room.Ref, sizeColumn(room)), cells(product.Ref, "longest")...), Problem: problem.Problem{Code: problem.LongRun, Room: room.Name,
		Found: fmt.Sprintf("%s is %s long", room.Name, long), Want: fmt.Sprintf("at most %s of %s without an expansion profile", product.LongestRun, product.Code),
		Fix: "plan an expansion profile with the maker's instructions, or another covering"}}}
}

// checkMoisture finds a reading above the limit of the room's covering, or
// above the usual ones where the product's row gives none.
func checkMoisture(room *Room) []Finding {
	if limit, product := productLimit(room); product != nil {
		if room.Moisture.Cmp(limit) <= 0 {
			return nil
		}
		return []Finding{tooDamp(room, fmt.Sprintf("at most %s, the limit of %s", limit, product.Code), cells(product.Ref, "moisturelimit")...)}
	}
	usual, reading := UsualMoistureLimit(room.Subfloor, room.Heated), room.Moisture
	if room.Subfloor == WoodSubfloor {
		if reading.Cmp(usual.Carbide) <= 0 {
			return nil
		}
		return []Finding{tooDamp(room, fmt.Sprintf("usually at most %s %% by meter in a wood subfloor; the maker's limit rules", usual.Carbide), cells(room.Ref, "subfloor")...)}
	}
	carbide := reading.Cmp(usual.Carbide) > 0 && reading.Cmp(carbideMost) <= 0
	if !carbide && reading.Cmp(usual.Humidity) <= 0 {
		return nil
	}
	screed := CementScreed
	if room.Subfloor == CalciumSulfate {
		screed = CalciumSulfate
	}
	return []Finding{tooDamp(room, fmt.Sprintf("usually at most %s %% by carbide test in %s, or %s %% relative humidity; the maker's limit rules", usual.Carbide, screed, usual.Humidity), cells(room.Ref, "heated")...)}
}

// productLimit is the limit of the room's covering; product is nil when it has
// none.
func productLimit(room *Room) (limit decimal.Decimal, product *Product) {
	if room.BuildUp == nil || room.BuildUp.Covering() == nil {
		return limit, nil
	}
	covering := room.BuildUp.Covering().Product
	if covering.MoistureLimit.Sign() <= 0 {
		return limit, nil
	}
	return covering.MoistureLimit, covering
}

func tooDamp(room *Room, want string, also ...Cell) Finding {
	return Finding{Cells: append(cells(room.Ref, "moisture"), also...), Problem: problem.Problem{Code: problem.MoistureHigh, Room: room.Name,
		Found: fmt.Sprintf("a moisture reading of %s in %s", room.Moisture, room.Name), Want: want,
		Fix: "do not lay: let the floor dry or have a moisture barrier designed, and test again"}}
}
