package proof

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// stretch is a length of wall between corners and openings, or the side of an
// opening that skirting turns into.
type stretch struct {
	wall        int
	from        length
	length      length
	reveal      bool
	left, right corner // as seen facing the wall
}

// corner is where two stretches meet: how far the wall turns there, in radians,
// to the left in an inside corner. met is false where a stretch ends by itself.
type corner struct {
	met  bool
	turn float64
}

// checkLengths lays the pieces back along the walls and finds every piece in the
// bars.
func (c *checker) checkLengths() {
	c.checkRuns(c.claim(claimRuns))
	cuts := c.claim(claimCuts)
	if len(c.f.Lengths) == 0 {
		cuts.remark = "the file has no lengths"
		return
	}
	c.checkCuts(cuts)
}

// coverings are the pieces of one product that are measured alike in one room.
type coverings struct {
	room    *roomEntry
	product string
	by      string
	pieces  []*lengthEntry
}

func (c *checker) checkRuns(t *tally) {
	kerfs := c.kerfs()
	rules := map[string]cornerEntry{}
	for _, rule := range c.f.Corners {
		rules[rule.Product] = rule
	}
	groups := c.gatherLengths(t)
	c.checkProfiled(t, groups)
	for _, g := range groups {
		if !g.room.drawn() {
			continue
		}
		where := g.room.sign() + ": " + g.product
		switch g.by {
		case "skirting", "runs":
			g.checkRuns(t, where, rules[g.product], kerfs[g.product])
		case "perimeter":
			g.checkWalls(t, where)
		case "openings":
			g.checkOpenings(t, where)
		case "expansion profiles":
			g.checkProfiles(t, where)
		}
	}
}

// kerfs are the saw cuts of the products that are cut to length.
func (c *checker) kerfs() map[string]length {
	kerfs := map[string]length{}
	for _, e := range c.f.Trims {
		kerfs[e.Product] = e.Kerf
	}
	for _, e := range c.f.Choices {
		kerfs[e.Product] = e.Kerf
	}
	return kerfs
}

// gatherLengths sorts the pieces of rooms by room, product and measure, in the
// order of the file.
func (c *checker) gatherLengths(t *tally) []*coverings {
	type key struct {
		room        *roomEntry
		product, by string
	}
	at := map[key]*coverings{}
	var all []*coverings
	covering := func(k key) *coverings {
		if at[k] == nil {
			at[k] = &coverings{room: k.room, product: k.product, by: k.by}
			all = append(all, at[k])
		}
		return at[k]
	}
	for i := range c.f.Lengths {
		e := &c.f.Lengths[i]
		if e.Room == nil {
			continue
		}
		room := c.roomAt(e.place)
		if !t.want(room != nil && room.drawn(), e.sign(), "no such room", "a room", "a piece for a room that is not in the file") {
			continue
		}
		g := covering(key{room, e.Product, e.For})
		g.pieces = append(g.pieces, e)
	}
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		for _, o := range room.Openings {
			for _, product := range o.Profiles {
				covering(key{room, product, "openings"})
			}
		}
	}
	cut := c.cutProducts()
	for i := range c.f.Quantities {
		q := &c.f.Quantities[i]
		room, product := c.roomAt(q.place), cut[q.Item]
		if along := q.MeasuredBy == "skirting" || q.MeasuredBy == "runs" || q.MeasuredBy == "perimeter"; along && room != nil && product != "" {
			covering(key{room, product, q.MeasuredBy})
		}
	}
	return all
}

// cutProducts are the products that are cut to length, by the products they are
// bought as.
func (c *checker) cutProducts() map[string]string {
	cut := map[string]string{}
	for i := range c.f.Materials {
		if m := &c.f.Materials[i]; m.Unit == "length" {
			cut[m.Product] = m.Product
		}
	}
	for i := range c.f.Lengths {
		cut[c.f.Lengths[i].Product] = c.f.Lengths[i].Product
	}
	for i := range c.f.Choices {
		for _, stock := range c.f.Choices[i].Stocks {
			cut[stock.Product] = c.f.Choices[i].Product
		}
	}
	return cut
}

