package proof

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// poolName is one off-cut pool of one product.
type poolName struct{ product, pool string }

func (n poolName) sign() string { return fmt.Sprintf("pool %s of %s", n.pool, n.product) }

// pool is the planks that some rooms share.
type pool struct {
	name   poolName
	rooms  []*roomEntry
	floors []*floor // as rooms
	stock  map[int]*stockEntry
	order  []*stockEntry // as in the file
	entry  *poolEntry
}

// planked is a piece with the floor it lies in.
type planked struct {
	floor *floor
	index int
}

func (p planked) piece() *pieceEntry { return &p.floor.entry.Pieces[p.index] }

func (p planked) sign() string { return p.floor.sign() + " " + p.piece().sign() }

type plankClaims struct{ inPlank, kerf, hand, stock, bound, pattern *tally }

// checkPools recounts the planks of every pool. Pools alike plank by plank are
// checked once.
func (c *checker) checkPools() {
	claims := &plankClaims{c.claim(claimInPlank), c.claim(claimKerf), c.claim(claimHand), c.claim(claimStock), c.claim(claimPlankBound), c.inPattern}
	alike := map[string]bool{}
	open := 0 // pools whose bound nothing in the file proves
	for _, p := range c.gatherPools(claims.stock) {
		c.countPool(p, claims.stock)
		key := p.key()
		if !alike[key] {
			alike[key] = p.check(claims)
		} else {
			claims.inPlank.hold(true)
		}
		if !c.checkPlankBound(p, claims.bound) {
			open++
		}
	}
	claims.bound.remark = remarkOpen(open, "pools")
}

func remarkOpen(open int, what string) string {
	if open == 0 {
		return ""
	}
	return fmt.Sprintf("%d %s state a bound that the file does not prove: not certified", open, what)
}

// gatherPools sorts rooms, stock and pool entries by product and pool.
func (c *checker) gatherPools(t *tally) []*pool {
	var pools []*pool
	named := map[poolName]*pool{}
	find := func(name poolName) *pool {
		if named[name] == nil {
			named[name] = &pool{name: name, stock: map[int]*stockEntry{}}
			pools = append(pools, named[name])
		}
		return named[name]
	}
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		if room.Layout == nil || c.floors[*room.Layout] == nil {
			continue
		}
		f := c.floors[*room.Layout]
		if f.racked() {
			continue // cut from no stock
		}
		p := find(poolName{f.entry.Product, room.Pool})
		for _, part := range f.parts {
			p.rooms = append(p.rooms, room)
			p.floors = append(p.floors, part)
		}
	}
	c.report.Planks = len(c.f.Stock)
	for i := range c.f.Stock {
		s := &c.f.Stock[i]
		p := find(poolName{s.Product, s.Pool})
		if !t.hold(s.Length > 0 && s.Width > 0) {
			t.fail(p.plankSign(s), "the plank has no size")
		}
		if !t.hold(p.stock[s.Number] == nil) {
			t.broken(p.plankSign(s), "listed twice", "listed once", "the plank's number is not its own")
			continue
		}
		p.stock[s.Number] = s
		p.order = append(p.order, s)
	}
	for i := range c.f.Pools {
		e := &c.f.Pools[i]
		p := find(poolName{e.Product, e.Pool})
		t.want(p.entry == nil, p.name.sign(), "listed twice", "listed once", "the pool has two entries")
		p.entry = e
	}
	return pools
}

// countPool compares the counts of a pool: its stock, what its layouts say they
// cut first, and its own entry.
func (c *checker) countPool(p *pool, t *tally) {
	first := 0
	for _, f := range p.floors {
		first += f.entry.Planks
	}
	where := p.name.sign()
	t.same(where, fmt.Sprint(first), fmt.Sprint(len(p.stock)), "planks of the layouts and planks in stock")
	if p.entry == nil {
		t.fail(where, "the pool has no entry in pools")
		return
	}
	t.same(where, fmt.Sprint(p.entry.Planks), fmt.Sprint(len(p.stock)), "planks of the pool and planks in stock")
}

