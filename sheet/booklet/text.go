package booklet

import (
	"strings"

	"laybill/sheet/draw"
	"laybill/sheet/wrap"
)

// text writes a line from x on, its base line at y.
func (d *document) text(x, y, size float64, bold bool, s string) {
	draw.SetType(d.pdf, size, bold)
	draw.Text(d.pdf, x, y, s)
}

// rightText writes a line that ends at x.
func (d *document) rightText(x, y, size float64, bold bool, s string) {
	d.text(x-d.measure(s, size, bold), y, size, bold, s)
}

// measure is the width of a text, and leaves its type chosen.
func (d *document) measure(s string, size float64, bold bool) float64 {
	draw.SetType(d.pdf, size, bold)
	return draw.TextWidth(d.pdf, s)
}

// rule draws a line between the margins.
func (d *document) rule(y, pen float64) {
	d.pdf.SetLineWidth(pen)
	d.pdf.Line(sideMargin, y, d.width-sideMargin, y)
}

// setText is a text as it is set.
type setText struct {
	words       string
	width, size float64
	bold        bool
}

// wrapped breaks a text into lines no wider than the width, within words only
// where it must. Texts come again and again, in tables that are measured before
// they are written and from draft to draft, so their lines are kept.
func (d *document) wrapped(s string, width, size float64, bold bool) []string {
	key := setText{s, width, size, bold}
	lines, known := d.lines[key]
	if !known {
		lines = d.broken(s, width, size, bold)
		d.lines[key] = lines
	}
	return lines
}

func (d *document) broken(s string, width, size float64, bold bool) []string {
	draw.SetType(d.pdf, size, bold)
	fits := func(s string) bool { return draw.TextWidth(d.pdf, s) <= width }
	var lines []string
	line := ""
	for _, word := range wrap.Words(s) {
		if longer := lengthened(line, word); fits(longer) {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = word.Letters
		for !fits(line) {
			part := longestThatFits(line, fits)
			lines = append(lines, part)
			line = line[len(part):]
		}
	}
	return append(lines, line)
}

// lengthened is a line with one more word.
func lengthened(line string, word wrap.Word) string {
	if word.Spaced && line != "" {
		line += " "
	}
	return line + word.Letters
}

// together is the text with spaces at which no line ends.
func together(s string) string { return strings.ReplaceAll(s, " ", "\u00A0") }

// listed is a list whose lines end behind commas only.
func listed(s string) string {
	return strings.ReplaceAll(together(strings.Join(strings.Fields(s), " ")), ",\u00A0", ", ")
}

// unparted is a text whose lines end between its parts, or behind a comma
// within one.
func unparted(s, between string) string {
	parts := strings.Split(s, between)
	for i := range parts {
		parts[i] = listed(parts[i])
	}
	return strings.Join(parts, between)
}

// sized is a text whose lines never end within a size, 120 x 60.
func sized(s string) string { return strings.ReplaceAll(s, " x ", together(" x ")) }

// longestThatFits is the beginning of a word that fits, one character at least.
func longestThatFits(word string, fits func(string) bool) string {
	end := 0
	for _, character := range wrap.Characters(word) {
		longer := end + len(character)
		if end > 0 && !fits(word[:longer]) {
			break
		}
		end = longer
	}
	return word[:end]
}

// shortened is the text, cut with dots where it is wider than the width.
func (d *document) shortened(s string, width, size float64) string {
	if d.measure(s, size, true) <= width {
		return s
	}
	fits := func(s string) bool { return d.measure(s+"…", size, true) <= width }
	for characters := wrap.Characters(s); len(characters) > 0; {
		characters = characters[:len(characters)-1]
		if kept := strings.Join(characters, ""); fits(kept) {
			return kept + "…"
		}
	}
	return "…"
}

// joined is the texts that are not empty, with a separator between them.
func joined(separator string, texts ...string) string {
	var filled []string
	for _, s := range texts {
		if s != "" {
			filled = append(filled, s)
		}
	}
	return strings.Join(filled, separator)
}

// paragraph writes a text over as many lines as it needs, going on to new
// pages where it must.
func (d *document) paragraph(s string, size float64, bold bool) {
	for _, line := range d.wrapped(s, d.inner(), size, bold) {
		if d.left() < size*leading {
			d.page()
		}
		d.text(sideMargin, d.y+size, size, bold, line)
		d.y += size * leading
	}
}

// heading writes the title of a page.
func (d *document) heading(s string) {
	d.paragraph(s, titleType, true)
	d.y += 1
}

// part writes the title of a part of a page; it stays with what follows.
func (d *document) part(s string) {
	if d.left() < 25 {
		d.page()
	}
	d.y += 2.5
	d.paragraph(s, partType, true)
	d.y += 0.8
}
