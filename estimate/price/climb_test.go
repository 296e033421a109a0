package price

import (
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

var euro = mustLookup("EUR")

func mustLookup(code string) money.Currency {
	c, err := money.Lookup(code)
	if err != nil {
		panic(err)
	}
	return c
}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }
func euros(s string) money.Amount  { return euro.Round(dec(s)) }

func same(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s is %s, want %s", what, got, want)
	}
}

// house is two floors of two apartments, each a hall of 5 m2 and a living room
// of 20 m2, in one block.
func house() []*building.Room {
	var rooms []*building.Room
	for _, at := range []struct{ floor, name string }{{"1", "11"}, {"1", "12"}, {"2", "21"}, {"2", "22"}} {
		apartment := &job.Apartment{Name: at.name, Type: "A", Floor: at.floor, Block: "B"}
		for _, spec := range []struct {
			name string
			area measure.Area
		}{{"hall", 5 * measure.SquareMetre}, {"living room", 20 * measure.SquareMetre}} {
			rooms = append(rooms, &building.Room{Index: len(rooms), Apartment: apartment, Spec: &job.Room{Name: spec.name, Type: "A"}, Area: spec.area})
		}
	}
	return rooms
}

// cost is settings and an order, a wage and an extra of these amounts.
func cost(settings job.Settings, material, wages, other string) Ladder {
	settings.Currency = euro
	orders := []purchase.Order{{Net: euros(material)}}
	work := []labour.Line{{Cost: euros(wages)}}
	return Climb(settings, nil, orders, nil, work, []*job.Extra{{Per: job.LevelJob, Quantity: dec("1"), UnitCost: dec(other)}}).Ladder
}

// By hand: material 1000.00 + 3 % = 30.00, labour 600.05 + 5 % = 30.0025 ->
// 30.00, other 99.99 + 10 % = 9.999 -> 10.00. 1700.04 + 70.00 = 1770.04;
// overhead 8 % = 141.6032 -> 141.60; cost 1911.64. At 15 % on price
// 1911.64 / 0.85 = 2248.988.. -> 2248.99, profit 337.35, margin 15.00 %, markup
// 337.35 / 1911.64 = 17.647.. -> 17.65 %. Tax 21 % = 472.2879 -> 472.29, gross
// 2721.28, retention 5 % = 136.064 -> 136.06.
func TestLadderByHand(t *testing.T) {
	l := cost(job.Settings{
		MaterialContingency: dec("3"), LabourContingency: dec("5"), OtherContingency: dec("10"), OverheadPercent: dec("8"),
		ProfitPercent: dec("15"), ProfitBasis: job.OnPrice, TaxPercent: dec("21"), RetentionPercent: dec("5"),
	}, "1000.00", "600.05", "99.99")
	for _, step := range []struct {
		name string
		got  money.Amount
		want string
	}{
		{"material", l.Material, "1000.00"}, {"labour", l.Labour, "600.05"}, {"other", l.Other, "99.99"},
		{"material contingency", l.MaterialContingency, "30.00"}, {"labour contingency", l.LabourContingency, "30.00"}, {"other contingency", l.OtherContingency, "10.00"},
		{"contingency", l.Contingency, "70.00"}, {"overhead", l.Overhead, "141.60"}, {"cost", l.Cost, "1911.64"}, {"price", l.Net, "2248.99"},
		{"profit", l.Profit, "337.35"}, {"tax", l.Tax, "472.29"}, {"gross", l.Gross, "2721.28"}, {"retention", l.Retention, "136.06"},
	} {
		same(t, step.name, step.got.String(), step.want)
	}
	same(t, "margin", l.Margin.StringFixed(2), "15.00")
	same(t, "markup", l.Markup.StringFixed(2), "17.65")
}

// Rate analysis, chapter 10 Flooring, item 1 (scribd 33788165): material 783.50
// and labour 650.00 with 10 % sundries, 20 % on the cost: 1798.20.
func TestPublishedMarkup(t *testing.T) {
	l := cost(job.Settings{LabourContingency: dec("10"), ProfitPercent: dec("20"), ProfitBasis: job.OnCost}, "783.50", "650.00", "0")
	same(t, "cost", l.Cost.String(), "1498.50")
	same(t, "price", l.Net.String(), "1798.20")
}

