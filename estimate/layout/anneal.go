package layout

import (
	"math"
	"math/bits"

	"laybill/estimate/measure"
)

// Heat of the search, as lengths by which it may make things worse. A single
// room, where stagger binds, must be shaken harder than several rooms, where
// most is gained by fine fitting (found by trial on the rooms of the goals).
const (
	hot      = 150 * float64(measure.Millimetre)
	warm     = 40 * float64(measure.Millimetre)
	cold     = 0.2 * float64(measure.Millimetre)
	hotBelow = 60 // elements
)

// solve looks for a state that takes n planks with every joint rule kept and
// gives the length by which the state it ends with misses that, by simulated annealing over a counted number of steps (S. Kirkpatrick, C. Gelatt,
// M. Vecchi, Optimization by Simulated Annealing, Science 220, 1983). What is
// lowered is the length by which planks are over-full and joints too near.
func (z *puzzle) solve(n, steps int, lineUp bool) measure.Length {
	if len(z.moving) == 0 {
		return z.over(n, far)
	}
	a := annealing{puzzle: z, n: n, lineUp: lineUp, over: z.over(n, far), strain: z.strain(lineUp)}
	heat := hot
	if len(z.elements) >= hotBelow {
		heat = warm
	}
	cooling := math.Pow(cold/heat, 64/float64(max(64, steps)))
	for i := range steps {
		if a.over+a.strain == 0 {
			return 0
		}
		if i%64 == 63 {
			heat *= cooling
		}
		a.step(heat)
	}
	return a.over + a.strain
}

// strain is by how much the rules of links and strips are broken in all.
func (z *puzzle) strain(lineUp bool) measure.Length {
	var twice, misfit measure.Length
	for i := range z.elements {
		e := &z.elements[i]
		twice += z.tension(e, &e.state, lineUp)
		if e.host >= 0 {
			misfit += z.misfit(&z.elements[e.host], e)
		}
	}
	return twice/2 + misfit
}

type annealing struct {
	*puzzle
	n            int
	lineUp       bool
	over, strain measure.Length
}

func (a *annealing) step(heat float64) {
	i := a.moving[a.random.below(len(a.moving))]
	e := &a.elements[i]
	if e.single {
		a.turn(e, heat)
		return
	}
	if len(e.alike) > 0 && a.random.below(exchanges) == 0 {
		a.exchange(e, &a.elements[e.alike[a.random.below(len(e.alike))]], heat)
		return
	}
	next := a.courseOf(e, a.propose(e))
	if next.starter == e.state.starter {
		return
	}
	old := e.state
	strain := a.strain - a.tension(e, &old, a.lineUp) - a.misfits(e)
	strain += a.tension(e, &next, a.lineUp)
	e.state = next
	strain += a.misfits(e)
	worse := a.drawn(heat)
	most := a.over + a.strain + worse.most()
	if strain > most {
		e.state = old
		return
	}
	done := a.shift(e, &old, &next)
	over := a.puzzle.over(a.n, most-strain)
	if over+strain > most || !worse.allows(over+strain-a.over-a.strain) {
		a.undo(&done)
		e.state = old
		return
	}
	a.over, a.strain = over, strain
}

// exchange gives two rows of one length each other's starters: that takes no
// plank more or less and changes only which joints are neighbours.
func (a *annealing) exchange(e, f *element, heat float64) {
	if e.state.starter == f.state.starter {
		return
	}
	strain := a.strain - a.strainOf(e, f)
	a.trade(e, f)
	strain += a.strainOf(e, f)
	if !a.drawn(heat).allows(strain - a.strain) {
		a.trade(e, f)
		return
	}
	a.strain = strain
}

// trade exchanges the starters of two rows of one length.
func (z *puzzle) trade(e, f *element) {
	e.state, f.state = f.state, e.state
	shift := e.x0 - f.x0
	e.state.joints.first += shift
	f.state.joints.first -= shift
}

// strainOf is the strain at two rows of one length. A link between the two counts
// twice, before a trade as after it.
func (a *annealing) strainOf(e, f *element) measure.Length {
	return a.tension(e, &e.state, a.lineUp) + a.tension(f, &f.state, a.lineUp) + a.misfits(e) + a.misfits(f)
}

