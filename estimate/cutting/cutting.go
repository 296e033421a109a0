// Package cutting gathers the lengths that are cut from stock into pools, as
// far as off-cuts are shared, and has every pool's cutting planned.
package cutting

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/parallel"
	"laybill/estimate/quantity"
	"laybill/estimate/trim"
)

// LoosePlace is the place of the pool of loose lengths.
const LoosePlace = "loose lengths"

// Pool is the lengths of one trim or film that are cut from common stock.
type Pool struct {
	Product *job.Product
	Place   string
	Kerf    measure.Length
	Stocks  []Stock // what the plan's bars are cut from, see trim.Bar.Stock
	Pieces  []Piece // by room, wall and length
	Plan    trim.Plan
	Faults  []Fault

	leastUseful measure.Length
}

// Piece is one length to be cut, with the run it belongs to: a run longer than
// the stock is cut as several pieces.
type Piece struct {
	Run    quantity.Length
	Length measure.Length
	Part   int // from 1; 0 when the run is one piece
	Parts  int
}

// Fault is a length that is not cut: longer than its stock and not to be
// joined, or no longer than a saw cut is wide.
type Fault struct {
	Run      quantity.Length
	TooShort bool
	Text     string
}

// Plan cuts every length of a takeoff. Off-cuts of trims are shared as far as the
// job says; rolls of film are carried as far as packs are. Pools that want the
// same cuts share one plan; distinct ones are planned side by side, and done is
// told how many are. Remnants go to the pools of their trim in the order of
// places, so those are planned one after the other. The error is the context's.
func Plan(ctx context.Context, j *job.Job, lengths []quantity.Length, done func(finished, total int)) ([]Pool, error) {
	pools := gather(j, lengths)
	batches := batchesOf(j, pools)
	err := parallel.Each(ctx, len(batches), func(i int) { batches[i].solve(pools) },
		func(finished int) { done(finished, len(batches)) })
	return pools, err
}

func gather(j *job.Job, lengths []quantity.Length) []Pool {
	type key struct{ product, place string }
	at := map[key]int{}
	var pools []Pool
	for _, length := range lengths {
		product := length.Product
		if product.LengthOf != nil {
			product = product.LengthOf
		}
		k := key{product.Code, place(length, j.Settings.Sharing, j.Settings.PackRounding)}
		i, known := at[k]
		if !known {
			i = len(pools)
			at[k] = i
			pools = append(pools, Pool{Product: product, Place: k.place, Kerf: kerf(product), Stocks: stocksOf(j, product), leastUseful: j.Settings.LeastUseful})
		}
		pools[i].add(length)
	}
	slices.SortStableFunc(pools, func(a, b Pool) int {
		return cmp.Or(cmp.Compare(a.Product.Code, b.Product.Code), cmp.Compare(a.Place, b.Place))
	})
	return pools
}

func place(length quantity.Length, level, rolls job.Level) string {
	switch {
	case length.Room == nil:
		return LoosePlace
	case length.Product.Kind == job.Film:
		return length.Room.Place(rolls)
	}
	return length.Room.Place(level)
}

// kerf is the saw's; film is cut with a knife.
func kerf(p *job.Product) measure.Length {
	if p.Kind == job.Film {
		return 0
	}
	return p.Kerf
}

// add puts a length into the pool, split where it is longer than the stock.
// Parts of film overlap by the film's overlap; parts of trim meet.
func (p *Pool) add(run quantity.Length) {
	stock := p.longest()
	if run.Length <= p.Kerf {
		p.Faults = append(p.Faults, Fault{Run: run, TooShort: true, Text: fmt.Sprintf("%s of %s is not longer than the saw cut of %s",
			p.Product.Code, run.Length.Format(measure.MM), p.Kerf.Format(measure.MM))})
		return
	}
	if run.Length <= stock {
		p.Pieces = append(p.Pieces, Piece{Run: run, Length: run.Length})
		return
	}
	parts := p.parts(run)
	if parts == nil {
		p.Faults = append(p.Faults, Fault{Run: run, Text: fmt.Sprintf("%s of %s is longer than its stock of %s",
			p.Product.Code, run.Length.Format(measure.MM), stock.Format(measure.MM))})
		return
	}
	for i, length := range parts {
		p.Pieces = append(p.Pieces, Piece{Run: run, Length: length, Part: i + 1, Parts: len(parts)})
	}
}

func (p *Pool) parts(run quantity.Length) []measure.Length {
	switch {
	case run.Whole:
		return nil
	case p.Product.Kind == job.Film:
		return filmParts(run.Length, p.Product.Length, p.Product.Overlap)
	}
	return trim.Split(run.Length, p.longest(), p.Product.LeastEnd)
}

// filmParts cuts a strip longer than the roll into whole rolls and a rest, each
// overlapping the one before.
func filmParts(strip, roll, overlap measure.Length) []measure.Length {
	var parts []measure.Length
	for strip > roll {
		parts = append(parts, roll)
		strip -= roll - overlap
	}
	return append(parts, strip)
}

// solve plans the pool. A length that no stock gives has been sorted out before,
// so a fault of the order is one of the program.
func (p *Pool) solve() {
	plan, faults := trim.Solve(p.Order())
	if len(faults) > 0 {
		panic(fmt.Sprintf("cutting: %s of %s cannot be cut: %s", p.Product.Code, p.Place, faults[0].Reason))
	}
	p.Plan = plan
}

// Order is what the pool asks of its stock: its pieces at the least cost, or
// from the fewest bars where there is one length to buy.
func (p *Pool) Order() trim.Order {
	order := trim.Order{Kerf: p.Kerf, Cuts: p.cuts(), LeastUseful: p.leastUseful}
	for _, stock := range p.Stocks {
		order.Stocks = append(order.Stocks, trim.Stock{Length: stock.Length, Price: stock.Price, Limit: stock.Limit})
	}
	return order
}

func (p *Pool) cuts() []trim.Cut {
	lengths := make([]measure.Length, len(p.Pieces))
	for i, piece := range p.Pieces {
		lengths[i] = piece.Length
	}
	slices.Sort(lengths)
	var cuts []trim.Cut
	for i := len(lengths) - 1; i >= 0; i-- {
		if n := len(cuts); n > 0 && cuts[n-1].Length == lengths[i] {
			cuts[n-1].Count++
			continue
		}
		cuts = append(cuts, trim.Cut{Length: lengths[i], Count: 1})
	}
	return cuts
}

// Bars is the number of bars of all stocks that the pool's plan cuts.
func (p *Pool) Bars() int {
	n := 0
	for _, bar := range p.Plan.Bars {
		n += bar.Count
	}
	return n
}

// BarsOf is the number of bars of one stock and the length of all their cuts.
func (p *Pool) BarsOf(stock int) (bars int, cuts measure.Length) {
	for _, bar := range p.Plan.Bars {
		if bar.Stock != stock {
			continue
		}
		bars += bar.Count
		for _, cut := range bar.Cuts {
			cuts += cut * measure.Length(bar.Count)
		}
	}
	return bars, cuts
}

// Laid is the length of all pieces.
func (p *Pool) Laid() measure.Length {
	var total measure.Length
	for _, piece := range p.Pieces {
		total += piece.Length
	}
	return total
}
