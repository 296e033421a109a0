package out

import (
	"fmt"
	"strings"

	"laybill/estimate/purchase"
	"laybill/sheet/crew"
)

// purchaseOrder writes the order to one supplier. Its figures are looked up in
// the order lists by number, so that a change there shows here.
func (b *book) purchaseOrder(sheet string, no int, lines []orderLine, at, totals, payments listing, classes taxClasses) {
	order := b.result.Orders[no-1]
	s := b.open(sheet, page{widths: []float64{6, 14, 34, 10, 10, 8, 12, 8, 9, 13}})
	s.title("Purchase order " + order.Number)
	for _, line := range notEmpty(b.result.Job.Settings.Company, b.result.Job.Settings.CompanyAddress) {
		s.put(text(line))
	}
	s.skip(1)
	b.orderParties(s, order)
	s.skip(1)
	headings := []string{"Line", "Product", "Description", "Quantity", "Unit", "Packs", "Price", "Per", "Discount", "Net"}
	cells := make([]cell, len(headings))
	for i, h := range headings {
		cells[i] = text(h).in(headingStyle)
		cells[i].style.align = right
		if i == 1 || i == 2 || i == 4 || i == 7 {
			cells[i].style.align, cells[i].style.indent = left, true
		}
	}
	s.putHigh(20, cells...)
	for _, line := range lines {
		if line.order == no {
			b.purchaseLine(s, line, at)
		}
	}
	b.purchaseTotals(s, no, order, totals, classes)
	b.purchasePayment(s, no, order, payments)
	s.skip(2)
	s.note("Quantities are whole packs or order steps as computed from the laying plans. Please confirm prices, lead time and one production batch (shade) for each product.")
	s.skip(2)
	sign := make([]cell, 10)
	sign[1], sign[5] = text("Ordered by"), text("Date")
	for _, col := range []int{1, 2, 5, 6, 7} {
		sign[col].style.edge = ruleBelow
	}
	s.putHigh(18, sign...)
	s.close()
}

// orderParties are the supplier's address, the site and what names the order.
func (b *book) orderParties(s *sheet, order purchase.Order) {
	job := b.result.Job.Settings
	left := notEmpty(order.Supplier.Name, order.Supplier.Address, strings.TrimSpace(order.Supplier.Postcode+" "+order.Supplier.City), order.Supplier.Country, order.Supplier.Email, prefixed("Tax number ", order.Supplier.TaxNumber))
	rightSide := []struct {
		label string
		value cell
	}{
		{"Order", text(order.Number)}, {"Date", day(job.Date)}, {"Job", text(strings.TrimSpace(job.Number + " " + job.Name))}, {"Deliver to", text(job.Site)}, {"For", text(orAll(b.forWords(order)))},
		{"Needed by", day(order.NeededBy)}, {"Order by", day(order.OrderBy)}, {"Lead time", text(crew.Counted(order.Supplier.LeadDays, "day"))},
		{"Weight", text(weightWords(order))}, {"Currency", text(job.Currency.Code)},
	}
	for i := range max(len(left), len(rightSide)) {
		cells := make([]cell, 10)
		if i == 0 {
			cells[0] = text("To")
		}
		if i < len(left) {
			cells[1] = text(left[i]).strong()
		}
		if i < len(rightSide) {
			cells[4], cells[6] = text(rightSide[i].label), rightSide[i].value.strong()
		}
		s.put(cells...)
	}
}

func orAll(part string) string {
	if part == "" {
		return "the whole job"
	}
	return part
}

// weightWords is the weight of the goods, as far as it is known.
func weightWords(o purchase.Order) string {
	if o.Weight.IsZero() {
		return ""
	}
	return o.Weight.StringFixed(1) + " kg"
}

func prefixed(prefix, s string) string {
	if s == "" {
		return ""
	}
	return prefix + s
}