// A cost of 1000 at 20 %, by basis and price step. 1000 / 0.8 = 1250.
func TestPriceStep(t *testing.T) {
	for _, row := range []struct {
		name          string
		basis         job.ProfitBasis
		profit, step  string
		price, margin string
	}{
		{"margin", job.OnPrice, "20", "0", "1250.00", "20"},
		{"markup", job.OnCost, "20", "0", "1200.00", "16.67"},
		{"nearest step is lower", job.OnPrice, "20", "100", "1300.00", "23.08"},
		{"nearest step is lower and covers the cost", job.OnCost, "20", "500", "1000.00", "0"},
		{"nearest step would be below cost", job.OnCost, "20", "900", "1800.00", "44.44"},
		{"no profit asked for", job.OnPrice, "0", "0", "1000.00", "0"},
	} {
		l := cost(job.Settings{ProfitBasis: row.basis, ProfitPercent: dec(row.profit), PriceStep: euros(row.step)}, "1000", "0", "0")
		same(t, row.name+": price", l.Net.String(), row.price)
		same(t, row.name+": margin", l.Margin.String(), row.margin)
		if !l.Profit.Equal(l.Net.Sub(l.Cost)) {
			t.Errorf("%s: profit %s", row.name, l.Profit)
		}
	}
}

func TestExtrasAreCounted(t *testing.T) {
	rooms := house()
	for _, row := range []struct {
		per    job.Level
		times  int
		amount string // of 1.5 at 10.25 = 15.375 each
	}{{job.LevelJob, 1, "15.38"}, {job.LevelBlock, 1, "15.38"}, {job.LevelFloor, 2, "30.75"}, {job.LevelApartment, 4, "61.50"}} {
		p := Climb(job.Settings{Currency: euro}, rooms, nil, nil, nil, []*job.Extra{{Per: row.per, Quantity: dec("1.5"), UnitCost: dec("10.25")}})
		if p.Extras[0].Times != row.times || p.Extras[0].Amount.String() != row.amount {
			t.Errorf("per %s: %d times, %s", row.per, p.Extras[0].Times, p.Extras[0].Amount)
		}
	}
}

// One order of two lines, shared by hand to two of the rooms. Line A, 60.00, is
// used 1 : 3 by rooms 0 and 1; line B, 40.00, by room 1 alone. Delivery 10.01
// goes 60 : 40 = 6.006 : 4.004 -> 6.01 and 4.00. A costs 66.01: 16.5025 and
// 49.5075 -> the cent left goes to room 1: 16.50 and 49.51. Room 1 has
// 49.51 + 44.00 = 93.51.
func TestMaterialByHand(t *testing.T) {
	rooms := house()
	a, b := &job.Product{Code: "A"}, &job.Product{Code: "B"}
	order := purchase.Order{Lines: []purchase.Line{{Product: a, Net: euros("60")}, {Product: b, Net: euros("40")}},
		Goods: euros("100"), Delivery: euros("10.01"), Supplement: euros("0"), Net: euros("110.01")}
	uses := []quantity.Use{{Product: b, Room: rooms[1], Amount: 9}, {Product: a, Room: rooms[1], Amount: 2}, {Product: a, Room: rooms[0], Amount: 1},
		{Product: a, Room: rooms[1], Amount: 1}, {Product: a, Amount: 100}}
	p := Climb(job.Settings{Currency: euro}, rooms, []purchase.Order{order}, uses, nil, nil)
	for i, want := range []string{"16.50", "93.51", "0.00", "0.00", "0.00", "0.00", "0.00", "0.00"} {
		same(t, rooms[i].Spec.Name, p.Rooms[i].Material.String(), want)
	}
}