// checkProfiled checks that a room whose fields meet has pieces of a profile to
// stand between them.
func (c *checker) checkProfiled(t *tally, groups []*coverings) {
	profiled := map[*roomEntry]bool{}
	for _, g := range groups {
		if g.by == "expansion profiles" {
			profiled[g.room] = true
		}
	}
	for i := range c.f.Rooms {
		if room := &c.f.Rooms[i]; len(room.Fields) > 1 && room.drawn() {
			between := room.profileLength()
			t.want(between == 0 || profiled[room], room.sign(), "no profile", between.mm(), "no profile stands between the room's fields")
		}
	}
}

// checkRuns compares the pieces with the stretches of the room's walls that are
// longer than a saw cut.
func (g *coverings) checkRuns(t *tally, where string, rule cornerEntry, kerf length) {
	want := slices.DeleteFunc(stretches(g.room, g.by == "skirting"), func(s stretch) bool { return rule.whole(s) <= kerf })
	got := wholeRuns(g.pieces)
	if g.room.countedDoors() > 0 {
		g.checkSum(t, where, want, got, kerf)
		return
	}
	if !t.want(len(got) == len(want), where, fmt.Sprint(len(got), " runs"), fmt.Sprint(len(want), " runs"), "not the stretches of wall between corners and openings") {
		return
	}
	allowed := length(0)
	if g.room.slanted() {
		allowed = slack
	}
	for i, run := range got {
		s := want[i]
		place := fmt.Sprintf("%s, wall %d", where, s.wall)
		left, right := rule.end(s.left, true), rule.end(s.right, false)
		whole := rule.whole(s)
		t.want(run.wall == s.wall && run.reveal == s.reveal, place, fmt.Sprint("wall ", run.wall), fmt.Sprint("wall ", s.wall), "a piece for another stretch of wall")
		t.want(near(run.covers, s.length, allowed), place, run.covers.mm(), s.length.mm(), "not the length of the stretch of wall")
		t.want(near(run.cut, whole, 2*allowed), place, run.cut.mm(), whole.mm(), "the pieces are not the run and what its ends add")
		t.want(run.ends == [2]string{left, right}, place, fmt.Sprint(run.ends), fmt.Sprint([2]string{left, right}), "ends cut for other corners")
	}
}

// checkSum compares the sums only: nobody knows where a door is that is only
// counted.
func (g *coverings) checkSum(t *tally, where string, want []stretch, got []cutRun, kerf length) {
	total, covered := g.room.runLength(want), length(0)
	for _, run := range got {
		covered += run.covers
	}
	t.want(near(covered, total, slack+kerf), where, covered.mm(), total.mm(), "the runs are not the walls less the doors")
}

// runLength is the length of the room's stretches less the doors that are only
// counted.
func (r *roomEntry) runLength(all []stretch) length {
	total := -r.countedDoors()
	for _, s := range all {
		total += s.length
	}
	return max(0, total)
}

func (r *roomEntry) countedDoors() length {
	total := length(0)
	for _, o := range r.Openings {
		if o.Wall == 0 {
			total += o.Width
		}
	}
	return total
}

func near(a, b, allowed length) bool { return a-b <= allowed && b-a <= allowed }

func (g *coverings) checkWalls(t *tally, where string) {
	walls, got := g.room.walls(), wholeRuns(g.pieces)
	if !t.want(len(got) == len(walls), where, fmt.Sprint(len(got), " pieces"), fmt.Sprint(len(walls), " walls"), "not one run a wall") {
		return
	}
	for i, run := range got {
		t.want(near(run.covers, walls[i].length(), slack) && near(run.cut, run.covers, 0), where, run.cut.mm(), walls[i].length().mm(), "not as long as the wall")
	}
}

