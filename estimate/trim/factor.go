package trim

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// factor is a basis matrix of the simplex method, split into a lower and an
// upper triangle. Rows and columns with a single entry are peeled off first;
// what remains is eliminated column by column with threshold pivoting. Changes
// of single columns are kept as a product of elementary matrices.
type factor struct {
	size int

	// By step of the elimination.
	row, position []int32 // pivot row, and the basis position of its column
	diagonal      []float64
	upper, lower  vectors // rows pivoted before; rows still to come
	firstLower    int     // steps before it have no lower part

	// By change: the column at a position is replaced by one with this value there
	// and the others elsewhere, all by position.
	changed []int32
	pivot   []float64
	others  vectors
}

type entries struct {
	row   []int32
	value []float64
}

// vectors is sparse vectors, one behind the other.
type vectors struct {
	all   entries
	first []int32 // where each begins; one more at the end
}

func (v *vectors) clear() {
	v.all.row, v.all.value = v.all.row[:0], v.all.value[:0]
	v.first = append(v.first[:0], 0)
}

// add adds an entry to the vector that is being made.
func (v *vectors) add(row int32, x float64) {
	v.all.row = append(v.all.row, row)
	v.all.value = append(v.all.value, x)
}

// end ends the vector that is being made.
func (v *vectors) end() { v.first = append(v.first, int32(len(v.all.row))) }

// of is the i-th vector.
func (v *vectors) of(i int) entries {
	from, to := v.first[i], v.first[i+1]
	return entries{v.all.row[from:to], v.all.value[from:to]}
}

const tinyPivot = 1e-11

// unpivoted is a basis position whose column depends on others, and a row
// without a pivot.
type unpivoted struct{ position, row int32 }

// build factors the matrix with these columns. When it is singular, it names
// positions that unit columns of the given rows would mend.
func (f *factor) build(columns []entries) []unpivoted {
	f.size = len(columns)
	f.row, f.position, f.diagonal = f.row[:0], f.position[:0], f.diagonal[:0]
	f.changed, f.pivot = f.changed[:0], f.pivot[:0]
	f.upper.clear()
	f.lower.clear()
	f.others.clear()
	p := newPeeling(columns)
	p.columnSingles(func(position, row int32) { f.peel(columns[position], position, row, p) })
	f.firstLower = len(f.row)
	p.rowSingles(func(position, row int32) { f.peel(columns[position], position, row, p) })
	return f.eliminate(columns, p)
}

// peel makes a pivot that changes no other column.
func (f *factor) peel(column entries, position, row int32, p *peeling) {
	pivot := 0.0
	for k, r := range column.row {
		if r == row {
			pivot = column.value[k]
		}
	}
	for k, r := range column.row {
		switch {
		case r == row:
		case p.rowDone[r]:
			f.upper.add(r, column.value[k])
		default:
			f.lower.add(r, column.value[k]/pivot)
		}
	}
	f.step(position, row, pivot)
}

// step ends the step whose upper and lower part are made.
func (f *factor) step(position, row int32, pivot float64) {
	f.row = append(f.row, row)
	f.position = append(f.position, position)
	f.diagonal = append(f.diagonal, pivot)
	f.upper.end()
	f.lower.end()
}

// eliminate factors the columns that could not be peeled.
func (f *factor) eliminate(columns []entries, p *peeling) []unpivoted {
	var rest []int32
	for j := range columns {
		if !p.columnDone[j] {
			rest = append(rest, int32(j))
		}
	}
	slices.SortStableFunc(rest, func(a, b int32) int { return cmp.Compare(p.columnCount[a], p.columnCount[b]) })
	w := workColumn{value: make([]float64, f.size), seen: make([]bool, f.size), stepOf: make([]int32, f.size), due: make([]uint64, len(rest)/64+1)}
	first := len(f.row)
	for r := range w.stepOf {
		w.stepOf[r] = -1
	}
	var failed []int32
	for _, j := range rest {
		w.load(columns[j])
		for s := w.next(0); s >= 0; s = w.next(s) {
			x := w.value[f.row[first+s]]
			low := f.lower.of(first + s)
			for k, r := range low.row {
				w.add(r, -float64(low.value[k]*x))
			}
		}
		if !f.split(j, &w, p) {
			failed = append(failed, j)
		}
	}
	return mend(failed, p)
}

