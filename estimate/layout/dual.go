package layout

import (
	"math"
	"slices"

	"laybill/estimate/measure"
)

// dual searches the best value function for a few kinds of row: a linear
// program over the ways rows may follow one another on off-cuts, solved by
// column generation. A column is a way (how many rows of each kind it serves,
// what it costs in planks); the value function for given prices of the kinds
// finds the way that would pay most. Floats only steer the search: what is
// found is weighed in whole numbers.
type dual struct {
	saw    *saw
	kinds  []kind
	unit   measure.Length // one level of the value function
	top    int            // the level of a whole plank
	moves  []move
	value  []float64
	origin []int32 // of each level: the move that set its value, -1 for the level below
	// The basis of the linear program, a column a kind.
	inverse [][]float64
	amounts []float64
	costs   []float64
}

// move serves one row of a kind: from a level in [lo, hi] to that level plus
// shift, for a cost in planks.
type move struct {
	kind          int
	lo, hi, shift int
	cost          float64
}

const (
	mostLevels  = 2600 // when every length is a whole number of levels
	roughLevels = 800  // when not
	mostSweeps  = 60
	mostColumns = 1000
	pays        = 1 + 1e-6 // what a plank is worth when a way pays
	tiny        = 1e-9
)

// dualWorth is the value function of the dual optimum, nil when none is found.
func (s *saw) dualWorth(rows []measure.Length) worth {
	d := dual{saw: s, kinds: fewer(s.kindsOf(rows))}
	d.setLevels()
	for i := range d.kinds {
		d.addMoves(i)
	}
	d.setBasis()
	prices := d.prices()
	for range mostColumns {
		column, cost, pays := d.negative(prices)
		if !pays {
			d.sweep(prices)
			column, cost, pays = d.payingWay(prices)
		}
		if !pays || !d.enter(column, cost) {
			break
		}
		prices = d.prices()
	}
	return d.rounded(prices)
}

// setLevels takes a unit that measures every length where that gives few
// levels, else a coarser one.
func (d *dual) setLevels() {
	unit := gcd(d.saw.plank.Length, d.saw.kerf)
	unit = gcd(unit, d.saw.leastEnd)
	for _, k := range d.kinds {
		unit = gcd(unit, k.rest)
	}
	if d.saw.plank.Length/unit > mostLevels {
		unit = (d.saw.plank.Length + roughLevels - 1) / roughLevels
	}
	d.unit = unit
	d.top = int(d.saw.plank.Length / unit)
	d.value = make([]float64, d.top+1)
	d.origin = make([]int32, d.top+1)
}

func gcd(a, b measure.Length) measure.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func (d *dual) addMoves(i int) {
	k := d.kinds[i]
	if k.single {
		lo := d.level(k.rest)
		d.moves = append(d.moves, move{i, lo, d.top, -d.level(k.rest + d.saw.kerf), 0})
		return
	}
	short, long := d.saw.starters(k.rest + d.saw.plank.Length)
	d.moves = append(d.moves, move{i, d.level(long.lo), int(long.hi / d.unit), -d.level(k.rest + d.saw.kerf), 0})
	if !short.empty() {
		shift := int((d.saw.plank.Length - d.saw.kerf - k.rest) / d.unit)
		d.moves = append(d.moves, move{i, d.level(short.lo), int(short.hi / d.unit), shift, 1})
	}
}

// level is a length in levels, rounded up.
func (d *dual) level(l measure.Length) int { return int((l + d.unit - 1) / d.unit) }

// sweep computes the least value function that lets no row pay more than its
// kind's price. It ends as soon as a whole plank is worth more than a plank: the
// way that makes it so pays, and the next prices come sooner.
func (d *dual) sweep(prices []float64) {
	for i := range d.value {
		d.value[i], d.origin[i] = 0, -1
	}
	for range mostSweeps {
		changed := false
		for i := range d.moves {
			changed = d.apply(int32(i), prices) || changed
		}
		for i := 1; i <= d.top; i++ {
			if d.value[i-1] > d.value[i] {
				d.value[i], d.origin[i] = d.value[i-1], -1
			}
		}
		if !changed || d.value[d.top] > pays {
			return
		}
	}
}

