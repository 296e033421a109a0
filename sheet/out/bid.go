package out

import (
	"fmt"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/price"
	"laybill/sheet/crew"
)

// bidWidths are the widths of the bid's columns, in letters.
var bidWidths = []float64{16, 28, 46, 13, 11, 14}

// bid writes what the client sees: floors, areas and prices, no cost and no
// margin. Its prices follow the summary's.
func (b *book) bid(sheet string, ladder ladderRows) {
	s := b.open(sheet, page{widths: bidWidths, frozen: 1, titles: 1})
	set := b.result.Job.Settings
	s.title("Bid: " + set.Name)
	for _, line := range [][2]string{{"From", strings.Join(notEmpty(set.Company, set.CompanyAddress), ", ")}, {"Client", set.Client}, {"Site", set.Site}, {"Job number", set.Number}} {
		if line[1] != "" {
			s.put(text(line[0]), text(line[1]).strong())
		}
	}
	if !set.Date.IsZero() {
		s.put(text("Date"), day(set.Date).strong())
	}
	s.skip(1)
	b.bidPrice(s, ladder)
	if len(b.result.Building.Rooms) > 0 { // a job of loose lengths or repairs alone has none
		s.skip(1)
		b.bidTypes(s, ladder)
		s.skip(1)
		b.bidRates(s, ladder)
		s.skip(1)
		b.bidRooms(s)
	}
	if len(b.result.Building.Repairs) > 0 {
		s.skip(1)
		b.bidRepairs(s, ladder)
	}
	s.close()
}

// headings writes a row of headings on a page that is no list: the first
// columns are texts, the others numbers.
func (s *sheet) headings(textColumns int, words ...string) {
	cells := make([]cell, len(words))
	for i, w := range words {
		cells[i] = text(w).in(headingStyle)
		if i >= textColumns {
			cells[i].style.align = right
		}
	}
	s.putHigh(18, cells...)
}

func (b *book) bidPrice(s *sheet, ladder ladderRows) {
	set, l := b.result.Job.Settings, b.result.Price.Ladder
	s.part("Price in " + set.Currency.Code)
	line := func(words string, c cell, strong bool) {
		cells := make([]cell, 6)
		cells[0], cells[5] = text(words), c
		if strong {
			for i := range cells {
				cells[i] = cells[i].total()
			}
		}
		s.putHigh(16, cells...)
	}
	line("Price before "+set.TaxName, amount(l.Net).from(ladder.at(ladder.net)), false)
	line(set.TaxName+" "+set.TaxPercent.String()+" %", amount(l.Tax).from(ladder.at(ladder.tax)), false)
	line("Price with "+set.TaxName, amount(l.Gross).from(ladder.at(ladder.gross)), true)
}

// bidTypes prices each apartment type: the price of its apartments together.
func (b *book) bidTypes(s *sheet, ladder ladderRows) {
	unit := b.result.Job.Settings.AreaUnit
	s.part("By apartment type, before " + b.result.Job.Settings.TaxName)
	s.headings(3, "Apartment type", "Rooms of one", "Floor", "Apartments", "Area "+unit.String(), "Price in all")
	first := s.row + 1
	for _, g := range price.GroupBy(b.result.Building.Places(), b.result.Price.Rooms, typeOf) {
		rooms := roomsOfOne(g.Rooms)
		names := roomNames(rooms)
		if rooms[0].Repaired {
			rooms, names = g.Rooms, "as listed below"
		}
		cells := []cell{text(g.Name).strong(), text(names).in(plainStyle.wrapped()), text(coverings(rooms)).in(plainStyle.wrapped()), count(apartmentsOf(g.Rooms)),
			number(b.billed(g.Rooms).Decimal(unit, 2), "#,##0.00"), b.scaled(g.Share.Price, b.result.Price.Ladder.Net, ladder.at(ladder.net))}
		for i := range cells {
			cells[i].style.edge, cells[i].style.top = hairBelow, true
		}
		s.putWhole(usualHeight, cells...)
	}
	sum := fmt.Sprintf("SUM(%s:%s)", address(6, first), address(6, s.row))
	rest := amount(b.result.Job.Settings.Currency.Zero()).from(b.rounded(ladder.at(ladder.net) + "-" + sum))
	rest.style.format = "#,##0.00;-#,##0.00;"
	s.putHigh(13, text("").from(fmt.Sprintf(`IF(%s=0,"","Rounding")`, address(6, s.row+1))), cell{}, cell{}, cell{}, cell{}, rest)
	total := make([]cell, 6)
	total[0], total[3] = text("All"), count(apartmentsOf(b.result.Building.Places()))
	total[4] = number(b.billed(b.result.Building.Places()).Decimal(unit, 2), "#,##0.00")
	total[5] = amount(b.result.Price.Ladder.Net).from(ladder.at(ladder.net))
	for i := range total {
		total[i] = total[i].total()
	}
	s.putHigh(16, total...)
	s.note("Areas are measured between finished walls; " + b.result.Job.Settings.MeasuringRule.Billing() + ". Skirting: " + b.result.Job.Settings.MeasuringRule.BillingSkirting() + ".")
}

