package out

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/cutlist"
	"laybill/estimate/drawing"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/quantity"
	"laybill/estimate/shape"
)

// sixteenth of an inch, the fineness of a tape (common practice).
const sixteenth = measure.Inch / 16

// saw rounds a length to what the crew's tape shows: whole millimetres or
// sixteenths of an inch.
func (b *book) saw(l measure.Length) measure.Length {
	step := measure.Millimetre
	if b.imperial() {
		step = sixteenth
	}
	return (l + step/2) / step * step
}

// cut writes a length for the saw.
func (b *book) cut(l measure.Length) string { return drawing.Cut(l, b.result.Job.Settings.LengthUnit) }

// cutCell is a length for the saw: a number in millimetres, a text in inches.
func (b *book) cutCell(l measure.Length) cell {
	if b.imperial() {
		return text(b.cut(l)).in(style{align: right})
	}
	return plainCount(int(b.saw(l) / measure.Millimetre))
}

// crewCells gives the cells of a cut list the crew's type and a fine grid.
func crewCells(cells []cell) {
	for i := range cells {
		cells[i].style.size, cells[i].style.edge, cells[i].style.wrap, cells[i].style.align = crewSize, tableGrid, true, middle
	}
}

// segment writes one unbroken row of pieces: its first piece, the full-length
// ones and its last.
func (c *cuts) segment(s *sheet, p *plan, room *building.Room, segment cutlist.Segment) {
	cells := make([]cell, cutColumns)
	steps := segment.Steps
	first, last := steps[0], steps[len(steps)-1]
	row := c.book.result.Layout(room).Rows[segment.Row-1]
	pieces := pieceRange(steps)
	if slices.ContainsFunc(steps, func(s cutlist.Step) bool { return isShaped(s.Piece) }) {
		pieces += " *"
	}
	cells[cutPieces] = text(pieces).strong()
	cells[cutWidth] = c.book.cutCell(row.Y1 - row.Y0)
	start, length := first.Piece.At.Bounds().X0, last.Piece.At.Bounds().X1-first.Piece.At.Bounds().X0
	cells[cutRow] = c.book.cutCell(length)
	cells[startCut] = c.book.cutCell(c.closed(first.Piece, start)).strong()
	cells[startFrom], cells[startTo] = c.from(steps[:1]), c.rest(p, room, steps[:1])
	if len(steps) > 1 {
		cells[endCut] = c.book.cutCell(c.closed(last.Piece, start)).strong()
		cells[endFrom], cells[endTo] = c.from(steps[len(steps)-1:]), c.rest(p, room, steps[len(steps)-1:])
	}
	if len(steps) > 2 {
		between := steps[1 : len(steps)-1]
		cells[wholeCount] = plainCount(len(between))
		cells[wholeFrom], cells[wholeTo] = c.from(between), c.rest(p, room, between)
	}
	crewCells(cells)
	s.putHigh(c.rowHeight(cells), cells...)
}

func (c *cuts) rowHeight(cells []cell) float64 {
	lines := 1
	for i, cell := range cells {
		lines = max(lines, wrappedLines(cell.value, c.book.cutWidths()[i]))
	}
	return 2 + 14.5*float64(lines)
}

// closed is a piece's length, rounded so that the pieces of its row add up to
// the rounded length of the row: both its ends are rounded as seen from the
// row's beginning.
func (c *cuts) closed(piece *layout.Piece, start measure.Length) measure.Length {
	b := piece.At.Bounds()
	return c.book.saw(b.X1-start) - c.book.saw(b.X0-start)
}

func pieceRange(steps []cutlist.Step) string {
	first, last := steps[0].Piece, steps[len(steps)-1].Piece
	if first == last {
		return drawing.PieceNumber(first)
	}
	return drawing.PieceNumber(first) + "\u2013" + drawing.PieceNumber(last)
}

// from says what pieces are cut from: "new 2-4, off-cut 7".
func (c *cuts) from(steps []cutlist.Step) cell {
	var fresh, rests []int
	for _, step := range steps {
		if step.Source == cutlist.Offcut {
			rests = append(rests, step.Piece.Stock)
		} else {
			fresh = append(fresh, step.Piece.Stock)
		}
	}
	var parts []string
	if len(fresh) > 0 {
		parts = append(parts, "new "+ranges(fresh))
	}
	if len(rests) > 0 {
		parts = append(parts, "off-cut "+ranges(rests))
	}
	return text(strings.Join(parts, ", "))
}

// ranges writes numbers with runs drawn together: 2-4, 7.
func ranges(numbers []int) string {
	slices.Sort(numbers)
	var parts []string
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && numbers[j+1] == numbers[j]+1 {
			j++
		}
		part := strconv.Itoa(numbers[i])
		if j > i {
			part += "-" + strconv.Itoa(numbers[j])
		}
		parts = append(parts, part)
		i = j + 1
	}
	return strings.Join(parts, ", ")
}

// rest says where the off-cuts of pieces go.
func (c *cuts) rest(p *plan, room *building.Room, steps []cutlist.Step) cell {
	var places []string
	for _, step := range steps {
		if step.After != nil {
			places = append(places, c.placeWords(p, room, step.After))
		}
	}
	return text(strings.Join(places, ", "))
}

