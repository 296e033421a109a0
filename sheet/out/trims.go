package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/cutting"
	"laybill/estimate/measure"
	"laybill/sheet/crew"
)

// trimCuts writes the cutting of trims and film, stock length by stock length.
func (b *book) trimCuts(sheet string) {
	rows := b.crew.Bars()
	bars := 0
	for _, r := range rows {
		bars += r.InAll()
	}
	l := list[crew.Bars]{
		title: "Trim cuts",
		note: "Stock length by stock length: cut the pieces in the order shown, mark them, keep the off-cut where one is kept. Bars cut alike are one row. Lengths in " +
			b.crew.UnitWords() + "; where the pieces go is on Trim lengths." + b.crew.EndsNote(),
		landscape: true,
		columns: []column[crew.Bars]{
			{heading: "Product", width: 12, cell: func(r crew.Bars, _ int) cell { return text(r.Product.Code) }},
			{heading: "Description", width: 38, cell: func(r crew.Bars, _ int) cell { return text(r.Description()).in(plainStyle.wrapped()) }},
			{heading: "Stock", width: 10, cell: func(r crew.Bars, _ int) cell { return b.cutCell(r.Stock.Length) }},
			{heading: "Bars", width: 7, cell: func(r crew.Bars, _ int) cell { return count(r.Count).strong() }},
			{heading: "Cuts of each bar", width: 42, cell: func(r crew.Bars, _ int) cell { return text(r.Words).in(plainStyle.wrapped().strong()) }},
			{heading: "Off-cut", width: 10, cell: func(r crew.Bars, _ int) cell { return b.cutCell(r.Offcut) }},
			{heading: "Keep", width: 8, cell: func(r crew.Bars, _ int) cell { return text(r.KeepWord()) }},
			{heading: "Places", width: 7, cell: func(r crew.Bars, _ int) cell { return count(len(r.Places)) }},
			{heading: "Bars in all", width: 8, total: count(bars), cell: func(r crew.Bars, _ int) cell { return count(r.InAll()) }},
			{heading: "Where", width: 46, cell: func(r crew.Bars, _ int) cell { return text(crew.SomeNames(r.Places)).in(plainStyle.wrapped()) }},
		},
	}
	l.write(b, sheet, rows)
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
		title:     "Trim lengths",
		note:      "Every piece of trim and film by apartment, room and wall; walls are numbered on the drawings. A run longer than its stock comes in parts, numbered from the left. Ends are as seen facing the wall.",
		landscape: true,
		columns: []column[trimPiece]{
			{heading: "Apartment", width: 16, cell: func(r trimPiece, _ int) cell { return text(pieceApartment(r)) }},
			{heading: "Room", width: 22, cell: func(r trimPiece, _ int) cell { return text(pieceRoom(r)) }},
			{heading: "Wall", width: 6, cell: func(r trimPiece, _ int) cell { return blankZero(r.Run.Wall) }},
			{heading: "Product", width: 14, cell: func(r trimPiece, _ int) cell { return text(r.pool.Product.Code) }},
			{heading: "Description", width: 32, cell: func(r trimPiece, _ int) cell { return text(r.pool.Product.Description) }},
			{heading: "Cut", width: 11, cell: func(r trimPiece, _ int) cell { return b.cutCell(r.Length) }},
			{heading: "Length " + unit.String(), width: 10, cell: func(r trimPiece, _ int) cell { return number(r.Length.Decimal(unit).Round(4), "#,##0.000") }},
			{heading: "Part", width: 8, cell: func(r trimPiece, _ int) cell { return text(partWords(r)) }},
			{heading: "For", width: 26, cell: func(r trimPiece, _ int) cell { return text(b.crew.Purpose(r.Run)) }},
		},
	}
	if b.crew.EndsNote() != "" {
		l.columns = append(l.columns,
			column[trimPiece]{heading: "Left end", width: 17, cell: func(r trimPiece, _ int) cell { return text(crew.EndWords(r.pool.Product, r.Ends()[0])) }},
			column[trimPiece]{heading: "Right end", width: 17, cell: func(r trimPiece, _ int) cell { return text(crew.EndWords(r.pool.Product, r.Ends()[1])) }})
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
	return crew.Apartment(r.Run.Room.Apartment)
}

func pieceRoom(r trimPiece) string {
	if r.Run.Room == nil {
		return r.Run.Loose.Where
	}
	return r.Run.Room.Spec.Name
}

func partWords(r trimPiece) string {
	if r.Parts == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %d", r.Part, r.Parts)
}