// roomsOfOne is the rooms of the first apartment of a group.
func roomsOfOne(rooms []*building.Room) []*building.Room {
	var of []*building.Room
	for _, room := range rooms {
		if room.Apartment == rooms[0].Apartment {
			of = append(of, room)
		}
	}
	return of
}

func roomNames(rooms []*building.Room) string {
	names := make([]string, len(rooms))
	for i, room := range rooms {
		names[i] = room.Spec.Name
	}
	return strings.Join(names, ", ")
}

// coverings are the descriptions of what the rooms get, each once.
func coverings(rooms []*building.Room) string {
	var words []string
	seen := map[string]bool{}
	for _, room := range rooms {
		for _, line := range room.Spec.BuildUp.Lines {
			if p := line.Product; p != nil && p.Kind.Covering() && !seen[p.Description] {
				seen[p.Description] = true
				words = append(words, p.Description)
			}
		}
	}
	return strings.Join(words, ", ")
}

// bidRooms lists the rooms of each apartment type, without prices.
func (b *book) bidRooms(s *sheet) {
	unit := b.result.Job.Settings.AreaUnit
	s.part("Rooms")
	s.headings(3, "Apartment type", "Room", "Floor", "Skirting "+b.runUnit().String(), "Area "+unit.String(), "")
	seen := map[*job.Room]bool{}
	for _, g := range price.GroupBy(b.result.Building.Rooms, b.result.Price.Rooms, typeOf) {
		for _, room := range roomsOfOne(g.Rooms) {
			if seen[room.Spec] {
				continue
			}
			seen[room.Spec] = true
			skirting := room.BilledSkirting(b.result.Job.Settings.MeasuringRule)
			cells := []cell{text(g.Name), text(room.Spec.Name).in(plainStyle.wrapped()), text(coverings([]*building.Room{room})).in(plainStyle.wrapped()), number(skirting.Decimal(b.runUnit()).Round(2), "#,##0.00"),
				number(b.billed([]*building.Room{room}).Decimal(unit, 2), "#,##0.00"), {}}
			for i := range cells {
				cells[i].style.edge = hairBelow
			}
			s.putWhole(usualHeight, cells...)
		}
	}
}

// bidRepairs lists the repairs by place, each place with its price, which is part
// of the price above.
func (b *book) bidRepairs(s *sheet, ladder ladderRows) {
	s.keepTogether(bands{{height: usualHeight * float64(len(b.result.Building.Repaired)+4)}}, nil)
	s.part("Repairs, before " + b.result.Job.Settings.TaxName)
	s.headings(3, "Apartment", "Room", "Floor", "Planks", "", "Price")
	at := map[*building.Room][]building.Repair{}
	for _, r := range b.result.Building.Repairs {
		at[r.At] = append(at[r.At], r)
	}
	first := s.row + 1
	for _, room := range b.result.Building.Repaired {
		pieces := 0
		for _, r := range at[room] {
			pieces += r.Pieces
		}
		cells := []cell{text(crew.Apartment(room.Apartment)).in(plainStyle.wrapped()), text(room.Spec.Name).in(plainStyle.wrapped()), text(coverings([]*building.Room{room})).in(plainStyle.wrapped()), count(pieces), {},
			b.scaled(b.result.Price.Rooms[room.Index].Price, b.result.Price.Ladder.Net, ladder.at(ladder.net))}
		for i := range cells {
			cells[i].style.edge, cells[i].style.top = hairBelow, true
		}
		s.putWhole(usualHeight, cells...)
	}
	total := make([]cell, 6)
	total[0] = text("All repairs")
	total[5] = amount(b.repairPrice()).from(b.rounded(fmt.Sprintf("SUM(%s:%s)", address(6, first), address(6, s.row))))
	for i := range total {
		total[i] = total[i].total()
	}
	s.putHigh(16, total...)
}

// repairPrice is what all repairs are charged.
func (b *book) repairPrice() money.Amount {
	total := b.result.Job.Settings.Currency.Zero()
	for _, room := range b.result.Building.Repaired {
		total = total.Add(b.result.Price.Rooms[room.Index].Price)
	}
	return total
}

// runUnit is what runs are stated in: metres or feet.
func (b *book) runUnit() measure.Unit {
	if b.imperial() {
		return measure.Ft
	}
	return measure.M
}

// billed is the area that the client pays by the job's measuring rule.
func (b *book) billed(rooms []*building.Room) measure.Area {
	var total measure.Area
	for _, room := range rooms {
		total += room.Billed(b.result.Job.Settings.MeasuringRule)
	}
	return total
}
