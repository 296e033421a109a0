package out

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/money"
)

// made writes what the cost is made of: material by kind, labour by trade and
// the rest, adding up to the cost.
func (s *summary) made() {
	b, l := s.book, s.book.result.Price.Ladder
	cells := []cell{text("What the cost is made of"), {}, rightText(b.result.Job.Settings.Currency.Code), rightText("Of cost")}
	for i := range cells {
		cells[i].style.bold, cells[i].style.edge, cells[i].style.shaded = true, ruleBelow, true
	}
	s.putHigh(17, cells...)
	first := s.row + 1
	for _, kind := range b.kinds() {
		sum := fmt.Sprintf(`SUMIF(%s,"%s",%s)`, s.from.lines.column(kindHeading), kind, s.from.lines.column(netHeading))
		s.piece("Material: "+kind.String(), b.kindNet(kind), b.rounded(sum))
	}
	sums := b.orderSums()
	s.piece("Material: delivery and supplements", sums.Delivery.Add(sums.Supplement),
		b.rounded("SUM("+s.from.totals.column(deliveryHeading)+")+SUM("+s.from.totals.column(supplementHeading)+")"))
	if b.discounted() {
		s.piece("Material: discounts on orders", sums.Allowance.Neg(), b.rounded("-SUM("+s.from.totals.column(orderDiscountHeading)+")"))
	}
	if b.result.Job.Settings.PurchaseTaxIsCost {
		s.piece("Material: tax on purchases", sums.Tax, b.rounded("SUM("+s.from.totals.column(taxHeading)+")"))
	}
	for i, trade := range b.result.Job.Trades {
		total := b.crewTotals(func(line labour.Line) bool { return line.Operation.Trade == trade })
		s.piece("Labour: "+trade.Name, total.cost, s.from.labour.trades.look(fmt.Sprint(i+1), numberHeading, costHeading))
	}
	s.piece("Other costs", l.Other, address(ladderAmount, s.ladder.other))
	s.piece("Contingency", l.Contingency, b.rounded(fmt.Sprintf("SUM(%s:%s)", address(ladderAmount, s.ladder.materialContingency), address(ladderAmount, s.ladder.otherContingency))))
	s.piece("Overhead", l.Overhead, address(ladderAmount, s.ladder.overhead))
	last := s.row
	total := []cell{text("Cost"), {}, amount(l.Cost).from(b.rounded(fmt.Sprintf("SUM(%s:%s)", address(ladderAmount, first), address(ladderAmount, last))))}
	for i := range total {
		total[i] = total[i].total()
	}
	s.putHigh(ladderRow, total...)
	s.moneyBars("What the cost is made of", first, last, chartHeight)
	s.row = max(s.row, first+chartRows)
}

func (s *summary) piece(words string, sum money.Amount, formula string) {
	row := s.row + 1
	cost := s.book.result.Price.Ladder.Cost
	share := cell{style: style{format: "0.0%"}}
	if !cost.IsZero() {
		share.value = round4(float(sum.Decimal()) / float(cost.Decimal()))
		share.formula = fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,4))", fixed(ladderAmount, s.ladder.cost), address(ladderAmount, row), fixed(ladderAmount, s.ladder.cost))
	}
	s.putHigh(ladderRow, text(words), cell{}, amount(sum).from(formula), share)
}

// kindNet is the net of the order lines of one kind of product.
func (b *book) kindNet(kind job.Kind) money.Amount {
	total := b.result.Job.Settings.Currency.Zero()
	for _, order := range b.result.Orders {
		for _, line := range order.Lines {
			if line.Product.Kind == kind {
				total = total.Add(line.Net)
			}
		}
	}
	return total
}
