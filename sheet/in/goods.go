package in

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/estimate/purchase"
	"laybill/estimate/shape"
)

// record is the place of a row, at its name, and remembers the row for the
// checks that come later.
func (r row) record(key string) problem.Ref {
	at := r.at(key)
	r.rows[problem.Ref{Sheet: at.Sheet, Row: at.Row}] = r.part
	return at
}

// named reads the name that a row goes by.
func (r row) name(key string) string {
	name, _ := read(r, key, asText)
	return name
}

// money reads an amount in the job's currency.
func (r row) money(key string) money.Amount {
	amount := r.amount(key)
	if r.job.Settings.Currency.Code == "" {
		return money.Amount{}
	}
	return r.job.Settings.Currency.Round(amount)
}

// found tells whether a table has a sheet.
func (r *reader) found(key string) bool { return len(r.parts[key]) > 0 }

// filled tells whether a table has a row.
func (r *reader) filled(key string) bool {
	for _, p := range r.parts[key] {
		for _, cells := range p.sheet.Rows {
			if row := (row{reader: r, part: p, cells: cells}); cells.Number > p.heading.cells.Number && row.sort() == tableRow {
				return true
			}
		}
	}
	return false
}

func (r *reader) readSuppliers() {
	r.suppliers = newNames[*job.Supplier]("supplier", "Suppliers", r.found("suppliers") || !r.blank["suppliers"])
	r.each("suppliers", func(r row) {
		s := &job.Supplier{
			Ref: r.record("code"), Code: r.name("code"), Name: r.text("name"),
			Address: r.text("address"), City: r.text("city"), Postcode: r.text("postcode"),
			Country: r.text("country"), TaxNumber: r.text("taxnumber"), Email: r.text("email"),
			LeadDays: r.whole("lead", mostDays), MinimumOrder: r.money("minimum"), Delivery: r.money("delivery"), FreeFrom: r.money("free"),
			DiscountPercent: r.percent("discount"),
			Paid:            r.money("paid"), PayableStep: r.money("payablestep"),
		}
		r.orderDiscount(s)
		if s.DiscountPercent.Cmp(hundred) > 0 {
			r.doubt(problem.ValueOutOfRange, "discount", "per cent from 0 to 100", "correct the discount")
		}
		r.job.Suppliers = append(r.job.Suppliers, s)
		r.suppliers.add(r, "code", s.Code, s)
	})
}

// orderDiscount reads what the supplier takes off whole orders, and from where on.
func (r row) orderDiscount(s *job.Supplier) {
	off, state := r.percentOr("orderdiscount")
	s.OrderDiscountPercent, s.OrderDiscountFrom = off, r.money("orderdiscountfrom")
	if off.Cmp(hundred) > 0 || !off.Equal(off.Round(discountPlaces)) {
		r.doubt(problem.ValueOutOfRange, "orderdiscount", fmt.Sprintf("per cent from 0 to 100, with at most %d decimals", discountPlaces), "correct the discount")
	}
	if off.IsZero() && state != unknown && s.OrderDiscountFrom.Sign() > 0 {
		r.doubt(problem.ValueOutOfRange, "orderdiscountfrom", "nothing, as there is no order discount to begin there", "write the discount under Order discount %, or leave the limit empty")
	}
}

var hundred = decimal.New(100, 0)

// discountPlaces is the most decimals of an order discount: the choice of
// suppliers counts with it in whole numbers.
const discountPlaces = 4

func (r *reader) readProducts() {
	r.products = newNames[*job.Product]("product", "Products", r.filled("products"))
	var rows []*job.Product
	r.each("products", func(r row) {
		p := r.product()
		rows = append(rows, p)
		if first, known := r.products.find(p.Code); known && p.Code != "" && p.Supplier != nil && !offeredBy(first, p.Supplier) {
			first.Offers = append(first.Offers, p)
			return
		}
		r.job.Products = append(r.job.Products, p)
		r.products.add(r, "code", p.Code, p)
	})
	r.readLengthsOf(rows)
	for _, p := range r.job.Products {
		sortOffers(p)
	}
}

