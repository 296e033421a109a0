package job

import (
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
)

// checkProducts checks each product's sizes, rules and price against one
// another.
func checkProducts(j *Job) []Finding {
	var found []Finding
	for _, p := range j.productRows() {
		found = append(found, checkPack(j, p)...)
		found = append(found, checkRules(p)...)
		if p.Price.IsZero() {
			found = append(found, Finding{Cells: cells(p.Ref, "price"), Problem: problem.Problem{Code: problem.PriceZero,
				Found: fmt.Sprintf("%s at 0", p.Code), Want: "a price above 0, unless it is free", Fix: "fill in the price"}})
		}
	}
	return found
}

// productRows are all rows of all products.
func (j *Job) productRows() []*Product {
	var rows []*Product
	for _, p := range j.Products {
		rows = append(rows, p.Rows()...)
	}
	return rows
}

// checkPack compares the stated area of a pack with its pieces: more than 1 %
// apart, one of the numbers is wrong.
func checkPack(j *Job, p *Product) []Finding {
	var found []Finding
	if p.PiecesPerPack > 0 && !p.Mixed() && p.Length > 0 && p.Width > 0 && p.AreaPerPack > 0 {
		counted := float64(p.PiecesPerPack) * float64(p.Length) * float64(p.Width)
		if counted < float64(measure.LargestArea) && math.Abs(counted-float64(p.AreaPerPack)) > 0.01*counted {
			unit := j.Settings.AreaUnit
			area := measure.Area(counted).Decimal(unit, 3)
			found = append(found, Finding{Cells: cells(p.Ref, "packarea", "pieces", "length", "width"), Problem: problem.Problem{Code: problem.PackSizeDiffers,
				Found: fmt.Sprintf("%s %s a pack, where %d pieces of %s x %s make %s %s", p.AreaPerPack.Decimal(unit, 3), unit, p.PiecesPerPack, p.Length, p.Width, area, unit),
				Want:  "an area within 1 % of pieces x length x width", Fix: "correct the size, the pieces per pack or the area"}})
		}
	}
	if p.Kind == Plank && p.Width > p.Length && p.Length > 0 {
		found = append(found, Finding{Cells: cells(p.Ref, "width", "length"), Problem: problem.Problem{Code: problem.SidesSwapped,
			Found: fmt.Sprintf("a plank %s long and %s wide", p.Length, p.Width), Want: "a length of at least the width", Fix: "swap the length and the width"}})
	}
	if p.Pattern.Blocks() && p.Hands == HandsMixed && p.PiecesPerPack%2 == 1 && !(p.Pattern != PatternChevron && (p.Joint == GlueDown || p.Joint == Loose)) {
		found = append(found, Finding{Cells: cells(p.Ref, "pieces", "joints", "hands"), Problem: problem.Problem{Code: problem.PackHandsOdd,
			Found: fmt.Sprintf("%d pieces in a pack of %s", p.PiecesPerPack, p.Code), Want: "an even number: as many left blocks as right ones", Fix: "correct the pieces per pack, or choose " + HandsApart.String() + " under Hand"}})
	}
	if small := tooSmall(p); small != "" {
		found = append(found, Finding{Cells: cells(p.Ref, small), Problem: problem.Problem{Code: problem.PieceTooSmall,
			Found: fmt.Sprintf("a %s %s long and %s wide", p.Kind, p.Length, p.Width), Want: "planks of at least 50 mm x 10 mm, trims of at least 50 mm", Fix: "correct the size or its unit"}})
	}
	if p.PriceUnits() == nil {
		found = append(found, Finding{Cells: cells(p.Ref, "priceper", "soldby"), Needs: cells(p.Ref, "length", "width", "pieces", "packarea"), Problem: problem.Problem{Code: problem.ProductIncomplete,
			Found: fmt.Sprintf("%s sold by %s and priced per %s", p.Code, p.SoldBy, p.PricePer), Want: "sizes that turn one into the other: area or pieces per pack, length",
			Fix: fmt.Sprintf("fill in what one %s holds, or price it per %s", p.SoldBy, p.SoldBy)}})
	}
	return found
}

// tooSmall is the column of a side that no plank or trim is so small in, ""
// when there is none.
func tooSmall(p *Product) string {
	switch {
	case p.Kind != Plank && p.Kind != Trim:
		return ""
	case p.Length > 0 && p.Length < 50*measure.Millimetre:
		return "length"
	case p.Kind == Plank && p.Width > 0 && p.Width < 10*measure.Millimetre:
		return "width"
	}
	return ""
}

