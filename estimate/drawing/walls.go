package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"laybill/estimate/building"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// walls draws the outline, left open at the doorways, and numbers the walls as
// the lists of skirting do. Doors are named before walls are numbered.
func (d *roomDrawing) walls() {
	var walls []wall
	for i, w := range d.Room.Walls.Walls() {
		if w.Ring > 0 {
			break
		}
		ends := d.room(shape.Ring{w.From, w.To})
		if ends[0] != ends[1] {
			walls = append(walls, newWall(i+1, ends[0], ends[1], w.Length))
		}
	}
	solids := make([][]stretch, len(walls))
	for i, w := range walls {
		solids[i] = d.wall(w, d.doors(w.number))
	}
	for i, w := range walls {
		d.wallNumber(w, solids[i])
	}
}

// wall is a wall on the paper.
type wall struct {
	number int
	from   Point
	ux, uy float64 // along it
	reach  float64 // mm
	length measure.Length
}

func newWall(number int, a, b Point, length measure.Length) wall {
	reach := math.Hypot(b.X-a.X, b.Y-a.Y)
	return wall{number, a, (b.X - a.X) / reach, (b.Y - a.Y) / reach, reach, length}
}

// at is the point so far along the wall and so far outside it. Walls are walked
// anticlockwise, so the outside lies to the right.
func (w wall) at(along, out float64) Point {
	return Point{w.from.X + w.ux*along - w.uy*out, w.from.Y + w.uy*along + w.ux*out}
}

// mm is a distance along the wall on the paper.
func (w wall) mm(l measure.Length) float64 { return w.reach * float64(l) / float64(w.length) }

// stretch is a part of a wall between doorways, in mm along it.
type stretch struct{ from, to float64 }

// door is a doorway in a wall, by its distance along the wall.
type door struct {
	from, width measure.Length
	opening     building.Opening
}

func (d *roomDrawing) doors(wall int) []door {
	var doors []door
	for _, opening := range d.Room.Openings {
		if opening.Spec == nil || opening.Wall != wall {
			continue
		}
		doors = append(doors, door{opening.From, opening.Width, opening})
	}
	slices.SortFunc(doors, func(a, b door) int { return cmp.Compare(a.from, b.from) })
	return doors
}

// wall draws a wall and its doors, and gives its solid parts, the longest first.
func (d *roomDrawing) wall(w wall, doors []door) []stretch {
	var solids []stretch
	from := 0.0
	solid := func(to float64) {
		d.scene.line(w.at(from, 0), w.at(to, 0), wallPen)
		solids = append(solids, stretch{from, to})
	}
	for _, door := range doors {
		solid(w.mm(door.from))
		from = w.mm(door.from + door.width)
		d.door(w, door)
	}
	solid(w.reach)
	slices.SortStableFunc(solids, func(a, b stretch) int { return cmp.Compare(b.to-b.from, a.to-a.from) })
	return solids
}

const (
	numberBox   = 3.4 // of a wall's number
	numberedOut = 3.0 // from the wall to its middle
	leastWall   = 5.0 // that is numbered
)

// wallNumber writes a wall's number in a box beside one of its solid parts, the
// longest if it can.
func (d *roomDrawing) wallNumber(w wall, solids []stretch) {
	for _, out := range []float64{numberedOut, numberedOut + 1.8, numberedOut + numberBox} {
		for _, s := range solids {
			long := s.to - s.from
			if long <= leastWall {
				break
			}
			for _, part := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
				if d.wallNumberAt(w, w.at(s.from+long*part, out)) {
					return
				}
			}
		}
	}
}

func (d *roomDrawing) wallNumberAt(w wall, at Point) bool {
	const half = numberBox / 2
	ring := box(at.X-half, at.Y-half, at.X+half, at.Y+half)
	place := newLabel(ring)
	if d.onFloor(place) || !d.free(place) {
		return false
	}
	d.scene.area(Area{Rings: [][]Point{ring}, Fill: White, Stroke: thinPen})
	d.scene.text(Text{At: Point{at.X, at.Y + digitDrop*smallType}, Size: smallType, Anchor: Middle, Value: strconv.Itoa(w.number)})
	d.taken = append(d.taken, place)
	return true
}

// door draws the jambs and writes the doorway's width and where it leads.
func (d *roomDrawing) door(w wall, door door) {
	from, to := w.mm(door.from), w.mm(door.from+door.width)
	for _, jamb := range []float64{from, to} {
		d.scene.line(w.at(jamb, -0.9), w.at(jamb, 1.6), wallPen)
	}
	d.scene.line(w.at(from, 1.2), w.at(to, 1.2), thinPen)
	size := "door " + d.bounded(door.width)
	words := []string{size}
	if leads := door.opening.Spec.LeadsTo; leads != "" {
		words = []string{size + " to " + leads, size}
	}
	for _, words := range words {
		if d.doorLabel(w, (from+to)/2, words) {
			return
		}
	}
}

// doorLabel writes a doorway's words outside it, or a little aside, or a line
// further out; there a fine line leads to them.
func (d *roomDrawing) doorLabel(w wall, middle float64, words string) bool {
	slope := math.Atan2(-w.uy, w.ux) * 180 / math.Pi
	base := smallType * capHeight // of letters whose tops point to the wall
	if slope > 90 || slope <= -90 {
		slope += 180
		base = 0
	}
	for _, line := range []float64{0, 1, 2} {
		for _, aside := range []float64{0, 4, -4, 8, -8, 12, -12, 16, -16} {
			out := 2.2 + line*smallType*1.1
			t := Text{At: w.at(middle+aside, out+base), Size: smallType, Anchor: Middle, Turn: slope, Halo: true, Value: words}
			place := t.label(labelGap)
			if d.onFloor(place) || !d.free(place) {
				continue
			}
			d.write(t)
			if line > 0 || math.Abs(aside) > textWidth(words, smallType, false)/2 {
				d.scene.line(w.at(middle, 1.2), w.at(middle+aside, out), thinPen)
			}
			return true
		}
	}
	return false
}
