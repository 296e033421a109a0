package booklet

import "sort"

// column is a column of a table. The widths of a table are shares of the page.
type column struct {
	heading string
	width   float64
	right   bool // numbers
	bold    bool
}

// span is a heading over several columns.
type span struct {
	words   string
	columns int
}

// table is rows of texts under headings. A row of one text stands over those
// that follow, across all columns.
type table struct {
	spans   []span // none for one line of headings
	columns []column
	rows    [][]string
	closest bool // in the fewest words
	setting
}

// setting is how a table is set: roomy where the page allows, else closer.
type setting struct {
	size    float64 // of the type
	cellPad float64 // white round the words of a cell
	abreast int     // so many parts of the rows stand side by side; 0 is one
}

// roomy is the setting of every table that may go on to another page.
var roomy = setting{size: bodyType, cellPad: bodyType * 0.26}

const (
	thinGrid   = 0.12 // pen in mm
	abreastGap = 2.0  // between parts of a table side by side
)

// placed is a table with its columns' places on the page.
type placed struct {
	*document
	table
	x []float64 // left edges of the columns, and the right edge of the last
}

// place puts a table at a left edge, so wide.
func (d *document) place(t table, left, width float64) placed {
	total := 0.0
	for _, c := range t.columns {
		total += c.width
	}
	if t.size == 0 {
		t.setting = roomy
	}
	p := placed{document: d, table: t, x: []float64{left}}
	for i, c := range t.columns {
		p.x = append(p.x, p.x[i]+c.width/total*width)
	}
	return p
}

// abreastWidth is how wide each of so many parts is that stand side by side.
func (d *document) abreastWidth(parts int) float64 {
	return (d.inner() - abreastGap*float64(parts-1)) / float64(parts)
}

// parts are the table as it stands on the page: whole, or in parts about as high
// as one another.
func (d *document) parts(t table) []placed {
	if t.abreast < 2 {
		return []placed{d.place(t, sideMargin, d.inner())}
	}
	width := d.abreastWidth(t.abreast)
	whole := d.place(t, sideMargin, width)
	share := (whole.height() - whole.headHeight()) / float64(t.abreast)
	parts := make([]placed, 0, t.abreast)
	from, reached := 0, 0.0
	for i := range t.abreast {
		to := from
		for ; to < len(t.rows) && reached < share*float64(i+1)-rounding; to++ {
			reached += whole.rowHeight(t.rows[to], false)
		}
		part := t
		part.rows = t.rows[from:to]
		parts = append(parts, d.place(part, sideMargin+float64(i)*(width+abreastGap), width))
		from = to
	}
	return parts
}

const rounding = 1e-6 // of heights that are added up

// filling is how many of the rows fill a height, one at least.
func (d *document) filling(t table, height float64) int {
	return max(1, sort.Search(len(t.rows), func(n int) bool {
		some := t
		some.rows = t.rows[:n+1]
		return d.tableHeight(some) > height
	}))
}

// table writes a table.
func (d *document) table(t table) {
	top, bottom := d.y, d.y
	for _, p := range d.parts(t) {
		d.y = top
		p.write()
		bottom = max(bottom, d.y)
	}
	d.y = bottom
}

// write writes the table, its headings and the text that stands over the rows
// again on every further page. Parts side by side never go on to one.
func (p placed) write() {
	if len(p.rows) == 0 {
		return
	}
	if p.left() < p.headHeight()+p.kept(0) {
		p.page()
	}
	p.head()
	var over []string
	for i, row := range p.rows {
		above := len(row) == 1
		if above {
			over = row
		}
		if p.left() < p.kept(i) {
			p.page()
			p.head()
			if over != nil && !above {
				p.row(over, p.rowHeight(over, false), false)
			}
		}
		p.row(row, p.rowHeight(row, false), false)
	}
}

// kept is the height of a row, and of the next where that must stay with it.
func (p placed) kept(i int) float64 {
	height := p.rowHeight(p.rows[i], false)
	if len(p.rows[i]) == 1 && i+1 < len(p.rows) {
		height += p.rowHeight(p.rows[i+1], false)
	}
	return height
}

// tableHeight is how high a table comes out on one page.
func (d *document) tableHeight(t table) float64 {
	height := 0.0
	for _, p := range d.parts(t) {
		height = max(height, p.height())
	}
	return height
}

func (p placed) height() float64 {
	if len(p.rows) == 0 {
		return 0
	}
	height := p.headHeight()
	for _, row := range p.rows {
		height += p.rowHeight(row, false)
	}
	return height
}

func (p placed) headings() []string {
	words := make([]string, len(p.columns))
	for i, c := range p.columns {
		words[i] = c.heading
	}
	return words
}

// lineHeight is how high a row of one line is.
func (p placed) lineHeight() float64 { return p.size*leading + 2*p.cellPad }

func (p placed) headHeight() float64 {
	height := p.rowHeight(p.headings(), true)
	if len(p.spans) > 0 {
		height += p.lineHeight()
	}
	return height
}

func (p placed) head() {
	if len(p.spans) > 0 {
		p.spanRow()
	}
	p.row(p.headings(), p.rowHeight(p.headings(), true), true)
}

func (p placed) spanRow() {
	height := p.lineHeight()
	at := 0
	for _, s := range p.spans {
		x0, x1 := p.x[at], p.x[at+s.columns]
		p.box(x0, x1, height, true)
		p.text(x0+(x1-x0-p.measure(s.words, p.size, true))/2, p.y+p.cellPad+p.size*ascent, p.size, true, s.words)
		at += s.columns
	}
	p.y += height
}

// box is a cell's outline; headings have a grey ground.
func (p placed) box(x0, x1, height float64, head bool) {
	style := "D"
	if head {
		style = "FD"
	}
	p.pdf.SetFillColor(226, 226, 226)
	p.pdf.SetLineWidth(thinGrid)
	p.pdf.Rect(x0, p.y, x1-x0, height, style)
}

func (p placed) cellLines(i int, s string, head bool) []string {
	return p.wrapped(s, p.x[i+1]-p.x[i]-2*p.cellPad, p.size, head || p.columns[i].bold)
}

func (p placed) rowHeight(cells []string, head bool) float64 {
	lines := 1
	if len(cells) == 1 {
		lines = len(p.overLines(cells[0]))
		cells = nil
	}
	for i, s := range cells {
		lines = max(lines, len(p.cellLines(i, s, head)))
	}
	return p.lineHeight() + float64(lines-1)*p.size*leading
}

func (p placed) row(cells []string, height float64, head bool) {
	if len(cells) == 1 {
		p.over(cells[0], height)
		return
	}
	for i, s := range cells {
		bold := head || p.columns[i].bold
		p.box(p.x[i], p.x[i+1], height, head)
		for n, line := range p.cellLines(i, s, head) {
			x := p.x[i] + p.cellPad
			if p.columns[i].right {
				x = p.x[i+1] - p.cellPad - p.measure(line, p.size, bold)
			}
			p.text(x, p.y+p.cellPad+p.size*(ascent+float64(n)*leading), p.size, bold, line)
		}
	}
	p.y += height
}

// over writes a text across all columns.
func (p placed) over(words string, height float64) {
	p.box(p.x[0], p.x[len(p.x)-1], height, true)
	for n, line := range p.overLines(words) {
		p.text(p.x[0]+p.cellPad, p.y+p.cellPad+p.size*(ascent+float64(n)*leading), p.size, true, line)
	}
	p.y += height
}

func (p placed) overLines(words string) []string {
	return p.wrapped(words, p.x[len(p.x)-1]-p.x[0]-2*p.cellPad, p.size, true)
}
