package trim

import "math"

// simplex is a sparse revised simplex method for: least cost, columns at least
// 0, rows equal to a right-hand side. The right-hand side is shaken a little
// against stalling. Entering columns are chosen by devex (Forrest, Goldfarb
// 1992). Its numbers only steer: nothing is proven with them. Here and in factor
// a product is rounded by float64() before it is added: a processor that fuses
// the two would otherwise find another plan.
type simplex struct {
	first []int32   // by column: where its entries begin; one more at the end
	row   []int32   // of each entry
	entry []float64 // the entries
	byRow []entries // the same by row: columns and values
	cost  []float64
	rhs   []float64

	basis   []int32 // column by position
	where   []int32 // position by column, -1 when not in the basis
	x       []float64
	factor  factor
	y       []float64 // dual price by row
	reduced []float64 // reduced cost by column
	weight  []float64 // devex weight by column
	slack   []int32   // a column with one entry for each row

	alpha   []float64
	rho     []float64
	scrap   []float64
	line    []float64 // rho times the columns, for those in touched
	touched []int32
	pivots  int // made so far
}

const (
	costTolerance  = 1e-9
	pivotTolerance = 1e-8
	feasTolerance  = 1e-9
	maxChanges     = 64
	sparseShare    = 8 // rows of the inverse with fewer than one entry in so many are used by rows
)

// column is the entries of column j.
func (s *simplex) column(j int) entries {
	from, to := s.first[j], s.first[j+1]
	return entries{s.row[from:to], s.entry[from:to]}
}

func (s *simplex) columns() int { return len(s.cost) }

func (s *simplex) addColumn(c entries, cost float64) int {
	j := len(s.cost)
	s.append(c)
	s.cost = append(s.cost, cost)
	s.where = append(s.where, -1)
	s.weight = append(s.weight, 1)
	s.reduced = append(s.reduced, cost-s.value(c))
	return j
}

// append stores the entries of one more column.
func (s *simplex) append(c entries) {
	if len(s.first) == 0 {
		s.first = append(s.first, 0)
	}
	j := int32(len(s.first) - 1)
	s.row = append(s.row, c.row...)
	s.entry = append(s.entry, c.value...)
	s.first = append(s.first, int32(len(s.row)))
	s.line = append(s.line, 0)
	for k, r := range c.row {
		for int(r) >= len(s.byRow) {
			s.byRow = append(s.byRow, entries{})
		}
		s.byRow[r].row = append(s.byRow[r].row, j)
		s.byRow[r].value = append(s.byRow[r].value, c.value[k])
	}
}

// retain drops the columns that are not to be kept. None of the basis may be
// dropped.
func (s *simplex) retain(keep []bool) {
	first, row, entry := s.first, s.row, s.entry
	s.first, s.row, s.entry = nil, nil, nil
	s.line, s.touched = s.line[:0], s.touched[:0]
	s.byRow = make([]entries, len(s.byRow))
	moved := make([]int32, len(keep))
	for j, kept := range keep {
		if !kept {
			continue
		}
		to := len(s.line)
		moved[j] = int32(to)
		s.append(entries{row[first[j]:first[j+1]], entry[first[j]:first[j+1]]})
		s.cost[to], s.where[to] = s.cost[j], s.where[j]
		s.reduced[to], s.weight[to] = s.reduced[j], s.weight[j]
	}
	n := len(s.line)
	s.cost, s.where, s.reduced, s.weight = s.cost[:n], s.where[:n], s.reduced[:n], s.weight[:n]
	for p, j := range s.basis {
		s.basis[p] = moved[j]
	}
}

