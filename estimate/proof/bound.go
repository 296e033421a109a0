package proof

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
)

// course is a row, or an unbroken part of one, as a bound counts it: it takes
// its row's full width of the planks. What is cut off along a piece, at an inner
// wall, a column or a slanted wall, serves no other row; only first and last
// rows are ripped side by side from one plank (common practice).
type course struct {
	length   length
	width    length
	edges    string // as certifiedRow.Edges
	leastEnd length
}

// checkPlankBound compares a pool's planks with its lower bound and its
// layouts' with theirs. It returns false when a bound is stated that nothing in
// the file proves, and that therefore counts for nothing.
func (c *checker) checkPlankBound(p *pool, t *tally) (certified bool) {
	certified = true
	if p.entry != nil && p.entry.LowerBound != nil && p.entry.AllPhases {
		proven, why := c.phased(p)
		t.want(why == "" && int64(*p.entry.LowerBound) <= proven, p.name.sign(), fmt.Sprintf("%d stated", *p.entry.LowerBound),
			fmt.Sprintf("%d at the best phase", proven), "the phases of the pattern prove less than the bound: "+why)
		t.want(*p.entry.LowerBound <= len(p.stock), p.name.sign(), fmt.Sprintf("%d planks", len(p.stock)), fmt.Sprintf("at least %d", *p.entry.LowerBound),
			"fewer planks than the lower bound")
	} else if p.entry != nil && p.entry.LowerBound != nil {
		claim := stated{*p.entry.LowerBound, p.entry.Certificate, p.entry.Searched}
		certified = p.checkStated(len(p.stock), claim, t)
	}
	for i, f := range p.floors {
		if f.entry.LowerBound == nil || f.number > 1 {
			continue
		}
		fields := 1
		if f.of != nil {
			fields = len(f.of.parts)
		}
		alone := *p
		alone.rooms, alone.floors = p.rooms[i:i+fields], p.floors[i:i+fields]
		claim := stated{*f.entry.LowerBound, f.entry.Certificate, false}
		certified = alone.checkStated(f.entry.Planks, claim, t) && certified
	}
	return certified
}

// stated is a lower bound as the file states it.
type stated struct {
	bound       int
	certificate *certificateEntry
	searched    bool
}

func (p *pool) checkStated(planks int, s stated, t *tally) (certified bool) {
	where := p.name.sign()
	if len(p.floors) == 0 || slices.ContainsFunc(p.floors, func(f *floor) bool { return !f.sound }) {
		return true // said elsewhere
	}
	if !t.want(s.bound <= planks, where, fmt.Sprintf("%d planks", planks), fmt.Sprintf("at least %d", s.bound),
		"fewer planks than the lower bound") {
		return true
	}
	long, wide, uniform := p.size()
	courses := p.courses(long)
	proven := p.areaBound(long, wide)
	if p.floors[0].blocks() {
		proven = max(proven, p.spotBound(t))
	} else if uniform {
		proven = max(proven, capacityBound(courses, long, wide, p.kerf(), p.handed()))
	}
	if s.certificate != nil {
		bound, why := p.certified(s.certificate, courses, long, wide, uniform)
		if !t.want(why == "", where, "certificate", "a proof", why) {
			return true
		}
		proven = max(proven, bound)
	}
	switch {
	case int64(s.bound) <= proven:
		t.hold(true)
		return true
	case s.certificate == nil && len(p.spots()) == 0 || s.searched:
		return false
	}
	t.want(false, where, fmt.Sprintf("%d stated", s.bound), fmt.Sprintf("%d proven", proven), "the certificate or the spots prove less than the bound")
	return true
}

// spots are what proves the bound of a pool of blocks, as a certificate does that
// of planks in rows.
func (p *pool) spots() []spotEntry {
	if p.entry == nil || !p.floors[0].blocks() {
		return nil
	}
	return p.entry.Spots
}

// size is the largest plank of the pool; uniform tells that all are as large.
func (p *pool) size() (long, wide length, uniform bool) {
	uniform = len(p.order) > 0
	for _, s := range p.order {
		uniform = uniform && s.Length > 0 && s.Width > 0 && s.Length == p.order[0].Length && s.Width == p.order[0].Width
		long, wide = max(long, s.Length), max(wide, s.Width)
	}
	return long, wide, uniform
}

func (p *pool) kerf() length {
	kerf := length(math.MaxInt64)
	for _, f := range p.floors {
		kerf = min(kerf, f.entry.Kerf)
	}
	return kerf
}

