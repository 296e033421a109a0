package estimate

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/problem"
)

// layingProblems names every rule that a room could not keep: once for rooms
// that miss it alike, with the rows and the number of apartments.
func (r *Result) layingProblems() problem.List {
	type likeness struct {
		room *job.Room
		text string
	}
	at := map[likeness]int{}
	apartments := map[likeness]int{}
	var list problem.List
	for i := range r.Floors {
		for _, missed := range r.Floors[i].missedRules() {
			key := likeness{missed.room.Spec, missed.text()}
			if apartments[key]++; apartments[key] == 1 {
				at[key] = len(list)
				list.Add(missed.problem(r.Floors[i].Product))
			}
		}
	}
	for key, n := range apartments {
		if n > 1 {
			list[at[key]].Found += fmt.Sprintf(" (in %d apartments)", n)
		}
	}
	return list
}

// missedRule is a rule that a room does not keep in some of its rows.
type missedRule struct {
	room  *building.Room
	worst layout.Shortfall
	rows  []int // besides the worst
}

// missedRules gathers the floor's shortfalls by room and rule.
func (f *Floor) missedRules() []missedRule {
	type key struct{ room, rule string }
	at := map[key]int{}
	var missed []missedRule
	for _, short := range f.Plan.Shortfalls {
		k := key{short.Room, short.Rule}
		i, known := at[k]
		if !known {
			at[k] = len(missed)
			missed = append(missed, missedRule{room: f.room(short.Room), worst: short})
			continue
		}
		other := short
		if short.Found < missed[i].worst.Found {
			missed[i].worst, other = short, missed[i].worst
		}
		if other.Row != missed[i].worst.Row && !slices.Contains(missed[i].rows, other.Row) {
			missed[i].rows = append(missed[i].rows, other.Row)
		}
	}
	return missed
}

func (m missedRule) text() string {
	text := m.room.Spec.Name + ": " + m.worst.Text
	if len(m.rows) == 0 {
		return text
	}
	slices.Sort(m.rows)
	rows := make([]string, len(m.rows))
	for i, row := range m.rows {
		rows[i] = fmt.Sprint(row)
	}
	return text + "; less so in row " + strings.Join(rows, ", ")
}

func (m missedRule) problem(product *job.Product) problem.Problem {
	code := problem.LayingRule
	if m.worst.Rule == layout.RuleRoom {
		code = problem.RoomNotLaid
	}
	return problem.Problem{Code: code, At: m.room.Spec.Ref, Found: m.text(), Want: "the rules of product " + product.Code,
		Fix: "look at the room's drawing; accept it or change the laying direction", Apartment: m.room.Apartment.Name, Room: m.room.Spec.Name, Rule: m.worst.Rule}
}

// room is the floor's room of a layout's name.
func (f *Floor) room(name string) *building.Room {
	for slot := range f.Plan.Layouts {
		if f.Plan.Layouts[slot].Room == name {
			return f.Rooms[slot]
		}
	}
	return f.Rooms[0]
}

// niosh is the load constant of the NIOSH lifting equation in kg (publication
// 94-110).
var niosh = decimal.NewFromInt(23)

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
	r.byAreaCautions(&list)
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
	for _, room := range r.Job.Rooms {
		if !room.LiftOld {
			continue
		}
		at := problem.Problem{At: room.Ref, Room: room.Name, Found: fmt.Sprintf("old floor lifted in a building of %d", year)}
		if year <= asbestosUntil {
			at.Code, at.Want, at.Fix = problem.AsbestosPossible, "a test before anything is lifted, sanded or ground", "have the old floor and adhesive tested; a licensed firm decides"
			list.Add(at)
		}
		if year <= leadUntil {
			at.Code, at.Want, at.Fix = problem.LeadPossible, "a test, or work as if the paint held lead", "have paint tested; certified renovators and local law decide"
			list.Add(at)
		}
		return // one cause, however many rooms
	}
}

func (r *Result) packCautions(list *problem.List) {
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			if line.Product.Weight.Cmp(niosh) > 0 {
				list.Add(problem.Problem{Code: problem.HeavyPack, At: line.Product.Ref,
					Found: fmt.Sprintf("one %s of %s weighs %s kg", line.Product.SoldBy, line.Product.Code, line.Product.Weight),
					Want:  "no more than 23 kg for one person in an ideal lift", Fix: "carry it with two people or an aid"})
			}
		}
	}
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
