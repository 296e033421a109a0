package out

import (
	"cmp"
	"fmt"
	"math"
	"strconv"

	"github.com/xuri/excelize/v2"

	"laybill/estimate/problem"
)

// page is how a sheet is set up.
type page struct {
	widths    []float64 // of the columns, in letters
	landscape bool
	frozen    int // rows that stay in view
	titles    int // rows from titlesFrom that every printed page repeats
	tight     bool

	frozenColumns int // that stay in view
	across        int // pages side by side, each with the frozen columns; 0 is one
	printed       int // rows that are printed; 0 is all
}

// sheet is written row by row, downwards.
type sheet struct {
	book *book
	name string
	page page
	w    *excelize.StreamWriter // of what stands round the rows
	rows *rows
	row  int // last row written

	filled float64 // points of the printed page that rows fill
	titled float64 // of them, those that every page repeats
}

// open begins a sheet that add has made. What the file says before its rows
// must be known now.
func (b *book) open(name string, p page) *sheet {
	s := &sheet{book: b, name: name, page: p, rows: b.rows[name]}
	if b.err != nil {
		return s
	}
	fit, across, zero := true, max(1, p.across), 0
	b.keep(b.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.keep(b.file.SetPageLayout(name, &excelize.PageLayoutOptions{Size: b.paper(), Orientation: p.orientation(), FitToWidth: &across, FitToHeight: &zero}))
	hidden := false
	b.keep(b.file.SetSheetView(name, 0, &excelize.ViewOptions{ShowGridLines: &hidden}))
	w, err := b.file.NewStreamWriter(name)
	b.keep(err)
	if err != nil {
		return s
	}
	s.w = w
	if p.frozen > 0 {
		below, pane := address(p.frozenColumns+1, p.frozen+1), "bottomLeft"
		if p.frozenColumns > 0 {
			pane = "bottomRight"
		}
		b.keep(w.SetPanes(&excelize.Panes{Freeze: true, XSplit: p.frozenColumns, YSplit: p.frozen, TopLeftCell: below, ActivePane: pane,
			Selection: []excelize.Selection{{SQRef: below, ActiveCell: below, Pane: pane}}}))
	}
	// The file lists columns in the reverse of the order they are set in.
	for i := len(p.widths) - 1; i >= 0; i-- {
		b.keep(w.SetColWidth(i+1, i+1, p.widths[i]))
	}
	return s
}

func (b *book) paper() *int {
	const letter, a4 = 1, 9
	size := a4
	if b.imperial() {
		size = letter
	}
	return &size
}

// Margins of a page in inches.
const (
	sideMargin  = 0.45
	tightMargin = 0.35
	foldMargin  = 0.6 // above and below
	bandMargin  = 0.3 // of the header and the footer
)

func (p page) side() float64 {
	if p.tight {
		return tightMargin
	}
	return sideMargin
}

// pageHeight is how many points of rows a printed page holds: a sheet wider than
// the paper is made smaller by whole per cent.
func (b *book) pageHeight(p page) float64 {
	width, height := 595.3, 841.9 // A4
	if b.imperial() {
		width, height = 612, 792
	}
	if p.landscape {
		width, height = height, width
	}
	across := 0.0
	for i, w := range p.widths {
		if i >= p.frozenColumns {
			w /= float64(max(1, p.across))
		}
		across += w * pointsPerWidth
	}
	percent := math.Floor(100 * (width - 2*p.side()*pointsPerInch) / across)
	return slack * (height - 2*foldMargin*pointsPerInch) * 100 / min(100, percent)
}

// left is how many points of the printed page are still free.
func (s *sheet) left() float64 { return s.book.pageHeight(s.page) - s.filled }

func (p page) orientation() *string {
	o := "portrait"
	if p.landscape {
		o = "landscape"
	}
	return &o
}

// put writes the next row.
func (s *sheet) put(cells ...cell) { s.putHigh(0, cells...) }

// putHigh writes the next row with a height in points; 0 leaves it to the
// reader.
func (s *sheet) putHigh(height float64, cells ...cell) {
	s.row++
	s.filled += cmp.Or(height, usualHeight)
	if s.row <= s.page.frozen {
		s.titled = s.filled
	}
	if s.book.err != nil {
		return
	}
	styles := make([]int, len(cells))
	for i := range cells {
		if s.book.valuesOnly {
			cells[i].formula = ""
		}
		if !cells[i].blank() {
			styles[i] = s.book.styleID(cells[i].style)
		}
	}
	s.rows.add(s.row, height, cells, styles)
}

// usualHeight is the height in points of a row that is given none.
const usualHeight = 15

// putWhole writes the next row so that no text is cut off: what does not fit its
// column goes on below, and the row is as high as that needs.
func (s *sheet) putWhole(least float64, cells ...cell) {
	height, low := least, false
	for i := range cells {
		if lines := cells[i].lines(s.page.widths[i]); lines > 1 {
			cells[i].style.wrap, low = true, true
			height = max(height, cells[i].style.height(lines))
		}
	}
	for i := range cells {
		cells[i].style.top = cells[i].style.top || low
	}
	s.putHigh(height, cells...)
}

// skip leaves rows blank.
func (s *sheet) skip(rows int) {
	s.row += rows
	s.filled += float64(rows) * usualHeight
}

// gapHeight is that of a narrow blank row.
const gapHeight = 6

// title writes the sheet's first row.
func (s *sheet) title(words string) { s.putHigh(titleHeight, text(words).in(titleStyle)) }

const titleHeight = 24

// note writes a line of explanation across the sheet, as high as its words
// need.
func (s *sheet) note(words string) { s.putBands(bands{noteBand(words, s.page.widths)}) }

// noteHeight is the height in points that a note's words need across columns.
func noteHeight(words string, widths []float64) float64 {
	across := 0.0
	for _, w := range widths {
		across += w
	}
	return noteStyle.height(text(words).in(noteStyle).lines(across)) + 1
}

// part writes the heading of a part of the sheet, ruled across its columns.
func (s *sheet) part(words string) { s.putBands(bands{partBand(words, s.page.widths)}) }

func (s *sheet) merge(col1, row1, col2, row2 int) {
	if s.book.err == nil && col2 > col1 {
		s.book.keep(s.w.MergeCell(address(col1, row1), address(col2, row2)))
	}
}

// breakPage makes the next row the first of a printed page, below the rows that
// every page repeats.
func (s *sheet) breakPage() {
	s.filled = s.titled
	if s.book.err == nil {
		s.book.keep(s.w.InsertPageBreak(address(1, s.row+1)))
	}
}

// picture puts a drawing at the next row, in its true size. Its cells must be
// left free.
func (s *sheet) picture(png []byte, words string) {
	if s.book.err != nil {
		return
	}
	const scale = float64(screenDots) / pictureDots
	s.book.keep(s.book.file.AddPictureFromBytes(s.name, address(1, s.row+1), &excelize.Picture{Extension: ".png", File: png,
		Format: &excelize.GraphicOptions{AltText: words, Positioning: "oneCell", ScaleX: scale, ScaleY: scale, OffsetX: 2, OffsetY: 2}}))
}

// close ends the sheet with what the file says behind its rows.
func (s *sheet) close() {
	b := s.book
	if b.err != nil {
		return
	}
	side, fold, band := s.page.side(), foldMargin, bandMargin
	b.keep(b.file.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &fold, Bottom: &fold, Header: &band, Footer: &band}))
	b.keep(b.file.SetHeaderFooter(s.name, b.headerFooter()))
	if s.page.titles > 0 {
		b.keep(b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: s.name, RefersTo: s.printTitles()}))
	}
	if s.page.printed > 0 {
		b.keep(b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: s.name,
			RefersTo: fmt.Sprintf("%s!$A$1:%s", reference(s.name), fixed(len(s.page.widths), s.page.printed))}))
	}
	if b.err == nil {
		b.keep(s.w.Flush())
	}
}

