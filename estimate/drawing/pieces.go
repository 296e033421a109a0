package drawing

import (
	"strconv"

	"laybill/estimate/cutlist"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// pieceLabels writes the number of each piece on it, with the length of a cut one
// where there is room. What does not fit in legible type is left out: the
// number of its row and the list of the rows tell it.
func (d *roomDrawing) pieceLabels() {
	for i := range d.Steps {
		step := &d.Steps[i]
		switch {
		case d.Layout.Blocks == nil:
			d.pieceLabel(step)
		case step.Source != cutlist.Whole:
			d.blockLabel(step.Piece)
		}
	}
}

// rowLabel is the size of a piece's label in depths of its row.
const rowLabel = 0.75

func (d *roomDrawing) pieceLabel(step *cutlist.Step) {
	piece := step.Piece
	b := piece.At.Bounds()
	long, deep := float64(b.X1-b.X0)*d.perUnit, float64(b.Y1-b.Y0)*d.perUnit
	size := min(labelType, deep*rowLabel)
	if size < legible {
		return
	}
	number := PieceNumber(piece)
	if step.Source != cutlist.Whole || d.Racked {
		if d.onPiece(piece, Text{Size: min(size, lengthType), Value: number + "  " + Cut(b.X1-b.X0, d.Unit)}, long) {
			return
		}
	}
	for _, size := range []float64{size, (size + legible) / 2, legible} {
		if d.onPiece(piece, Text{Size: size, Value: number}, long) {
			return
		}
	}
}

// lengthType is the largest type of a piece's length.
const lengthType = 2.9

// onPiece writes a text on the piece where it fits, if it does.
func (d *roomDrawing) onPiece(piece *layout.Piece, t Text, long float64) bool {
	if textWidth(t.Value, t.Size, false)+2*labelGap > long {
		return false
	}
	t.Anchor, t.Turn, t.Halo = Middle, d.slope(), true
	plain := rectangular(piece)
	var rings [][]Point
	b := piece.At.Bounds()
	for _, spot := range labelSpots {
		middle := d.laid(shape.Ring{{X: b.X0 + part(b.X1-b.X0, spot.along), Y: b.Y0 + part(b.Y1-b.Y0, spot.across)}})[0]
		t.At = dropped(middle, t.Size, t.Turn)
		place := t.label(labelGap)
		if !plain || spot != labelSpots[0] {
			if rings == nil {
				rings = d.rings(piece)
			}
			if !place.inside(rings) {
				continue
			}
		}
		if d.free(place) {
			d.scene.text(t)
			return true
		}
	}
	return false
}

// rectangular tells a piece that fills its bounding box.
func rectangular(piece *layout.Piece) bool {
	b := piece.At.Bounds()
	for _, p := range piece.At {
		if p.X != b.X0 && p.X != b.X1 || p.Y != b.Y0 && p.Y != b.Y1 {
			return false
		}
	}
	return len(piece.At) == 4 && len(piece.Holes) == 0
}

// labelSpots are where on a piece its label is tried, in parts of its length and
// width.
var labelSpots = []struct{ along, across float64 }{{0.5, 0.5}, {0.25, 0.5}, {0.75, 0.5}, {0.5, 0.3}, {0.5, 0.7}, {0.2, 0.3}, {0.8, 0.3}, {0.2, 0.7}, {0.8, 0.7}}

func part(l measure.Length, of float64) measure.Length { return measure.Length(float64(l) * of) }

// PieceNumber names a piece within its room: row and place in the row.
func PieceNumber(p *layout.Piece) string { return strconv.Itoa(p.Row) + "." + strconv.Itoa(p.Seq) }
