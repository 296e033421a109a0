package draw

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"laybill/estimate/drawing"
	"laybill/estimate/published"
)

func TestLetters(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"Latin, Greek, Cyrillic", "Küche Ω Жилая", "Küche Ω Жилая"},
		{"Armenian, Georgian", "Սենյակ ოთახი", "Սենյակ ოთახი"},
		{"Hebrew, currency", "חדר ₹", "חדר ₹"},
		{"Chinese, Japanese, Korean", "客厅 居間、キッチン 거실", "客厅 居間、キッチン 거실"},
		{"half and full width", "ｶﾞ（Ａ１％）￥", "ｶﾞ（Ａ１％）￥"},
		{"Hangul in parts", "\u1100\u1165\u1109\u1175\u11AF", "거실"},
		{"accents apart", "Ku\u0308che Z\u0307o", "Küche Żo"},
		{"kana and its mark", "か\u3099", "が"},
		{"an ideograph and the choice of its form", "葛\U000E0100城\uFE00", "葛城"},
		{"a variant that people tell apart", "\uFA10原", "\uFA10原"},
		{"a number with its stop", "⒈客厅", "1.客厅"},
		{"Thai, Devanagari, Ethiopic", "ห้อง बैठक। ክፍል 1", "ห้อง बैठक। ክፍል 1"},
		{"Tibetan", "ཁང་ 1", "□□□ 1"},
		{"beyond the basic plane", "a😀𠀋b", "a□□b"},
		{"broken encoding", "a\xffb", "a\uFFFDb"},
		{"a tab", "a\tb", "a b"},
		{"a square", "□", "□"},
	} {
		if got := Letters(tt.text); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
		want := strings.Count(tt.want, "□") == strings.Count(tt.text, "□")
		if got := Lettered(tt.text); got != want {
			t.Errorf("%s: lettered is %v, want %v", tt.name, got, want)
		}
	}
}

// Kurdish 'ae' joins the letter before it, but the type has no form of it that
// does; of the Persian letters it has all forms.
func TestLetteredInJoinedForms(t *testing.T) {
	for text, want := range map[string]bool{"\u067E\u06CC\u0686": true, "\u0621": true, "\u0628\u0640": true, "\u0628\u06D5": false} {
		if got := Lettered(text); got != want {
			t.Errorf("%+q: lettered is %v, want %v", text, got, want)
		}
	}
}

