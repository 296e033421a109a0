package crew

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/quantity"
)

// Carried is how much of a product to bring.
type Carried struct {
	Product  *job.Product
	Quantity decimal.Decimal
	Unit     string
	planks   int
}

// Whole is the amount in planks and packs, where the product has them.
func (c Carried) Whole() string {
	if c.planks == 0 {
		return ""
	}
	if c.Product.Pattern.Blocks() {
		return Counted(c.planks, "block")
	}
	if c.Product.PiecesPerPack == 0 {
		return Counted(c.planks, "plank")
	}
	packs, loose := c.planks/c.Product.PiecesPerPack, c.planks%c.Product.PiecesPerPack
	words := "packs"
	if packs == 1 {
		words = "pack"
	}
	switch {
	case packs == 0:
		return Counted(loose, "plank")
	case loose == 0:
		return fmt.Sprintf("%s = %d %s", Counted(c.planks, "plank"), packs, words)
	}
	return fmt.Sprintf("%s = %d %s and %d", Counted(c.planks, "plank"), packs, words, loose)
}

// CarriedInto adds up what each apartment of the plan takes, by kind and code.
func (l *Lists) CarriedInto(p *Plan) []Carried {
	return l.carried(p.Rooms, l.byApartment[p.Apartments[0]])
}

// CarriedIntoRoom is what one room takes.
func (l *Lists) CarriedIntoRoom(room *building.Room) []Carried {
	var lines []quantity.Line
	for _, line := range l.byApartment[room.Apartment] {
		if line.Room == room {
			lines = append(lines, line)
		}
	}
	return l.carried([]*building.Room{room}, lines)
}

func (l *Lists) carried(rooms []*building.Room, lines []quantity.Line) []Carried {
	type key struct {
		product *job.Product
		unit    string
	}
	var items []Carried
	at := map[key]int{}
	for _, line := range lines {
		k := key{line.Product, line.Unit}
		if line.Product == nil || line.Unit == "" {
			continue
		}
		if _, known := at[k]; !known {
			at[k] = len(items)
			items = append(items, Carried{Product: line.Product, Unit: line.Unit, planks: l.planks(rooms, line.Product)})
		}
		items[at[k]].Quantity = items[at[k]].Quantity.Add(line.Quantity)
	}
	slices.SortStableFunc(items, func(a, b Carried) int {
		return cmp.Or(cmp.Compare(a.Product.Kind, b.Product.Kind), cmp.Compare(a.Product.Code, b.Product.Code))
	})
	return items
}

// planks is the planks of a product first cut in the rooms.
func (l *Lists) planks(rooms []*building.Room, product *job.Product) int {
	n := 0
	for _, room := range rooms {
		covering := room.Spec.BuildUp.Covering()
		if layout := l.result.Layout(room); layout != nil && covering != nil && covering.Product == product {
			n += layout.Planks
		}
	}
	return n
}