// key is the same for pools that are cut alike.
func (p *pool) key() string {
	var text strings.Builder
	fmt.Fprintf(&text, "%q", p.name.product)
	ids := make([]string, len(p.floors))
	for i, f := range p.floors {
		ids[i] = f.entry.ID
	}
	slices.Sort(ids)
	for _, id := range ids {
		fmt.Fprintf(&text, " %q", id)
	}
	for _, s := range p.order {
		fmt.Fprintf(&text, ";%d %d %d", s.Number, s.Length, s.Width)
	}
	return text.String()
}

// check cuts every plank of the pool and tells whether all is well.
func (p *pool) check(claims *plankClaims) bool {
	fails := func() int {
		return claims.inPlank.fails + claims.kerf.fails + claims.hand.fails + claims.stock.fails + claims.pattern.fails
	}
	before := fails()
	cut := map[int][]planked{}
	where := p.name.sign()
	fresh := map[*floor]int{} // planks first cut for each layout
	for _, f := range p.floors {
		if !f.sound {
			continue
		}
		needs := f.needs()
		for i := range f.entry.Pieces {
			piece := planked{f, i}
			number := piece.piece().Stock
			plank := p.stock[number]
			if !claims.stock.hold(plank != nil) {
				claims.stock.broken(where, fmt.Sprintf("plank %d", number), "a plank of the pool",
					piece.sign()+" is cut from a plank the pool has not got")
				continue
			}
			if len(cut[number]) == 0 {
				fresh[f.whole()]++
			}
			cut[number] = append(cut[number], piece)
			if f.blocks() {
				piece.checkInBlock(plank, claims, where)
				continue
			}
			piece.checkInPlank(plank, claims.inPlank, where)
			if f.entry.handed() {
				piece.checkHand(plank, needs[i], claims.hand, where)
			} else {
				piece.checkEitherHand(plank, needs[i], claims.hand, where)
			}
		}
	}
	for _, f := range p.floors {
		if whole := f.whole(); whole.sound && f.number <= 1 {
			claims.stock.same(f.sign(), fmt.Sprint(whole.entry.Planks), fmt.Sprint(fresh[whole]), "planks first cut for the layout")
		}
	}
	for _, plank := range p.order {
		pieces := cut[plank.Number]
		if !claims.stock.hold(len(pieces) > 0) {
			claims.stock.broken(p.plankSign(plank), "no piece", "a piece", "nothing is cut from the plank")
		}
		p.checkCuts(plank, pieces, claims.kerf)
	}
	return fails() == before
}

func (p *pool) plankSign(plank *stockEntry) string {
	return fmt.Sprintf("%s plank %d", p.name.sign(), plank.Number)
}

// checkInPlank checks that the piece's rectangle lies in the plank and is as
// large as the piece.
func (p planked) checkInPlank(plank *stockEntry, t *tally, where string) {
	in, b := p.piece().InStock, p.floor.bounds[p.index]
	if !t.hold(in.x0 >= 0 && in.y0 >= 0 && in.x1 <= plank.Length && in.y1 <= plank.Width) {
		t.broken(where, in.sign(), fmt.Sprintf("%s x %s", plank.Length.mm(), plank.Width.mm()), p.sign()+" reaches beyond its plank")
	}
	off := int64(p.floor.slackOf())
	if !t.hold(abs(int64(in.width()-b.width())) <= off && abs(int64(in.height()-b.height())) <= off) {
		t.broken(where, fmt.Sprintf("%s x %s", in.width().mm(), in.height().mm()), fmt.Sprintf("%s x %s", b.width().mm(), b.height().mm()),
			p.sign()+" is not as large as the part of the plank it is cut from")
	}
}

func (b box) sign() string {
	return fmt.Sprintf("[%s, %s, %s, %s]", b.x0.mm(), b.y0.mm(), b.x1.mm(), b.y1.mm())
}

// needs says which sides of a piece meet another piece and so must be the
// plank's own.
type needs struct{ left, right, near, far bool }

func (f *floor) needs() []needs {
	all := make([]needs, len(f.entry.Pieces))
	for _, m := range f.along {
		all[m.first].right, all[m.second].left = true, true
	}
	for _, m := range f.across {
		all[m.first].far, all[m.second].near = true, true
	}
	return all
}

