package estimate

import (
	"fmt"
	"slices"
	"strings"

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
	var inLine []missedRule
	for i := range r.Floors {
		for _, missed := range r.Floors[i].missedRules() {
			if missed.worst.Rule == layout.RuleLineUp {
				if r.Floors[i].First == i {
					inLine = append(inLine, missed)
				}
				continue
			}
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
	if len(inLine) > 0 {
		list.Add(jointsInLine(inLine))
	}
	return list
}

// jointsInLine is one caution for all joints two rows apart that come in line:
// the rule is kept only where it costs no plank, so it is nothing to mend room
// by room.
func jointsInLine(missed []missedRule) problem.Problem {
	rows, nearest := 0, missed[0]
	var rooms []problem.Ref
	for _, m := range missed {
		rows += 1 + len(m.rows)
		if m.worst.Found < nearest.worst.Found {
			nearest = m
		}
		if !slices.Contains(rooms, m.room.Spec.Ref) {
			rooms = append(rooms, m.room.Spec.Ref)
		}
	}
	return problem.Problem{Code: problem.LayingRule, At: rooms[0], Also: rooms[1:],
		Found: fmt.Sprintf("joints two rows apart come within %s of one line in %d rows of the drawings; the nearest: %s, %s", nearest.worst.Want, rows, nearest.room.Spec.Name, nearest.worst.Sentence()),
		Want:  "joints two rows apart out of line, where that costs no plank", Fix: "look at the drawings; nothing, where the pattern of the boards hides it",
		Apartment: nearest.room.Apartment.Name, Room: nearest.room.Spec.Name, Rule: layout.RuleLineUp}
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
	text := m.room.Spec.Name + ": " + m.worst.Sentence()
	if len(m.rows) == 0 {
		return text
	}
	slices.Sort(m.rows)
	rows := make([]string, len(m.rows))
	for i, row := range m.rows {
		rows[i] = fmt.Sprint(row)
	}
	besides := "; less so in row "
	if m.worst.Rule == layout.RuleHole {
		besides = "; also in row "
	}
	return text + besides + strings.Join(rows, ", ")
}

func (m missedRule) problem(product *job.Product) problem.Problem {
	code := problem.LayingRule
	if m.worst.Rule == layout.RuleRoom {
		code = problem.RoomNotLaid
	}
	want, fix := "the rules of product "+product.Code, "look at the room's drawing; accept it or change the laying direction"
	switch m.worst.Rule {
	case layout.RulePattern:
		fix = "look at the room's drawing; accept it, or give the product a shorter least end piece or another pattern"
	case layout.RuleHole:
		want = "a fixture at the edge of a piece, where it is a notch"
		fix = "drill the hole where the fixture is a pipe; else saw the piece in two across the hole, or move the rows with another laying direction"
	}
	return problem.Problem{Code: code, At: m.room.Spec.Ref, Found: m.text(), Want: want,
		Fix: fix, Apartment: m.room.Apartment.Name, Room: m.room.Spec.Name, Rule: m.worst.Rule}
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
