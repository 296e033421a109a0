package crew

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/quantity"
)

// EndsNote explains the letters at the ends of pieces; it is empty where no trim
// of the job is cut at corners.
func (l *Lists) EndsNote() string {
	if !slices.ContainsFunc(l.result.Cutting, func(pool cutting.Pool) bool { return shaped(pool.Product) }) {
		return ""
	}
	return " Letters before and after a length are its left and right end as you face the wall: S square, I inside mitre, O outside mitre, C scribed to the next piece, J joint where the run goes on. " +
		"Lengths are at the longest point: an inside mitre is longest at the wall, an outside one at the face. Mitres are sawn at 45 degrees, or at the number after the letter."
}

// endsKey explains the letters at the ends of the room's pieces of a product;
// nothing where they have none.
func (l *Lists) endsKey(room *building.Room, product *job.Product) string {
	if !shaped(product) {
		return ""
	}
	var used [len(endLetters)]bool
	for _, length := range l.byRoom[room.Index] {
		if length.Product == product {
			used[length.Ends[0].Cut], used[length.Ends[1].Cut] = true, true
		}
	}
	var words []string
	for cut, is := range used {
		if is {
			words = append(words, endLetters[cut]+" "+endWords[cut])
		}
	}
	return " (left and right end: " + strings.Join(words, ", ") + ")"
}

// shaped tells whether the ends of the product's pieces are cut by the corners
// they meet in.
func shaped(product *job.Product) bool { return product.CornerCut != job.Squared }

var (
	endLetters = [...]string{quantity.SquareCut: "S", quantity.InsideMitre: "I", quantity.OutsideMitre: "O", quantity.ScribedCut: "C", quantity.JointCut: "J"}
	endWords   = [...]string{quantity.SquareCut: "square", quantity.InsideMitre: "inside mitre", quantity.OutsideMitre: "outside mitre", quantity.ScribedCut: "scribed", quantity.JointCut: "joint"}
)

// saw is what a mitre saw is set to for an end, in degrees to a half; nothing
// for ends that are no mitres.
func saw(end quantity.End) string {
	if end.Cut != quantity.InsideMitre && end.Cut != quantity.OutsideMitre {
		return ""
	}
	return strconv.FormatFloat(math.Round(2*end.Turn.Half())/2, 'f', -1, 64)
}

// usualSaw is the setting for square corners, which goes without saying.
const usualSaw = "45"

func endLetter(end quantity.End) string {
	if degrees := saw(end); degrees != usualSaw {
		return endLetters[end.Cut] + degrees
	}
	return endLetters[end.Cut]
}

// EndWords says how an end of a product's piece is cut; nothing where the
// product has no cut for corners.
func EndWords(product *job.Product, end quantity.End) string {
	if !shaped(product) {
		return ""
	}
	if degrees := saw(end); degrees != "" {
		return endWords[end.Cut] + " " + degrees
	}
	return endWords[end.Cut]
}

// piece writes a length with the letters of its ends: I 640 O.
func (l *Lists) piece(product *job.Product, length measure.Length, ends [2]quantity.End) string {
	if !shaped(product) {
		return l.Cut(length)
	}
	return endLetter(ends[0]) + " " + l.Cut(length) + " " + endLetter(ends[1])
}

// barsOf are the bars of a pool, each row with the pieces that its cuts are for.
// Pieces of one length are dealt out by their ends, so that bars alike stay
// together.
func (l *Lists) barsOf(pool *cutting.Pool) []Bars {
	pieces := map[measure.Length][]string{}
	for _, piece := range pool.Pieces {
		pieces[piece.Length] = append(pieces[piece.Length], l.piece(pool.Product, piece.Length, piece.Ends()))
	}
	for _, alike := range pieces {
		slices.Sort(alike)
	}
	var rows []Bars
	for _, bar := range pool.Plan.Bars {
		for range bar.Count {
			row := Bars{Product: pool.Product, Stock: pool.Stocks[bar.Stock], Bar: bar}
			row.Count = 1
			if row.Stock.Product != nil {
				row.Product = row.Stock.Product
			}
			var words []string
			for _, cut := range bar.Cuts {
				words = append(words, pieces[cut][0])
				pieces[cut] = pieces[cut][1:]
			}
			row.Words = joined(words)
			if n := len(rows); n > 0 && rows[n-1].alike(row) {
				rows[n-1].Count++
				continue
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// alike tells whether two rows saw the same pieces from the same stock.
func (r Bars) alike(other Bars) bool {
	return r.Bar.Stock == other.Bar.Stock && r.Words == other.Words && r.Offcut == other.Offcut && r.Kept == other.Kept
}
