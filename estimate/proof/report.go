package proof

import (
	"cmp"
	"fmt"
	"strings"
)

// Report is every invariant that was checked, in a stable order, and how much
// there was to check.
type Report struct {
	Claims []Claim

	Rooms, Layouts, Floors, Pieces, Planks, Bars, Orders, OrderLines, LabourLines int
}

// Claim is one invariant of the result.
type Claim struct {
	Name string
	OK   bool
	// Left and Right are the two sides: of the first failure where there is one.
	Left, Right string
	Place       string // layout, room, order or pool of the first failure
	Detail      string // the first failures, or a remark
}

// OK tells whether every claim holds.
func (r Report) OK() bool {
	for _, claim := range r.Claims {
		if !claim.OK {
			return false
		}
	}
	return true
}

// tally gathers the outcomes of one claim at many places.
type tally struct {
	name   string
	held   int
	fails  int
	first  Claim
	listed []string
	remark string
}

// listedFailures is how many failures of a claim are told in full.
const listedFailures = 5

// hold counts one place where the claim may hold and returns ok. Where it does
// not hold the caller says so with broken, and only then spells out why.
func (t *tally) hold(ok bool) bool {
	if ok {
		t.held++
	}
	return ok
}

// broken counts one place where the claim does not hold.
func (t *tally) broken(place, left, right, why string) {
	t.fails++
	if t.fails == 1 {
		t.first = Claim{Left: cmp.Or(left, nothing), Right: cmp.Or(right, nothing), Place: cmp.Or(place, "result")}
	}
	if t.fails <= listedFailures {
		t.listed = append(t.listed, fmt.Sprintf("%s: %s (%s, not %s)", place, why, left, right))
	}
}

// nothing stands for an empty side.
const nothing = "nothing"

// want counts one place where the claim must hold and returns whether it does.
func (t *tally) want(ok bool, place, left, right, why string) bool {
	if !t.hold(ok) {
		t.broken(place, left, right, why)
	}
	return ok
}

// same counts a place where two texts must be equal.
func (t *tally) same(place, left, right, why string) bool {
	return t.want(left == right, place, left, right, why)
}

// fail counts a place where the claim does not hold.
func (t *tally) fail(place, why string) {
	t.broken(place, "not so", "so", why)
}

// claim is the tally as a claim.
func (t *tally) claim() Claim {
	if t.fails == 0 {
		return Claim{Name: t.name, OK: true, Left: fmt.Sprintf("%d hold", t.held), Right: fmt.Sprintf("%d checked", t.held), Detail: t.remark}
	}
	c := t.first
	c.Name = t.name
	c.Detail = strings.Join(t.listed, "; ")
	if more := t.fails - len(t.listed); more > 0 {
		c.Detail += fmt.Sprintf("; and %d more", more)
	}
	return c
}
