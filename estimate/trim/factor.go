package trim

import (
	"cmp"
	"math"
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
	upper, lower  []entries // rows pivoted before; rows still to come
	firstLower    int       // steps before it have no lower part

	changes []change
}

type entries struct {
	row   []int32
	value []float64
}

// change replaces the column at a position by one with these values there.
type change struct {
	position int32
	pivot    float64
	others   entries // by position
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
	f.upper, f.lower, f.changes = f.upper[:0], f.lower[:0], f.changes[:0]
	p := newPeeling(columns)
	p.columnSingles(func(position, row int32) { f.peel(columns[position], position, row, p) })
	f.firstLower = len(f.row)
	p.rowSingles(func(position, row int32) { f.peel(columns[position], position, row, p) })
	return f.eliminate(columns, p)
}

// peel makes a pivot that changes no other column.
func (f *factor) peel(column entries, position, row int32, p *peeling) {
	var up, low entries
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
			up.row, up.value = append(up.row, r), append(up.value, column.value[k])
		default:
			low.row, low.value = append(low.row, r), append(low.value, column.value[k]/pivot)
		}
	}
	f.step(position, row, pivot, up, low)
}

func (f *factor) step(position, row int32, pivot float64, up, low entries) {
	f.row = append(f.row, row)
	f.position = append(f.position, position)
	f.diagonal = append(f.diagonal, pivot)
	f.upper = append(f.upper, up)
	f.lower = append(f.lower, low)
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
	first := len(f.row)
	work := make([]float64, f.size)
	var failed []int32
	for _, j := range rest {
		for k, r := range columns[j].row {
			work[r] = columns[j].value[k]
		}
		for s := first; s < len(f.row); s++ {
			x := work[f.row[s]]
			if x == 0 {
				continue
			}
			low := f.lower[s]
			for k, r := range low.row {
				work[r] -= float64(low.value[k] * x)
			}
		}
		if !f.split(j, work, p) {
			failed = append(failed, j)
		}
	}
	return mend(failed, p)
}

// split turns an eliminated column into a step; work is left empty.
func (f *factor) split(j int32, work []float64, p *peeling) bool {
	largest := 0.0
	for r, x := range work {
		if x != 0 && !p.rowDone[r] {
			largest = max(largest, math.Abs(x))
		}
	}
	row := int32(-1)
	if largest > tinyPivot {
		for r, x := range work {
			if x != 0 && !p.rowDone[r] && math.Abs(x) >= 0.1*largest && (row < 0 || p.rowCount[r] < p.rowCount[row]) {
				row = int32(r)
			}
		}
	}
	var up, low entries
	for r, x := range work {
		work[r] = 0
		switch {
		case row < 0 || x == 0 || int32(r) == row:
		case p.rowDone[r]:
			up.row, up.value = append(up.row, int32(r)), append(up.value, x)
		case math.Abs(x) > 1e-14:
			low.row, low.value = append(low.row, int32(r)), append(low.value, x)
		}
		if int32(r) == row {
			largest = x
		}
	}
	if row < 0 {
		return false
	}
	for k := range low.value {
		low.value[k] /= largest
	}
	p.rowDone[row] = true
	f.step(j, row, largest, up, low)
	return true
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
	c := change{position: int32(position), pivot: column[position]}
	for i, x := range column {
		if i != position && math.Abs(x) > 1e-14 {
			c.others.row = append(c.others.row, int32(i))
			c.others.value = append(c.others.value, x)
		}
	}
	f.changes = append(f.changes, c)
}

// solve finds the x by position with basis times x = v; v, by row, is emptied.
func (f *factor) solve(v, x []float64) {
	for s := f.firstLower; s < len(f.row); s++ {
		t := v[f.row[s]]
		if t == 0 {
			continue
		}
		low := &f.lower[s]
		for k, r := range low.row {
			v[r] -= float64(low.value[k] * t)
		}
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
		up := &f.upper[s]
		for k, q := range up.row {
			v[q] -= float64(up.value[k] * t)
		}
	}
	for i := range f.changes {
		c := &f.changes[i]
		t := x[c.position]
		if t == 0 {
			continue
		}
		t /= c.pivot
		x[c.position] = t
		for k, p := range c.others.row {
			x[p] -= float64(c.others.value[k] * t)
		}
	}
}

// solveTransposed finds the y by row with y times basis = c; c, by position, is
// used up.
func (f *factor) solveTransposed(c, y []float64) {
	for i := len(f.changes) - 1; i >= 0; i-- {
		h := &f.changes[i]
		t := c[h.position]
		for k, p := range h.others.row {
			t -= float64(h.others.value[k] * c[p])
		}
		c[h.position] = t / h.pivot
	}
	for s, r := range f.row {
		t := c[f.position[s]]
		up := &f.upper[s]
		for k, q := range up.row {
			t -= float64(up.value[k] * y[q])
		}
		y[r] = t / f.diagonal[s]
	}
	for s := len(f.row) - 1; s >= f.firstLower; s-- {
		low := &f.lower[s]
		t := y[f.row[s]]
		for k, q := range low.row {
			t -= float64(low.value[k] * y[q])
		}
		y[f.row[s]] = t
	}
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