// limit is how much worse the next state may be: heat times an exponential
// random number, -ln u. Most states are so much worse that the logarithm need
// not be known.
type limit struct {
	heat  float64
	drawn uint64 // 53 bits
}

func (a *annealing) drawn(heat float64) limit { return limit{heat, a.random.next() >> 11} }

// most is no less than the limit, by the leading zeros of u alone.
func (l limit) most() measure.Length {
	halvings := bits.LeadingZeros64(l.drawn) - 10 // u is at least 2 to the minus this
	return measure.Length(l.heat*float64(halvings)*math.Ln2) + 1
}

func (l limit) allows(worse measure.Length) bool {
	if worse <= 0 {
		return true
	}
	u := (float64(l.drawn) + 0.5) / (1 << 53)
	return worse <= measure.Length(-l.heat*math.Log(u))
}

// misfits are those of the strips an element is ripped from or gives.
func (z *puzzle) misfits(e *element) measure.Length {
	var sum measure.Length
	if e.host >= 0 {
		sum += z.misfit(&z.elements[e.host], e)
	}
	if e.rider >= 0 {
		sum += z.misfit(e, &z.elements[e.rider])
	}
	return sum
}

// shifted is what a change of an element's state did to the lists.
type shifted struct {
	starter, end exchange
	whole        int
}

// shift changes the lists from one state of an element to another. The strips of
// a rider count no planks.
func (z *puzzle) shift(e *element, old, next *course) (done shifted) {
	if e.host >= 0 {
		return done
	}
	done.whole = next.whole - old.whole
	z.pieces += done.whole
	done.starter = replace(z.starters, old.starter, next.starter)
	ends := z.ends
	if z.saw.ends == Free {
		ends = z.starters
	}
	done.end = replace(ends, old.end, next.end)
	return done
}

// undo takes back what shift did last.
func (z *puzzle) undo(done *shifted) {
	if done.starter.list == nil {
		return
	}
	z.pieces -= done.whole
	done.end.undo()
	done.starter.undo()
}

// turn cuts a piece between two walls from the other end of its plank.
func (a *annealing) turn(e *element, heat float64) {
	a.flip(e)
	over := a.puzzle.over(a.n, far)
	if !a.drawn(heat).allows(over - a.over) {
		a.flip(e)
		return
	}
	a.over = over
}

func (z *puzzle) flip(e *element) {
	from, to := &z.ends, &z.starters
	if e.right {
		from, to = to, from
	}
	*from = remove(*from, e.length)
	*to = insert(*to, e.length)
	e.right = !e.right
}

// exchanges: one move in so many gives rows of one length each other's starters.
const exchanges = 3

// nudge is how far a starter is moved by a small change.
const nudge = 30 * measure.Millimetre

// propose is another starter for an element: one that goes with some end piece
// exactly, one whose own end piece goes with some starter, one near by, or any.
func (a *annealing) propose(e *element) measure.Length {
	length := a.plank.Length
	var next measure.Length
	switch a.random.below(4) {
	case 0:
		next = a.room - a.partner(a.ends)
	case 1:
		end := a.room - a.partner(a.starters)
		next = (e.length-end-1)%length + 1
	case 2:
		next = e.state.starter + a.rounded(a.random.length(2*nudge)-nudge)
	}
	if e.short.has(next) || e.long.has(next) {
		return next
	}
	at := a.random.length(e.short.span() + e.long.span())
	from, in := e.short.lo, e.short
	if at >= e.short.span() {
		at -= e.short.span()
		from, in = e.long.lo, e.long
	}
	next = a.rounded(from + at)
	if !in.has(next) {
		next = from + at
	}
	return next
}

// partner is a piece of a list at random; with free ends there is one list.
func (a *annealing) partner(list []measure.Length) measure.Length {
	if a.saw.ends == Free {
		list = a.starters
	}
	if len(list) == 0 {
		return a.room / 2
	}
	return list[a.random.below(len(list))]
}

func (a *annealing) rounded(l measure.Length) measure.Length { return l - l%a.puzzle.step }
