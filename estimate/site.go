package estimate

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// Building years up to which old materials are presumed dangerous: resilient
// flooring in place by 1980 (29 CFR 1926.1101), paint before 1978 (40 CFR 745).
const (
	asbestosUntil = 1980
	leadUntil     = 1977
)

// siteCautions are matters a person must judge or act on, each raised by a
// cause in the job.
func (r *Result) siteCautions() problem.List {
	var list problem.List
	r.oldBuildingCautions(&list)
	r.packCautions(&list)
	r.workCautions(&list)
	r.byAreaCautions(&list)
	r.subfloorCautions(&list)
	r.movementCautions(&list)
	if r.Price.Ladder.Profit.Sign() <= 0 && r.Job.Settings.ProfitPercent.Sign() > 0 {
		list.Add(problem.Problem{Code: problem.PriceBelowCost, Found: "price " + r.Price.Ladder.Net.String() + ", cost " + r.Price.Ladder.Cost.String(),
			Want: "a price above the cost", Fix: "check Profit % and Profit basis on the Job sheet"})
	}
	return list
}

func (r *Result) oldBuildingCautions(list *problem.List) {
	year := r.Job.Settings.BuildingYear
	if year == 0 {
		return
	}
	if at, found := r.oldFloorTouched(); found {
		at.Found += fmt.Sprintf(" in a building of %d", year)
		if year <= asbestosUntil {
			at.Code, at.Want, at.Fix = problem.AsbestosPossible, "a test before anything is lifted, sanded or ground", "have the old floor and adhesive tested; a licensed firm decides"
			list.Add(at)
		}
		if year <= leadUntil {
			at.Code, at.Want, at.Fix = problem.LeadPossible, "a test, or work as if the paint held lead", "have paint tested; certified renovators and local law decide"
			list.Add(at)
		}
	}
}

// oldFloorTouched is where the work first disturbs an old floor: one cause,
// however many rooms.
func (r *Result) oldFloorTouched() (problem.Problem, bool) {
	for _, room := range r.Job.Rooms {
		if room.LiftOld {
			return problem.Problem{At: room.Ref, Room: room.Name, Found: "old floor lifted"}, true
		}
	}
	for _, repair := range r.Job.Repairs {
		return problem.Problem{At: repair.Ref, Room: repair.Room, Found: "floor repaired"}, true
	}
	return problem.Problem{}, false
}

func (r *Result) packCautions(list *problem.List) {
	storeys, away := r.storeysCarried(), r.takesAway()
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			if line.Product.Weight.Cmp(liftConstant) > 0 && !away[line.Product] {
				list.Add(problem.Problem{Code: problem.HeavyPack, At: line.Product.Ref,
					Found: fmt.Sprintf("one %s of %s weighs %s kg", line.Product.SoldBy, line.Product.Code, line.Product.Weight),
					Want:  fmt.Sprintf("for one person at most %s kg where the lift is ideal, %s kg up from the floor", idealLift.limit(), fromFloor.limit()), Fix: "carry it with two people or an aid" + stairsWords(storeys[line.Product])})
			}
		}
	}
}

// takesAway are the products that stand for waste taken away: nobody carries in
// what a skip or a tip charge is said to weigh.
func (r *Result) takesAway() map[*job.Product]bool {
	away := map[*job.Product]bool{}
	for _, buildUp := range r.Job.BuildUps {
		for _, line := range buildUp.Lines {
			if line.Measure.OfWaste() {
				away[line.Product] = true
			}
		}
	}
	return away
}

// workCautions are dangers of the work itself, each named once, where the job
// first gives cause.
func (r *Result) workCautions(list *problem.List) {
	for i := range r.Floors {
		if floor := &r.Floors[i]; floor.Plan.Planks > 0 {
			list.Add(problem.Problem{Code: problem.SawDust, At: floor.Product.Ref, Found: "planks of " + floor.Product.Code + " are sawn to length",
				Want: "dust caught where it is made", Fix: "saw outside or with an extractor, and wear protection"})
			break
		}
	}
	for _, demand := range r.Takeoff.Demands {
		if demand.Product.Kind == job.Adhesive {
			list.Add(problem.Problem{Code: problem.AdhesiveFumes, At: demand.Product.Ref, Found: demand.Product.Code + " is spread",
				Want: "fresh air, and no flames or sparks", Fix: "keep to its safety data sheet and air the rooms"})
			break
		}
	}
	for _, room := range r.Job.Rooms {
		if room.Steps > 0 {
			list.Add(problem.Problem{Code: problem.StepEdge, At: room.Ref, Room: room.Name, Found: fmt.Sprintf("%d steps in %s", room.Steps, room.Name),
				Want: "nobody on them before the nosings are fixed", Fix: "close or guard the stairs until then"})
			break
		}
	}
}

// storeysCarried is the most storeys that each product is carried by the stairs.
func (r *Result) storeysCarried() map[*job.Product]int {
	most := map[*job.Product]int{}
	for _, use := range r.Takeoff.Uses {
		if use.Room == nil || r.Job.Settings.Lift {
			continue
		}
		if storeys, ok := r.Job.Settings.Storeys(use.Room.Apartment); ok {
			most[use.Product] = max(most[use.Product], storeys)
		}
	}
	return most
}

func stairsWords(storeys int) string {
	switch storeys {
	case 0:
		return ""
	case 1:
		return "; the Job sheet has no lift, so it goes one storey by the stairs"
	}
	return fmt.Sprintf("; the Job sheet has no lift, so it goes up to %d storeys by the stairs", storeys)
}

func (r *Result) byAreaCautions(list *problem.List) {
	for _, buildUp := range r.Job.BuildUps {
		covering := buildUp.Covering()
		if covering != nil && covering.Product.Kind != job.Plank {
			list.Add(problem.Problem{Code: problem.NotLaidByPiece, At: covering.Ref, Found: fmt.Sprintf("%s %s in %s", covering.Product.Kind, covering.Product.Code, buildUp.Name),
				Want: "a waste per cent that a layout of this covering would need", Fix: "check Waste % of this row"})
		}
	}
}
