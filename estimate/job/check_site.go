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

// checkRun finds a room that is longer than its covering may run, where its
// build-up has no profile to divide it with, and a profile that is too narrow.
func checkRun(room *Room) []Finding {
	if !room.Overruns() {
		return nil
	}
	product := room.BuildUp.Covering().Product
	if profile := room.BuildUp.ExpansionProfile(); profile != nil {
		return checkProfile(profile, product)
	}
	return []Finding{{Cells: append(cells(room.Ref, sizeColumn(room)), cells(product.Ref, "longest")...), Problem: problem.Problem{Code: problem.LongRun, Room: room.Name, Rule: "run",
		Found: fmt.Sprintf("%s is %s long", room.Name, longerSide(room)), Want: fmt.Sprintf("at most %s of %s without an expansion profile", product.LongestRun, product.Code),
		Fix: fmt.Sprintf("add a trim measured by %s to build-up %s", ExpansionProfiles, room.BuildUp.Name)}}}
}

// Overruns tells whether the room is longer, along its length or its width,
// than its covering may run in one piece.
func (r *Room) Overruns() bool {
	if r.BuildUp == nil || r.BuildUp.Covering() == nil {
		return false
	}
	longest := r.BuildUp.Covering().Product.LongestRun
	return longest > 0 && longerSide(r) > longest
}

// checkProfile finds a profile that does not cover the break that it stands in:
// an expansion gap on each side of it.
func checkProfile(profile, covering *Product) []Finding {
	gap := 2 * covering.Gap
	if profile.Width == 0 || profile.Width > gap {
		return nil
	}
	return []Finding{{Cells: append(cells(profile.Ref, "width"), cells(covering.Ref, "gap")...), Cause: profile.Code + "/" + covering.Code, Problem: problem.Problem{Code: problem.ProfileNarrow,
		Found: fmt.Sprintf("profile %s is %s wide", profile.Code, profile.Width), Want: fmt.Sprintf("wider than the %s between two fields of %s", gap, covering.Code),
		Fix: "choose a wider profile"}}}
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
