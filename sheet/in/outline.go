package in

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// leg is one wall as it was written: of an outline in the order of the walk,
// of corners from each to the next.
type leg struct{ from, to shape.Point }

// length is the straight length of the leg, rounded to the unit where it is
// slanted.
func (l leg) length() measure.Length {
	dx, dy := l.to.X-l.from.X, l.to.Y-l.from.Y
	if dx == 0 || dy == 0 {
		return max(dx, -dx) + max(dy, -dy)
	}
	return measure.Length(math.Round(math.Hypot(float64(dx), float64(dy))))
}

// square is the direction square to the leg, in [0, 180) degrees.
func (l leg) square() shape.Angle {
	dx, dy := float64(l.to.X-l.from.X), float64(l.to.Y-l.from.Y)
	along := shape.Angle(math.Round(math.Atan2(dy, dx) * 180 / math.Pi * 1000))
	return (along + 3*shape.QuarterTurn) % (2 * shape.QuarterTurn)
}

// legsOf is the walls of a ring in its order.
func legsOf(ring shape.Ring) []leg {
	legs := make([]leg, len(ring))
	for i := range ring {
		legs[i] = leg{ring[i], ring[(i+1)%len(ring)]}
	}
	return legs
}

// mostCorners of one room: its walls are compared with one another.
const mostCorners = 1000

// parseLegs reads a walk round a room, E 5.2, N 2.4, ...: each leg is a side
// of the compass and a length; a slanted one names both its parts without a
// comma between. The corners begin at 0,0 and the first is not repeated.
func parseLegs(in input) (shape.Ring, *fault) {
	steps, flaw := splitLegs(in)
	if flaw != nil {
		return nil, flaw
	}
	ring := shape.Ring{{}}
	at := shape.Point{}
	for _, s := range steps {
		at = shape.Point{X: at.X + s.dx, Y: at.Y + s.dy}
		if max(at.X, -at.X, at.Y, -at.Y) > shape.Limit {
			return nil, outOfRange("a room under 1 km")
		}
		ring = append(ring, at)
	}
	return closeWalk(ring, steps)
}

// step is one leg of a walk.
type step struct {
	dx, dy measure.Length
	text   string
}

// splitLegs takes the text apart into legs.
func splitLegs(in input) ([]step, *fault) {
	var steps []step
	rest := strings.TrimSpace(strings.Map(plainSpace, in.text))
	for joined := false; rest != ""; {
		side, after := takeSide(rest)
		if side == "" {
			return nil, unreadable(fmt.Sprintf("%s does not begin with N, E, S or W", quote(firstWords(rest))))
		}
		text, comma, next := takeLength(after)
		length, flaw := parseLength(text, in.length)
		switch {
		case flaw != nil && flaw.code == problem.CellAmbiguous:
			return nil, flaw
		case flaw != nil:
			return nil, unreadable(fmt.Sprintf("leg %d: %s", len(steps)+1, flaw.fix))
		case length <= 0 || length > shape.Limit:
			return nil, outOfRange(fmt.Sprintf("leg %d: a length above 0 and under 1 km", len(steps)+1))
		}
		s := toward(side, length)
		s.text = side + " " + strings.TrimSpace(text)
		if joined {
			last := &steps[len(steps)-1]
			if (last.dx != 0 && last.dy != 0) || (last.dx != 0) == (s.dx != 0) {
				return nil, unreadable(fmt.Sprintf("leg %d names more than two parts: put a comma between legs", len(steps)))
			}
			last.dx, last.dy, last.text = last.dx+s.dx, last.dy+s.dy, last.text+" "+s.text
		} else {
			steps = append(steps, s)
		}
		if len(steps) > mostCorners {
			return nil, outOfRange(fmt.Sprintf("at most %d legs", mostCorners))
		}
		joined, rest = !comma, next
	}
	if len(steps) < 2 {
		return nil, unreadable("a room has at least three walls")
	}
	return steps, nil
}