// checkOpenings finds an opening for every piece, each once, and a piece for
// every opening that names the product.
func (g *coverings) checkOpenings(t *tally, where string) {
	left := slices.DeleteFunc(slices.Clone(g.room.Openings), func(o openingEntry) bool { return !slices.Contains(o.Profiles, g.product) })
	for _, e := range g.pieces {
		i := slices.IndexFunc(left, func(o openingEntry) bool { return o.Wall == e.Wall && o.Width == e.Length })
		if t.want(i >= 0, where, fmt.Sprintf("%s in wall %d", e.Length.mm(), e.Wall), "an opening", "a profile for no opening of the room") {
			left = slices.Delete(left, i, i+1)
		}
	}
	for _, o := range left {
		t.want(false, where, "no profile", o.Width.mm(), fmt.Sprintf("the profile of an opening in wall %d is missing", o.Wall))
	}
}

// checkProfiles compares the sums only: where profiles cross, either may run on.
func (g *coverings) checkProfiles(t *tally, where string) {
	covered, cut := length(0), length(0)
	for _, run := range wholeRuns(g.pieces) {
		covered, cut = covered+run.covers, cut+run.cut
	}
	between := g.room.profileLength()
	t.want(covered == between && cut == between, where, cut.mm(), between.mm(), "not the length of the sides that fields have in common")
}

// cutRun is a run put together from its parts.
type cutRun struct {
	wall        int
	reveal      bool
	covers, cut length
	ends        [2]string
}

func wholeRuns(pieces []*lengthEntry) []cutRun {
	var runs []cutRun
	for _, e := range pieces {
		ends := [2]string{"square", "square"}
		if len(e.Ends) == 2 {
			ends = [2]string(e.Ends)
		}
		if e.Part > 1 && len(runs) > 0 {
			last := &runs[len(runs)-1]
			last.cut += e.Length
			last.ends[1] = ends[1]
			continue
		}
		runs = append(runs, cutRun{wall: e.Wall, reveal: e.Return, covers: e.Run, cut: e.Length, ends: ends})
	}
	return runs
}

// end is how a trim's end is cut at a corner.
func (rule cornerEntry) end(at corner, left bool) string {
	switch {
	case rule.Cut == "" || !at.met:
		return "square"
	case at.turn < 0:
		return "outside mitre"
	case rule.Cut == "mitred":
		return "inside mitre"
	case left:
		return "scribed"
	}
	return "square"
}

// whole is the length to be cut for a stretch of wall.
func (rule cornerEntry) whole(s stretch) length {
	return s.length + rule.adds(rule.end(s.left, true), s.left) + rule.adds(rule.end(s.right, false), s.right)
}

// adds is what an end adds to the run.
func (rule cornerEntry) adds(end string, at corner) length {
	switch end {
	case "scribed":
		return rule.Scribing
	case "outside mitre":
		return length(math.Round(float64(rule.Thickness) * math.Tan(-at.turn/2)))
	}
	return 0
}

// leg is one wall of a room, walked with the floor to the left.
type leg struct{ from, to point }

func (l leg) length() length {
	return length(math.Round(math.Hypot(float64(l.to.x-l.from.x), float64(l.to.y-l.from.y))))
}

// turn is the angle from this wall's way into another's, in radians.
func (l leg) turn(next leg) float64 {
	ax, ay := float64(l.to.x-l.from.x), float64(l.to.y-l.from.y)
	bx, by := float64(next.to.x-next.from.x), float64(next.to.y-next.from.y)
	return math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
}

// walls are the room's walls by number.
func (r *roomEntry) walls() []leg {
	outline := r.Outline.anticlockwise(true)
	first := 0
	away := func(p point) float64 { return float64(p.x)*float64(p.x) + float64(p.y)*float64(p.y) }
	for i, p := range outline {
		q := outline[first]
		if cmp.Or(cmp.Compare(away(p), away(q)), cmp.Compare(p.y, q.y), cmp.Compare(p.x, q.x)) < 0 {
			first = i
		}
	}
	walls := make([]leg, len(outline))
	for i := range outline {
		walls[i] = leg{outline[(first+i)%len(outline)], outline[(first+i+1)%len(outline)]}
	}
	return walls
}

