package out

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/quantity"
	"laybill/estimate/subfloor"
	"laybill/sheet/crew"
)

// Headings of the subfloor that formulas refer to.
const (
	volumeHeading   = "Compound x mm"
	kilogramHeading = "Compound kg"
)

// subfloorSheets are the sheets of the subfloor; "" where the job has none.
type subfloorSheets struct{ levelling, flatness, tests, holds string }

func (b *book) addSubfloor() subfloorSheets {
	told := b.result.Subfloor.Told()
	return subfloorSheets{
		levelling: b.addIf(told, "Subfloor"), flatness: b.addIf(b.result.Subfloor.Surveyed(), "Flatness"),
		tests: b.addIf(told, "Moisture tests"), holds: b.addIf(told, "Hold points"),
	}
}

// subfloor writes what is under the floors: how they are levelled, how flat
// they are, how many tests they need, and what holds the laying.
func (b *book) subfloor(sheets subfloorSheets) {
	if sheets.levelling != "" {
		b.levelling(sheets.levelling)
	}
	if sheets.flatness != "" {
		b.flatness(sheets.flatness)
	}
	if sheets.tests != "" {
		b.moistureTests(sheets.tests)
		b.holdPoints(sheets.holds)
	}
}

// levelledRoom is a room's subfloor with the compound ordered for it.
type levelledRoom struct {
	*subfloor.Room
	compound *quantity.Line // nil when its build-up has none, or it needs none
}

func (b *book) levelledRooms() []levelledRoom {
	compounds := map[*building.Room]*quantity.Line{}
	for i := range b.result.Takeoff.Lines {
		if line := &b.result.Takeoff.Lines[i]; line.Measure == job.AreaDepth && line.Product != nil && line.Room != nil {
			compounds[line.Room] = line
		}
	}
	rows := make([]levelledRoom, len(b.result.Subfloor.Rooms))
	for i := range rows {
		room := &b.result.Subfloor.Rooms[i]
		rows[i] = levelledRoom{room, compounds[room.Room]}
	}
	return rows
}

// volume is the compound as its line counts it, with factor and waste, in the
// job's area unit times millimetres.
func (r levelledRoom) volume() decimal.Decimal {
	if r.compound == nil {
		return decimal.Zero
	}
	return r.compound.Quantity
}

// perUnit is the compound's kilograms for one area unit and millimetre.
func (r levelledRoom) perUnit(unit measure.AreaUnit) decimal.Decimal {
	return r.compound.Product.Spread.Mul(measure.Area(unit.Area()).Decimal(measure.M2, 8))
}

func (r levelledRoom) kilograms(unit measure.AreaUnit) decimal.Decimal {
	if r.compound == nil {
		return decimal.Zero
	}
	return r.volume().Mul(r.perUnit(unit)).Round(2)
}

func (r levelledRoom) bags(unit measure.AreaUnit) decimal.Decimal {
	if r.compound == nil {
		return decimal.Zero
	}
	return r.kilograms(unit).DivRound(r.compound.Product.Weight, 2)
}

