package out

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
)

// Headings of the discounts on whole orders.
const (
	discountPctHeading   = "Order discount %"
	discountFromHeading  = "From goods of"
	orderDiscountHeading = "Order discount"
	toDiscountHeading    = "To order discount"
	unitsLeftHeading     = "Units left over"
)

// orderDiscounts writes what is taken off whole orders, a row an order. Where the
// orders have several tax classes it is shared among them.
func (b *book) orderDiscounts(sheet string, lines listing, classes taxClasses) listing {
	l := list[orderTotal]{
		title:     "Order discounts",
		note:      "Boxed, slanted cells may be changed. An order discount is taken off the goods from the limit on, after the lines' discounts and before delivery and supplement, and rounded once." + sharedNote(classes),
		landscape: true,
	}
	rows := b.orderRows()
	l.columns = append(b.orderNames(), []column[orderTotal]{
		{heading: goodsHeading, width: 13, total: amount(b.orderSums().Goods), places: b.minor()},
		{heading: discountPctHeading, width: 10, cell: func(r orderTotal, _ int) cell { return orBlank(percent(r.Supplier.OrderDiscountPercent)).input() }},
		{heading: discountFromHeading, width: 11, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.OrderDiscountFrom).input() }},
		{heading: orderDiscountHeading, width: 12, total: amount(b.orderSums().Allowance), places: b.minor()},
		{heading: toDiscountHeading, width: 11},
	}...)
	if len(classes) > 1 {
		l.columns = append(l.columns, shareColumns(classes)...)
	}
	at := l.listed(sheet, len(rows))
	o := orderFormulas{b: b, at: at, lines: lines, classes: classes}
	set := func(heading string, cell func(orderTotal, int) cell) { l.columns[at.number(heading)-1].cell = cell }
	set(goodsHeading, o.goods)
	set(orderDiscountHeading, o.discountOf)
	set(toDiscountHeading, o.toDiscount)
	if len(classes) > 1 {
		set(unitsLeftHeading, o.leftOver)
		for i := range classes {
			set(goodsOf(i), func(r orderTotal, row int) cell { return o.classGoods(r, row, i) })
			set(remainderOf(i), func(r orderTotal, row int) cell { return o.remainder(r, row, i) })
			set(shareHeading(i), func(r orderTotal, row int) cell { return o.share(r, row, i) })
		}
	}
	return l.write(b, sheet, rows)
}

func sharedNote(classes taxClasses) string {
	if len(classes) < 2 {
		return ""
	}
	return " Each tax class bears it by the share of its goods; the larger remainder takes the last minor unit."
}

// discountOf is what is taken off the goods from the limit on.
func (o orderFormulas) discountOf(r orderTotal, row int) cell {
	goods := o.cell(goodsHeading, row)
	return amount(r.Allowance).from(fmt.Sprintf("IF(ROUND(%s-N(%s),%d)>=0,ROUND(%s*N(%s),%d),0)", goods, o.cell(discountFromHeading, row), o.b.minor(),
		goods, o.cell(discountPctHeading, row), o.b.minor()))
}

// toDiscount is what the goods lack to the discount, blank when it is given or
// there is none.
func (o orderFormulas) toDiscount(r orderTotal, row int) cell {
	c := amount(r.ToDiscount())
	c.style.format += ";;"
	return c.from(fmt.Sprintf("IF(N(%s)>0,MAX(0,ROUND(N(%s)-%s,%d)),0)", o.cell(discountPctHeading, row), o.cell(discountFromHeading, row), o.cell(goodsHeading, row), o.b.minor()))
}

// A class's share of the discount is by largest remainder: whole minor units of
// discount x goods of the class / goods, and one more for as many of the largest
// remainders as are left over. Of like remainders the lower rate comes first, so
// each is multiplied by the number of classes and has its rank added.

func goodsOf(class int) string      { return "Goods class " + className(class) }
func remainderOf(class int) string  { return "Remainder class " + className(class) }
func shareHeading(class int) string { return "Discount class " + className(class) }

