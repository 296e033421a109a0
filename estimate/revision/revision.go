// Package revision compares two results of a job: what was added, removed or
// changed, and what that does to material, labour, other costs and price. It
// reads result files only, so that a revision of last year compares as well as
// today's.
package revision

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"slices"

	"github.com/shopspring/decimal"
)

// Revision is what a result file says of a job's price.
type Revision struct {
	Schema string `json:"schema"`
	Job    struct {
		Name     string `json:"name"`
		Number   string `json:"number"`
		Currency string `json:"currency"`
	} `json:"job"`
	Rooms    []room `json:"rooms"`
	Repaired []room `json:"repaired"`
	Shares   []struct {
		Apartment string          `json:"apartment"`
		Type      string          `json:"type"`
		Room      string          `json:"room"`
		Price     decimal.Decimal `json:"price"`
	} `json:"room_shares"`
	Orders []struct {
		Supplier   string          `json:"supplier"`
		Discount   decimal.Decimal `json:"order_discount"`
		Delivery   decimal.Decimal `json:"delivery"`
		Supplement decimal.Decimal `json:"supplement"`
		Tax        decimal.Decimal `json:"tax"`
		Lines      []struct {
			Product     string          `json:"product"`
			Description string          `json:"description"`
			Quantity    decimal.Decimal `json:"quantity"`
			SoldBy      string          `json:"sold_by"`
			Price       decimal.Decimal `json:"price"`
			Net         decimal.Decimal `json:"net"`
		} `json:"lines"`
	} `json:"orders"`
	Labour []struct {
		Operation string          `json:"operation"`
		Hours     decimal.Decimal `json:"hours"`
		Wage      decimal.Decimal `json:"wage"`
		Cost      decimal.Decimal `json:"cost"`
	} `json:"labour"`
	Extras []struct {
		Description string          `json:"description"`
		Quantity    decimal.Decimal `json:"quantity"`
		UnitCost    decimal.Decimal `json:"unit_cost"`
		Amount      decimal.Decimal `json:"amount"`
	} `json:"extras"`
	Price struct {
		PurchaseTaxIsCost bool            `json:"purchase_tax_is_cost"`
		Material          decimal.Decimal `json:"material"`
		Labour            decimal.Decimal `json:"labour"`
		Other             decimal.Decimal `json:"other"`
		Contingency       decimal.Decimal `json:"contingency"`
		Overhead          decimal.Decimal `json:"overhead"`
		Cost              decimal.Decimal `json:"cost"`
		Profit            decimal.Decimal `json:"profit"`
		Net               decimal.Decimal `json:"net"`
		Tax               decimal.Decimal `json:"tax"`
		Gross             decimal.Decimal `json:"gross"`
	} `json:"price"`
}

// room is a room, or a place of repairs with the area replaced.
type room struct {
	Apartment string          `json:"apartment"`
	Type      string          `json:"type"`
	Room      string          `json:"room"`
	Area      decimal.Decimal `json:"area_m2"`
}

// schema is the result file's format.
const schema = "laybill.result/1"

// Read reads a result file.
func Read(r io.Reader) (*Revision, error) {
	var revision Revision
	if err := json.NewDecoder(r).Decode(&revision); err != nil {
		return nil, fmt.Errorf("not a result file: %w", err)
	}
	if revision.Schema != schema {
		return nil, fmt.Errorf("not a result file of the schema %s", schema)
	}
	return &revision, nil
}

// Pair is a figure before and after.
type Pair struct{ Old, New decimal.Decimal }

// Difference is what the figure grew by.
func (p Pair) Difference() decimal.Decimal { return p.New.Sub(p.Old) }

func (p Pair) same() bool { return p.Old.Equal(p.New) }

// Kind is what became of a line.
type Kind int

// The kinds of change.
const (
	Unchanged Kind = iota
	Added
	Removed
	Changed
)

func (k Kind) String() string { return [...]string{"unchanged", "added", "removed", "changed"}[k] }

// Line is one room, product, operation or extra in both revisions.
type Line struct {
	Kind     Kind
	Name     string
	Detail   string
	Unit     string
	Quantity Pair // area, sold units or hours
	Price    Pair // of one unit, where there is one
	Amount   Pair // of money
}

// Table is all lines of one sort, changed or not: their amounts add up to Whole,
// before and after.
type Table struct {
	Lines []Line
	Whole Pair
}

// Changed are the lines that are not the same.
func (t Table) Changed() []Line {
	return slices.DeleteFunc(slices.Clone(t.Lines), func(l Line) bool { return l.Kind == Unchanged })
}

// Step is one step of the ladder from cost to price.
type Step struct {
	Name string
	Pair
}

// HourPlaces is the number of decimals of hours.
const HourPlaces = 2

// Changes are two revisions side by side.
type Changes struct {
	Old, New                       *Revision
	Hours                          Pair // of all work
	Steps                          []Step
	Rooms, Products, Labour, Other Table
}