// checkHand checks that sides that meet another piece are the plank's factory
// sides of the same hand.
func (p planked) checkHand(plank *stockEntry, n needs, t *tally, where string) {
	in := p.piece().InStock
	sides := []struct {
		needed bool
		got    length
		want   length
		side   string
	}{
		{n.left, in.x0, 0, "left end"},
		{n.right, in.x1, plank.Length, "right end"},
		{n.near, in.y0, 0, "near edge"},
		{n.far, in.y1, plank.Width, "far edge"},
	}
	for _, s := range sides {
		if s.needed && !t.hold(s.got == s.want) {
			t.broken(where, s.got.mm(), s.want.mm(),
				fmt.Sprintf("%s from plank %d meets another piece with a %s that is not the factory's", p.sign(), plank.Number, s.side))
		}
	}
}

// checkEitherHand checks that as many ends and edges are the factory's as meet
// other pieces: a plank without hands may be turned half round.
func (p planked) checkEitherHand(plank *stockEntry, n needs, t *tally, where string) {
	in := p.piece().InStock
	directions := []struct {
		needed, got int
		sides       string
	}{
		{count(n.left, n.right), count(in.x0 == 0, in.x1 == plank.Length), "ends"},
		{count(n.near, n.far), count(in.y0 == 0, in.y1 == plank.Width), "edges"},
	}
	for _, d := range directions {
		if !t.hold(d.got >= d.needed) {
			t.broken(where, fmt.Sprintf("%d factory %s", d.got, d.sides), fmt.Sprint(d.needed),
				fmt.Sprintf("%s from plank %d meets other pieces with %s that are not the factory's", p.sign(), plank.Number, d.sides))
		}
	}
}

func count(these ...bool) int {
	n := 0
	for _, is := range these {
		if is {
			n++
		}
	}
	return n
}

// piecesOfPlank is more pieces than any plank gives.
const piecesOfPlank = 256

// checkCuts finds saw cuts, each from side to side of what is left of the plank
// and one kerf wide, that part all pieces.
func (p *pool) checkCuts(plank *stockEntry, pieces []planked, t *tally) {
	if len(pieces) > piecesOfPlank {
		t.fail(p.plankSign(plank), "more pieces than a plank gives")
		return
	}
	if len(pieces) > 0 && pieces[0].floor.blocks() {
		p.checkSawn(plank, pieces, t)
		return
	}
	kerf := length(0)
	rectangles := make([]box, len(pieces))
	for i, piece := range pieces {
		rectangles[i] = piece.piece().InStock
		kerf = max(kerf, piece.floor.entry.Kerf)
	}
	if t.hold(parted(rectangles, kerf)) {
		return
	}
	var some []string
	for _, piece := range pieces[:min(3, len(pieces))] {
		some = append(some, piece.sign()+" "+piece.piece().InStock.sign())
	}
	t.broken(p.plankSign(plank), strings.Join(some, " and "), "apart by "+kerf.mm(), "pieces overlap or leave no room for the saw")
}

// parted tells whether saw cuts part the rectangles. Any cut that parts them is
// as good as another, so the first one found is made.
func parted(rectangles []box, kerf length) bool {
	if len(rectangles) < 2 {
		return true
	}
	if at := cutAt(rectangles, kerf, func(b box) (length, length) { return b.x0, b.x1 }); at > 0 {
		return parted(rectangles[:at], kerf) && parted(rectangles[at:], kerf)
	}
	if at := cutAt(rectangles, kerf, func(b box) (length, length) { return b.y0, b.y1 }); at > 0 {
		return parted(rectangles[:at], kerf) && parted(rectangles[at:], kerf)
	}
	return false
}

// cutAt sorts the rectangles along one direction and returns how many lie
// before the first possible cut, 0 when there is none.
func cutAt(rectangles []box, kerf length, extent func(box) (length, length)) int {
	slices.SortStableFunc(rectangles, func(a, b box) int {
		a0, _ := extent(a)
		b0, _ := extent(b)
		return cmp.Compare(a0, b0)
	})
	_, reach := extent(rectangles[0])
	for i := 1; i < len(rectangles); i++ {
		from, to := extent(rectangles[i])
		if from >= reach+kerf {
			return i
		}
		reach = max(reach, to)
	}
	return 0
}