// levelling writes a row a room: flatness, plane, depths, compound, grinding.
func (b *book) levelling(sheet string) {
	rows := b.levelledRooms()
	unit, runs := b.result.Job.Settings.AreaUnit, b.runUnit()
	l := list[levelledRoom]{
		title: "Subfloor",
		note: "A surveyed room is levelled only where a straightedge over two of its readings breaks the flatness group; then to the plane that costs least, with at most 3 mm left standing out. " +
			"Compound and grinding are measured from the surface between the readings; bags are whole on the orders only. Depths and heights in mm.",
		landscape: true,
	}
	millimetres := func(l measure.Length) cell { return number(l.Decimal(measure.MM).Round(1), "0.0;-0.0;") }
	areaIn := func(a measure.Area) cell { return number(a.Decimal(unit, 2), "#,##0.00;;") }
	worst := func(r levelledRoom, show func(subfloor.Straightedge) cell) cell {
		if len(r.Flatness.Worst) == 0 {
			return cell{}
		}
		return show(r.Flatness.WorstOf())
	}
	l.columns = []column[levelledRoom]{
		{heading: "Apartment", width: 10, cell: func(r levelledRoom, _ int) cell { return text(crew.Apartment(r.Room.Room.Apartment)).strong() }},
		{heading: "Room", width: 12, cell: func(r levelledRoom, _ int) cell { return text(r.Room.Room.Spec.Name) }},
		{heading: "Subfloor", width: 16, cell: func(r levelledRoom, _ int) cell {
			return text(subfloorWords(r.Room.Room.Spec)).in(plainStyle.wrapped())
		}},
		{heading: "Floor " + unit.String(), width: 8, cell: func(r levelledRoom, _ int) cell { return areaIn(r.Room.Room.Area) }},
		{heading: "Film", width: 10, cell: func(r levelledRoom, _ int) cell { return text(filmWords(r.Room.Room.Spec)) }},
		{heading: "Readings", width: 10, cell: func(r levelledRoom, _ int) cell { return blankZero(len(r.Readings)) }},
		{heading: "Group", width: 8, cell: func(r levelledRoom, _ int) cell { return text(groupWords(r)) }},
		{heading: "Break it, of all", width: 8, cell: func(r levelledRoom, _ int) cell { return text(brokenWords(r)) }},
		{heading: "Worst off by", width: 7, cell: func(r levelledRoom, _ int) cell {
			return worst(r, func(s subfloor.Straightedge) cell { return millimetres(s.Deviation) })
		}},
		{heading: "Allowed", width: 9, cell: func(r levelledRoom, _ int) cell {
			return worst(r, func(s subfloor.Straightedge) cell { return millimetres(s.Limit) })
		}},
		{heading: "Over " + runs.String(), width: 8, cell: func(r levelledRoom, _ int) cell {
			return worst(r, func(s subfloor.Straightedge) cell { return number(s.Distance.Decimal(runs).Round(2), "0.00") })
		}},
		{heading: "Plane", width: 16, cell: func(r levelledRoom, _ int) cell { return text(planeWords(r)).in(plainStyle.wrapped()) }},
		{heading: "Least depth", width: 7, cell: func(r levelledRoom, _ int) cell { return millimetres(r.LeastDepth()) }},
		{heading: "Mean depth", width: 7, cell: func(r levelledRoom, _ int) cell { return millimetres(r.MeanDepth()) }},
		{heading: "Most depth", width: 7, cell: func(r levelledRoom, _ int) cell { return millimetres(r.MostDepth()) }},
		{heading: "Drying days", width: 7, cell: func(r levelledRoom, _ int) cell { return blankZero(r.DryingDays()) }},
		{heading: volumeHeading, width: 10, places: quantity.Places, cell: func(r levelledRoom, _ int) cell { return number(r.volume(), "#,##0.00;;") }},
		{heading: kilogramHeading, width: 10, places: 2, cell: b.kilograms(&l)},
		{heading: "Bags", width: 8, places: 2, cell: b.bagCell(&l)},
		{heading: "Ground " + unit.String(), width: 8, cell: func(r levelledRoom, _ int) cell { return areaIn(r.Levelling.Ground.Area) }},
		{heading: "Ground x mm", width: 9, cell: func(r levelledRoom, _ int) cell { return number(r.groundIn(unit), "#,##0.00;;") }},
		{heading: "Ground off, most", width: 9, cell: func(r levelledRoom, _ int) cell { return millimetres(r.Levelling.Ground.Most) }},
		{heading: "Cost only filled", width: 10, cell: func(r levelledRoom, _ int) cell { return b.levelCost(r, r.Filled) }},
		{heading: "Cost as counted", width: 10, cell: func(r levelledRoom, _ int) cell { return b.levelCost(r, r.Levelling) }},
	}
	var volume, kilograms, bags decimal.Decimal
	for _, r := range rows {
		volume, kilograms, bags = volume.Add(r.volume()), kilograms.Add(r.kilograms(unit)), bags.Add(r.bags(unit))
	}
	for _, total := range []struct {
		heading string
		sum     decimal.Decimal
	}{{volumeHeading, volume}, {kilogramHeading, kilograms}, {"Bags", bags}} {
		for i := range l.columns {
			if l.columns[i].heading == total.heading {
				l.columns[i].total = number(total.sum, "#,##0.00")
			}
		}
	}
	l.write(b, sheet, rows)
}