// value is the worth of a column at the dual prices.
func (s *simplex) value(c entries) float64 {
	sum := 0.0
	for k, r := range c.row {
		if int(r) < len(s.y) {
			sum += float64(s.y[r] * c.value[k])
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
			columns[p] = s.column(int(j))
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
	for j, cost := range s.cost {
		s.reduced[j] = 0
		if s.where[j] < 0 {
			s.reduced[j] = cost - s.value(s.column(j))
		}
	}
}

// primal pivots until no column improves, or limit pivots are made.
func (s *simplex) primal(limit int) bool {
	s.resetWeights()
	fresh := false
	for range limit {
		q := s.entering()
		if q < 0 {
			if fresh || len(s.factor.changed) == 0 {
				return true
			}
			s.refresh()
			fresh = true
			continue
		}
		fresh = false
		s.express(q)
		p := s.leaving()
		if p < 0 {
			return true // unbounded: cannot be, costs are not negative
		}
		s.rowOf(p)
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

// express computes alpha, column q in terms of the basis.
func (s *simplex) express(q int) {
	c := s.column(q)
	for k, r := range c.row {
		s.scrap[r] = c.value[k]
	}
	s.factor.solve(s.scrap, s.alpha)
}

// rowOf computes rho, the row of the inverse at position p, and line, what it
// makes of every column outside the basis.
func (s *simplex) rowOf(p int) {
	s.scrap[p] = 1
	s.factor.solveTransposed(s.scrap, s.rho)
	clear(s.scrap)
	for _, j := range s.touched {
		s.line[j] = 0
	}
	s.touched = s.touched[:0]
	full := 0
	for _, x := range s.rho {
		if x != 0 {
			full++
		}
	}
	if full*sparseShare < len(s.rho) {
		s.lineByRows()
	} else {
		s.lineByColumns()
	}
}

func (s *simplex) lineByRows() {
	for r, x := range s.rho {
		if x == 0 {
			continue
		}
		in := s.byRow[r]
		for k, j := range in.row {
			if s.where[j] >= 0 {
				continue
			}
			if s.line[j] == 0 {
				s.touched = append(s.touched, j)
			}
			s.line[j] += float64(x * in.value[k])
			if s.line[j] == 0 {
				s.line[j] = 1e-300 // stays marked as touched
			}
		}
	}
}

func (s *simplex) lineByColumns() {
	from := s.first[0]
	for j, where := range s.where {
		to := s.first[j+1]
		if where < 0 {
			a := 0.0
			row := s.row[from:to]
			for k, x := range s.entry[from:to] {
				a += float64(s.rho[row[k]] * x)
			}
			if a != 0 {
				s.line[j] = a
				s.touched = append(s.touched, int32(j))
			}
		}
		from = to
	}
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

// pivot brings column q into the basis at position p with value step; alpha
// and line must be set.
func (s *simplex) pivot(q, p int, step float64) {
	s.pivots++
	pivot := s.alpha[p]
	out := s.basis[p]
	ratio := s.reduced[q] / pivot
	reference := s.weight[q]
	for _, j := range s.touched {
		a := s.line[j]
		s.reduced[j] -= float64(ratio * a)
		a /= pivot
		s.weight[j] = max(s.weight[j], a*a*reference)
	}
	for i, a := range s.alpha {
		if a != 0 {
			s.x[i] -= float64(step * a)
		}
	}
	s.x[p] = step
	s.reduced[q], s.reduced[out] = 0, -ratio
	s.weight[out] = max(1, reference/(pivot*pivot))
	s.where[q], s.where[out] = int32(p), -1
	s.basis[p] = int32(q)
	s.factor.replace(p, s.alpha)
	if len(s.factor.changed) >= maxChanges {
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
		s.rowOf(p)
		q := s.dualEntering()
		if q < 0 {
			return false
		}
		s.express(q)
		if s.alpha[p] > -pivotTolerance {
			if len(s.factor.changed) == 0 {
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
	for _, j := range s.touched {
		a := -s.line[j]
		if a <= pivotTolerance {
			continue
		}
		v := max(s.reduced[j], 0) / a
		if v < ratio-1e-12 || v <= ratio+1e-12 && a > size {
			best, ratio, size = int(j), v, a
		}
	}
	return best
}
