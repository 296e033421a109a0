package layout

import (
	"fmt"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// shortfalls names every rule that a room's layout breaks, the worst place of
// each rule in each row.
func (t *table) shortfalls(g *grid, slots [][]slot, l *Layout) []Shortfall {
	if len(g.rows) == 0 {
		return []Shortfall{{Room: l.Room, Rule: RuleRoom, Text: "no floor is left inside the expansion gap"}}
	}
	n := naming{rules: &t.pool.Rules, room: l.Room}
	n.rows(g)
	n.pieces(g, l)
	n.joints(g, slots)
	n.outOfPattern(t.saw, g, slots)
	return append(n.found, l.Enclosing()...)
}

// Enclosing names the rows in which a piece goes all round a fixture, the first
// one of each row.
func (l *Layout) Enclosing() []Shortfall {
	var found []Shortfall
	for i := range l.Pieces {
		p := &l.Pieces[i]
		if len(p.Holes) == 0 || len(found) > 0 && found[len(found)-1].Row == p.Row {
			continue
		}
		hole := p.Holes[0].Bounds()
		found = append(found, Shortfall{Room: l.Room, Row: p.Row, Rule: RuleHole, At: p.Holes[0][0],
			Text: fmt.Sprintf("has a piece all round a fixture, a hole of %s by %s", millimetres(hole.X1-hole.X0), millimetres(hole.Y1-hole.Y0))})
	}
	return found
}

// Sentence says what is found and where: "row 3 is 40 mm wide, less than 50 mm".
func (s Shortfall) Sentence() string {
	if s.Row == 0 {
		return s.Text
	}
	return fmt.Sprintf("row %d %s", s.Row, s.Text)
}

// naming gathers the shortfalls of one room.
type naming struct {
	rules *Rules
	room  string
	found []Shortfall
}

// add names a rule broken in a row, or a worse place of one already named since
// mark.
func (n *naming) add(mark int, s Shortfall, text string) {
	if s.Found >= s.Want {
		return
	}
	s.Room = n.room
	s.Text = fmt.Sprintf(text, millimetres(s.Found), millimetres(s.Want))
	for i := mark; i < len(n.found); i++ {
		if f := &n.found[i]; f.Rule == s.Rule && f.Row == s.Row {
			if s.Found < f.Found {
				*f = s
			}
			return
		}
	}
	n.found = append(n.found, s)
}

// millimetres writes a length to a hundredth.
func millimetres(l measure.Length) string {
	hundredths := (int64(l)*100 + int64(measure.Millimetre)/2) / int64(measure.Millimetre)
	text := fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100)
	for text[len(text)-1] == '0' {
		text = text[:len(text)-1]
	}
	if text[len(text)-1] == '.' {
		text = text[:len(text)-1]
	}
	return text + " mm"
}

func (n *naming) rows(g *grid) {
	mark := len(n.found)
	for _, i := range []int{0, len(g.rows) - 1} {
		row := g.rows[i]
		at := shape.Point{X: g.segments[0].x0, Y: row.Y0}
		n.add(mark, Shortfall{Row: i + 1, Rule: RuleRow, At: at, Found: row.Y1 - row.Y0, Want: n.rules.LeastRow},
			"is %s wide, less than %s")
	}
}

func (n *naming) pieces(g *grid, l *Layout) {
	mark := len(n.found)
	row := 0
	for i := range l.Pieces {
		p := &l.Pieces[i]
		if p.Row != row {
			row, mark = p.Row, len(n.found)
		}
		length, width := p.In.X1-p.In.X0, p.In.Y1-p.In.Y0
		if length < n.rules.LeastEnd {
			n.add(mark, Shortfall{Row: row, Rule: RuleEnd, At: p.At[0], Found: length, Want: n.rules.LeastEnd},
				"has a piece %s long, less than %s")
		}
		height := g.rows[row-1].Y1 - g.rows[row-1].Y0
		if width < min(n.rules.LeastRow, height) {
			n.add(mark, Shortfall{Row: row, Rule: RuleNarrow, At: p.At[0], Found: width, Want: n.rules.LeastRow},
				"has a piece %s wide at an inner wall, less than %s")
		}
	}
}

// joints compares the joints of every row with those one and two rows before.
func (n *naming) joints(g *grid, slots [][]slot) {
	rows := make([][]measure.Length, len(g.rows))
	for i := range g.segments {
		row := g.segments[i].row
		for j := 1; j < len(slots[i]); j++ {
			rows[row] = append(rows[row], slots[i][j].x0)
		}
	}
	for i := range rows {
		mark := len(n.found)
		if i > 0 {
			n.compare(mark, g, i, rows[i], rows[i-1], RuleStagger, n.rules.LeastStagger,
				"has a joint %s from one of the row before, less than %s")
		}
		if i > 1 {
			n.compare(mark, g, i, rows[i], rows[i-2], RuleLineUp, n.rules.lineUp(),
				"has a joint %s from being in line with one two rows before, less than %s")
		}
	}
}

func (n *naming) compare(mark int, g *grid, row int, joints, others []measure.Length, rule Rule, want measure.Length, text string) {
	next := 0
	for _, x := range joints {
		for next < len(others) && others[next] < x {
			next++
		}
		for _, k := range []int{next - 1, next} {
			if k >= 0 && k < len(others) && abs(others[k]-x) < want {
				n.add(mark, Shortfall{Row: row + 1, Rule: rule, At: shape.Point{X: x, Y: g.rows[row].Y0},
					Found: abs(others[k] - x), Want: want}, text)
			}
		}
	}
}
