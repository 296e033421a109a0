package out

import (
	"fmt"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/measure"
	"laybill/sheet/crew"
)

// planned is one row of the lists of plans: rooms that share planks, or one
// room of them.
type planned struct {
	laid
	place  string
	room   *building.Room // nil for a pool
	rooms  int
	rows   int  // planks that the plan's rows take at least; 0 when not known
	proven bool // no plan takes fewer
	alone  bool // bounds and the crew's plan are its own
}

// standing says whether fewer planks could do.
func (p planned) standing() string {
	switch {
	case !p.alone:
		return ""
	case p.proven:
		return "best"
	}
	return "open"
}

// planksByPool writes the planks of every pool beside what could at best be
// reached and what other ways of ordering come to.
func (b *book) planksByPool(sheet string) {
	b.plansOf(sheet, "Planks by pool", "One row for rooms that share planks. ", b.plannedPools(), false)
}

// planksByRoom writes the same for every room.
func (b *book) planksByRoom(sheet string) {
	b.plansOf(sheet, "Planks by room", "A plank counts in the room where it is first cut; its off-cut may lie in another. Bounds and planning by eye stand with the room only where it shares no planks: else see Planks by pool. ", b.plannedRooms(), true)
}

func (b *book) plannedPools() []planned {
	var all []planned
	for i := range b.result.Floors {
		floor := &b.result.Floors[i]
		p := plannedFloor(floor)
		p.place, p.rooms = floor.Place, len(floor.Rooms)
		all = append(all, p)
	}
	return all
}

func plannedFloor(f *estimate.Floor) planned {
	return planned{laid: laidFloor(f), rows: f.Plan.RowBound, proven: f.Plan.Proven, alone: true}
}

func (b *book) plannedRooms() []planned {
	var all []planned
	for _, room := range b.result.Building.Rooms {
		at := b.result.RoomFloor[room.Index]
		if at.Floor < 0 {
			continue
		}
		floor := &b.result.Floors[at.Floor]
		layout := &floor.Plan.Layouts[at.Slot]
		p := planned{laid: laid{product: floor.Product, floor: room.Area, pieces: layout.Area(), planks: layout.Planks}}
		if len(floor.Rooms) == 1 {
			p = plannedFloor(floor)
		}
		p.place, p.room, p.rooms = crew.Apartment(room.Apartment), room, 1
		all = append(all, p)
	}
	return all
}

func (b *book) plansOf(sheet, title, note string, rows []planned, byRoom bool) {
	unit := b.result.Job.Settings.AreaUnit
	l := list[planned]{
		title: title,
		note: note + "These rows: no cutting of the rows as laid takes fewer. Any rows: no plan at all takes fewer. Gap: planks above that; best where there is none. By eye: a crew's row-by-row way without a plan. " +
			"Waste: planks over laid area, spares and pack rounding apart. Area + 5, 7, 10 %: whole planks of a flat allowance, for comparison.",
		landscape: true,
	}
	l.columns = append(l.columns, column[planned]{heading: "Place", width: 14, cell: func(p planned, _ int) cell { return text(p.place).strong() }})
	if byRoom {
		l.columns = append(l.columns, column[planned]{heading: "Room", width: 20, cell: func(p planned, _ int) cell { return text(p.room.Spec.Name) }})
	} else {
		l.columns = append(l.columns, column[planned]{heading: "Rooms", width: 8, cell: func(p planned, _ int) cell { return count(p.rooms) }})
	}
	whole := func(of func(planned) int, shown func(planned) bool) func(planned, int) cell {
		return func(p planned, _ int) cell { return count(of(p)).orBlank(shown(p)) }
	}
	bounded := func(p planned) bool { return p.alone && p.least > 0 }
	l.columns = append(l.columns,
		column[planned]{heading: "Product", width: 13, cell: func(p planned, _ int) cell { return text(p.product.Code) }},
		column[planned]{heading: "Floor " + unit.String(), width: 10, cell: func(p planned, _ int) cell { return areaCell(p.floor, unit) }},
		column[planned]{heading: laidHeading + " " + unit.String(), width: 10, cell: func(p planned, _ int) cell { return areaCell(p.pieces, unit) }},
		column[planned]{heading: "Planks", width: 9, cell: func(p planned, _ int) cell { return count(p.planks).strong() }},
		column[planned]{heading: "Waste", width: 9, cell: func(p planned, _ int) cell { return number(p.waste(unit), percentFormat).orBlank(p.alone) }},
		column[planned]{heading: "At least: these rows", width: 11, cell: whole(func(p planned) int { return p.rows }, func(p planned) bool { return p.alone && p.rows > 0 })},
		column[planned]{heading: "At least: any rows", width: 11, cell: whole(func(p planned) int { return p.least }, bounded)},
		column[planned]{heading: "Gap", width: 7, cell: whole(func(p planned) int { return p.planks - p.least }, bounded)},
		column[planned]{heading: "Proven", width: 9, cell: func(p planned, _ int) cell { return text(p.standing()) }},
		column[planned]{heading: "By eye", width: 9, cell: whole(func(p planned) int { return p.byEye }, func(p planned) bool { return p.alone })},
	)
	for _, rate := range flatRates {
		l.columns = append(l.columns, column[planned]{heading: fmt.Sprintf("Area + %d %%", rate), width: 11, cell: func(p planned, _ int) cell {
			return number(p.flat(rate, unit), wholeFormat)
		}})
	}
	l.write(b, sheet, rows)
}

func areaCell(a measure.Area, unit measure.AreaUnit) cell {
	return number(a.Decimal(unit, areaPlaces), "#,##0.00")
}
