package crew

import (
	"cmp"
	"fmt"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/job"
)

// Plan is apartments that are laid alike: one cut list serves them all.
type Plan struct {
	Apartments []*job.Apartment
	Rooms      []*building.Room // of the first apartment
}

// Apartment is the apartment's name, or its type where the job has no table of
// apartments; nothing for no apartment.
func Apartment(a *job.Apartment) string {
	if a == nil {
		return ""
	}
	return a.Named()
}

// Name is what the crew calls the plan.
func (p *Plan) Name() string {
	first := p.Apartments[0]
	name := cmp.Or(first.Type, Apartment(first))
	if name == "" {
		return "rooms"
	}
	if first.Mirrored {
		name += " mirrored"
	}
	return name
}

// Serves says which apartments the plan is for.
func (p *Plan) Serves() string {
	if len(p.Apartments) == 1 && p.Apartments[0].Name == "" {
		return "For every room of this plan."
	}
	names := make([]string, len(p.Apartments))
	for i, a := range p.Apartments {
		names[i] = Apartment(a)
	}
	if len(names) == 1 {
		return "For apartment " + names[0] + "."
	}
	return fmt.Sprintf("For %d apartments laid alike: %s.", len(names), strings.Join(names, ", "))
}

// HowToRead explains the words of the cut lists.
func (l *Lists) HowToRead() string {
	return "Lay the rooms in this order, rows from 1 up, pieces from left to right as drawn. \"new 14\" is the 14th plank opened; write its number on what is left of it: \"off-cut 14\". " +
		"\"Off-cut to\" is the piece that the rest is kept for (R2 7.1: room 2, row 7, piece 1); blank: waste. * marks rows with shaped pieces, listed below them. " +
		"Lengths in " + l.UnitWords() + "; the pieces of a row add up to its length."
}

// Plans groups the apartments by what they are laid like, in the order of
// their first apartments.
func (l *Lists) Plans() []*Plan {
	var apartments []*Plan
	at := map[*job.Apartment]*Plan{}
	for _, room := range l.result.Building.Rooms {
		p := at[room.Apartment]
		if p == nil {
			p = &Plan{Apartments: []*job.Apartment{room.Apartment}}
			at[room.Apartment] = p
			apartments = append(apartments, p)
		}
		p.Rooms = append(p.Rooms, room)
	}
	var distinct []*Plan
	alike := map[string]*Plan{}
	for _, p := range apartments {
		key := l.likeness(p)
		if known := alike[key]; known != nil {
			known.Apartments = append(known.Apartments, p.Apartments[0])
			continue
		}
		alike[key] = p
		distinct = append(distinct, p)
	}
	return distinct
}

// likeness is equal for apartments that one cut list serves.
func (l *Lists) likeness(p *Plan) string {
	var key strings.Builder
	fmt.Fprint(&key, p.Apartments[0].Mirrored)
	for _, room := range p.Rooms {
		fmt.Fprintf(&key, "|%p,%s", room.Spec, l.result.RoomFloor[room.Index].Layout)
	}
	return key.String()
}
