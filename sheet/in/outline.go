package in

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

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
	legs := make([]shape.Leg, len(steps))
	for i, s := range steps {
		legs[i] = s.Leg
	}
	ring, closing := shape.FromLegs(legs)
	if flaw := checkClosing(closing, steps); flaw != nil {
		return nil, flaw
	}
	return ring, nil
}

// step is one leg of a walk as it was written.
type step struct {
	shape.Leg
	text string
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
		s := step{toward(side, length), side + " " + strings.TrimSpace(text)}
		if joined {
			last := &steps[len(steps)-1]
			if last.DX != 0 && last.DY != 0 || (last.DX != 0) == (s.DX != 0) {
				return nil, unreadable(fmt.Sprintf("leg %d names more than two parts: put a comma between legs", len(steps)))
			}
			*last = step{shape.Leg{DX: last.DX + s.DX, DY: last.DY + s.DY}, last.text + " " + s.text}
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

func toward(side string, length measure.Length) shape.Leg {
	switch side {
	case "N":
		return shape.Leg{DY: length}
	case "S":
		return shape.Leg{DY: -length}
	case "E":
		return shape.Leg{DX: length}
	}
	return shape.Leg{DX: -length}
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

// checkClosing checks that a walk comes back to where it began. Its last leg
// may be left out when there is a corner at both of its ends; anything else is
// a leg that is wrong.
func checkClosing(closing shape.Leg, steps []step) *fault {
	if closing == (shape.Leg{}) {
		return nil
	}
	first, last := steps[0].Leg, steps[len(steps)-1].Leg
	straight := closing.DX == 0 || closing.DY == 0
	if straight && !parallel(closing, last) && !against(closing, first) && len(steps) >= 3 {
		return nil
	}
	return &fault{code: problem.RoomNotClosed, want: "a walk that comes back to where it began", fix: mend(closing, steps)}
}

func parallel(a, b shape.Leg) bool { return a.DX*b.DY == a.DY*b.DX }

// against tells whether two legs run straight against one another.
func against(a, b shape.Leg) bool { return parallel(a, b) && a.DX*b.DX+a.DY*b.DY < 0 }

// mend says by how much a walk misses its beginning and which legs can be
// wrong.
func mend(closing shape.Leg, steps []step) string {
	var gaps []string
	for _, gap := range []struct {
		by             measure.Length
		ahead, against string
		along          func(step) bool
	}{
		{closing.DX, "E", "W", func(s step) bool { return s.DX != 0 }},
		{closing.DY, "N", "S", func(s step) bool { return s.DY != 0 }},
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