// stretches are the room's walls less its openings in walking order, for
// skirting with the sides of openings that it turns into.
func stretches(room *roomEntry, skirting bool) []stretch {
	walls := room.walls()
	var all []stretch
	for number := 1; number <= len(walls); number++ {
		all = append(all, along(room, number, walls[number-1].length(), skirting)...)
	}
	for i := range all {
		s := &all[i]
		next := &all[(i+1)%len(all)]
		wall, following := walls[s.wall-1], s.wall%len(walls)+1
		if s.reveal || next.reveal || s.from+s.length != wall.length() || next.wall != following || next.from != 0 {
			continue
		}
		if turn := wall.turn(walls[following-1]); turn != 0 {
			s.left, next.right = corner{true, turn}, corner{true, turn}
		}
	}
	return all
}

// along cuts one wall at its openings.
func along(room *roomEntry, number int, long length, skirting bool) []stretch {
	var openings []openingEntry
	for _, o := range room.Openings {
		if o.Wall == number {
			openings = append(openings, o)
		}
	}
	slices.SortStableFunc(openings, func(a, b openingEntry) int { return cmp.Compare(a.From, b.From) })
	into := corner{true, -math.Pi / 2}
	var all []stretch
	at, turned := length(0), false
	add := func(to length, turns bool) {
		if to <= at {
			return
		}
		s := stretch{wall: number, from: at, length: to - at}
		if turned {
			s.right = into
		}
		if turns {
			s.left = into
		}
		all = append(all, s)
	}
	for _, o := range openings {
		turns := skirting && o.Return > 0
		open := o.From > at
		add(o.From, turns)
		far := o.From + o.Width
		if turns {
			near := stretch{wall: number, from: o.From, length: o.Return, reveal: true}
			if open {
				near.right = into
			}
			other := stretch{wall: number, from: far, length: o.Return, reveal: true}
			if far < long {
				other.left = into
			}
			all = append(all, near, other)
		}
		at, turned = max(at, far), turns
	}
	add(long, false)
	return all
}

// checkCuts compares the pieces of every pool with the cuts of its bars.
func (c *checker) checkCuts(t *tally) {
	pools := c.poolsOfStocks()
	missing := map[poolName]map[length]int64{}
	count := func(name poolName, l length, n int64) {
		if missing[name] == nil {
			missing[name] = map[length]int64{}
		}
		missing[name][l] += n
	}
	for i := range c.f.Lengths {
		e := &c.f.Lengths[i]
		count(poolName{e.Product, e.Pool}, e.Length, 1)
	}
	for i := range c.f.Trims {
		e := &c.f.Trims[i]
		name := pools.of(e)
		for _, d := range e.demand() {
			count(name, d.length, -d.count)
		}
	}
	for _, name := range sortedPools(missing) {
		lengths := make([]length, 0, len(missing[name]))
		for l := range missing[name] {
			lengths = append(lengths, l)
		}
		slices.Sort(lengths)
		for _, l := range lengths {
			n := missing[name][l]
			t.want(n == 0, name.sign(), fmt.Sprintf("%d of %s too few", n, l.mm()), "as many cuts as pieces", "pieces and cuts of the bars differ")
		}
	}
}

// poolsOfStocks are the pools of pieces that trims with several stocks are cut
// for, by the pools that list their bars.
type poolsOfStocks map[poolName]poolName

func (c *checker) poolsOfStocks() poolsOfStocks {
	pools := poolsOfStocks{}
	for i := range c.f.Choices {
		choice := &c.f.Choices[i]
		for _, stock := range choice.Stocks {
			pools[poolName{stock.Product, stock.Pool}] = poolName{choice.Product, choice.Pool}
		}
	}
	return pools
}

// of is the pool whose pieces the bars of an entry are cut into.
func (p poolsOfStocks) of(e *trimEntry) poolName {
	name := poolName{e.Product, e.Pool}
	if pool, chosen := p[name]; chosen {
		return pool
	}
	return name
}

func sortedPools[V any](m map[poolName]V) []poolName {
	names := make([]poolName, 0, len(m))
	for name := range m {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b poolName) int { return cmp.Compare(a.sign(), b.sign()) })
	return names
}
