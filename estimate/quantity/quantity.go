// Package quantity measures what every room needs: each layer and operation of
// its build-up in the unit it is counted by, the lengths to be cut from stock,
// and the exact amounts that the orders are made from.
package quantity

import (
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/subfloor"
)

// Places is the number of decimals that a stated quantity is rounded to, half
// away from zero. Hours are computed from the stated quantity; orders are
// computed from exact amounts, never from the rounded ones.
const Places = 4

// Laid is what the layout of a room's covering contains.
type Laid struct {
	ByPiece bool         // false: the covering is counted by area
	Most    measure.Area // of boards of random lengths that the room takes at most; 0 for other coverings
	Planks  int          // planks first cut for this room
	Area    measure.Area
	Waste   measure.Area // the room's part of what the planks of its pool leave over
	Rows    int
	Pieces  int
	Cuts    int // of the saw: cross cuts, rips and notches
	Rips    int // pieces cut along their length
	Notches int // pieces cut round a corner or a fixture
}

// Line is one layer or operation of one room, measured. Room is nil for lines
// of a whole apartment or, with Apartment nil too, of the job.
type Line struct {
	Apartment *job.Apartment
	Room      *building.Room
	Product   *job.Product   // or
	Operation *job.Operation // exactly one is set
	Spec      *job.Line      // nil for a profile that an opening names
	Measure   job.Measure
	Quantity  decimal.Decimal
	Unit      string
	Repair    *building.Repair // that takes it; nil for what rooms take
	Bags      *big.Rat         // that the line takes, exact; nil but for goods sold by the bag
}

// Item is the code of the product or operation.
func (l *Line) Item() string {
	if l.Product != nil {
		return l.Product.Code
	}
	return l.Operation.Code
}

// Use is an exact amount of a product used in a room: squares of 1/320 mm for
// goods by area, 1/320 mm for goods by length, thousandths of the measured
// unit for the rest. A room's share of the product's cost goes by it. Room is
// nil for loose lengths.
type Use struct {
	Product *job.Product
	Room    *building.Room
	Amount  int64
}

// Demand is an amount of a product that is neither laid by pieces nor cut to
// lengths. Used is the same amount in the unit that a room's share goes by, and
// Laid is it without the waste per cent of the build-up.
type Demand struct {
	Product    *job.Product
	Room       *building.Room
	By         job.Measure
	Sold       *big.Rat // sold units, exact
	Used, Laid int64
}

// Unpacked tells what leaves its packing in a room. What takes the waste away and
// what repairs take is none of it.
func (d *Demand) Unpacked() bool {
	return d.Room != nil && !d.Room.Repaired && d.Product.Packed() && !d.By.OfWaste()
}

// Length is a piece to be cut from stock: a skirting run, a profile, a film
// strip or a loose length.
type Length struct {
	Product *job.Product
	Room    *building.Room   // nil for loose lengths
	By      job.Measure      // what it was measured by; of no meaning for loose lengths
	Wall    int              // from 1; 0 when it belongs to no wall
	Run     measure.Length   // of wall, opening, step or floor that it covers
	Length  measure.Length   // to be cut: the run with what its ends add
	Ends    [2]End           // left and right as seen facing the wall
	Return  bool             // in the side of an opening
	Opening *job.Opening     // of a profile; nil for others and for doors that are only counted
	Along   int              // of underlay: strips that the piece is cut into along its length; else 0
	Whole   bool             // must come in one piece
	Loose   *job.LooseLength // nil for lengths of rooms
}

// Takeoff is everything measured.
type Takeoff struct {
	Lines   []Line
	Uses    []Use
	Demands []Demand
	Lengths []Length
}

// Take measures the building, all but the waste of its rooms, which is known when
// lengths are cut. laid holds one entry a room, by the room's index.
func Take(j *job.Job, b *building.Building, laid []Laid, subfloors *subfloor.Survey) *Takeoff {
	t := &taker{settings: j.Settings, subfloors: subfloors, out: &Takeoff{}}
	for _, room := range b.Rooms {
		t.room(room, laid[room.Index])
	}
	t.repairs(b.Repairs)
	t.wholes(b)
	t.moistureTests()
	t.looseLengths(j)
	return t.out
}

// taker measures room after room.
type taker struct {
	settings  job.Settings
	subfloors *subfloor.Survey
	out       *Takeoff
}

func (t *taker) room(room *building.Room, laid Laid) {
	for _, line := range room.Spec.BuildUp.Lines {
		if !line.Measure.InRoom() || line.Measure.OfWaste() {
			continue
		}
		m := t.measured(room, laid, line)
		if line.GivesProfiles() {
			m = count(withoutProfile(room))
		}
		t.add(room, line, m, laid)
	}
	t.openingProfiles(room)
	t.oldFloor(room)
}