// checkRules checks that the laying rules leave a way to lay the product.
func checkRules(p *Product) []Finding {
	var found []Finding
	wrong := func(code problem.Code, column, other, text, want string) {
		found = append(found, Finding{Cells: cells(p.Ref, column, other), Problem: problem.Problem{Code: code, Found: text, Want: want, Fix: "correct it, or the size of the product"}})
	}
	if p.Kind == Plank && p.Width > 0 && p.Length >= p.Width && tooSmall(p) == "" {
		if p.LeastEnd > p.Length && !p.Pattern.Blocks() {
			wrong(problem.RuleTooLong, "leastend", "length", fmt.Sprintf("a least end piece of %s in planks of %s", p.LeastEnd, p.Length), "at most the plank's length")
		}
		// Joints of neighbouring rows lie at most half a plank apart.
		if 2*p.LeastStagger > p.Length && !p.Pattern.Blocks() {
			wrong(problem.RuleTooLong, "stagger", "length", fmt.Sprintf("a least stagger of %s in planks of %s", p.LeastStagger, p.Length), "at most half the plank's length")
		}
		if rows := measure.Length(p.Pattern.Rows()); rows > 0 && p.Length/rows < p.LeastStagger && 2*p.LeastStagger <= p.Length {
			wrong(problem.RuleTooLong, "stagger", "joints", fmt.Sprintf("a least stagger of %s, where the pattern %s of planks of %s staggers by 1/%d", p.LeastStagger, p.Pattern, p.Length, rows), "at most the pattern's stagger")
		}
		if p.Shortest >= p.Length {
			wrong(problem.RuleTooLong, "shortest", "length", fmt.Sprintf("a shortest length of %s in planks up to %s", p.Shortest, p.Length), "less than the length, which is the longest")
		}
		if p.Mixed() && p.Pattern != PatternRandom {
			wrong(problem.ChoiceUnknown, "joints", "shortest", fmt.Sprintf("the pattern %s of planks of random lengths", p.Pattern), "random: a fixed pattern needs planks of one length")
		}
		if p.LeastRow > p.Width {
			wrong(problem.RuleTooLong, "leastrow", "width", fmt.Sprintf("a least row of %s in planks %s wide", p.LeastRow, p.Width), "at most the plank's width")
		}
		if p.Kerf >= p.Width {
			wrong(problem.RuleTooLong, "kerf", "width", fmt.Sprintf("a kerf of %s in planks %s wide", p.Kerf, p.Width), "the width of a saw cut, 2 to 4 mm (common practice)")
		}
	}
	// Least overlap of vapour films: 25 mm, see the product's Overlap.
	if p.Kind == Film && (p.Overlap < 25*measure.Millimetre || p.Width > 0 && p.Overlap >= p.Width) {
		wrong(problem.OverlapTooSmall, "overlap", "width", fmt.Sprintf("an overlap of %s in film %s wide", p.Overlap, p.Width), "from 25 mm to less than the film's width")
	}
	return found
}

// checkPrices doubts coverings and underlays that cost ten times, or a tenth,
// of what most of their kind cost by area: usually a price of the wrong unit.
func checkPrices(j *Job) []Finding {
	byKind := map[Kind][]pricedArea{}
	for _, p := range j.productRows() {
		if price, ok := priceOfArea(p); ok {
			byKind[p.Kind] = append(byKind[p.Kind], pricedArea{p, price})
		}
	}
	var found []Finding
	for kind := range Kinds {
		priced := byKind[Kind(kind)]
		if len(priced) < 3 {
			continue
		}
		prices := make([]float64, len(priced))
		for i := range priced {
			prices[i] = priced[i].price
		}
		slices.Sort(prices)
		usual := prices[len(prices)/2]
		for _, p := range priced {
			if p.price > 10*usual || p.price < usual/10 {
				found = append(found, Finding{Cells: cells(p.product.Ref, "price", "priceper", "soldby"), Problem: problem.Problem{Code: problem.PriceDoubtful,
					Found: fmt.Sprintf("%s at %.2f a m2, where most of its kind cost about %.2f", p.product.Code, p.price, usual), Want: "a price for the unit named", Fix: "check the price, and whether it is for a pack or an area"}})
			}
		}
	}
	return found
}

type pricedArea struct {
	product *Product
	price   float64 // a square metre, for comparing only
}

func priceOfArea(p *Product) (price float64, ok bool) {
	area := map[Unit]measure.Area{PerSquareMetre: measure.SquareMetre, PerSquareFoot: measure.SquareFoot, PerSquareYard: measure.SquareYard,
		PerPack: p.AreaPerPack, PerRoll: p.AreaPerPack}[p.PricePer]
	if area <= 0 || p.Price.Sign() <= 0 {
		return 0, false
	}
	return p.Price.InexactFloat64() * float64(measure.SquareMetre) / float64(area), true
}

var mostHours = decimal.New(40, 0)

// checkWork doubts hours and wages that are rarely meant.
func checkWork(j *Job) []Finding {
	var found []Finding
	for _, o := range j.Operations {
		if o.HoursPerUnit.Cmp(mostHours) > 0 {
			found = append(found, Finding{Cells: cells(o.Ref, "hours"), Problem: problem.Problem{Code: problem.HoursDoubtful,
				Found: fmt.Sprintf("%s hours for one unit of %s", o.HoursPerUnit, o.Code), Want: "hours of one worker for one unit", Fix: "check the hours: a square metre takes a fraction of an hour"}})
		}
	}
	for _, t := range j.Trades {
		if t.Wage.IsZero() {
			found = append(found, Finding{Cells: cells(t.Ref, "wage"), Problem: problem.Problem{Code: problem.PriceZero,
				Found: fmt.Sprintf("a wage of 0 for %s", t.Name), Want: "a wage above 0", Fix: "fill in the wage"}})
		}
	}
	for _, t := range j.Trades {
		if t.Overtime.Cmp(one) < 0 {
			found = append(found, Finding{Cells: cells(t.Ref, "overtime"), Problem: problem.Problem{Code: problem.ValueOutOfRange,
				Found: fmt.Sprintf("an overtime factor of %s for %s", t.Overtime, t.Name), Want: "a factor of at least 1: 1.5 is time and a half", Fix: "correct the factor, or leave it empty"}})
		}
	}
	for _, e := range j.Extras {
		if e.UnitCost.IsZero() {
			found = append(found, Finding{Cells: cells(e.Ref, "cost"), Problem: problem.Problem{Code: problem.PriceZero,
				Found: fmt.Sprintf("%s at 0", e.Description), Want: "a cost above 0, unless it is free", Fix: "fill in the cost"}})
		}
	}
	return found
}