// shareColumns are the columns that share the discount among several classes.
func shareColumns(classes taxClasses) []column[orderTotal] {
	var goods, remainders, shares []column[orderTotal]
	for i := range classes {
		goods = append(goods, column[orderTotal]{heading: goodsOf(i), width: 13})
		remainders = append(remainders, column[orderTotal]{heading: remainderOf(i), width: 13})
		shares = append(shares, column[orderTotal]{heading: shareHeading(i), width: 12})
	}
	left := []column[orderTotal]{{heading: unitsLeftHeading, width: 9}}
	return slices.Concat(goods, remainders, left, shares)
}

// rank is the place of a class among like remainders: the higher, the sooner.
func (t taxClasses) rank(class int) int64 {
	above := int64(0)
	for _, rate := range t {
		if rate.Cmp(t[class]) > 0 {
			above++
		}
	}
	return above
}

func (o orderFormulas) classGoods(r orderTotal, row, class int) cell {
	return amount(o.taxOf(r, class).Goods).from(o.b.rounded(o.sumOfClass(row, class)))
}

// units is a cell's amount in minor units.
func (o orderFormulas) units(heading string, row int) string {
	return fmt.Sprintf("ROUND(%s*1%s,0)", o.cell(heading, row), strings.Repeat("0", int(o.b.minor())))
}

// wholeUnits are the goods in minor units, at least one to divide by.
func (o orderFormulas) wholeUnits(row int) string {
	return "MAX(1," + o.units(goodsHeading, row) + ")"
}

// splitAt is what the goods of a class are split by before they are multiplied: a
// spreadsheet's numbers are exact to 2^53, which the products of orders above some
// millions pass.
const splitAt = 10_000

func (o orderFormulas) remainder(r orderTotal, row, class int) cell {
	n, rank := int64(len(o.classes)), o.classes.rank(class)
	rest := new(big.Int).Mul(o.rest(r, class), big.NewInt(n))
	c := cell{value: float64(rest.Int64() + rank), style: style{format: wholeFormat}}
	off, goods, whole := o.units(orderDiscountHeading, row), o.units(goodsOf(class), row), o.wholeUnits(row)
	return c.from(fmt.Sprintf("MOD(MOD(%s*INT(%s/%d),%s)*%d+%s*MOD(%s,%d),%s)*%d+%d", off, goods, splitAt, whole, splitAt, off, goods, splitAt, whole, n, rank))
}

// rest is what is left of discount x goods of the class when it is divided by the
// goods.
func (o orderFormulas) rest(r orderTotal, class int) *big.Int {
	product := new(big.Int).Mul(big.NewInt(r.Allowance.Weight()), big.NewInt(o.taxOf(r, class).Goods.Weight()))
	return product.Rem(product, big.NewInt(max(1, r.Goods.Weight())))
}

// remainders are the cells of all classes in a row.
func (o orderFormulas) remainders(row int) string {
	return o.cell(remainderOf(0), row) + ":" + o.cell(remainderOf(len(o.classes)-1), row)
}

// leftOver is how many minor units the classes' whole ones leave over.
func (o orderFormulas) leftOver(r orderTotal, row int) cell {
	n := len(o.classes)
	left := new(big.Int)
	for class := range o.classes {
		left.Add(left, o.rest(r, class))
	}
	left.Quo(left, big.NewInt(max(1, r.Goods.Weight())))
	return count(int(left.Int64())).from(fmt.Sprintf("ROUND((SUM(%s)-%d)/%d/%s,0)", o.remainders(row), n*(n-1)/2, n, o.wholeUnits(row)))
}

func (o orderFormulas) share(r orderTotal, row, class int) cell {
	own := o.cell(remainderOf(class), row)
	cut := fmt.Sprintf("ROUND((%s*%s-(%s-%d)/%d)/%s,0)", o.units(orderDiscountHeading, row), o.units(goodsOf(class), row), own, o.classes.rank(class), len(o.classes), o.wholeUnits(row))
	unit := "1" + strings.Repeat("0", int(o.b.minor()))
	return amount(o.taxOf(r, class).Allowance).from(fmt.Sprintf("IF(RANK(%s,%s)<=%s,%s,%s)", own, o.remainders(row), o.cell(unitsLeftHeading, row),
		o.b.rounded("("+cut+"+1)/"+unit), o.b.rounded(cut+"/"+unit)))
}