// add states one line of a build-up for a room and notes what it needs.
func (t *taker) add(room *building.Room, line *job.Line, m measured, laid Laid) {
	raised := m.scaled(line.Factor, line.Waste)
	if raised.amount.Sign() == 0 {
		return
	}
	t.out.Lines = append(t.out.Lines, Line{Apartment: room.Apartment, Room: room, Product: line.Product, Operation: line.Operation, Spec: line,
		Measure: line.Measure, Quantity: raised.stated(), Unit: raised.unit, Bags: bagsOf(line, raised)})
	if line.Product == nil {
		return
	}
	switch product := line.Product; {
	case product.Kind == job.Plank && laid.ByPiece:
		t.use(product, room, int64(laid.Area))
	case laid.Most > 0 && product.Mixed():
		t.use(product, room, int64(laid.Area))
		t.out.Demands = append(t.out.Demands, Demand{Product: product, Room: room, By: line.Measure,
			Sold: soldUnits(product, job.LaidArea, t.area(laid.Most)), Used: int64(laid.Most), Laid: int64(laid.Area)})
	case product.Kind == job.Trim && line.Measure == job.SkirtingLength:
		t.runs(room, product, line.Measure, room.Skirting)
	case product.Kind == job.Trim && line.Measure == job.Runs:
		t.runs(room, product, line.Measure, room.Runs)
	case product.Kind == job.Trim && line.Measure == job.Steps && room.Spec.StepWidth > 0:
		t.nosings(room, product)
	case product.Kind == job.Trim && line.Measure == job.Perimeter:
		t.walls(room, product)
	case line.GivesProfiles():
		t.profiles(room, product)
	case product.Kind == job.Trim && line.Measure == job.ExpansionProfiles:
		t.expansionProfiles(room, product)
	case product.Kind.InStrips():
		t.strips(room, product)
	default:
		t.demand(room, line, m)
	}
}

func (t *taker) use(product *job.Product, room *building.Room, amount int64) {
	t.out.Uses = append(t.out.Uses, Use{product, room, amount})
}

// demand notes what a line needs of its product, m being the amount before the
// line's factor and waste.
func (t *taker) demand(room *building.Room, line *job.Line, m measured) {
	laid, used := m.scaled(line.Factor, decimal.Zero), m.scaled(line.Factor, line.Waste)
	t.use(line.Product, room, used.integer())
	t.out.Demands = append(t.out.Demands, Demand{Product: line.Product, Room: room, By: line.Measure,
		Sold: soldUnits(line.Product, line.Measure, used), Used: used.integer(), Laid: laid.integer()})
}

// wholes states the lines counted once an apartment or once a job. A build-up
// used in several rooms of an apartment counts once there.
func (t *taker) wholes(b *building.Building) {
	w := wholes{t, map[once]bool{}}
	for _, room := range b.Rooms {
		w.of(room.Spec.BuildUp, room)
	}
	for _, repair := range b.Repairs {
		w.of(repair.Method, repair.At)
	}
}

// wholes are the lines stated already.
type wholes struct {
	*taker
	seen map[once]bool
}

type once struct {
	line      *job.Line
	apartment *job.Apartment
}

func (w wholes) of(buildUp *job.BuildUp, room *building.Room) {
	for _, line := range buildUp.Lines {
		key := once{line: line, apartment: room.Apartment}
		switch line.Measure {
		case job.Fixed:
			key.apartment = nil
		case job.ApartmentCount:
		default:
			continue
		}
		if !w.seen[key] {
			w.seen[key] = true
			w.whole(line, key.apartment, room)
		}
	}
}

func (t *taker) whole(line *job.Line, apartment *job.Apartment, room *building.Room) {
	m := count(1).scaled(line.Factor, line.Waste)
	t.out.Lines = append(t.out.Lines, Line{Apartment: apartment, Product: line.Product, Operation: line.Operation, Spec: line,
		Measure: line.Measure, Quantity: m.stated(), Unit: m.unit})
	if line.Product == nil {
		return
	}
	if apartment == nil {
		room = nil
	}
	t.demand(room, line, count(1))
}

func (t *taker) looseLengths(j *job.Job) {
	for _, loose := range j.LooseLengths {
		t.use(loose.Product, nil, int64(loose.Length)*int64(loose.Count))
		for range loose.Count {
			t.out.Lengths = append(t.out.Lengths, Length{Product: loose.Product, Run: loose.Length, Length: loose.Length, Whole: true, Loose: loose})
		}
	}
}
