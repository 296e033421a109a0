package crew

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/cutlist"
	"laybill/estimate/drawing"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Row is one unbroken row of pieces: its first piece, the full-length ones and
// its last. Lengths are rounded for the saw so that the pieces still add up to
// the row.
type Row struct {
	Pieces        string // "2.1–2.5", with a star when one of them is shaped
	Short         string // "2.1–5", likewise
	Width, Length measure.Length
	First         Cut
	Between, Last Cut // Count is 0 where there is none
}

// Cut is pieces of a row: how many, how long, what they are cut from and where
// their off-cuts go.
type Cut struct {
	Count    int
	Length   measure.Length // of the first
	From, To string
}

// Rows lists the room row by row; a fixture may part a row into several.
func (l *Lists) Rows(p *Plan, room *building.Room) []Row {
	if l.InBlocks(room) {
		return nil
	}
	var rows []Row
	for _, segment := range cutlist.Segments(l.Steps(room)) {
		rows = append(rows, l.row(p, room, segment))
	}
	return rows
}

func (l *Lists) row(p *Plan, room *building.Room, segment cutlist.Segment) Row {
	steps := segment.Steps
	last := len(steps) - 1
	start, end := steps[0].Piece.At.Bounds().X0, steps[last].Piece.At.Bounds().X1
	cut := func(steps []cutlist.Step) Cut {
		return Cut{Count: len(steps), Length: l.closed(steps[0].Piece, start), From: from(steps), To: l.rest(p, room, steps)}
	}
	laid := l.result.Layout(room).Rows[segment.Row-1]
	row := Row{Pieces: pieceRange(steps), Short: shortRange(steps), Width: Saw(laid.Y1-laid.Y0, l.unit), Length: Saw(end-start, l.unit), First: cut(steps[:1])}
	if slices.ContainsFunc(steps, func(s cutlist.Step) bool { return isShaped(s.Piece) }) {
		row.Pieces += shapedMark
		row.Short += shapedMark
	}
	if last > 0 {
		row.Last = cut(steps[last:])
	}
	if last > 1 {
		row.Between = cut(steps[1:last])
	}
	return row
}

// closed is a piece's length, rounded so that the pieces of its row add up to
// the rounded length of the row: both its ends are rounded as seen from the
// row's beginning.
func (l *Lists) closed(piece *layout.Piece, start measure.Length) measure.Length {
	b := piece.At.Bounds()
	return Saw(b.X1-start, l.unit) - Saw(b.X0-start, l.unit)
}

func pieceRange(steps []cutlist.Step) string {
	first, last := steps[0].Piece, steps[len(steps)-1].Piece
	if first == last {
		return drawing.PieceNumber(first)
	}
	return drawing.PieceNumber(first) + "\u2013" + drawing.PieceNumber(last)
}

// shapedMark stands behind rows with shaped pieces.
const shapedMark = " *"

// shortRange names the row once.
func shortRange(steps []cutlist.Step) string {
	first, last := steps[0].Piece, steps[len(steps)-1].Piece
	if first == last {
		return drawing.PieceNumber(first)
	}
	return drawing.PieceNumber(first) + "\u2013" + strconv.Itoa(last.Seq)
}

// New stands before the numbers of new planks.
const New = "new "

// from says what pieces are cut from: "new 2-4, off-cut 7".
func from(steps []cutlist.Step) string {
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
		parts = append(parts, New+ranges(fresh))
	}
	if len(rests) > 0 {
		parts = append(parts, "off-cut "+ranges(rests))
	}
	return strings.Join(parts, ", ")
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
func (l *Lists) rest(p *Plan, room *building.Room, steps []cutlist.Step) string {
	var places []string
	for _, step := range steps {
		if step.After != nil {
			places = append(places, l.placeWords(p, room, step.After))
		}
	}
	return strings.Join(places, ", ")
}

// placeWords names a piece: by its number in the same room, with the room's
// number in the same apartment, else with the names of both.
func (l *Lists) placeWords(p *Plan, room *building.Room, to *cutlist.Place) string {
	there := l.result.Floors[l.result.RoomFloor[room.Index].Floor].Rooms[to.Room]
	number := drawing.PieceNumber(to.Piece)
	switch {
	case there == room:
		return number
	case there.Apartment == room.Apartment:
		return fmt.Sprintf("R%d %s", slices.Index(p.Rooms, there)+1, number)
	}
	return fmt.Sprintf("%s %s %s", Apartment(there.Apartment), there.Spec.Name, number)
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

// ShapedWords is the heading above the lines of Shaped.
const ShapedWords = "Shaped pieces: corners from the piece's left end and near edge, along x across"

// Shaped is a line with the corners of each piece that is cut out, from the
// piece's left end and near edge.
func (l *Lists) Shaped(room *building.Room) []string {
	if l.InBlocks(room) {
		return nil
	}
	var lines []string
	for _, step := range l.Steps(room) {
		if isShaped(step.Piece) {
			lines = append(lines, drawing.PieceNumber(step.Piece)+":  "+l.corners(step.Piece))
		}
	}
	return lines
}

func (l *Lists) corners(piece *layout.Piece) string {
	b := piece.At.Bounds()
	ring := func(r shape.Ring) string {
		places := make([]string, len(r))
		for i, p := range r {
			places[i] = l.Cut(p.X-b.X0) + " x " + l.Cut(p.Y-b.Y0)
		}
		return strings.Join(places, ",  ")
	}
	words := ring(piece.At)
	for _, hole := range piece.Holes {
		words += ";  hole " + ring(hole)
	}
	return words
}

// EqualCuts groups the room's cuts of one length, so that a stop is set once:
// "845: 2.1, 6.1". It is empty when no two are equal.
func (l *Lists) EqualCuts(room *building.Room) string {
	if l.InBlocks(room) {
		return ""
	}
	at := map[measure.Length][]string{}
	var lengths []measure.Length
	for _, step := range l.Steps(room) {
		bounds := step.Piece.At.Bounds()
		if bounds.X1-bounds.X0 == room.Spec.BuildUp.Covering().Product.Length {
			continue
		}
		length := Saw(bounds.X1-bounds.X0, l.unit)
		if at[length] == nil {
			lengths = append(lengths, length)
		}
		at[length] = append(at[length], drawing.PieceNumber(step.Piece))
	}
	slices.Sort(lengths)
	var groups []string
	for _, length := range lengths {
		if len(at[length]) > 1 {
			groups = append(groups, l.Cut(length)+": "+strings.Join(at[length], ", "))
		}
	}
	if len(groups) == 0 {
		return ""
	}
	return "Equal cuts, one setting of the stop  ·  " + strings.Join(groups, "  ·  ")
}
