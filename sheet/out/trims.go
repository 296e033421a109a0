package out

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/cutting"
	"laybill/estimate/job"
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

// trimPieces are all pieces cut from stock.
func (b *book) trimPieces() []trimPiece {
	var rows []trimPiece
	for i := range b.result.Cutting {
		for _, piece := range b.result.Cutting[i].Pieces {
			rows = append(rows, trimPiece{&b.result.Cutting[i], piece})
		}
	}
	return rows
}

// lengthWords stand above the lists of pieces.
const lengthWords = "walls are numbered on the drawings. A run longer than its stock comes in parts, numbered from the left. Ends are as seen facing the wall."

// trimLengths writes every piece cut from stock by apartment, room and wall.
func (b *book) trimLengths(sheet, elsewhere string, rows []trimPiece) {
	l := list[trimPiece]{
		title:     "Trim lengths",
		note:      "Every piece of trim and film by apartment, room and wall; " + lengthWords,
		landscape: true,
		elsewhere: elsewhere,
	}
	l.columns = append([]column[trimPiece]{
		{heading: "Apartment", width: 16, cell: func(r trimPiece, _ int) cell { return text(pieceApartment(r)) }},
	}, b.pieceColumns()...)
	length := slices.IndexFunc(l.columns, func(c column[trimPiece]) bool { return c.heading == b.lengthHeading() })
	l.columns[length].total, l.columns[length].places = b.lengthOf(rows), lengthPlaces
	l.write(b, sheet, rows)
}

// lengthPlaces is the number of decimals that lengths are added up with.
const lengthPlaces = 4

func (b *book) lengthHeading() string { return "Length " + b.runUnit().String() }

// pieceColumns say of a piece where it lies and how it is cut.
func (b *book) pieceColumns() []column[trimPiece] {
	columns := []column[trimPiece]{
		{heading: "Room", width: 22, cell: func(r trimPiece, _ int) cell { return text(pieceRoom(r)) }},
		{heading: "Wall", width: 6, cell: func(r trimPiece, _ int) cell { return blankZero(r.Run.Wall) }},
		{heading: "Product", width: 14, cell: func(r trimPiece, _ int) cell { return text(r.pool.Product.Code) }},
		{heading: "Description", width: 38, cell: func(r trimPiece, _ int) cell { return text(r.pool.Product.Description) }},
		{heading: "Cut", width: 11, cell: func(r trimPiece, _ int) cell { return b.cutCell(r.Length) }},
		{heading: b.lengthHeading(), width: 10, cell: func(r trimPiece, _ int) cell { return number(b.inRuns(r), "#,##0.000") }},
		{heading: "Part", width: 8, cell: func(r trimPiece, _ int) cell { return text(partWords(r)) }},
		{heading: "For", width: 26, cell: func(r trimPiece, _ int) cell { return text(b.crew.Purpose(r.Run)) }},
	}
	if b.crew.EndsNote() == "" {
		return columns
	}
	return append(columns,
		column[trimPiece]{heading: "Left end", width: 17, cell: func(r trimPiece, _ int) cell { return text(crew.EndWords(r.pool.Product, r.Ends()[0])) }},
		column[trimPiece]{heading: "Right end", width: 17, cell: func(r trimPiece, _ int) cell { return text(crew.EndWords(r.pool.Product, r.Ends()[1])) }})
}

// inRuns is a piece's length in metres or feet.
func (b *book) inRuns(r trimPiece) decimal.Decimal {
	return r.Length.Decimal(b.runUnit()).Round(lengthPlaces)
}

func (b *book) lengthOf(rows []trimPiece) cell {
	total := decimal.Zero
	for _, r := range rows {
		total = total.Add(b.inRuns(r))
	}
	return number(total, "#,##0.000")
}

// alikePieces are the pieces of each apartment type.
func (b *book) alikePieces(rows []trimPiece) []alike[trimPiece] {
	return gathered(rows, func(r trimPiece) *job.Apartment {
		if r.Run.Room == nil {
			return nil
		}
		return r.Run.Room.Apartment
	}, func(r trimPiece) lineKey {
		ends := r.Ends()
		return lineKey{room: pieceRoom(r), item: r.pool.Product.Code, says: fmt.Sprint(r.Run.Wall, r.Length, partWords(r), b.crew.Purpose(r.Run), ends[0], ends[1])}
	})
}

// trimLengthsByType writes the pieces of one room of each type and how often they
// are cut.
func (b *book) trimLengthsByType(sheet string, pieces []trimPiece, rows []alike[trimPiece]) {
	l := list[alike[trimPiece]]{
		title:     "Trim lengths by type",
		note:      "The pieces of trim and film in a room of each apartment type, and how often they are cut; " + lengthWords + " A mirrored room has other walls. Piece by piece they are on Trim lengths.",
		landscape: true,
		dense:     true,
	}
	l.columns = append(l.columns, column[alike[trimPiece]]{heading: "Type", width: 12, cell: func(r alike[trimPiece], _ int) cell { return text(pieceType(r.first)).strong() }})
	for _, c := range b.pieceColumns() {
		l.columns = append(l.columns, column[alike[trimPiece]]{heading: c.heading, width: c.width, cell: func(r alike[trimPiece], row int) cell { return c.cell(r.first, row) }})
	}
	l.columns = append(l.columns,
		column[alike[trimPiece]]{heading: timesHeading, width: 7, cell: func(r alike[trimPiece], _ int) cell { return count(r.times) }},
		column[alike[trimPiece]]{heading: inAllHeading, width: 11, total: b.lengthOf(pieces), places: lengthPlaces},
		column[alike[trimPiece]]{heading: "Apartments", width: 22, cell: func(r alike[trimPiece], _ int) cell { return text(b.inWords(r.in)) }})
	at := l.listed(sheet, len(rows))
	l.columns[at.number(inAllHeading)-1].cell = func(r alike[trimPiece], row int) cell {
		sum := b.inRuns(r.first).Mul(decimal.NewFromInt(int64(r.times)))
		return number(sum, "#,##0.000").from(fmt.Sprintf("ROUND(%s%d*%s%d,%d)", at.letter(b.lengthHeading()), row, at.letter(timesHeading), row, lengthPlaces)).strong()
	}
	l.write(b, sheet, rows)
}

func pieceType(r trimPiece) string {
	if r.Run.Room == nil {
		return ""
	}
	return r.Run.Room.Apartment.Type
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
