package trim

import "math"

// simplex is a sparse revised simplex method for: least cost, columns at least
// 0, rows equal to a right-hand side. The right-hand side is shaken a little
// against stalling. Entering columns are chosen by devex (Forrest, Goldfarb
// 1992). Its numbers only steer: nothing is proven with them.
type simplex struct {
	columns []entries
	cost    []float64
	rhs     []float64

	basis   []int32 // column by position
	where   []int32 // position by column, -1 when not in the basis
	x       []float64
	factor  factor
	y       []float64 // dual price by row
	reduced []float64 // reduced cost by column
	weight  []float64 // devex weight by column
	slack   []int32   // a column with one entry for each row

	pivots int
	alpha  []float64
	rho    []float64
	scrap  []float64
}

const (
	costTolerance  = 1e-9
	pivotTolerance = 1e-8
	feasTolerance  = 1e-9
	maxChanges     = 64
)

func (s *simplex) addColumn(c entries, cost float64) int {
	s.columns = append(s.columns, c)
	s.cost = append(s.cost, cost)
	s.where = append(s.where, -1)
	s.weight = append(s.weight, 1)
	s.reduced = append(s.reduced, cost-s.value(c))
	return len(s.columns) - 1
}

// value is the worth of a column at the dual prices.
func (s *simplex) value(c entries) float64 {
	sum := 0.0
	for k, r := range c.row {
		if int(r) < len(s.y) {
			sum += s.y[r] * c.value[k]
		}
	}
	return sum
}

// start sets the first basis.
func (s *simplex) start(basis []int32) {
	n := len(basis)
	s.basis = basis
	s.x, s.y = make([]float64, n), make([]float64, n)
	s.alpha, s.rho, s.scrap = make([]float64, n), make([]float64, n), make([]float64, n)
	for p, j := range basis {
		s.where[j] = int32(p)
	}
	s.refresh()
}

// refresh factors the basis anew and recomputes all values.
func (s *simplex) refresh() {
	columns := make([]entries, len(s.basis))
	for {
		for p, j := range s.basis {
			columns[p] = s.columns[j]
		}
		broken := s.factor.build(columns)
		if len(broken) == 0 {
			break
		}
		for _, b := range broken {
			s.where[s.basis[b.position]] = -1
			s.basis[b.position] = s.slack[b.row]
			s.where[s.slack[b.row]] = b.position
		}
	}
	s.place()
	s.reprice()
}

// place computes the values of the basic columns.
func (s *simplex) place() {
	copy(s.scrap, s.rhs)
	s.factor.solve(s.scrap, s.x)
}

// reprice computes dual prices and reduced costs.
func (s *simplex) reprice() {
	for p, j := range s.basis {
		s.scrap[p] = s.cost[j]
	}
	s.factor.solveTransposed(s.scrap, s.y)
	clear(s.scrap)
	for j, c := range s.columns {
		if s.where[j] >= 0 {
			s.reduced[j] = 0
			continue
		}
		s.reduced[j] = s.cost[j] - s.value(c)
	}
}

// primal pivots until no column improves, or limit pivots are made.
func (s *simplex) primal(limit int) bool {
	s.resetWeights()
	fresh := false
	for range limit {
		q := s.entering()
		if q < 0 {
			if fresh || len(s.factor.changes) == 0 {
				return true
			}
			s.refresh()
			fresh = true
			continue
		}
		fresh = false
		s.column(q)
		p := s.leaving()
		if p < 0 {
			return true // unbounded: cannot be, costs are not negative
		}
		s.row(p)
		s.pivot(q, p, max(0, s.x[p]/s.alpha[p]))
	}
	return false
}

func (s *simplex) resetWeights() {
	for j := range s.weight {
		s.weight[j] = 1
	}
}

func (s *simplex) entering() int {
	best, score := -1, 0.0
	for j, d := range s.reduced {
		if d < -costTolerance && s.where[j] < 0 {
			if v := d * d / s.weight[j]; v > score {
				best, score = j, v
			}
		}
	}
	return best
}

// column computes alpha, column q in terms of the basis.
func (s *simplex) column(q int) {
	c := s.columns[q]
	for k, r := range c.row {
		s.scrap[r] = c.value[k]
	}
	s.factor.solve(s.scrap, s.alpha)
}

// row computes rho, the row of the inverse at position p.
func (s *simplex) row(p int) {
	s.scrap[p] = 1
	s.factor.solveTransposed(s.scrap, s.rho)
	clear(s.scrap)
}

// leaving is the ratio test in two passes (Harris 1973).
func (s *simplex) leaving() int {
	bound := math.Inf(1)
	for p, a := range s.alpha {
		if a > pivotTolerance {
			bound = min(bound, (max(s.x[p], 0)+feasTolerance)/a)
		}
	}
	best, size := -1, 0.0
	for p, a := range s.alpha {
		if a > pivotTolerance && s.x[p] <= bound*a && a > size {
			best, size = p, a
		}
	}
	return best
}

// pivot brings column q into the basis at position p with value step; alpha and
// rho must be set.
func (s *simplex) pivot(q, p int, step float64) {
	s.pivots++
	pivot := s.alpha[p]
	out := s.basis[p]
	ratio := s.reduced[q] / pivot
	reference := s.weight[q]
	for j := range s.columns {
		if s.where[j] >= 0 {
			continue
		}
		c := &s.columns[j]
		a := 0.0
		for k, r := range c.row {
			a += s.rho[r] * c.value[k]
		}
		if a == 0 {
			continue
		}
		s.reduced[j] -= ratio * a
		a /= pivot
		s.weight[j] = max(s.weight[j], a*a*reference)
	}
	for i, a := range s.alpha {
		if a != 0 {
			s.x[i] -= step * a
		}
	}
	s.x[p] = step
	s.reduced[q], s.reduced[out] = 0, -ratio
	s.weight[out] = max(1, reference/(pivot*pivot))
	s.where[q], s.where[out] = int32(p), -1
	s.basis[p] = int32(q)
	s.factor.replace(p, s.alpha)
	if len(s.factor.changes) >= maxChanges {
		s.refresh()
	}
}

// dual pivots until all values are at least 0 again after a change of the
// right-hand side; it needs reduced costs that are not negative. It returns
// false when there is no such solution or limit pivots did not do.
func (s *simplex) dual(limit int) bool {
	for range limit {
		p := -1
		worst := -1e-8
		for i, x := range s.x {
			if x < worst {
				p, worst = i, x
			}
		}
		if p < 0 {
			return true
		}
		s.row(p)
		q := s.dualEntering()
		if q < 0 {
			return false
		}
		s.column(q)
		if s.alpha[p] > -pivotTolerance {
			if len(s.factor.changes) == 0 {
				return false
			}
			s.refresh()
			continue
		}
		s.pivot(q, p, s.x[p]/s.alpha[p])
	}
	return false
}

// dualEntering is the dual ratio test for the row in rho.
func (s *simplex) dualEntering() int {
	best, ratio, size := -1, math.Inf(1), 0.0
	for j := range s.columns {
		if s.where[j] >= 0 {
			continue
		}
		c := &s.columns[j]
		a := 0.0
		for k, r := range c.row {
			a -= s.rho[r] * c.value[k]
		}
		if a <= pivotTolerance {
			continue
		}
		v := max(s.reduced[j], 0) / a
		if v < ratio-1e-12 || v <= ratio+1e-12 && a > size {
			best, ratio, size = j, v, a
		}
	}
	return best
}