// kilograms is the compound by its spread.
func (b *book) kilograms(l *list[levelledRoom]) func(levelledRoom, int) cell {
	unit := b.result.Job.Settings.AreaUnit
	return func(r levelledRoom, row int) cell {
		c := number(r.kilograms(unit), "#,##0.00;;")
		if r.compound == nil {
			return c
		}
		at := l.listed("", 0)
		return c.from(fmt.Sprintf("ROUND(%s%d*%s,2)", at.letter(volumeHeading), row, r.perUnit(unit)))
	}
}

// bagCell is the compound in bags, not rounded up: bags are opened for more than
// one room.
func (b *book) bagCell(l *list[levelledRoom]) func(levelledRoom, int) cell {
	unit := b.result.Job.Settings.AreaUnit
	return func(r levelledRoom, row int) cell {
		c := number(r.bags(unit), "#,##0.00;;")
		if r.compound == nil {
			return c
		}
		at := l.listed("", 0)
		return c.from(fmt.Sprintf("ROUND(%s%d/%s,2)", at.letter(kilogramHeading), row, r.compound.Product.Weight))
	}
}

func (r levelledRoom) groundIn(unit measure.AreaUnit) decimal.Decimal {
	return decimal.NewFromBigRat(r.Grinding(), 0).DivRound(decimal.NewFromInt(int64(unit.Area())), 2)
}

// levelCost is what a levelling costs before bags are rounded; blank where
// nothing is levelled by readings, or the build-up names no cost.
func (b *book) levelCost(r levelledRoom, l subfloor.Levelling) cell {
	if r.Rates.Fill == nil || r.Filled.Fill.Volume == 0 {
		return cell{}
	}
	return amount(r.Rates.Cost(l, b.result.Job.Settings.Currency))
}

func subfloorWords(room *job.Room) string {
	words := room.Subfloor.String()
	if room.Heated {
		words += ", heated"
	}
	return words
}

func filmWords(room *job.Room) string {
	film := subfloor.FilmFor(room)
	if film == subfloor.FilmNeeded && !subfloor.HasFilm(room.BuildUp) {
		return "needed, missing"
	}
	return film.String()
}

func groupWords(r levelledRoom) string {
	if !r.Surveyed() {
		return ""
	}
	return r.Flatness.Group.String()
}

func brokenWords(r levelledRoom) string {
	if !r.Surveyed() {
		return ""
	}
	return fmt.Sprintf("%d of %d", r.Flatness.Broken, r.Flatness.Checked)
}

// planeWords say what the room is levelled to.
func planeWords(r levelledRoom) string {
	switch {
	case !r.Surveyed() && r.Room.Room.Spec.LevelBy > 0:
		return "depth as given"
	case !r.Surveyed():
		return ""
	case r.Flatness.Kept():
		return "flat as it is"
	}
	p := r.Levelling.Plane
	words := []string{p.Height.Decimal(measure.MM).Round(1).StringFixed(1) + " mm"}
	if p.RiseX != 0 || p.RiseY != 0 {
		x, y := p.Rise()
		words = append(words, fmt.Sprintf("rising %s E, %s N mm a m", decimal.New(x, -3).StringFixed(2), decimal.New(y, -3).StringFixed(2)))
	}
	if r.Levelling.Fill.Volume == 0 {
		words = append(words, "ground only")
	}
	return strings.Join(words, ", ")
}

// flatRow is the worst straightedge of a room in one band of distances.
type flatRow struct {
	room  *subfloor.Room
	where string
	subfloor.Straightedge
}

