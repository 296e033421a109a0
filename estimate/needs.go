package estimate

import (
	"cmp"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/blocks"
	"laybill/estimate/building"
	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// needs gathers what every place needs of every product: planks of the
// layouts with their spares, bars and rolls of the cutting plans, and the
// amounts of everything else.
func (r *Result) needs() []purchase.Need {
	g := gatherer{Result: r, level: r.Job.Settings.PackRounding, at: map[needKey]int{}}
	g.floors()
	for i := range r.Cutting {
		g.cut(&r.Cutting[i])
	}
	for _, demand := range r.Takeoff.Demands {
		g.demand(demand)
	}
	slices.SortStableFunc(g.needs, func(a, b purchase.Need) int {
		return cmp.Or(cmp.Compare(a.Product.Code, b.Product.Code), cmp.Compare(a.Place, b.Place))
	})
	return g.needs
}

type needKey struct{ product, place string }

// gatherer adds up needs by product and place.
type gatherer struct {
	*Result
	level job.Level
	needs []purchase.Need
	at    map[needKey]int
}

func (g *gatherer) need(product *job.Product, place string) *purchase.Need {
	key := needKey{product.Code, place}
	i, known := g.at[key]
	if !known {
		i = len(g.needs)
		g.at[key] = i
		need := purchase.Need{Product: product, Place: place, Sold: new(big.Rat)}
		if n := len(g.Consignments); n > 1 {
			need.By = make([]*big.Rat, n)
			for i := range need.By {
				need.By[i] = new(big.Rat)
			}
		}
		g.needs = append(g.needs, need)
	}
	return &g.needs[i]
}

// sell adds sold units to a need, for one consignment.
func sell(need *purchase.Need, consignment int, sold *big.Rat) {
	need.Sold.Add(need.Sold, sold)
	if need.By != nil {
		need.By[consignment].Add(need.By[consignment], sold)
	}
}

// place is where the room's packs are opened; what belongs to no room is
// bought with the job.
func (g *gatherer) place(room *building.Room) string {
	if room == nil {
		return ""
	}
	return room.Place(g.level)
}

// floors needs the planks of every floor and repair, and on top of each place's sum the
// spares for breakage and attic stock, each rounded up to whole planks of what
// has come with the consignments so far.
func (g *gatherer) floors() {
	counts := planksNeeded{}
	for i := range g.Floors {
		floor := &g.Floors[i]
		place := g.place(floor.Rooms[0])
		need := g.need(floor.Product, place)
		key := needKey{floor.Product.Code, place}
		for consignment, n := range g.planksBy(floor) {
			counts.add(key, consignment, n)
		}
		for slot := range floor.Plan.Layouts {
			need.Laid += int64(floor.Plan.Layouts[slot].Area())
		}
	}
	g.repairs(counts)
	for i := range g.needs {
		need := &g.needs[i]
		p := need.Product
		var cut, attic, spare, all planks
		bought := int64(0)
		for consignment, n := range counts[needKey{p.Code, need.Place}] {
			before, boughtBefore := all, bought
			cut = cut.plus(n)
			attic = cut.percentUp(g.Job.Settings.AtticPercent)
			spare = cut.percentUp(g.Job.Settings.BreakagePercent).plus(attic)
			all = cut.plus(spare)
			bought = all.bought(p)
			sell(need, consignment, soldPieces(p, bought-boughtBefore))
			if styleOf(p).Packs != blocks.Alike {
				need.Lefts, need.Rights = append(need.Lefts, all.lefts-before.lefts), append(need.Rights, all.rights-before.rights)
			}
		}
		plank := int64(p.Length.Times(p.Width))
		need.Used, need.Spare, need.Attic = cut.sum()*plank, spare.sum()*plank, attic.sum()*plank
	}
}

// repairs needs the planks that repairs take beyond those on hand.
func (g *gatherer) repairs(counts planksNeeded) {
	for _, repair := range g.Building.Repairs {
		if repair.NewPlanks() == 0 {
			continue
		}
		place := g.place(repair.At)
		g.need(repair.Product, place).Laid += int64(repair.AreaOf(repair.NewPieces()))
		counts.add(needKey{repair.Product.Code, place}, g.ConsignmentOf(repair.At), planks{rows: int64(repair.NewPlanks())})
	}
}

// planksNeeded counts planks by product and place, and there by consignment.
type planksNeeded map[needKey][]planks

func (c planksNeeded) add(key needKey, consignment int, n planks) {
	for len(c[key]) <= consignment {
		c[key] = append(c[key], planks{})
	}
	c[key][consignment] = c[key][consignment].plus(n)
}

// planks is a number of planks by their hand: those of rows have none.
type planks struct{ rows, lefts, rights int64 }

func onePlank(h layout.Hand) planks {
	switch h {
	case layout.Left:
		return planks{lefts: 1}
	case layout.Right:
		return planks{rights: 1}
	}
	return planks{rows: 1}
}

func (n planks) plus(m planks) planks {
	return planks{n.rows + m.rows, n.lefts + m.lefts, n.rights + m.rights}
}

func (n planks) sum() int64 { return n.rows + n.lefts + n.rights }

// percentUp is a percentage of each hand.
func (n planks) percentUp(percent decimal.Decimal) planks {
	return planks{percentUp(n.rows, percent), percentUp(n.lefts, percent), percentUp(n.rights, percent)}
}

// bought is the pieces to buy, so that lefts and rights are both enough.
func (n planks) bought(p *job.Product) int64 {
	return n.rows + int64(styleOf(p).Bought(int(n.lefts), int(n.rights), p.PiecesPerPack))
}

// percentUp is a percentage of n, rounded up to a whole number.
func percentUp(n int64, percent decimal.Decimal) int64 {
	return decimal.NewFromInt(n).Mul(percent).Shift(-2).Ceil().IntPart()
}

// soldPieces is how many sold units hold n pieces. Review has made sure that the
// product's row says how many pieces a sold unit has.
func soldPieces(p *job.Product, n int64) *big.Rat {
	return new(big.Rat).Quo(big.NewRat(n, 1), purchase.PiecesPerSold(p))
}

// cut needs the bars or rolls of a cutting plan; remnants are there already.
func (g *gatherer) cut(pool *cutting.Pool) {
	for i, stock := range pool.Stocks {
		bars, cuts := pool.BarsOf(i)
		if bars == 0 || stock.Product == nil {
			continue
		}
		need := g.need(stock.Product, g.place(pool.Pieces[0].Run.Room))
		for consignment, n := range g.barsBy(pool, i) {
			sell(need, consignment, soldPieces(stock.Product, n))
		}
		unit := int64(1)
		if purchase.UnitOf(stock.Product) == purchase.ByArea {
			unit = int64(stock.Product.Width)
		}
		need.Used += int64(bars) * int64(stock.Length) * unit
		need.Laid += int64(cuts) * unit
	}
}

// demand needs an amount of a product that is neither laid by pieces nor cut.
// Goods accounted by the sold unit are used up by whole units.
func (g *gatherer) demand(d quantity.Demand) {
	need := g.need(d.Product, g.place(d.Room))
	sell(need, g.ConsignmentOf(d.Room), d.Sold)
	if purchase.UnitOf(d.Product) == purchase.BySoldUnit {
		need.Used = ceil(need.Sold)
		need.Laid = need.Used
		return
	}
	need.Used += d.Used
	need.Laid += d.Laid
	if d.Product.Mixed() {
		spare := percentUp(d.Used, g.Job.Settings.BreakagePercent) + percentUp(d.Used, g.Job.Settings.AtticPercent)
		need.Spare += spare
		sell(need, g.ConsignmentOf(d.Room), new(big.Rat).Mul(d.Sold, big.NewRat(spare, d.Used)))
	}
}

func ceil(r *big.Rat) int64 {
	quotient, remainder := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	if remainder.Sign() > 0 {
		quotient.Add(quotient, big.NewInt(1))
	}
	return quotient.Int64()
}