// workColumn is the column that is being eliminated. Only its entries are ever
// looked at; those in rows that have a step of the elimination are due for it.
type workColumn struct {
	value  []float64 // by row
	seen   []bool    // by row
	rows   []int32   // those seen
	stepOf []int32   // by row, from the first one eliminated on; -1 when there is none
	due    []uint64  // by step
	steps  int       // made
}

func (w *workColumn) load(c entries) {
	w.rows = w.rows[:0]
	for k, r := range c.row {
		w.add(r, c.value[k])
	}
}

func (w *workColumn) add(row int32, x float64) {
	if !w.seen[row] {
		w.seen[row] = true
		w.rows = append(w.rows, row)
		if s := w.stepOf[row]; s >= 0 {
			w.due[s/64] |= 1 << (s % 64)
		}
	}
	w.value[row] += x
}

// next is the first step due from s on, which then is not due any more, or -1.
func (w *workColumn) next(s int) int {
	for i := s / 64; i < len(w.due); i++ {
		if w.due[i] != 0 {
			s = i*64 + bits.TrailingZeros64(w.due[i])
			w.due[i] &= w.due[i] - 1
			return s
		}
	}
	return -1
}

// split turns an eliminated column into a step; the column is left empty.
func (f *factor) split(j int32, w *workColumn, p *peeling) bool {
	slices.Sort(w.rows)
	row := w.choose(p)
	pivot := 1.0
	if row >= 0 {
		pivot = w.value[row]
	}
	for _, r := range w.rows {
		x := w.value[r]
		w.value[r], w.seen[r] = 0, false
		switch {
		case row < 0 || x == 0 || r == row:
		case p.rowDone[r]:
			f.upper.add(r, x)
		case math.Abs(x) > 1e-14:
			f.lower.add(r, x/pivot)
		}
	}
	if row < 0 {
		return false
	}
	p.rowDone[row] = true
	w.stepOf[row] = int32(w.steps)
	w.steps++
	f.step(j, row, pivot)
	return true
}

// choose is the row to pivot on, of those large enough the one with fewest
// entries, or -1.
func (w *workColumn) choose(p *peeling) int32 {
	largest := 0.0
	for _, r := range w.rows {
		if !p.rowDone[r] {
			largest = max(largest, math.Abs(w.value[r]))
		}
	}
	row := int32(-1)
	if largest <= tinyPivot {
		return row
	}
	for _, r := range w.rows {
		if !p.rowDone[r] && math.Abs(w.value[r]) >= 0.1*largest && (row < 0 || p.rowCount[r] < p.rowCount[row]) {
			row = r
		}
	}
	return row
}

// mend pairs positions without a pivot with rows without one.
func mend(failed []int32, p *peeling) []unpivoted {
	var pairs []unpivoted
	row := 0
	for _, j := range failed {
		for p.rowDone[row] {
			row++
		}
		pairs = append(pairs, unpivoted{j, int32(row)})
		row++
	}
	return pairs
}

// replace puts a new column into a position; column holds its values after
// solve, by position.
func (f *factor) replace(position int, column []float64) {
	f.changed = append(f.changed, int32(position))
	f.pivot = append(f.pivot, column[position])
	for i, x := range column {
		if x != 0 && i != position && math.Abs(x) > 1e-14 {
			f.others.add(int32(i), x)
		}
	}
	f.others.end()
}

// solve finds the x by position with basis times x = v; v, by row, is emptied.
func (f *factor) solve(v, x []float64) {
	for s := f.firstLower; s < len(f.row); s++ {
		f.lower.subtract(s, v[f.row[s]], v)
	}
	for s := len(f.row) - 1; s >= 0; s-- {
		r := f.row[s]
		t := v[r]
		v[r] = 0
		if t == 0 {
			x[f.position[s]] = 0
			continue
		}
		t /= f.diagonal[s]
		x[f.position[s]] = t
		f.upper.subtract(s, t, v)
	}
	for i, p := range f.changed {
		if x[p] != 0 {
			x[p] /= f.pivot[i]
			f.others.subtract(i, x[p], x)
		}
	}
}