// The order of TestMaterialByHand with its tax as a cost: 20 % on line A and the delivery (the
// job's rate), 10 % on line B. Tax (60.00 + 10.01) x 20 % = 14.00 goes by
// 66.01 : 4.00 = 13.2001.. : 0.7999.. -> 13.20 and 0.80; tax 4.00 goes to B. A
// costs 79.21, B 48.80.
func TestPurchaseTaxIsACost(t *testing.T) {
	rooms := house()
	a, b := &job.Product{Code: "A"}, &job.Product{Code: "B"}
	order := purchase.Order{
		Lines: []purchase.Line{{Product: a, Net: euros("60"), TaxPercent: dec("20")}, {Product: b, Net: euros("40"), TaxPercent: dec("10")}},
		Goods: euros("100"), Delivery: euros("10.01"), Supplement: euros("0"), Net: euros("110.01"), Tax: euros("18.00"),
		Taxes: []purchase.Tax{{Percent: dec("10"), Base: euros("40"), Amount: euros("4")}, {Percent: dec("20"), Base: euros("70.01"), Amount: euros("14")}},
	}
	uses := []quantity.Use{{Product: a, Room: rooms[0], Amount: 1}, {Product: b, Room: rooms[1], Amount: 1}}
	p := Climb(job.Settings{Currency: euro, TaxPercent: dec("20"), PurchaseTaxIsCost: true}, rooms, []purchase.Order{order}, uses, nil, nil)
	same(t, "material", p.Ladder.Material.String(), "128.01")
	same(t, "room of A", p.Rooms[0].Material.String(), "79.21")
	same(t, "room of B", p.Rooms[1].Material.String(), "48.80")
}

// Two floors order product A apart: 30.00 with a delivery of 5.00, and 24.00. The
// rooms use it 2 : 1 and bear both orders so, whichever floor they are on: 35.00 is
// 23.33 and 11.67, 24.00 is 16.00 and 8.00. Together 59.00, as ordered.
func TestOrdersOfPartsGoToAllThatUseTheProduct(t *testing.T) {
	rooms := house()
	a := &job.Product{Code: "A"}
	part := func(goods, delivery, net string) purchase.Order {
		return purchase.Order{Lines: []purchase.Line{{Product: a, Net: euros(goods)}}, Goods: euros(goods), Delivery: euros(delivery), Supplement: euros("0"), Net: euros(net)}
	}
	uses := []quantity.Use{{Product: a, Room: rooms[0], Amount: 2}, {Product: a, Room: rooms[5], Amount: 1}}
	p := Climb(job.Settings{Currency: euro}, rooms, []purchase.Order{part("30", "5", "35"), part("24", "0", "24")}, uses, nil, nil)
	same(t, "material", p.Ladder.Material.String(), "59.00")
	same(t, "room 0", p.Rooms[0].Material.String(), "39.33")
	same(t, "room 5", p.Rooms[5].Material.String(), "19.67")
}

// Work of a room stays there; work of an apartment goes 5 : 20 m2 to its rooms,
// work of the job to all by area; an extra per floor is 25.00 each, 1 : 4 : 1 : 4
// by area on the floor.
func TestSharesByArea(t *testing.T) {
	rooms := house()
	work := []labour.Line{
		{Apartment: rooms[0].Apartment, Room: rooms[0], Cost: euros("7")},
		{Apartment: rooms[0].Apartment, Cost: euros("10")},
		{Cost: euros("100")},
	}
	extras := []*job.Extra{{Per: job.LevelFloor, Quantity: dec("1"), UnitCost: dec("25")}}
	p := Climb(job.Settings{Currency: euro}, rooms, nil, nil, work, extras)
	same(t, "labour of the hall", p.Rooms[0].Labour.String(), "14.00")        // 7 + 2 + 5
	same(t, "labour of the living room", p.Rooms[1].Labour.String(), "28.00") // 8 + 20
	same(t, "labour of another hall", p.Rooms[2].Labour.String(), "5.00")
	same(t, "extra of a hall", p.Rooms[4].Other.String(), "2.50")
	same(t, "extra of a living room", p.Rooms[5].Other.String(), "10.00")
}

func TestGroupsAreInNameOrder(t *testing.T) {
	rooms := house()
	extras := []*job.Extra{{Per: job.LevelApartment, Quantity: dec("1"), UnitCost: dec("10")}}
	p := Climb(job.Settings{Currency: euro}, rooms, nil, nil, nil, extras)
	backwards := []*building.Room{rooms[7], rooms[5], rooms[4], rooms[1]}
	groups := GroupBy(backwards, p.Rooms, func(r *building.Room) string { return r.Place(job.LevelApartment) })
	if len(groups) != 3 || groups[0].Name != "11" || groups[1].Name != "21" || groups[2].Name != "22" {
		t.Fatalf("groups %+v", groups)
	}
	same(t, "apartment 21", groups[1].Share.Price.String(), "10.00")
	same(t, "living room of 22", groups[2].Share.Price.String(), "8.00")
}
