package draw

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/png"
	"io"
	"strings"
	"testing"

	"laybill/estimate/drawing"
)

func scene() *drawing.Scene {
	return &drawing.Scene{
		Width: 60, Height: 40,
		Areas: []drawing.Area{
			{Rings: [][]drawing.Point{{{X: 5, Y: 5}, {X: 25, Y: 5}, {X: 25, Y: 25}, {X: 5, Y: 25}}, {{X: 10, Y: 10}, {X: 20, Y: 10}, {X: 20, Y: 20}, {X: 10, Y: 20}}}, Fill: drawing.Black},
			{Rings: [][]drawing.Point{{{X: 30, Y: 5}, {X: 50, Y: 5}, {X: 50, Y: 15}}}, Fill: drawing.Light, Stroke: 0.2},
		},
		Lines: []drawing.Line{{From: drawing.Point{X: 5, Y: 30}, To: drawing.Point{X: 55, Y: 30}, Width: 1}},
		Texts: []drawing.Text{
			{At: drawing.Point{X: 30, Y: 38}, Size: 3, Anchor: drawing.Middle, Halo: true, Value: `Küche <床> & "1/2"`},
			{At: drawing.Point{X: 56, Y: 20}, Size: 3, Turn: 90, Bold: true, Value: "up"},
		},
	}
}

func decoded(t *testing.T, s *drawing.Scene, dpi int) image.Image {
	t.Helper()
	data, err := PNG(s, dpi)
	if err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return picture
}

// 254 dots per inch are ten per millimetre, so places are read off in tenths.
// Hand working: the first area is black between its rings and white within the
// inner one, as long as the rings run the same way or not; the line is 1 mm
// thick, half of it on each side.
func TestPNG(t *testing.T) {
	s := scene()
	if got := decoded(t, s, 254).Bounds().Size(); got != (image.Point{X: 600, Y: 400}) {
		t.Errorf("the picture is %v, want 600 x 400", got)
	}
	readOff(t, "rings of one turn", s)
	inner := s.Areas[0].Rings[1]
	inner[1], inner[3] = inner[3], inner[1]
	readOff(t, "the inner ring against the outer", s)
}

// readOff reads greys off the scene, whichever way the rings of its first area
// turn.
func readOff(t *testing.T, turn string, s *drawing.Scene) {
	t.Helper()
	picture := decoded(t, s, 254)
	for _, tt := range []struct {
		name    string
		x, y    int
		darkAt  uint32
		lighter uint32
	}{
		{"paper", 2, 2, 255, 255},
		{"between the rings", 75, 75, 0, 0},
		{"within the inner ring", 150, 150, 255, 255},
		{"light triangle", 460, 80, 200, 230},
		{"line", 300, 300, 0, 0},
		{"above the line", 300, 293, 255, 255},
	} {
		grey, _, _, _ := picture.At(tt.x, tt.y).RGBA()
		if grey >>= 8; grey < tt.darkAt || grey > tt.lighter {
			t.Errorf("%s, %s: grey %d at %d,%d, want %d to %d", turn, tt.name, grey, tt.x, tt.y, tt.darkAt, tt.lighter)
		}
	}
}

// A text turned by 90 degrees anticlockwise is as high as it was wide, and lies
// left of its base line.
func TestTurnedText(t *testing.T) {
	ink := func(turn float64) image.Rectangle {
		picture := decoded(t, &drawing.Scene{Width: 60, Height: 60, Texts: []drawing.Text{{At: drawing.Point{X: 30, Y: 30}, Size: 10, Turn: turn, Value: "HHH"}}}, 254)
		var box image.Rectangle
		for y := range 600 {
			for x := range 600 {
				if grey, _, _, _ := picture.At(x, y).RGBA(); grey < 0x8000 {
					box = box.Union(image.Rect(x, y, x+1, y+1))
				}
			}
		}
		return box
	}
	flat, upright := ink(0), ink(90)
	if near(flat.Dx(), upright.Dy()) && near(flat.Dy(), upright.Dx()) && near(upright.Max.X, 300) && near(flat.Max.Y, 300) {
		return
	}
	t.Errorf("lying %v, turned %v", flat, upright)
}

func near(a, b int) bool { return a-b < 4 && b-a < 4 }

// SVG must be well-formed XML whatever the texts hold, with one element for
// each thing drawn.
func TestSVG(t *testing.T) {
	decoder := xml.NewDecoder(bytes.NewReader(SVG(scene())))
	elements, words, fills := map[string]int{}, "", ""
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			elements[token.Name.Local]++
			for _, a := range token.Attr {
				if a.Name.Local == "fill" {
					fills += a.Value + " "
				}
			}
		case xml.CharData:
			words += string(token)
		}
	}
	if elements["path"] != 3 || elements["text"] != 2 || !strings.Contains(words, `Küche <床> & "1/2"`) {
		t.Errorf("elements %v, words %q", elements, words)
	}
	if want := "#fff #000000 #d8d8d8 "; fills != want {
		t.Errorf("fills %q, want %q", fills, want)
	}
}

// A letter that all types lack is a box, never nothing.
func TestMissingLetters(t *testing.T) {
	face := newTypeface(false)
	box := face.glyph(missing)
	if g := face.glyph('\u0E2B'); g.advance <= 0 || len(g.segments) == 0 {
		t.Errorf("a missing letter is drawn as nothing: %+v", g)
	}
	for _, r := range "ü床거" {
		if g := face.glyph(r); g.advance <= 0 || len(g.segments) == len(box.segments) {
			t.Errorf("%c is drawn as a missing letter", r)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	s := scene()
	for range 200 {
		s.Lines = append(s.Lines, s.Lines[0])
		s.Texts = append(s.Texts, s.Texts[0])
	}
	for b.Loop() {
		if _, err := PNG(s, 180); err != nil {
			b.Fatal(err)
		}
	}
}