// Compare sets two revisions side by side. They must be in one currency.
func Compare(before, after *Revision) (Changes, error) {
	if before.Job.Currency != after.Job.Currency {
		return Changes{}, fmt.Errorf("one is in %s and the other in %s", before.Job.Currency, after.Job.Currency)
	}
	c := Changes{Old: before, New: after}
	p, q := &before.Price, &after.Price
	c.Steps = []Step{
		{"Material", Pair{p.Material, q.Material}}, {"Labour", Pair{p.Labour, q.Labour}}, {"Other costs", Pair{p.Other, q.Other}},
		{"Contingency", Pair{p.Contingency, q.Contingency}}, {"Overhead", Pair{p.Overhead, q.Overhead}}, {"Cost", Pair{p.Cost, q.Cost}},
		{"Profit", Pair{p.Profit, q.Profit}}, {"Price before tax", Pair{p.Net, q.Net}}, {"Tax", Pair{p.Tax, q.Tax}}, {"Price with tax", Pair{p.Gross, q.Gross}},
	}
	c.Hours = Pair{before.hours(), after.hours()}
	c.Rooms = table(before.roomLines(), after.roomLines(), Pair{p.Net, q.Net})
	c.Products = table(before.productLines(), after.productLines(), Pair{p.Material, q.Material})
	c.Labour = table(before.labourLines(), after.labourLines(), Pair{p.Labour, q.Labour})
	c.Other = table(before.extraLines(), after.extraLines(), Pair{p.Other, q.Other})
	return c, nil
}

// entry is a line of one revision.
type entry struct {
	name, detail, unit      string
	quantity, price, amount decimal.Decimal
}

// table joins the entries of both revisions by name.
func table(before, after []entry, whole Pair) Table {
	t := Table{Whole: whole}
	at := map[string]int{}
	for _, e := range before {
		at[e.name] = len(t.Lines)
		t.Lines = append(t.Lines, Line{Kind: Removed, Name: e.name, Detail: e.detail, Unit: e.unit,
			Quantity: Pair{Old: e.quantity}, Price: Pair{Old: e.price}, Amount: Pair{Old: e.amount}})
	}
	for _, e := range after {
		i, known := at[e.name]
		if !known {
			i = len(t.Lines)
			at[e.name] = i
			t.Lines = append(t.Lines, Line{Kind: Added, Name: e.name})
		}
		line := &t.Lines[i]
		line.Detail, line.Unit = e.detail, e.unit
		line.Quantity.New, line.Price.New, line.Amount.New = e.quantity, e.price, e.amount
		if known {
			line.Kind = Changed
			if line.Quantity.same() && line.Price.same() && line.Amount.same() {
				line.Kind = Unchanged
			}
		}
	}
	slices.SortStableFunc(t.Lines, func(a, b Line) int { return cmp.Compare(a.Name, b.Name) })
	return t
}

// gather adds entries of one name together; the price is the last one's.
func gather(entries []entry) []entry {
	at := map[string]int{}
	var sums []entry
	for _, e := range entries {
		i, known := at[e.name]
		if !known {
			at[e.name] = len(sums)
			sums = append(sums, e)
			continue
		}
		sums[i].quantity, sums[i].price, sums[i].amount = sums[i].quantity.Add(e.quantity), e.price, sums[i].amount.Add(e.amount)
	}
	return sums
}

func (r *Revision) roomLines() []entry {
	areas := map[string]decimal.Decimal{}
	for _, room := range slices.Concat(r.Rooms, r.Repaired) {
		areas[roomName(room.Apartment, room.Type, room.Room)] = room.Area
	}
	var entries []entry
	for _, share := range r.Shares {
		name := roomName(share.Apartment, share.Type, share.Room)
		entries = append(entries, entry{name: name, unit: "m2", quantity: areas[name], amount: share.Price})
	}
	return gather(entries)
}

// roomName is a room with its apartment, or with its type in a job without
// apartments.
func roomName(apartment, typ, room string) string {
	place := cmp.Or(apartment, typ)
	if place == "" {
		return room
	}
	return place + " / " + room
}

// charges is the line for what the orders cost besides their goods.
const charges = "(delivery, supplements, order discounts and purchase tax)"

func (r *Revision) productLines() []entry {
	var entries []entry
	rest := decimal.Zero
	for _, order := range r.Orders {
		rest = rest.Add(order.Delivery).Add(order.Supplement).Sub(order.Discount)
		if r.Price.PurchaseTaxIsCost {
			rest = rest.Add(order.Tax)
		}
		for _, line := range order.Lines {
			entries = append(entries, entry{line.Product, line.Description, line.SoldBy, line.Quantity, line.Price, line.Net})
		}
	}
	return append(gather(entries), entry{name: charges, amount: rest})
}

func (r *Revision) labourLines() []entry {
	var entries []entry
	for _, line := range r.Labour {
		entries = append(entries, entry{name: line.Operation, unit: "h", quantity: line.Hours, price: line.Wage, amount: line.Cost})
	}
	return gather(entries)
}

// hours are those of all work.
func (r *Revision) hours() decimal.Decimal {
	total := decimal.Zero
	for _, line := range r.Labour {
		total = total.Add(line.Hours)
	}
	return total
}

func (r *Revision) extraLines() []entry {
	var entries []entry
	for _, line := range r.Extras {
		entries = append(entries, entry{name: line.Description, quantity: line.Quantity, price: line.UnitCost, amount: line.Amount})
	}
	return gather(entries)
}