func (p *pool) handed() bool {
	return !slices.ContainsFunc(p.floors, func(f *floor) bool { return !f.entry.handed() })
}

// areaBound is the planks that the area alone takes.
func (p *pool) areaBound(long, wide length) int64 {
	plank := new(big.Int).Mul(big.NewInt(int64(long)), big.NewInt(int64(wide)))
	if plank.Sign() <= 0 {
		return 0
	}
	area := new(big.Int)
	for _, f := range p.floors {
		area.Add(area, big.NewInt(f.area))
	}
	return ceiling(area, plank)
}

// ceiling is a / b rounded up, for a >= 0 and b > 0.
func ceiling(a, b *big.Int) int64 {
	up := new(big.Int).Add(a, new(big.Int).Sub(b, big.NewInt(1)))
	up.Quo(up, b)
	if !up.IsInt64() {
		return math.MaxInt64
	}
	return up.Int64()
}

// courses is the rows of the pool's rooms that a bound may count.
func (p *pool) courses(long length) []course {
	var all []course
	for _, f := range p.floors {
		widths := f.rowWidths()
		first, last := f.firstAndLast()
		for _, s := range f.segments {
			if len(s.pieces) > 1 && s.length <= long {
				continue // see certificateEntry: a row that fits one plank is one piece
			}
			all = append(all, course{s.length, widths[s.row], edgesOf(s.row, first, last), f.entry.Rules.LeastEnd})
		}
	}
	return all
}

// edgesOf is the long edges that a row needs by its place in the floor.
func edgesOf(row, first, last int) string {
	switch {
	case first == last:
		return "none"
	case row == first:
		return "far"
	case row == last:
		return "near"
	}
	return "both"
}

// sideBySide tells whether any two of the rows could be ripped from one plank:
// then planks cannot be counted by their lengths alone. Planks with handed edges
// give at most one strip that keeps the near edge and one that keeps the far.
func sideBySide(rows []course, wide, kerf length, handed bool) bool {
	least := map[string][]length{} // the two narrowest by the edge they need
	for _, r := range rows {
		edges := r.edges
		switch {
		case edges == "both":
			continue
		case !handed:
			edges = "none"
		}
		two := append(least[edges], r.width)
		slices.Sort(two)
		least[edges] = two[:min(2, len(two))]
	}
	fit := func(a, b []length) bool { return len(a) > 0 && len(b) > 0 && a[0]+kerf+b[0] <= wide }
	none := least["none"]
	return fit(least["near"], least["far"]) || fit(none, least["near"]) || fit(none, least["far"]) ||
		len(none) > 1 && none[0]+kerf+none[1] <= wide
}

// capacityBound is the best capacity of rows of which no two share a plank's
// width: the inner ones with the first, the last or all wide ones.
func capacityBound(rows []course, long, wide, kerf length, handed bool) int64 {
	best := int64(0)
	for _, kind := range []string{"near", "far", "wide"} {
		var counted []course
		for _, r := range rows {
			if r.edges == "both" || r.edges == kind || kind == "wide" && 2*r.width+kerf > wide {
				counted = append(counted, r)
			}
		}
		if !sideBySide(counted, wide, kerf, handed) {
			best = max(best, capacity(counted, long, kerf))
		}
	}
	return best
}

// capacity counts planks by length: a row of length R takes at least R/L
// pieces, and the pieces of a plank of length L lie a kerf apart.
func capacity(rows []course, long, kerf length) int64 {
	need := new(big.Int)
	for _, r := range rows {
		pieces := (r.length + long - 1) / long
		need.Add(need, big.NewInt(int64(r.length)))
		need.Add(need, new(big.Int).Mul(big.NewInt(int64(pieces)), big.NewInt(int64(kerf))))
	}
	return ceiling(need, big.NewInt(int64(long+kerf)))
}

// Limits on certificates.
const (
	mostWeight = 1 << 40
	mostSteps  = 100_000
)