func firstWords(text string) string {
	if len(text) > 12 {
		return text[:12]
	}
	return text
}

func toward(side string, length measure.Length) step {
	switch side {
	case "N":
		return step{dy: length}
	case "S":
		return step{dy: -length}
	case "E":
		return step{dx: length}
	}
	return step{dx: -length}
}

// takeSide takes a side of the compass off the front of a text.
func takeSide(text string) (side, rest string) {
	end := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
	if end < 0 {
		return "", text
	}
	return compass(text[:end]), text[end:]
}

// takeLength takes the text of a leg's length off the front: up to the next
// side of the compass. comma tells that a mark or a line's end stood before that
// side, or that the text has ended.
func takeLength(text string) (length string, comma bool, rest string) {
	before := ' '
	for i, r := range text {
		if (before == ' ' || isLegMark(before)) && startsSide(text[i:]) {
			length = strings.TrimRightFunc(text[:i], func(r rune) bool { return isLegMark(r) || unicode.IsSpace(r) })
			return length, strings.ContainsAny(text[len(length):i], ",;\n\r"), text[i:]
		}
		before = r
		if unicode.IsSpace(r) {
			before = ' '
		}
	}
	return strings.TrimRightFunc(text, func(r rune) bool { return isLegMark(r) || unicode.IsSpace(r) }), true, ""
}

func isLegMark(r rune) bool { return r == ',' || r == ';' }

// startsSide tells whether a text begins with a side of the compass followed
// by a number, so that the letters of units are no sides.
func startsSide(text string) bool {
	side, rest := takeSide(text)
	if side == "" {
		return false
	}
	next, _ := utf8.DecodeRuneInString(strings.TrimLeftFunc(rest, unicode.IsSpace))
	return unicode.IsNumber(next) || next == '.' || next == '-' || next == '−'
}

// closeWalk checks that a walk comes back to where it began. Its last leg may
// be left out when there is a corner at both of its ends; anything else is a
// leg that is wrong.
func closeWalk(ring shape.Ring, steps []step) (shape.Ring, *fault) {
	end := ring[len(ring)-1]
	if end == (shape.Point{}) {
		return ring[:len(ring)-1], nil
	}
	gapX, gapY := -end.X, -end.Y
	first, last := steps[0], steps[len(steps)-1]
	straight := gapX == 0 || gapY == 0
	cornerAtEnd := gapX*last.dy-gapY*last.dx != 0
	backOnFirst := gapX*first.dy-gapY*first.dx == 0 && (gapX > 0) == (first.dx < 0) && (gapY > 0) == (first.dy < 0)
	if straight && cornerAtEnd && !backOnFirst && len(steps) >= 3 {
		return ring, nil
	}
	return nil, &fault{code: problem.RoomNotClosed, want: "a walk that comes back to where it began", fix: mend(gapX, gapY, steps)}
}

// mend says by how much a walk misses its beginning and which legs can be
// wrong.
func mend(gapX, gapY measure.Length, steps []step) string {
	var gaps []string
	for _, gap := range []struct {
		by             measure.Length
		ahead, against string
		along          func(step) bool
	}{
		{gapX, "E", "W", func(s step) bool { return s.dx != 0 }},
		{gapY, "N", "S", func(s step) bool { return s.dy != 0 }},
	} {
		if gap.by == 0 {
			continue
		}
		side := gap.ahead
		if gap.by < 0 {
			side = gap.against
		}
		var legs []string
		for i, s := range steps {
			if gap.along(s) && len(legs) < 8 {
				legs = append(legs, fmt.Sprintf("leg %d (%s)", i+1, s.text))
			}
		}
		gaps = append(gaps, fmt.Sprintf("%s %s is missing at the end: correct %s", side, max(gap.by, -gap.by), strings.Join(legs, " or ")))
	}
	return strings.Join(gaps, "; ")
}