// placeWords names a piece: by its number in the same room, with the room's
// number in the same apartment, else with the names of both.
func (c *cuts) placeWords(p *plan, room *building.Room, to *cutlist.Place) string {
	floor := c.book.result.Floors[c.book.result.RoomFloor[room.Index].Floor]
	there := floor.Rooms[to.Room]
	number := drawing.PieceNumber(to.Piece)
	switch {
	case there == room:
		return number
	case there.Apartment == room.Apartment:
		return fmt.Sprintf("R%d %s", slices.Index(p.rooms, there)+1, number)
	}
	return fmt.Sprintf("%s %s %s", apartmentName(there.Apartment), there.Spec.Name, number)
}

// isShaped tells a piece that is not a plain rectangle.
func isShaped(p *layout.Piece) bool { return len(p.At) != 4 || len(p.Holes) > 0 || !square(p.At) }

func square(r shape.Ring) bool {
	b := r.Bounds()
	for _, p := range r {
		if p.X != b.X0 && p.X != b.X1 || p.Y != b.Y0 && p.Y != b.Y1 {
			return false
		}
	}
	return true
}

// shaped lists the corners of pieces that are cut out, from the piece's left
// end and near edge.
func (c *cuts) shaped(s *sheet, steps []cutlist.Step) {
	var lines []string
	for _, step := range steps {
		if isShaped(step.Piece) {
			lines = append(lines, drawing.PieceNumber(step.Piece)+":  "+c.corners(step.Piece))
		}
	}
	if len(lines) == 0 {
		return
	}
	s.skip(1)
	s.put(text("Shaped pieces: corners from the piece's left end and near edge, along x across").strong())
	for _, line := range lines {
		s.note(line)
	}
}

func (c *cuts) corners(piece *layout.Piece) string {
	b := piece.At.Bounds()
	ring := func(r shape.Ring) string {
		places := make([]string, len(r))
		for i, p := range r {
			places[i] = c.book.cut(p.X-b.X0) + " x " + c.book.cut(p.Y-b.Y0)
		}
		return strings.Join(places, ",  ")
	}
	words := ring(piece.At)
	for _, hole := range piece.Holes {
		words += ";  hole " + ring(hole)
	}
	return words
}

// settings groups equal cuts, so that a stop is set once: "845: 2.1, 6.1".
func (c *cuts) settings(s *sheet, steps []cutlist.Step, plank measure.Length) {
	at := map[measure.Length][]string{}
	var lengths []measure.Length
	for _, step := range steps {
		bounds := step.Piece.At.Bounds()
		if bounds.X1-bounds.X0 == plank {
			continue
		}
		length := c.book.saw(bounds.X1 - bounds.X0)
		if at[length] == nil {
			lengths = append(lengths, length)
		}
		at[length] = append(at[length], drawing.PieceNumber(step.Piece))
	}
	slices.Sort(lengths)
	var groups []string
	for _, length := range lengths {
		if len(at[length]) > 1 {
			groups = append(groups, c.book.cut(length)+": "+strings.Join(at[length], ", "))
		}
	}
	if len(groups) > 0 {
		s.skip(1)
		s.note("Equal cuts, one setting of the stop  ·  " + strings.Join(groups, "  ·  "))
	}
}

// lengths writes the trims and film strips of a room.
func (c *cuts) lengths(s *sheet, room *building.Room) {
	var products []*job.Product
	at := map[*job.Product][]string{}
	for _, l := range c.book.lengthsOf(room) {
		if at[l.Product] == nil {
			products = append(products, l.Product)
		}
		words := c.book.cut(l.Length)
		if l.Wall > 0 {
			words += fmt.Sprintf(" (wall %d)", l.Wall)
		}
		at[l.Product] = append(at[l.Product], words)
	}
	if len(products) == 0 {
		return
	}
	s.skip(1)
	for _, product := range products {
		s.note(product.Description + ":  " + strings.Join(at[product], ",  "))
	}
}

// lengthsOf is the room's pieces to be cut from stock.
func (b *book) lengthsOf(room *building.Room) []quantity.Length {
	if b.byRoom == nil {
		b.byRoom = make([][]quantity.Length, len(b.result.Building.Rooms))
		for _, l := range b.result.Takeoff.Lengths {
			if l.Room != nil {
				b.byRoom[l.Room.Index] = append(b.byRoom[l.Room.Index], l)
			}
		}
	}
	return b.byRoom[room.Index]
}

// linesOf is the quantities measured in an apartment.
func (b *book) linesOf(a *job.Apartment) []quantity.Line {
	if b.byApartment == nil {
		b.byApartment = map[*job.Apartment][]quantity.Line{}
		for _, l := range b.result.Takeoff.Lines {
			b.byApartment[l.Apartment] = append(b.byApartment[l.Apartment], l)
		}
	}
	return b.byApartment[a]
}

// directionWords says which way the planks lie in the room.
func directionWords(a shape.Angle) string {
	switch a.Normal() % (2 * shape.QuarterTurn) {
	case 0:
		return "east to west"
	case shape.QuarterTurn:
		return "north to south"
	}
	return strconv.FormatFloat(float64(a.Normal())/1000, 'f', -1, 64) + " degrees from east"
}