// certified is the bound that a certificate proves for the courses of a pool;
// why says what is wrong with it, if anything is.
func (p *pool) certified(e *certificateEntry, courses []course, long, wide length, uniform bool) (bound int64, why string) {
	switch {
	case !uniform:
		return 0, "certificates are for planks of one size"
	case e.Plank <= 0 || e.Plank > mostWeight || len(e.Values) > mostSteps || len(e.Rows) > mostSteps:
		return 0, "the certificate is out of range"
	}
	v := value{steps: e.Values, plank: e.Plank, long: long, kerf: p.kerf()}
	if !v.rises() {
		return 0, "the values of off-cuts do not rise, or the last is over a whole plank's"
	}
	counted, why := countedCourses(e.Rows, courses)
	if why != "" {
		return 0, why
	}
	all := slices.Concat(counted...)
	if sideBySide(all, wide, v.kerf, p.handed()) {
		return 0, "the certificate counts two rows that one plank can give side by side"
	}
	if why := v.priced(e.Rows, counted); why != "" {
		return 0, why
	}
	weight := new(big.Int)
	for _, row := range e.Rows {
		weight.Add(weight, new(big.Int).Mul(big.NewInt(row.Count), big.NewInt(row.Price)))
	}
	if weight.Sign() < 0 {
		return 0, ""
	}
	return ceiling(weight, big.NewInt(e.Plank)), ""
}

// countedCourses finds the rows that a certificate counts: of those with its
// length and edges the widest.
func countedCourses(rows []certifiedRow, courses []course) ([][]course, string) {
	type kind struct {
		length length
		edges  string
	}
	have := map[kind][]course{}
	for _, one := range courses {
		k := kind{one.length, one.edges}
		have[k] = append(have[k], one)
	}
	for _, list := range have {
		slices.SortStableFunc(list, func(a, b course) int { return cmp.Compare(b.width, a.width) })
	}
	counted := make([][]course, len(rows))
	for i, row := range rows {
		k := kind{row.Length, cmp.Or(row.Edges, "both")}
		if row.Count < 0 || row.Count > int64(len(have[k])) {
			return nil, fmt.Sprintf("the certificate counts %d more rows of %s than the floors have", row.Count-int64(len(have[k])), row.Length.mm())
		}
		counted[i], have[k] = have[k][:row.Count], have[k][row.Count:]
	}
	return counted, ""
}

// value is what off-cuts with a right end are worth by their length.
type value struct {
	steps    []valueStep
	plank    int64
	long     length
	kerf     length
	leastEnd length
}

// rises tells whether steps rise in length and weight, up to a whole plank.
func (v *value) rises() bool {
	from, weight := length(-1), int64(0)
	for _, s := range v.steps {
		if s.From <= from || s.Weight < weight || s.Weight > v.plank {
			return false
		}
		from, weight = s.From, s.Weight
	}
	return true
}

// of is the value of an off-cut.
func (v *value) of(l length) int64 {
	i, found := slices.BinarySearchFunc(v.steps, l, func(s valueStep, l length) int { return cmp.Compare(s.From, l) })
	if found {
		return v.steps[i].Weight
	}
	if i == 0 {
		return 0
	}
	return v.steps[i-1].Weight
}

// priced checks that no row is priced above what it must cost.
func (v *value) priced(rows []certifiedRow, counted [][]course) string {
	for i, row := range rows {
		v.leastEnd = math.MaxInt64
		for _, one := range counted[i] {
			v.leastEnd = min(v.leastEnd, one.leastEnd)
		}
		if row.Count == 0 {
			continue
		}
		if least := v.least(row.Length); row.Price > least {
			return fmt.Sprintf("a row of %s is priced %d, but can cost as little as %d", row.Length.mm(), row.Price, least)
		}
	}
	return ""
}

// least is the least that a row of the length costs, see certificateEntry.
func (v *value) least(long length) int64 {
	whole := (long + v.long - 1) / v.long
	q := int64(whole - 1)
	r := long - length(q)*v.long
	if long <= v.long {
		return v.leastOf(long, v.long, -long-v.kerf, 0)
	}
	end := max(1, v.leastEnd)
	longEnds := v.leastOf(max(r, end), min(v.long, r+v.long-end), -r-v.kerf, q*v.plank)
	shortEnds := v.leastOf(end, r-end, v.long-v.kerf-r, (q+1)*v.plank)
	return min(longEnds, shortEnds)
}

// leastOf is the least of cost + v(a) - v(a + shift) for a from low to high: at
// low, or where a + shift just reaches a step.
func (v *value) leastOf(low, high, shift length, cost int64) int64 {
	if low > high {
		return math.MaxInt64
	}
	least := cost + v.of(low) - v.of(low+shift)
	taken, next := int64(0), 0 // value of a, and the step above it
	for _, s := range v.steps {
		a := s.From - shift
		for next < len(v.steps) && v.steps[next].From <= a {
			taken = v.steps[next].Weight
			next++
		}
		if a > low && a <= high {
			least = min(least, cost+taken-s.Weight)
		}
	}
	return least
}
