package form

import (
	"strings"

	"laybill/sheet/table"
)

// kind is what the cells of a kind hold: in a word or two, and in a sentence.
type kind struct{ word, sentence string }

var kinds = map[table.Kind]kind{
	table.Text:        {"text", "Any text."},
	table.Name:        {"name", "A name or code; capitals do not matter."},
	table.Length:      {"length", `A length: a plain number is in the job's length unit; or write the unit: 3820 mm, 3.82 m, 12' 6 1/2".`},
	table.Millimetres: {"millimetres", "A plain number is millimetres."},
	table.Area:        {"area", "An area: a plain number is in the job's area unit; or write the unit: 14.35 m2, 154 ft2."},
	table.Number:      {"number", "A number, not negative."},
	table.Whole:       {"whole number", "A whole number."},
	table.Percent:     {"per cent", "Per cent: 7.25 is 7.25 %."},
	table.Amount:      {"money", "An amount of money in the job's currency."},
	table.Price:       {"price", "A price in the job's currency; it may have more decimals than the currency."},
	table.YesNo:       {"yes or no", "yes or no."},
	table.Date:        {"date", "A date."},
	table.Legs:        {"outline", "The legs of a walk round the room."},
	table.Direction:   {"direction", "A laying direction."},
	table.Wall:        {"wall", "A wall of the room."},
	table.Coordinate:  {"coordinate", "A length that may be negative, in the job's length unit or with its own."},
	table.Value:       {"value", "The setting's value."},
}

// Kind names in a word or two what the cells of a column hold.
func Kind(c table.Column) string {
	switch c.Kind {
	case table.Choice:
		return "one of: " + strings.Join(c.Choices, ", ")
	case table.Reference:
		return "name in " + strings.Join(referredSheets(c), " or ")
	}
	return kinds[c.Kind].word
}

// Holds says in one sentence what the cells of a column hold.
func Holds(c table.Column) string {
	switch c.Kind {
	case table.Choice:
		return "One of: " + strings.Join(c.Choices, ", ") + "."
	case table.Reference:
		return "A code or name of the sheet " + strings.Join(referredSheets(c), " or ") + "."
	}
	return kinds[c.Kind].sentence
}

func referredSheets(c table.Column) []string {
	var sheets []string
	for _, key := range strings.Split(c.Refers, "|") {
		sheets = append(sheets, table.ByKey(key).Sheet)
	}
	return sheets
}

// columnNote is the note on a column's heading.
func (b *builder) columnNote(t *table.Table, c table.Column) string {
	lines := []string{c.Heading}
	if c.Required {
		lines[0] += " (must be filled in)"
	}
	lines = append(lines, present("", c.Help), Holds(c), present("Empty: ", c.Default))
	if t.Key != "job" {
		lines = append(lines, present("Example: ", b.fill.Examples[t.Key][c.Key]))
	}
	return joined(lines, "\n")
}

// settingNote is the Note of a setting's row.
func settingNote(s table.Setting) string {
	if s.Required {
		return joined([]string{"Must be filled in.", s.Help}, " ")
	}
	return joined([]string{s.Help, present("Default: ", s.Default)}, " ")
}

// present is the text with its label, or nothing when there is no text.
func present(label, text string) string {
	if text == "" {
		return ""
	}
	return label + text
}

// joined joins the lines that are not empty.
func joined(lines []string, separator string) string {
	var kept []string
	for _, line := range lines {
		if line != "" {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, separator)
}
