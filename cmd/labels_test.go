package cmd

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"laybill/estimate/cutlist"
	"laybill/estimate/drawing"
	"laybill/sheet/crew"
	"laybill/sheet/draw"
	"laybill/sheet/form"
	"laybill/templates"
)

// lettering measures texts by the metrics of the type that the booklet embeds.
type lettering struct{ pdf *fpdf.Fpdf }

func newLettering() lettering {
	pdf := fpdf.New("P", "mm", "A4", "")
	draw.AddType(pdf)
	return lettering{pdf}
}

// DejaVu Sans Condensed: figures and capitals are 0.73 of the type high, and
// descenders reach 0.24 below the base (from memory; see its OS/2 table).
const (
	capHeight = 0.73
	descent   = 0.21
)

// label is the corners of a text on the paper: the letters' own box.
type label struct {
	words   string
	corners [4]drawing.Point
}

func (l lettering) label(text drawing.Text) label {
	draw.SetType(l.pdf, text.Size, text.Bold)
	width := draw.TextWidth(l.pdf, text.Value)
	from := map[drawing.Anchor]float64{drawing.Start: 0, drawing.Middle: -width / 2, drawing.End: -width}[text.Anchor]
	below := 0.0
	if strings.ContainsAny(text.Value, "gjpqy,;()") {
		below = descent * text.Size
	}
	sin, cos := math.Sincos(text.Turn * math.Pi / 180)
	at := func(x, up float64) drawing.Point {
		return drawing.Point{X: text.At.X + x*cos - up*sin, Y: text.At.Y - x*sin - up*cos}
	}
	return label{text.Value, [4]drawing.Point{at(from, -below), at(from+width, -below), at(from+width, capHeight*text.Size), at(from, capHeight*text.Size)}}
}

// apart is how far two boxes are from one another, below nought how deep they
// overlap, along the side that parts them best (separating axes).
func (l label) apart(other label) float64 {
	best := math.Inf(-1)
	for _, pair := range [2][2]label{{l, other}, {other, l}} {
		a, b := pair[0].corners, pair[1].corners
		for i := range 2 {
			dx, dy := a[i+1].X-a[i].X, a[i+1].Y-a[i].Y
			long := math.Hypot(dx, dy)
			reach := func(corners [4]drawing.Point) (low, high float64) {
				low, high = math.Inf(1), math.Inf(-1)
				for _, p := range corners {
					along := (p.X*dx + p.Y*dy) / long
					low, high = min(low, along), max(high, along)
				}
				return low, high
			}
			al, ah := reach(a)
			bl, bh := reach(b)
			best = max(best, bl-ah, al-bh)
		}
	}
	return best
}

// inside tells whether the label's corners, drawn in by a tolerance, lie within a
// piece.
func (l label) inside(piece drawing.Area, tolerance float64) bool {
	var middle drawing.Point
	for _, c := range l.corners {
		middle.X, middle.Y = middle.X+c.X/4, middle.Y+c.Y/4
	}
	for _, c := range l.corners {
		long := math.Hypot(middle.X-c.X, middle.Y-c.Y)
		in := drawing.Point{X: c.X + (middle.X-c.X)/long*tolerance, Y: c.Y + (middle.Y-c.Y)/long*tolerance}
		crossings := 0
		for _, ring := range piece.Rings {
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				if (a.Y > in.Y) != (b.Y > in.Y) && in.X < a.X+(in.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
					crossings++
				}
			}
		}
		if crossings%2 == 0 {
			return false
		}
	}
	return true
}

// What letters may overlap, or pass the border of their piece, in mm: less than
// a pen is wide.
const labelTolerance = 0.15

const sampled = 4 // every fourth room of the real building is looked at

