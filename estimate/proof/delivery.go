package proof

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"
)

// checkDeliveries looks at what comes to each floor, and when.
func (c *checker) checkDeliveries() {
	t, storage := c.claim(claimDeliveries), c.claim(claimStorage)
	c.checkBrought(t)
	if c.f.Calendar == nil {
		return
	}
	c.checkDeliveryDays(t)
	if c.f.Calendar.FloorStorage.Sign() > 0 {
		c.checkStorage(storage)
	}
}

// checkBrought wants no more to come of a product from a supplier than is
// ordered there.
func (c *checker) checkBrought(t *tally) {
	type goods struct{ supplier, product string }
	ordered := map[goods]decimal.Decimal{}
	for _, o := range c.f.Orders {
		for _, line := range o.Lines {
			key := goods{o.Supplier, line.Product}
			ordered[key] = ordered[key].Add(line.Quantity.Decimal)
		}
	}
	brought := map[goods]decimal.Decimal{}
	for _, d := range c.f.Deliveries {
		for _, line := range d.Lines {
			key := goods{d.Supplier, line.Product}
			t.want(line.Quantity.Sign() > 0, line.programmed().sign(), line.Quantity.String(), "above 0", "nothing of "+line.Product+" is brought")
			brought[key] = brought[key].Add(line.Quantity.Decimal)
			t.want(brought[key].Cmp(ordered[key]) <= 0, line.programmed().sign(), brought[key].String(), ordered[key].String(), "more of "+line.Product+" is brought than ordered")
		}
	}
}

// checkDeliveryDays wants goods to be ordered their lead time before they come,
// and to come before they are carried in.
func (c *checker) checkDeliveryDays(t *tally) {
	w := c.f.Calendar.week()
	carried := map[programmed]day{}
	for i := range c.f.Programme {
		if s := &c.f.Programme[i]; s.Step == deliveryStep {
			carried[s.programmed()] = s.Start
		}
	}
	for i := range c.f.Deliveries {
		d := &c.f.Deliveries[i]
		where := fmt.Sprintf("delivery %d of %s", i+1, d.Supplier)
		if !t.want(d.OnSite != noDay && d.OrderBy != noDay, where, "no day", "a day", "the delivery has no days") {
			continue
		}
		lead := 0
		for _, line := range d.Lines {
			lead = max(lead, line.Lead)
			in, known := carried[line.programmed()]
			known = known && line.programmed() != programmed{}
			t.want(d.OnSite <= line.NeededBy && line.NeededBy <= line.Until && (!known || line.NeededBy <= in), where+": "+line.Product, d.OnSite.String()+" for "+line.NeededBy.String(),
				"not after "+in.String(), "the goods come too late")
		}
		t.want(w.days(d.OrderBy, d.OnSite) == lead && (lead == 0 || w.works(d.OrderBy)), where, d.OrderBy.String(), fmt.Sprintf("%d working days before %s", lead, d.OnSite), "ordered on another day than the lead time says")
	}
}

// lying is goods on a floor from a day on, or, with less than nothing, no more.
type lying struct {
	from  day
	kg    decimal.Decimal
	lines int
	owner programmed
}

// checkStorage adds up the goods on each floor from day to day.
func (c *checker) checkStorage(t *tally) {
	type level struct{ block, floor string }
	floors := map[level][]lying{}
	var order []level
	for i := range c.f.Deliveries {
		d := &c.f.Deliveries[i]
		at := level{d.Block, d.Floor}
		for _, line := range d.Lines {
			owner := line.programmed()
			if owner == (programmed{}) {
				continue
			}
			if floors[at] == nil {
				order = append(order, at)
			}
			floors[at] = append(floors[at], lying{d.OnSite, line.Weight.Decimal, 1, owner}, lying{line.Until + 1, line.Weight.Neg(), -1, owner})
		}
	}
	limit := c.f.Calendar.FloorStorage.Decimal
	for _, at := range order {
		changes := floors[at]
		slices.SortStableFunc(changes, func(a, b lying) int { return cmp.Compare(a.from, b.from) })
		stored, owners := decimal.Zero, map[programmed]int{}
		for i, change := range changes {
			stored = stored.Add(change.kg)
			if owners[change.owner] += change.lines; owners[change.owner] == 0 {
				delete(owners, change.owner)
			}
			if i+1 < len(changes) && changes[i+1].from == change.from {
				continue
			}
			fits := stored.Cmp(limit) <= 0 || len(owners) == 1 && c.cautioned("floor-full")
			t.want(fits, fmt.Sprintf("floor %s %s on %s", at.block, at.floor, change.from), stored.String()+" kg", limit.String()+" kg", "more than the floor can store")
		}
	}
}

// cautioned tells whether the file has a caution of a code.
func (c *checker) cautioned(code string) bool {
	return slices.ContainsFunc(c.f.Cautions, func(e cautionEntry) bool { return e.Code == code })
}