// subtract takes the i-th vector, t times, from x.
func (v *vectors) subtract(i int, t float64, x []float64) {
	if t == 0 {
		return
	}
	for k := v.first[i]; k < v.first[i+1]; k++ {
		x[v.all.row[k]] -= float64(v.all.value[k] * t)
	}
}

// solveTransposed finds the y by row with y times basis = c; c, by position, is
// used up.
func (f *factor) solveTransposed(c, y []float64) {
	for i := len(f.changed) - 1; i >= 0; i-- {
		p := f.changed[i]
		c[p] = f.others.reduce(i, c[p], c) / f.pivot[i]
	}
	for s, r := range f.row {
		y[r] = f.upper.reduce(s, c[f.position[s]], y) / f.diagonal[s]
	}
	for s := len(f.row) - 1; s >= f.firstLower; s-- {
		r := f.row[s]
		y[r] = f.lower.reduce(s, y[r], y)
	}
}

// reduce is t less the i-th vector times x.
func (v *vectors) reduce(i int, t float64, x []float64) float64 {
	for k := v.first[i]; k < v.first[i+1]; k++ {
		t -= float64(v.all.value[k] * x[v.all.row[k]])
	}
	return t
}

// peeling finds the rows and columns with one entry left.
type peeling struct {
	columns               []entries
	byRow                 [][]int32
	rowCount, columnCount []int
	rowDone, columnDone   []bool
}

func newPeeling(columns []entries) *peeling {
	n := len(columns)
	p := &peeling{
		columns: columns, byRow: make([][]int32, n),
		rowCount: make([]int, n), columnCount: make([]int, n),
		rowDone: make([]bool, n), columnDone: make([]bool, n),
	}
	total := 0
	for _, c := range columns {
		total += len(c.row)
		for _, r := range c.row {
			p.rowCount[r]++
		}
	}
	all := make([]int32, total)
	at := 0
	for r, n := range p.rowCount {
		p.byRow[r] = all[at : at : at+n]
		at += n
	}
	for j, c := range columns {
		p.columnCount[j] = len(c.row)
		for _, r := range c.row {
			p.byRow[r] = append(p.byRow[r], int32(j))
		}
	}
	return p
}

// columnSingles takes columns with one row left until there are none.
func (p *peeling) columnSingles(take func(position, row int32)) {
	var queue []int32
	for j, n := range p.columnCount {
		if n == 1 {
			queue = append(queue, int32(j))
		}
	}
	for at := 0; at < len(queue); at++ {
		j := queue[at]
		row := int32(-1)
		for _, r := range p.columns[j].row {
			if !p.rowDone[r] {
				row = r
			}
		}
		if row < 0 {
			continue
		}
		take(j, row)
		p.rowDone[row], p.columnDone[j] = true, true
		for _, other := range p.byRow[row] {
			p.columnCount[other]--
			if p.columnCount[other] == 1 && !p.columnDone[other] {
				queue = append(queue, other)
			}
		}
	}
	for r := range p.rowCount {
		p.rowCount[r] = 0
		for _, j := range p.byRow[r] {
			if !p.columnDone[j] && !p.rowDone[r] {
				p.rowCount[r]++
			}
		}
	}
}

// rowSingles takes rows with one column left until there are none.
func (p *peeling) rowSingles(take func(position, row int32)) {
	var queue []int32
	for r, n := range p.rowCount {
		if n == 1 && !p.rowDone[r] {
			queue = append(queue, int32(r))
		}
	}
	for at := 0; at < len(queue); at++ {
		row := queue[at]
		column := int32(-1)
		for _, j := range p.byRow[row] {
			if !p.columnDone[j] {
				column = j
			}
		}
		if column < 0 {
			continue
		}
		take(column, row)
		p.rowDone[row], p.columnDone[column] = true, true
		for _, r := range p.columns[column].row {
			p.rowCount[r]--
			if p.rowCount[r] == 1 && !p.rowDone[r] {
				queue = append(queue, r)
			}
		}
	}
}