// readLengthsOf follows the trims that are other stock lengths of a trim, once
// all products are known.
func (r *reader) readLengthsOf(rows []*job.Product) {
	r.each("products", func(at row) {
		p := rows[0]
		rows = rows[1:]
		of, state := refer(at, "lengthof", r.products)
		switch {
		case state != given:
		case of.Code == p.Code || p.Kind != job.Trim || of.Kind != job.Trim:
			at.doubt(problem.ChoiceUnknown, "lengthof", "the code of another trim", "name the trim that this is another stock length of, or leave the cell empty")
		default:
			p.LengthOf = of
		}
	})
	for _, p := range r.job.Products {
		if p.LengthOf != nil && p.LengthOf.LengthOf != nil {
			r.problems.add("", problem.Problem{Code: problem.ChoiceUnknown, At: p.Ref, Found: p.Code + " is a length of " + p.LengthOf.Code + ", which is a length of " + p.LengthOf.LengthOf.Code,
				Want: "one trim that all other lengths name", Fix: "write " + p.LengthOf.LengthOf.Code + " under Length of"})
		}
	}
}

// offeredBy tells whether a row of the product's code names the supplier.
func offeredBy(p *job.Product, supplier *job.Supplier) bool {
	return p.Supplier == supplier || slices.ContainsFunc(p.Offers, func(o *job.Product) bool { return o.Supplier == supplier })
}

// sortOffers puts the first row of a code among its others, by supplier, so
// that the order of the rows does not matter.
func sortOffers(p *job.Product) {
	if len(p.Offers) == 0 || p.Supplier == nil {
		return
	}
	own := *p
	own.Offers = nil
	p.Offers = append(p.Offers, &own)
	slices.SortFunc(p.Offers, func(a, b *job.Product) int {
		return strings.Compare(nameKey(a.Supplier.Code), nameKey(b.Supplier.Code))
	})
}

func (r row) product() *job.Product {
	p := &job.Product{Ref: r.record("code"), Code: r.name("code"), Description: r.text("description")}
	kind, _ := r.choice("kind")
	p.Kind = job.Kind(kind)
	p.Supplier, _ = refer(r, "supplier", r.suppliers)
	r.productSize(p)
	r.productPrice(p)
	r.productRules(p)
	return p
}

// The most of what is counted: pieces in a pack or packs on a pallet, and days
// until a delivery.
const (
	mostPieces = 100_000
	mostDays   = 3650
)

func (r row) productSize(p *job.Product) {
	p.Length, p.Width, p.Thickness = r.length("length"), r.length("width"), r.length("thickness")
	p.Shortest = r.length("shortest")
	p.PiecesPerPack = r.whole("pieces", mostPieces)
	stated, state := read(r, "packarea", asArea)
	p.AreaPerPack = stated
	if state == blank {
		p.AreaPerPack = countedArea(p)
	}
	p.PacksPerPallet = r.whole("pallet", mostPieces)
	p.Weight = r.number("weight")
	p.Packing, p.PackingWeight = r.number("packing"), r.number("packingweight")
	p.Spread = r.number("spread")
	if p.Kind == job.Each {
		if p.Holds = p.Spread; r.job.Settings.LengthUnit.Imperial() {
			p.Holds = p.Holds.Mul(job.CubicYard)
		}
	}
	if r.job.Settings.LengthUnit.Imperial() {
		p.Packing = p.Packing.Mul(job.CubicYard)
	}
	if p.Kind != job.Compound {
		p.SpreadArea, p.Spread = measure.AreaFromDecimal(p.Spread, r.job.Settings.AreaUnit), decimal.Zero
	}
}

// countedArea is pieces x length x width; of a roll or sheet without a number
// of pieces, its own area. It is 0 when a size is not given or beyond all use, and of planks of
// random lengths.
func countedArea(p *job.Product) measure.Area {
	pieces := p.PiecesPerPack
	if pieces == 0 && (p.Kind == job.Roll || p.Kind == job.Sheet || p.Kind == job.Underlay) {
		pieces = 1
	}
	if p.Mixed() || float64(pieces)*float64(p.Length)*float64(p.Width) >= float64(measure.LargestArea) {
		return 0
	}
	return measure.Area(pieces) * p.Length.Times(p.Width)
}