// flatness writes the worst straightedge of every surveyed room in each band of
// distances.
func (b *book) flatness(sheet string) {
	var rows []flatRow
	seen := map[string]bool{}
	for i := range b.result.Subfloor.Rooms {
		room := &b.result.Subfloor.Rooms[i]
		where := surveyedWhere(room)
		if key := where + "\x00" + room.Room.Spec.Name; seen[key] {
			continue
		} else if room.Surveyed() {
			seen[key] = true
		}
		for _, edge := range room.Flatness.Worst {
			rows = append(rows, flatRow{room, where, edge})
		}
	}
	runs, unit := b.runUnit(), b.result.Job.Settings.LengthUnit
	place := func(x, y measure.Length) string { return x.Format(unit) + ", " + y.Format(unit) }
	l := list[flatRow]{
		title: "Flatness",
		note: "Straightedges laid over every two level readings: the one of each room that takes most of its limit, up to 1 m, 4 m, 10 m and beyond. Limits of DIN 18202 table 3, straight-line between its distances, whole mm. " +
			"Places are from the room's corner at 0,0 as built. Below the straightedge is minus.",
		landscape: true,
		columns: []column[flatRow]{
			{heading: "Read in", width: 24, cell: func(r flatRow, _ int) cell { return text(r.where).strong() }},
			{heading: "Room", width: 16, cell: func(r flatRow, _ int) cell { return text(r.room.Room.Spec.Name) }},
			{heading: "Group", width: 9, cell: func(r flatRow, _ int) cell { return text(r.room.Flatness.Group.String()) }},
			{heading: "From", width: 16, cell: func(r flatRow, _ int) cell { return text(place(r.From.X, r.From.Y)) }},
			{heading: "To", width: 16, cell: func(r flatRow, _ int) cell { return text(place(r.To.X, r.To.Y)) }},
			{heading: "Over " + runs.String(), width: 9, cell: func(r flatRow, _ int) cell { return number(r.Distance.Decimal(runs).Round(2), "0.00") }},
			{heading: "Worst at", width: 16, cell: func(r flatRow, _ int) cell { return text(place(r.At.X, r.At.Y)) }},
			{heading: "Off by mm", width: 9, cell: func(r flatRow, _ int) cell { return number(r.Deviation.Decimal(measure.MM), "0.0;-0.0;0.0") }},
			{heading: "Allowed mm", width: 9, cell: func(r flatRow, _ int) cell { return number(r.Limit.Decimal(measure.MM), "0") }},
			{heading: "Verdict", width: 10, cell: b.verdict},
		},
	}
	l.write(b, sheet, rows)
}

// verdict compares the two figures before it in its row.
func (b *book) verdict(r flatRow, row int) cell {
	words := "kept"
	if r.Broken() {
		words = "broken"
	}
	const off, allowed = 8, 9
	return text(words).strong().from(fmt.Sprintf(`IF(ABS(%s)>%s,"broken","kept")`, address(off, row), address(allowed, row)))
}

// surveyedWhere is the apartment that a room was read in, or the type that its
// readings are for.
func surveyedWhere(r *subfloor.Room) string {
	switch {
	case r.Own:
		return crew.Apartment(r.Room.Apartment)
	case r.Room.Apartment.Mirrored:
		return "type " + r.Room.Spec.Type + ", mirrored"
	}
	return "type " + r.Room.Spec.Type
}

// moistureTests writes how many moisture tests each place needs.
func (b *book) moistureTests(sheet string) {
	unit := b.result.Job.Settings.AreaUnit
	tests := b.result.Subfloor.Tests
	all := 0
	for _, test := range tests {
		all += test.Count
	}
	l := list[subfloor.Test]{
		title: "Moisture tests",
		note: fmt.Sprintf("Three tests for the first 1000 ft2 of mineral subfloor and one for each started further 1000 ft2 (ASTM F2170 and F1869), counted by %s. "+
			"The room is at its conditions of use for 48 hours before; a probe settles for 24 hours. A plastic sheet lies 24 hours (common practice).", b.result.Job.Settings.TestsPer),
		columns: []column[subfloor.Test]{
			{heading: "Place", width: 24, cell: func(t subfloor.Test, _ int) cell { return text(crew.Place(t.Place)).strong() }},
			{heading: "Rooms", width: 8, cell: func(t subfloor.Test, _ int) cell { return count(len(t.Rooms)) }},
			{heading: "Subfloor " + unit.String(), width: 12, cell: func(t subfloor.Test, _ int) cell { return number(t.Area.Decimal(unit, 4), "#,##0.00") }},
			{heading: "Tests", width: 8, total: count(all), cell: func(t subfloor.Test, row int) cell {
				thousand := measure.Area(1000*measure.SquareFoot).Decimal(unit, 8)
				return count(t.Count).strong().from(fmt.Sprintf("3+MAX(0,ROUNDUP(%s/%s-1,0))", address(3, row), thousand))
			}},
			{heading: "Highest reading", width: 12, cell: func(t subfloor.Test, _ int) cell { return number(highestReading(t), "0.0#;;") }},
		},
	}
	l.write(b, sheet, tests)
}

func highestReading(t subfloor.Test) decimal.Decimal {
	highest := decimal.Zero
	for _, room := range t.Rooms {
		if room.Spec.Moisture.Cmp(highest) > 0 {
			highest = room.Spec.Moisture
		}
	}
	return highest
}