// written is the scene alone on a page of its own size.
func written(t *testing.T, s *drawing.Scene, compressed bool) []byte {
	t.Helper()
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: s.Width, Ht: s.Height}})
	pdf.SetCompression(compressed)
	AddType(pdf)
	pdf.AddPage()
	PDF(pdf, s, 0, 0)
	var out bytes.Buffer
	if err := pdf.Output(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// Hand working, in points of 25.4/72 mm counted from the foot of the page,
// which is 40 mm high: the line at 30 mm below the top from 5 to 55 mm lies at
// (40-30)/25.4*72 = 28.35, from 14.17 to 155.91; it is 1 mm = 2.83 thick.
func TestPDFPlaces(t *testing.T) {
	text := string(written(t, scene(), false))
	for _, want := range []string{"14.17 28.35 m 155.91 28.35 l S", "2.83 w"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

// The pen that goes round bold letters of a type without a bold cut. Hand
// working: letters of 9 mm are 9/25.4*72 = 25.51 points high, 0.03 of which are
// 0.77; mode 2 fills and draws (ISO 32000-1, table 106). The plain ideograph of
// the scene has none.
func TestPDFBoldPen(t *testing.T) {
	s := scene()
	s.Texts = append(s.Texts, drawing.Text{At: drawing.Point{X: 5, Y: 20}, Size: 9, Bold: true, Value: "客厅 a"})
	text := string(written(t, s, false))
	if !strings.Contains(text, "0.77 w 1 j 2 Tr") || strings.Count(text, " Tr") != 1 {
		t.Errorf("%d pens", strings.Count(text, " Tr"))
	}
}

// Names that are painted as outlines can be searched for and copied, bold ones too.
func TestPDFLettersOfShapedNames(t *testing.T) {
	published.Program(t, "pdftotext")
	s := &drawing.Scene{Width: 180, Height: 200}
	names := []string{"ห้องนั่งเล่น", "बैठक कक्ष", "স্নানঘর", "ਰਸੋਈ", "રસોડું", "ରୋଷେଇ", "சமையலறை", "వంటగది", "ಅಡುಗೆಮನೆ", "അടുക്കള", "මුළුතැන්ගෙය", "ຫ້ອງນ້ຳ", "မီးဖိုချောင်", "បន្ទប់គេង", "ክፍል"}
	for i, name := range names {
		for j, bold := range []bool{false, true} {
			s.Texts = append(s.Texts, drawing.Text{At: drawing.Point{X: 5 + 90*float64(j), Y: 12 * float64(i+1)}, Size: 5, Bold: bold, Value: "1: " + name + " (a)"})
		}
	}
	file := filepath.Join(t.TempDir(), "scene.pdf")
	if err := os.WriteFile(file, written(t, s, true), 0o644); err != nil {
		t.Fatal(err)
	}
	text, err := exec.Command("pdftotext", "-raw", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if got := strings.Count(string(text), "1: "+name+" (a)"); got != 2 {
			t.Errorf("%s is found %d times, want 2", name, got)
		}
	}
}

// The same scene as PDF, rendered by poppler, and as PNG look alike: less than
// one dot in a hundred is black in one and white in the other.
func TestPDFLooksLikePNG(t *testing.T) {
	s := scene()
	slices.Reverse(s.Areas[0].Rings[1]) // as holes run
	s.Texts[1] = drawing.Text{At: drawing.Point{X: 57, Y: 30}, Size: 9, Turn: 90, Bold: true, Value: "a 甲거"}
	if black, unlike := compared(t, s); black < 10_000 || unlike > 2_400 {
		t.Errorf("%d dots of 240000 are unlike, %d black", unlike, black)
	}
}

// So do names that are painted as outlines, plain, bold and turned, to one black
// dot in two hundred.
func TestPDFShapedLooksLikePNG(t *testing.T) {
	s := &drawing.Scene{Width: 60, Height: 40, Texts: []drawing.Text{
		{At: drawing.Point{X: 2, Y: 12}, Size: 9, Value: "ห้องน้ำ 1"},
		{At: drawing.Point{X: 45, Y: 24}, Size: 9, Anchor: drawing.End, Bold: true, Value: "किक्षा গৃহ"},
		{At: drawing.Point{X: 2, Y: 36}, Size: 9, Value: "ශ්\u200Dරී កេស្ត្រី"},
		{At: drawing.Point{X: 57, Y: 38}, Size: 9, Turn: 90, Bold: true, Value: "മുറി"},
	}}
	if black, unlike := compared(t, s); black < 10_000 || unlike > black/200 {
		t.Errorf("%d dots are unlike, %d black", unlike, black)
	}
}

// compared is how many dots of a scene of 60 x 40 mm are black in the PNG, and in
// how many the PDF has the contrary.
func compared(t *testing.T, s *drawing.Scene) (black, unlike int) {
	t.Helper()
	const dpi = 254
	published.Program(t, "pdftoppm")
	file := filepath.Join(t.TempDir(), "scene")
	if err := os.WriteFile(file+".pdf", written(t, s, true), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", strconv.Itoa(dpi), "-gray", "-png", "-singlefile", file+".pdf", file).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	content, err := os.ReadFile(file + ".png")
	if err != nil {
		t.Fatal(err)
	}
	rendered, err := png.Decode(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	own := decoded(t, s, dpi)
	for y := range 400 {
		for x := range 600 {
			a, b := grey(own, x, y), grey(rendered, x, y)
			if a < 100 {
				black++
			}
			if a < 100 && b > 200 || b < 100 && a > 200 {
				unlike++
			}
		}
	}
	return black, unlike
}

func grey(picture image.Image, x, y int) uint32 {
	g, _, _, _ := picture.At(x, y).RGBA()
	return g >> 8
}
