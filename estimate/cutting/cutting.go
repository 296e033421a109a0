// Package cutting gathers the lengths that are cut from stock into pools, as
// far as off-cuts are shared, and has every pool's cutting planned.
package cutting

import (
	"cmp"
	"context"
	"fmt"
	"iter"
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

	asked       []asked
	leastUseful measure.Length
}

// asked is a length that the pool is to give, in the lengths it is cut in; nil
// when the plan is to split it.
type asked struct {
	run   quantity.Length
	parts []measure.Length
}

// Piece is one length to be cut, with the run it belongs to: a run longer than
// the stock is cut as several pieces.
type Piece struct {
	Run    quantity.Length
	Length measure.Length
	Part   int // from 1; 0 when the run is one piece
	Parts  int
}

// Ends are the piece's left and right end as seen facing the wall. Of a run in
// parts the first has the run's left end and the last its right one; between
// them the parts are jointed.
func (p Piece) Ends() [2]quantity.End {
	ends := p.Run.Ends
	if p.Part > 1 {
		ends[0] = quantity.End{Cut: quantity.JointCut}
	}
	if p.Part > 0 && p.Part < p.Parts {
		ends[1] = quantity.End{Cut: quantity.JointCut}
	}
	return ends
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
// places, so those are planned one after the other. Plans made before are taken
// from plans. The error is the context's.
func Plan(ctx context.Context, j *job.Job, lengths []quantity.Length, plans *Plans, done func(finished, total int)) ([]Pool, error) {
	pools := gather(j, lengths)
	batches := batchesOf(j, pools)
	err := parallel.Each(ctx, len(batches), func(i int) { batches[i].solve(pools, plans) },
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
	case length.Product.Kind.InStrips():
		return length.Room.Place(rolls)
	}
	return length.Room.Place(level)
}

// kerf is the saw's; film and underlay are cut with a knife.
func kerf(p *job.Product) measure.Length {
	if p.Kind.InStrips() {
		return 0
	}
	return p.Kerf
}

// add puts a length into the pool. A strip longer than its roll is split here,
// parts of film overlap by the film's overlap, those of underlay meet; how a
// trim longer than its stock is split is left to the plan.
func (p *Pool) add(run quantity.Length) {
	stock := p.longest()
	if run.Length <= p.Kerf {
		p.Faults = append(p.Faults, Fault{Run: run, TooShort: true, Text: fmt.Sprintf("%s of %s is not longer than the saw cut of %s",
			p.Product.Code, run.Length.Format(measure.MM), p.Kerf.Format(measure.MM))})
		return
	}
	switch {
	case run.Length <= stock:
		p.asked = append(p.asked, asked{run, []measure.Length{run.Length}})
	case !run.Whole && p.Product.Kind.InStrips():
		p.asked = append(p.asked, asked{run, stripParts(run.Length, p.Product.Length, p.Product.Overlap)})
	case !run.Whole && trim.Split(run.Length, stock, p.Product.LeastEnd) != nil:
		p.asked = append(p.asked, asked{run: run})
	default:
		p.Faults = append(p.Faults, Fault{Run: run, Text: fmt.Sprintf("%s of %s is longer than its stock of %s",
			p.Product.Code, run.Length.Format(measure.MM), stock.Format(measure.MM))})
	}
}

// stripParts cuts a strip longer than the roll into whole rolls and a rest, each
// overlapping the one before.
func stripParts(strip, roll, overlap measure.Length) []measure.Length {
	var parts []measure.Length
	for strip > roll {
		parts = append(parts, roll)
		strip -= roll - overlap
	}
	return append(parts, strip)
}

// keep makes a plan the pool's own: its splits go to the runs in their order.
func (p *Pool) keep(plan trim.Plan) {
	p.Plan = plan
	left := slices.Clone(plan.Runs)
	for _, a := range p.asked {
		if a.parts == nil {
			at := slices.IndexFunc(left, func(s trim.SplitRun) bool { return s.Length == a.run.Length && s.Count > 0 })
			left[at].Count--
			a.parts = left[at].Parts
		}
		p.addPieces(a)
	}
}

func (p *Pool) addPieces(a asked) {
	if len(a.parts) == 1 {
		p.Pieces = append(p.Pieces, Piece{Run: a.run, Length: a.parts[0]})
		return
	}
	for i, length := range a.parts {
		p.Pieces = append(p.Pieces, Piece{Run: a.run, Length: length, Part: i + 1, Parts: len(a.parts)})
	}
}

// Order is what the pool asks of its stock: its pieces at the least cost, or
// from the fewest bars where there is one length to buy.
func (p *Pool) Order() trim.Order {
	order := trim.Order{Kerf: p.Kerf, LeastPart: p.Product.LeastEnd, LeastUseful: p.leastUseful}
	var lengths, runs []measure.Length
	for _, a := range p.asked {
		if a.parts == nil {
			runs = append(runs, a.run.Length)
		}
		lengths = append(lengths, a.parts...)
	}
	for length, n := range counted(lengths) {
		order.Cuts = append(order.Cuts, trim.Cut{Length: length, Count: n})
	}
	for length, n := range counted(runs) {
		order.Runs = append(order.Runs, trim.Run{Length: length, Count: n})
	}
	for _, stock := range p.Stocks {
		order.Stocks = append(order.Stocks, trim.Stock{Length: stock.Length, Price: stock.Price, Limit: stock.Limit})
	}
	return order
}

// counted goes through the lengths, the longest first, with how many there are
// of each.
func counted(lengths []measure.Length) iter.Seq2[measure.Length, int] {
	return func(yield func(measure.Length, int) bool) {
		slices.SortFunc(lengths, func(a, b measure.Length) int { return cmp.Compare(b, a) })
		for from := 0; from < len(lengths); {
			to := from
			for to < len(lengths) && lengths[to] == lengths[from] {
				to++
			}
			if !yield(lengths[from], to-from) {
				return
			}
			from = to
		}
	}
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

// Waste is what is left over of all bars that are cut and not kept, saw cuts
// among it.
func (p *Pool) Waste() measure.Length {
	var total measure.Length
	for _, bar := range p.Plan.Bars {
		left := p.Stocks[bar.Stock].Length
		for _, cut := range bar.Cuts {
			left -= cut
		}
		if bar.Kept {
			left -= bar.Offcut
		}
		total += left * measure.Length(bar.Count)
	}
	return total
}

// Laid is the length of all pieces.
func (p *Pool) Laid() measure.Length {
	var total measure.Length
	for _, piece := range p.Pieces {
		total += piece.Length
	}
	return total
}
