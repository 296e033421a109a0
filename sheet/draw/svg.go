package draw

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"laybill/estimate/drawing"
)

// SVG renders the scene as SVG 1.1 in millimetres. Texts stay texts, in the
// reader's own sans-serif type.
func SVG(scene *drawing.Scene) []byte {
	var out bytes.Buffer
	w, h := coordinate(scene.Width), coordinate(scene.Height)
	fmt.Fprintf(&out, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"+
		`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="DejaVu Sans Condensed, sans-serif">`+"\n", w, h, w, h)
	fmt.Fprintf(&out, `<rect width="%s" height="%s" fill="#fff"/>`+"\n", w, h)
	for _, area := range scene.Areas {
		svgArea(&out, area)
	}
	for _, line := range scene.Lines {
		fmt.Fprintf(&out, `<path d="M%s %sL%s %s" stroke="#000" stroke-width="%s" stroke-linecap="square"/>`+"\n",
			coordinate(line.From.X), coordinate(line.From.Y), coordinate(line.To.X), coordinate(line.To.Y), coordinate(line.Width))
	}
	for _, text := range scene.Texts {
		svgText(&out, text)
	}
	out.WriteString("</svg>\n")
	return out.Bytes()
}

func svgArea(out *bytes.Buffer, a drawing.Area) {
	var path strings.Builder
	for _, ring := range a.Rings {
		for i, p := range ring {
			command := "L"
			if i == 0 {
				command = "M"
			}
			path.WriteString(command + coordinate(p.X) + " " + coordinate(p.Y))
		}
		path.WriteString("Z")
	}
	fill := "none"
	if a.Fill != drawing.Clear {
		fill = fmt.Sprintf("#%02[1]x%02[1]x%02[1]x", shades[a.Fill])
	}
	fmt.Fprintf(out, `<path d="%s" fill="%s" fill-rule="evenodd"`, path.String(), fill)
	if a.Stroke > 0 {
		fmt.Fprintf(out, ` stroke="#000" stroke-width="%s"`, coordinate(a.Stroke))
	}
	out.WriteString("/>\n")
}

func svgText(out *bytes.Buffer, t drawing.Text) {
	anchors := [...]string{drawing.Start: "start", drawing.Middle: "middle", drawing.End: "end"}
	fmt.Fprintf(out, `<text x="%s" y="%s" font-size="%s" text-anchor="%s"`, coordinate(t.At.X), coordinate(t.At.Y), coordinate(t.Size), anchors[t.Anchor])
	if t.Bold {
		out.WriteString(` font-weight="bold"`)
	}
	if t.Halo {
		fmt.Fprintf(out, ` stroke="#fff" stroke-width="%s" paint-order="stroke"`, coordinate(t.Size/3))
	}
	if t.Turn != 0 {
		fmt.Fprintf(out, ` transform="rotate(%s %s %s)"`, coordinate(-t.Turn), coordinate(t.At.X), coordinate(t.At.Y))
	}
	out.WriteString(">")
	_ = xml.EscapeText(out, []byte(t.Value)) // a bytes.Buffer never fails
	out.WriteString("</text>\n")
}

// coordinate is a number to a hundredth without closing zeros, so that the
// last bits of a float never show.
func coordinate(x float64) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(x, 'f', 2, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
