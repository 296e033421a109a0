package proof

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
)

// course is a row, or an unbroken part of one, as a bound counts it.
type course struct {
	length   length
	width    length // least width anywhere along it
	edges    string // factory edges it needs: both, near, far, none
	leastEnd length
}

// checkPlankBound compares a pool's planks with its lower bound and its
// layouts' with theirs. It returns false when a bound is stated that nothing in
// the file proves, and that therefore counts for nothing.
func (p *pool) checkPlankBound(t *tally) (certified bool) {
	certified = true
	if p.entry != nil && p.entry.LowerBound != nil {
		claim := stated{*p.entry.LowerBound, p.entry.Certificate, p.entry.Searched}
		certified = p.checkStated(len(p.stock), claim, t)
	}
	for i, f := range p.floors {
		if f.entry.LowerBound == nil {
			continue
		}
		alone := *p
		alone.rooms, alone.floors = p.rooms[i:i+1], p.floors[i:i+1]
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
	courses := p.courses()
	long, wide, uniform := p.size()
	proven := p.areaBound(long, wide)
	if uniform {
		proven = max(proven, capacityBound(courses, long, wide, p.kerf()))
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
		t.want(true, where, "", "", "")
		return true
	case s.certificate == nil || s.searched:
		return false
	}
	t.want(false, where, fmt.Sprintf("%d stated", s.bound), fmt.Sprintf("%d proven", proven), "the certificate proves less than the bound")
	return true
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

// courses is all rows of the pool's rooms. Planks without handed sides may be
// ripped from either edge.
func (p *pool) courses() []course {
	var all []course
	handed := p.handed()
	for _, f := range p.floors {
		if !f.sound {
			continue
		}
		for _, one := range f.courses() {
			if !handed {
				one.edges = "none"
			}
			all = append(all, one)
		}
	}
	return all
}

func (f *floor) courses() []course {
	var all []course
	needs := f.needs()
	for _, s := range f.segments {
		row := course{length: s.length, width: math.MaxInt64, leastEnd: f.entry.Rules.LeastEnd}
		near, far := true, true
		for _, i := range s.pieces {
			row.width = min(row.width, f.entry.Pieces[i].leastWidth(f.bounds[i]))
			near, far = near && needs[i].near, far && needs[i].far
		}
		switch {
		case near && far:
			row.edges = "both"
		case near:
			row.edges = "near"
		case far:
			row.edges = "far"
		default:
			row.edges = "none"
		}
		all = append(all, row)
	}
	return all
}

// leastWidth is the least extent of the piece across the row anywhere along it.
func (p *pieceEntry) leastWidth(b box) length {
	if len(p.At) == 4 && p.At.loop().axisParallel() {
		return b.height()
	}
	stops := make([]length, 0, len(p.At))
	for _, q := range p.At {
		stops = append(stops, q.x)
	}
	slices.Sort(stops)
	stops = slices.Compact(stops)
	least := math.Inf(1)
	for i := 1; i < len(stops); i++ {
		least = math.Min(least, p.At.extent(float64(stops[i-1]), float64(stops[i])))
	}
	return length(least)
}

// extent is the least height of a ring between two successive stops.
func (r ring) extent(from, to float64) float64 {
	lowFrom, lowTo := math.Inf(1), math.Inf(1)
	highFrom, highTo := math.Inf(-1), math.Inf(-1)
	for i, p := range r.loop() {
		next := r[(i+1)%len(r)]
		q := spot{float64(next.x), float64(next.y)}
		if math.Min(p.x, q.x) > from || math.Max(p.x, q.x) < to || p.x == q.x {
			continue
		}
		at := func(x float64) float64 { return p.y + (q.y-p.y)*(x-p.x)/(q.x-p.x) }
		lowFrom, lowTo = math.Min(lowFrom, at(from)), math.Min(lowTo, at(to))
		highFrom, highTo = math.Max(highFrom, at(from)), math.Max(highTo, at(to))
	}
	return math.Min(highFrom-lowFrom, highTo-lowTo)
}

// sideBySide tells whether any two of the rows could be ripped from one plank:
// then planks cannot be counted by their lengths alone.
func sideBySide(rows []course, wide, kerf length) bool {
	least := map[string][]length{} // the two narrowest by the edge they need
	for _, r := range rows {
		edges := r.edges
		if edges == "both" {
			if r.width >= wide {
				continue
			}
			edges = "none" // a narrow part of it might be moved
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
// width.
func capacityBound(rows []course, long, wide, kerf length) int64 {
	best := int64(0)
	for _, kind := range []string{"near", "far", "wide"} {
		var counted []course
		for _, r := range rows {
			if r.edges == "both" && r.width >= wide || r.edges == kind || kind == "wide" && 2*r.width+kerf > wide {
				counted = append(counted, r)
			}
		}
		if sideBySide(counted, wide, kerf) {
			continue
		}
		best = max(best, capacity(counted, long, kerf))
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
	counted, why := countedCourses(e.Rows, courses, p.handed())
	if why != "" {
		return 0, why
	}
	all := slices.Concat(counted...)
	if sideBySide(all, wide, v.kerf) {
		return 0, "the certificate counts two rows that one plank can give side by side"
	}
	if !p.handed() {
		// Values of off-cuts rest on handed ends; without them only capacity counts.
		return capacity(all, long, v.kerf), ""
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
func countedCourses(rows []certifiedRow, courses []course, handed bool) ([][]course, string) {
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
		k := kind{row.Length, row.Edges}
		switch {
		case !handed:
			k.edges = "none"
		case k.edges == "":
			k.edges = "both"
		}
		if row.Count < 0 || row.Count > int64(len(have[k])) {
			return nil, fmt.Sprintf("the certificate counts %d rows of %s, the floors have %d", row.Count, row.Length.mm(), len(have[k]))
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
	end := max(1, v.leastEnd)
	// Both ends cut anew, the row's rest shared between them.
	least := v.leastOf(end, r-end, v.long-v.kerf-r, (q+1)*v.plank)
	if long > v.long {
		return min(least, v.leastOf(max(r, end), min(v.long, r+v.long-end), -r-v.kerf, q*v.plank))
	}
	return min(least, v.leastOf(long, v.long, -long-v.kerf, 0))
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