// In every drawing of both demos and in some of a real building, in sizes of the booklet
// and of the workbook and in low ones, no text stands on another or leaves the
// paper, and a piece's stays on the piece.
func TestLabelsHavePlace(t *testing.T) {
	fills := map[string]form.Fill{realBuilding: realJob(t, readRealRooms(t, realBuilding))}
	for _, system := range templates.Systems {
		fills[string(system)+" demo"] = templates.Demo(system)
	}
	fills["demo in other scripts"] = inOtherScripts(templates.Demo(templates.Metric))
	metrics := newLettering()
	for name, fill := range fills {
		lists := crew.Of(priceFill(t, fill))
		for i, d := range lists.Drawings() {
			if name == realBuilding && i%sampled != 0 {
				continue
			}
			for _, size := range [][2]float64{{184, 150}, {205, 120}, {184, 84}, {184, 60}} {
				scene := lists.Scene(d.Room, size[0], size[1])
				metrics.look(t, fmt.Sprintf("%s, %s %v", name, d.File, size), scene, lists.Steps(d.Room))
				doors := 0
				for _, opening := range d.Room.Openings {
					if opening.Spec != nil {
						doors++
					}
				}
				for _, text := range scene.Texts {
					if strings.HasPrefix(text.Value, "door ") {
						doors--
					}
				}
				if doors != 0 {
					t.Errorf("%s, %s %v: %d doors are not named", name, d.File, size, doors)
				}
			}
		}
	}
}

// inOtherScripts is a job whose doors lead to rooms named in scripts with broad
// letters, and others.
func inOtherScripts(fill form.Fill) form.Fill {
	names := []string{"സുലു മുറി", "ಮಲಯ್ ಕೋಣೆ", "ஹௌஸா அறை", "మాయొట్ గది", "කණ්ණඩ කාමරය", "လီဆိုသို အခန်း", "জুলু ঘর", "ห้องนั่งเล่น", "ស៊ីលី បន្ទប់", "ፊጂ ክፍል"}
	for i, row := range fill.Rows["openings"] {
		if row["leads"] != "Store" && row["leads"] != "Hall" { // one floor is laid through both
			row["leads"] = names[i%len(names)]
		}
	}
	return fill
}

// look looks at the texts of one drawing. Its first areas are the pieces.
func (l lettering) look(t *testing.T, name string, scene *drawing.Scene, steps []cutlist.Step) {
	t.Helper()
	pieces := map[string]drawing.Area{}
	for i, step := range steps {
		pieces[drawing.PieceNumber(step.Piece)] = scene.Areas[i]
	}
	var placed []label
	for _, text := range scene.Texts {
		a := l.label(text)
		for _, c := range a.corners {
			if c.X < 0 || c.X > scene.Width || c.Y < 0 || c.Y > scene.Height {
				t.Errorf("%s: %q leaves the paper", name, a.words)
				break
			}
		}
		number, _, _ := strings.Cut(text.Value, " ")
		if piece, is := pieces[number]; is && text.Halo && !a.inside(piece, labelTolerance) {
			t.Errorf("%s: %q leaves its piece", name, a.words)
		}
		for _, b := range placed {
			if a.apart(b) < -labelTolerance {
				t.Errorf("%s: %q stands on %q", name, a.words, b.words)
			}
		}
		placed = append(placed, a)
	}
}

// A fault is found: a text on another, off the paper, off its piece.
func TestLabelsOutOfPlaceAreFound(t *testing.T) {
	metrics := newLettering()
	at := func(x, y float64, words string) label {
		return metrics.label(drawing.Text{At: drawing.Point{X: x, Y: y}, Size: 3, Turn: 30, Value: words})
	}
	if apart := at(20, 20, "12.3").apart(at(22, 20, "4.5")); apart > -1 {
		t.Errorf("two texts 2 mm apart: %.2f mm", apart)
	}
	if apart := at(20, 20, "12.3").apart(at(20, 26, "4.5")); apart < 1 {
		t.Errorf("two texts 6 mm below one another: %.2f mm", apart)
	}
	piece := drawing.Area{Rings: [][]drawing.Point{{{X: 10, Y: 10}, {X: 40, Y: 10}, {X: 40, Y: 30}, {X: 10, Y: 30}}}}
	if !at(20, 20, "12.3").inside(piece, labelTolerance) || at(37, 20, "12.3").inside(piece, labelTolerance) {
		t.Error("a text over the border of its piece is not told from one within")
	}
}