func (d *dual) apply(i int32, prices []float64) bool {
	m := &d.moves[i]
	gain := prices[m.kind] - m.cost
	changed := false
	raise := func(a int, v float64) {
		if v > d.value[a] {
			d.value[a], d.origin[a] = v, i
			changed = true
		}
	}
	a := m.lo
	for ; a <= m.hi && a+m.shift <= 0; a++ {
		raise(a, gain)
	}
	if a > m.hi {
		return changed
	}
	left := d.value[a+m.shift : m.hi+m.shift+1]
	here := d.value[a : m.hi+1][:len(left)]
	for j, v := range left {
		if v += gain; v > here[j] {
			here[j], d.origin[a+j] = v, i
			changed = true
		}
	}
	return changed
}

// payingWay follows the value function down from a whole plank. A way that
// comes back to a level is a cycle and needs no new plank.
func (d *dual) payingWay(prices []float64) (column []float64, cost float64, pays bool) {
	visited := make([]int, d.top+1) // step at which a level was reached, from 1
	var steps []move
	at := d.top
	cost = 1
	for at > 0 && d.value[at] > 0 {
		if d.origin[at] < 0 {
			at--
			continue
		}
		if first := visited[at]; first > 0 {
			steps = steps[first-1:]
			cost = 0
			break
		}
		steps = append(steps, d.moves[d.origin[at]])
		visited[at] = len(steps)
		at += steps[len(steps)-1].shift
	}
	column = make([]float64, len(d.kinds))
	for _, m := range steps {
		column[m.kind]++
		cost += m.cost
	}
	gain := -cost
	for k, n := range column {
		gain += n * prices[k]
	}
	return column, cost, gain > 1e-7
}

// setBasis starts from serving every row alone from a plank of its own.
func (d *dual) setBasis() {
	n := len(d.kinds)
	d.inverse = make([][]float64, n)
	for i, k := range d.kinds {
		d.inverse[i] = make([]float64, n)
		d.inverse[i][i] = 1
		d.amounts = append(d.amounts, k.count)
		d.costs = append(d.costs, 1)
	}
}

// prices are the dual prices of the kinds at the basis.
func (d *dual) prices() []float64 {
	prices := make([]float64, len(d.kinds))
	for i, cost := range d.costs {
		for j := range prices {
			prices[j] += cost * d.inverse[i][j]
		}
	}
	for j := range prices {
		prices[j] = binary(prices[j])
	}
	return prices
}

// binary rounds a price down to 40 binary places, so that sums of prices are
// exact and ways already in the basis do not seem to pay.
func binary(p float64) float64 { return (math.Floor(p*(1<<40)) - 4) / (1 << 40) }

// negative is the column that serves a kind more often than asked, for a kind
// whose price has fallen below nothing.
func (d *dual) negative(prices []float64) (column []float64, cost float64, pays bool) {
	for i, p := range prices {
		if p < -1e-7 {
			column = make([]float64, len(prices))
			column[i] = -1
			return column, 0, true
		}
	}
	return nil, 0, false
}

// enter takes a column into the basis; false when nothing limits it.
func (d *dual) enter(column []float64, cost float64) bool {
	n := len(column)
	along := make([]float64, n)
	for i := range along {
		for j, c := range column {
			along[i] += d.inverse[i][j] * c
		}
	}
	leaving := -1
	for i := range along {
		if along[i] > tiny && (leaving < 0 || d.amounts[i]*along[leaving] < d.amounts[leaving]*along[i]) {
			leaving = i
		}
	}
	if leaving < 0 {
		return false
	}
	pivot := along[leaving]
	for j := range n {
		d.inverse[leaving][j] /= pivot
	}
	d.amounts[leaving] /= pivot
	for i := range n {
		if i == leaving || along[i] == 0 {
			continue
		}
		for j := range n {
			d.inverse[i][j] -= along[i] * d.inverse[leaving][j]
		}
		d.amounts[i] = max(0, d.amounts[i]-along[i]*d.amounts[leaving])
	}
	d.costs[leaving] = cost
	return true
}

// rounded is the value function of prices in whole weights, the prices lowered
// as far as it takes to keep a whole plank at its weight.
func (d *dual) rounded(prices []float64) worth {
	prices = slices.Clone(prices)
	for range 40 {
		d.sweep(prices)
		if d.value[d.top] <= 1+1e-7 {
			return d.steps()
		}
		for i := range prices {
			prices[i] = binary(prices[i] * 0.995)
		}
	}
	return nil
}

func (d *dual) steps() worth {
	var v worth
	last := int64(0)
	for i, value := range d.value {
		weight := min(plankWeight, int64(value*float64(plankWeight)+0.5))
		if weight > last {
			v = append(v, ValueStep{measure.Length(i) * d.unit, weight})
			last = weight
		}
	}
	return v
}