// printTitles are the rows, and the columns of a sheet several pages wide, that
// every page repeats.
func (s *sheet) printTitles() string {
	rows := fmt.Sprintf("%s!$%d:$%d", reference(s.name), s.page.titles, s.page.frozen)
	if s.page.across < 2 {
		return rows
	}
	return fmt.Sprintf("%s!$A:$%s,%s", reference(s.name), problem.ColumnName(s.page.frozenColumns), rows)
}

// headerFooter is alike on all sheets: the job and its date above, the sheet
// and the page below.
func (b *book) headerFooter() *excelize.HeaderFooterOptions {
	s := b.result.Job.Settings
	date := ""
	if !s.Date.IsZero() {
		date = s.Date.Format("2006-01-02")
	}
	return &excelize.HeaderFooterOptions{
		OddHeader: "&L&8" + headerPart(" "+s.Name, 90) + "&R&8" + headerPart(" "+s.Number, 40) + "  " + date,
		OddFooter: "&L&8 &A&R&8 Page &P of &N",
	}
}

// address is a cell's name; columns and rows count from 1.
func address(col, row int) string { return problem.ColumnName(col) + strconv.Itoa(row) }

// fixed is a cell's name that does not move with the formula that uses it.
func fixed(col, row int) string { return "$" + problem.ColumnName(col) + "$" + strconv.Itoa(row) }