// purchaseLine writes a line of the order and, below it, what belongs to it: its
// charge and its pallets. One rule closes them all.
func (b *book) purchaseLine(s *sheet, line orderLine, at listing) {
	key := fmt.Sprintf("$A%d", s.row+1)
	look := func(c cell, heading string) cell { return c.from(at.look(key, lineHeading, heading)) }
	packsCell := packs(line.Packs).indented()
	if !line.Packs.IsZero() {
		packsCell = look(packs(line.Packs), packsHeading)
	}
	description := text(line.Words()).indented()
	description.style.wrap = true
	goods := []cell{plainCount(line.key).indented(), text(line.Product.Code).indented(), description,
		look(number(line.Quantity, "#,##0.####"), quantityHeading), text(line.Product.SoldBy.String() + " " + line.Product.SoldBy.Code()).indented(), packsCell,
		look(unitPrice(line.Price, b.minor()), priceHeading), text(line.Product.PricePer.String()).indented(),
		look(percent(line.Discount), discountHeading), look(amount(line.Line.Net), netHeading)}
	var notes [][]cell
	note := func(words string) []cell {
		cells := make([]cell, len(goods))
		cells[2] = text(words).in(noteStyle).indented()
		notes = append(notes, cells)
		return cells
	}
	if !line.Charge.IsZero() {
		charge := note("charge on this line, in its net")
		charge[6], charge[7] = amount(line.Charge).from(at.look(key, lineHeading, lineChargeHeading)), text("line").in(noteStyle).indented()
		charge[6].style.italic = true
	}
	if words := palletWords(line.Line); words != "" {
		note("pallets: " + words)
	}
	last := goods
	if len(notes) > 0 {
		last = notes[len(notes)-1]
	}
	for i := range last {
		last[i].style.edge = hairBelow
	}
	s.putWhole(usualHeight, goods...)
	for _, cells := range notes {
		s.putHigh(12, cells...)
	}
}

// purchaseSum writes a sum of the order, found in one of the lists by its number;
// negative is that it is taken off.
func (s *sheet) purchaseSum(no int, from listing, label string, c cell, heading string, negative, strong bool) {
	formula := from.look(fmt.Sprint(no), orderHeading, heading)
	if negative {
		formula = "-" + formula
	}
	cells := make([]cell, 10)
	cells[6] = text(label)
	cells[9] = c.from(formula)
	if strong {
		cells[6], cells[9] = cells[6].strong(), cells[9].total()
		cells[7].style.edge, cells[8].style.edge, cells[6].style.edge = ruleAbove, ruleAbove, ruleAbove
	}
	s.putHigh(14, cells...)
}

func (b *book) purchaseTotals(s *sheet, no int, order purchase.Order, totals listing, classes taxClasses) {
	look := func(label string, c cell, heading string, strong bool) {
		s.purchaseSum(no, totals, label, c, heading, false, strong)
	}
	look("Goods", amount(order.Goods), goodsHeading, true)
	if percent := order.Supplier.OrderDiscountPercent; percent.Sign() > 0 {
		s.purchaseSum(no, totals, fmt.Sprintf("Order discount %s %%", percent), amount(order.Allowance.Neg()), orderDiscountHeading, true, false)
	}
	if !order.Delivery.IsZero() || !order.Supplier.Delivery.IsZero() {
		look("Delivery", amount(order.Delivery), deliveryHeading, false)
	}
	if !order.Supplement.IsZero() || !order.Supplier.MinimumOrder.IsZero() {
		look("Supplement to minimum order", amount(order.Supplement), supplementHeading, false)
	}
	look("Net", amount(order.Net), netHeading, true)
	o := orderFormulas{b: b, classes: classes}
	name := b.result.Job.Settings.TaxName
	for i, rate := range classes {
		if tax := o.taxOf(orderTotal{no, order}, i); !tax.Base.IsZero() {
			look(fmt.Sprintf("%s %s %%", name, rate.String()), amount(tax.Amount), "Tax class "+className(i), false)
		}
	}
	look("Gross", amount(order.Gross), grossHeading, true)
}

// purchasePayment is what is left to pay, where that is not the gross.
func (b *book) purchasePayment(s *sheet, no int, order purchase.Order, payments listing) {
	if !settles(order.Supplier) {
		return
	}
	if order.Supplier.Paid.Sign() > 0 {
		s.purchaseSum(no, payments, "Paid already", amount(order.Paid.Neg()), paidHeading, true, false)
	}
	if order.Supplier.PayableStep.Sign() > 0 {
		s.purchaseSum(no, payments, "Rounding", amount(order.Rounding), roundingHeading, false, false)
	}
	s.purchaseSum(no, payments, "Payable", amount(order.Payable), payableHeading, false, true)
}