// holdPoints writes what must be true before laying, alike holds as one row.
func (b *book) holdPoints(sheet string) {
	wrapped := func(s string) cell { return text(s).in(plainStyle.wrapped()) }
	l := list[subfloor.HoldPoint]{
		title:     "Hold points",
		note:      "What must be true before a room is laid, who decides that it is, and how many days it takes at least. Nothing here says that a subfloor is fit.",
		landscape: true,
		columns: []column[subfloor.HoldPoint]{
			{heading: "Matter", width: 14, cell: func(h subfloor.HoldPoint, _ int) cell { return text(h.Matter.String()).strong() }},
			{heading: "Must be true", width: 58, cell: func(h subfloor.HoldPoint, _ int) cell { return wrapped(h.Must) }},
			{heading: "Decides", width: 28, cell: func(h subfloor.HoldPoint, _ int) cell { return wrapped(h.Decides) }},
			{heading: "Days", width: 6, cell: func(h subfloor.HoldPoint, _ int) cell { return blankZero(h.Days) }},
			{heading: "Rooms", width: 7, cell: func(h subfloor.HoldPoint, _ int) cell { return count(len(h.Rooms)) }},
			{heading: "In", width: 50, cell: func(h subfloor.HoldPoint, _ int) cell { return wrapped(crew.SomeNames(apartmentsOfRooms(h.Rooms))) }},
			{heading: "Source", width: 36, cell: func(h subfloor.HoldPoint, _ int) cell { return wrapped(h.Source) }},
		},
	}
	l.write(b, sheet, b.result.Subfloor.HoldPoints())
}

// apartmentsOfRooms names the apartments of rooms that are in their order.
func apartmentsOfRooms(rooms []*building.Room) []string {
	var names []string
	for _, room := range rooms {
		if name := crew.Place(room.Place(job.LevelApartment)); len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	return names
}

// subfloorRules are what the subfloors are counted by; none where the job says
// nothing of them.
func (b *book) subfloorRules() []rule {
	s := b.result.Job.Settings
	if !b.result.Subfloor.Told() {
		return nil
	}
	rules := []rule{
		{"Moisture tests", "Three for the first 1000 ft2 of mineral subfloor and one for each further 1000 ft2 that is started; at least one for each additional 1000 is read so that a started thousand counts.", "counted by " + s.TestsPer.String(), "ASTM F2170 and F1869, as quoted by makers of test kits"},
		{"Moisture limits", "Of a product that gives none: 2.0 % by carbide test in cement screed, 1.8 heated; 0.5 % in calcium sulfate screed, 0.3 heated; 75 % relative humidity; wood subfloor 12 % by meter.", "", "makers' guides to screeds and coverings; a floor maker's instructions (wood)"},
		{"Drying", "Compound dries a day up to 3 mm and a day for each further millimetre of its greatest depth; a started millimetre counts.", "", "common practice; confirm with the data sheet of the bag"},
		{"Film", "Needed under floating planks on a mineral subfloor, left out on wood, not needed under planks that are glued down.", "", tradePractice},
		{"Heated floors", "Covering and layers under it resist heat by at most 0.15 m2K/W; surface at most 29 C where people stay, 35 C at the edge.", "", "EN 1264; limit of resistance in practice"},
	}
	if !b.result.Subfloor.Surveyed() {
		return rules
	}
	return append(rules,
		rule{"Subfloor", "Between level readings the floor is flat over each triangle of their Delaunay triangulation, on a grid the lower of two ways; towards the walls every place has the height of the nearest place of the triangles.", "", ourDefinition},
		rule{"Flatness", "A straightedge over every two readings that see one another: the surface between them may be off it by the limit at their distance, straight-line between the distances of the table, rounded half up to the mm. Only a floor that breaks its group is levelled.", "job: " + s.Flatness.String(), "DIN 18202 table 3"},
		rule{"Levelling", "To the " + s.LevelPlane.String() + " plane of least cost: compound is the volume from the surface up to it, and what stands out by more than is compensated is ground off, where the build-up has a line by grinding. Costs before bags are rounded, at list price less discount.", "3 mm compensated, or the limit between the two nearest readings", "compensation: common practice"},
		rule{"Levelling", "A tilted plane may rise by no more than the flatness group allows over the room's longest distance. Where grinding alone makes the floor keep its group, no compound is counted.", "", ourDefinition},
	)
}
