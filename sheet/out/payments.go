package out

import (
	"fmt"
	"slices"
	"strings"

	"laybill/estimate/purchase"
)

// Headings of how orders are paid.
const (
	heldHeading     = "Paid already"
	paidHeading     = "Taken off"
	stepHeading     = "Rounded to"
	roundingHeading = "Rounding"
	payableHeading  = "Payable"
)

// orderPayments writes what is left to pay of every order.
func (b *book) orderPayments(sheet string, totals listing) listing {
	l := list[orderTotal]{
		title: "Order payments",
		note: "Boxed, slanted cells may be changed. What a supplier holds already is taken off its orders in their order, never more than an order comes to; the rest is rounded half up to what the supplier rounds to. " +
			"Neither changes the cost of the job.",
		landscape: true,
	}
	rows, sums := b.orderRows(), b.orderSums()
	l.columns = append(b.orderNames(), []column[orderTotal]{
		{heading: grossHeading, width: 13, total: amount(sums.Gross), places: b.minor()},
		{heading: heldHeading, width: 12, cell: b.held},
		{heading: paidHeading, width: 12, total: amount(sums.Paid), places: b.minor()},
		{heading: stepHeading, width: 9, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.PayableStep).input() }},
		{heading: roundingHeading, width: 10, total: amount(sums.Rounding), places: b.minor()},
		{heading: payableHeading, width: 13, total: amount(sums.Payable), places: b.minor()},
	}...)
	at := l.listed(sheet, len(rows))
	o := orderFormulas{b: b, at: at}
	set := func(heading string, cell func(orderTotal, int) cell) { l.columns[at.number(heading)-1].cell = cell }
	set(grossHeading, func(r orderTotal, row int) cell {
		return amount(r.Gross).from(totals.look(o.cell(orderHeading, row), orderHeading, grossHeading))
	})
	set(paidHeading, o.paid)
	set(roundingHeading, o.rounding)
	set(payableHeading, o.payable)
	return l.write(b, sheet, rows)
}

// firstOf is the number of the first order of an order's supplier.
func (b *book) firstOf(r orderTotal) int {
	return 1 + slices.IndexFunc(b.result.Orders, func(o purchase.Order) bool { return o.Supplier == r.Supplier })
}

// held is what a supplier holds, beside its first order.
func (b *book) held(r orderTotal, _ int) cell {
	if r.no != b.firstOf(r) {
		return cell{}
	}
	return b.limit(r.Supplier.Paid).input()
}

// paid is what a supplier holds beyond its orders before, up to the gross.
func (o orderFormulas) paid(r orderTotal, row int) cell {
	first := o.b.firstOf(r)
	held := fmt.Sprintf("N(%s)", o.at.look(fmt.Sprint(first), orderHeading, heldHeading))
	if r.no > first {
		numbers := o.at.column(orderHeading)
		held = o.b.rounded(fmt.Sprintf(`%s-SUMIFS(%s,%s,">=%d",%s,"<%d")`, held, o.at.column(grossHeading), numbers, first, numbers, r.no))
	}
	return amount(r.Paid).from(fmt.Sprintf("MIN(%s,MAX(0,%s))", o.cell(grossHeading, row), held))
}

func (o orderFormulas) payable(r orderTotal, row int) cell {
	step, zeros := o.cell(stepHeading, row), strings.Repeat("0", int(o.b.minor()))
	due := fmt.Sprintf("(%s-%s)", o.cell(grossHeading, row), o.cell(paidHeading, row))
	return amount(r.Payable).from(fmt.Sprintf("IF(N(%s)>0,ROUND(ROUND(ROUND(%s*1%s,0)/ROUND(%s*1%s,0),0)*%s,%d),ROUND(%s,%d))", step, due, zeros, step, zeros, step, o.b.minor(), due, o.b.minor()))
}

func (o orderFormulas) rounding(r orderTotal, row int) cell {
	return amount(r.Rounding).from(o.b.rounded(fmt.Sprintf("%s-(%s-%s)", o.cell(payableHeading, row), o.cell(grossHeading, row), o.cell(paidHeading, row))))
}
