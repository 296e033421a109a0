package out

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/trim"
)

// barRow is a number of bars cut alike, in all the places that cut alike.
type barRow struct {
	product *job.Product
	stock   cutting.Stock
	places  []string
	trim.Bar
}

// trimCuts writes the cutting of trims and film, stock length by stock length.
func (b *book) trimCuts(sheet string) {
	rows := b.barRows()
	bars := 0
	for _, r := range rows {
		bars += r.Count * len(r.places)
	}
	l := list[barRow]{
		title: "Trim cuts",
		note: "Stock length by stock length: cut the pieces in the order shown, mark them, keep the off-cut where one is kept. Bars cut alike are one row. Lengths in " +
			b.tapeWords() + "; where the pieces go is on Trim lengths.",
		landscape: true,
		columns: []column[barRow]{
			{heading: "Product", width: 12, cell: func(r barRow, _ int) cell { return text(r.product.Code) }},
			{heading: "Description", width: 30, cell: func(r barRow, _ int) cell { return text(r.description()) }},
			{heading: "Stock", width: 10, cell: func(r barRow, _ int) cell { return b.cutCell(r.stock.Length) }},
			{heading: "Bars", width: 7, cell: func(r barRow, _ int) cell { return count(r.Count).strong() }},
			{heading: "Cuts of each bar", width: 46, cell: func(r barRow, _ int) cell { return text(b.barWords(r.Cuts)).in(plainStyle.wrapped().strong()) }},
			{heading: "Off-cut", width: 10, cell: func(r barRow, _ int) cell { return b.cutCell(r.Offcut) }},
			{heading: "Keep", width: 6, cell: func(r barRow, _ int) cell { return text(keepWord(r.Kept)) }},
			{heading: "Places", width: 7, cell: func(r barRow, _ int) cell { return count(len(r.places)) }},
			{heading: "Bars in all", width: 8, total: count(bars), cell: func(r barRow, _ int) cell { return count(r.Count * len(r.places)) }},
			{heading: "Where", width: 46, cell: func(r barRow, _ int) cell { return text(someNames(r.places)).in(plainStyle.wrapped()) }},
		},
	}
	l.write(b, sheet, rows)
}

// description names the stock: the product, or remnants and where they are.
func (r barRow) description() string {
	switch {
	case r.stock.Remnant == nil:
		return r.product.Description
	case r.stock.Remnant.Where == "":
		return "remnant on hand"
	}
	return "remnant: " + r.stock.Remnant.Where
}

func keepWord(kept bool) string {
	if kept {
		return "keep"
	}
	return ""
}

func (b *book) tapeWords() string {
	if b.imperial() {
		return "inches to the nearest 1/16"
	}
	return "millimetres"
}

// barRows gathers the bars of all pools; pools of one product that are cut
// alike are one.
func (b *book) barRows() []barRow {
	var rows []barRow
	at := map[string]int{} // first row of pools cut alike
	for i := range b.result.Cutting {
		pool := &b.result.Cutting[i]
		where := pool.Place
		if where == "" {
			where = "whole job"
		}
		key := fmt.Sprintf("%p%v%v", pool.Product, pool.Stocks, pool.Plan.Bars)
		first, known := at[key]
		if !known {
			at[key] = len(rows)
			for _, bar := range pool.Plan.Bars {
				stock := pool.Stocks[bar.Stock]
				product := pool.Product
				if stock.Product != nil {
					product = stock.Product
				}
				rows = append(rows, barRow{product: product, stock: stock, places: []string{where}, Bar: bar})
			}
			continue
		}
		for j := range pool.Plan.Bars {
			rows[first+j].places = append(rows[first+j].places, where)
		}
	}
	return rows
}

// barWords writes a bar's cuts, equal ones together: 3 x 640 + 480.
func (b *book) barWords(cuts []measure.Length) string {
	var parts []string
	for i := 0; i < len(cuts); {
		j := i
		for j < len(cuts) && cuts[j] == cuts[i] {
			j++
		}
		part := b.cut(cuts[i])
		if j-i > 1 {
			part = fmt.Sprintf("%d x %s", j-i, part)
		}
		parts = append(parts, part)
		i = j
	}
	return strings.Join(parts, "  +  ")
}

// someNames is the names, as far as a cell is still read.
func someNames(names []string) string {
	const most = 40
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}

// trimPiece is a piece with the pool it is cut in.
type trimPiece struct {
	pool *cutting.Pool
	cutting.Piece
}

// trimLengths writes every piece cut from stock by apartment, room and wall.
func (b *book) trimLengths(sheet string) {
	var rows []trimPiece
	for i := range b.result.Cutting {
		for _, piece := range b.result.Cutting[i].Pieces {
			rows = append(rows, trimPiece{&b.result.Cutting[i], piece})
		}
	}
	unit := measure.M
	if b.imperial() {
		unit = measure.Ft
	}
	l := list[trimPiece]{
		title: "Trim lengths",
		note:  "Every piece of trim and film by apartment, room and wall; walls are numbered on the drawings. A run longer than its stock comes in parts.",
		columns: []column[trimPiece]{
			{heading: "Apartment", width: 16, cell: func(r trimPiece, _ int) cell { return text(pieceApartment(r)) }},
			{heading: "Room", width: 22, cell: func(r trimPiece, _ int) cell { return text(pieceRoom(r)) }},
			{heading: "Wall", width: 6, cell: func(r trimPiece, _ int) cell { return blankZero(r.Run.Wall) }},
			{heading: "Product", width: 14, cell: func(r trimPiece, _ int) cell { return text(r.pool.Product.Code) }},
			{heading: "Description", width: 32, cell: func(r trimPiece, _ int) cell { return text(r.pool.Product.Description) }},
			{heading: "Cut", width: 11, cell: func(r trimPiece, _ int) cell { return b.cutCell(r.Length) }},
			{heading: "Length " + unit.String(), width: 10, cell: func(r trimPiece, _ int) cell { return number(r.Length.Decimal(unit).Round(4), "#,##0.000") }},
			{heading: "Part", width: 8, cell: func(r trimPiece, _ int) cell { return text(partWords(r)) }},
		},
	}
	total := decimal.Zero
	for _, r := range rows {
		total = total.Add(r.Length.Decimal(unit).Round(4))
	}
	l.columns[6].total, l.columns[6].places = number(total, "#,##0.000"), 4
	l.write(b, sheet, rows)
}

func pieceApartment(r trimPiece) string {
	if r.Run.Room == nil {
		return ""
	}
	return apartmentName(r.Run.Room.Apartment)
}

func pieceRoom(r trimPiece) string {
	if r.Run.Room == nil {
		return r.Run.Where
	}
	return r.Run.Room.Spec.Name
}

func partWords(r trimPiece) string {
	if r.Parts == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %d", r.Part, r.Parts)
}