func (r row) productPrice(p *job.Product) {
	sold, soldState := r.choice("soldby")
	p.SoldBy = job.Unit(sold)
	p.Price, _ = r.price("price")
	per, state := r.choice("priceper")
	p.PricePer = job.Unit(per)
	if state == blank {
		p.PricePer = p.SoldBy
	}
	step, state := read(r, "step", asQuantity)
	p.OrderStep = step
	if state != given {
		p.OrderStep = usualStep(p)
	} else if step.Sign() == 0 {
		r.doubt(problem.ValueOutOfRange, "step", "a number above 0", "correct the order step, or leave it empty")
	}
	p.MinimumQuantity = r.number("minimum")
	p.LineCharge = r.money("linecharge")
	r.lineDiscount(p)
	tax, state := r.percentOr("tax")
	p.TaxPercent = tax
	if state == blank {
		p.TaxPercent = r.job.Settings.TaxPercent
	}
	lead, state := read(r, "lead", asWholeUpTo(mostDays))
	p.LeadDays = lead
	if state == blank && p.Supplier != nil {
		p.LeadDays = p.Supplier.LeadDays
	}
	p.Returnable = r.yes("returnable")
	if soldState == unknown {
		r.problems.unknown[r.at("priceper")] = true
	}
}

// lineDiscount reads the product's own discount, if it has one.
func (r row) lineDiscount(p *job.Product) {
	off, state := r.percentOr("discount")
	if state != given {
		return
	}
	p.Discount = decimal.NewNullDecimal(off)
	if off.Cmp(hundred) > 0 {
		r.doubt(problem.ValueOutOfRange, "discount", "per cent from 0 to 100", "correct the discount")
	}
}

// usualStep is one sold unit; of goods sold by area, the area of a pack.
func usualStep(p *job.Product) decimal.Decimal {
	unit, ok := areaUnitOf(p.SoldBy)
	if ok && p.AreaPerPack > 0 {
		return p.AreaPerPack.Decimal(unit, purchase.PackPlaces)
	}
	return decimal.New(1, 0)
}

func areaUnitOf(u job.Unit) (unit measure.AreaUnit, ok bool) {
	switch u {
	case job.PerSquareMetre:
		return measure.M2, true
	case job.PerSquareFoot:
		return measure.Ft2, true
	case job.PerSquareYard:
		return measure.Yd2, true
	}
	return measure.M2, false
}

func (r row) productRules(p *job.Product) {
	joint, _ := r.choice("joint")
	p.Joint = job.Joint(joint)
	pattern, _ := r.choice("joints")
	p.Pattern = job.Pattern(pattern)
	hands, _ := r.choice("hands")
	p.Hands = job.Hands(hands)
	p.ChevronAngle = r.chevronAngle()
	p.LeastEnd, p.LeastStagger, p.LeastRow = r.length("leastend"), r.length("stagger"), r.length("leastrow")
	p.Gap, p.LongestRun = r.length("gap"), r.length("longest")
	p.MoistureLimit = r.number("moisturelimit")
	p.Movement = r.number("movement")
	hours, state := read(r, "acclimatise", asWholeUpTo(mostDays))
	if p.Acclimatise = hours; state == blank && p.Kind == job.Plank {
		p.Acclimatise = job.UsualAcclimatisation
	}
	p.HeatResist = r.number("heatresist")
	if p.Kind != job.Underlay { // its rows lie side by side
		p.Overlap, p.Upturn = r.length("overlap"), r.length("upturn")
	}
	corner, _ := r.choice("cornercut")
	p.CornerCut, p.Scribing = job.CornerCut(corner), r.length("scribing")
	p.JointWidth, p.Notch, p.BackCoat = r.length("jointwidth"), r.length("notch"), r.length("backcoat")
	kerf, state := read(r, "kerf", asLength)
	p.Kerf = kerf
	if state == blank {
		p.Kerf = r.job.Settings.DefaultKerf
	}
}

// chevronAngle reads the angle of a chevron's blocks, 45 degrees when none is
// given.
func (r row) chevronAngle() shape.Angle {
	const usual = 45
	angle, state := read(r, "angle", asNumber)
	switch thousandths := angle.Shift(3); {
	case state == blank:
		return usual * degree
	case state == given && thousandths.IsInteger() && thousandths.IntPart() >= int64(30*degree) && thousandths.IntPart() <= int64(75*degree):
		return shape.Angle(thousandths.IntPart())
	case state == given:
		r.doubt(problem.ValueOutOfRange, "angle", "degrees from 30 to 75, to a thousandth", "correct the angle: 45 and 60 are usual")
	}
	return usual * degree
}

const degree shape.Angle = 1000
