package proof

// checkOrderDates compares the days of the orders with those of the deliveries:
// an order's goods are on site by the first delivery of its supplier to its part
// of the building, and ordered in time for each.
func (c *checker) checkOrderDates() {
	t := c.claim(claimOrderDates)
	type of struct{ supplier, part string }
	onSite, orderBy := map[of]day{}, map[of]day{}
	for i := range c.f.Deliveries {
		d := &c.f.Deliveries[i]
		if d.OnSite == noDay {
			continue
		}
		at := of{d.Supplier, d.For}
		if first, known := onSite[at]; !known || d.OnSite < first {
			onSite[at] = d.OnSite
		}
		if first, known := orderBy[at]; !known || d.OrderBy < first {
			orderBy[at] = d.OrderBy
		}
	}
	for i := range c.f.Orders {
		o := &c.f.Orders[i]
		at := of{o.Supplier, o.For}
		first, dated := onSite[at]
		if !dated {
			t.want(o.NeededBy == nil && o.OrderBy == nil, "order "+o.Number, "a day", "no day", "dated, but nothing is delivered on a day")
			continue
		}
		t.want(o.NeededBy != nil && *o.NeededBy == first, "order "+o.Number, o.NeededBy.or(), first.String(), "not needed by its first delivery")
		t.want(o.OrderBy != nil && *o.OrderBy == orderBy[at], "order "+o.Number, o.OrderBy.or(), orderBy[at].String(), "not the last day to order for its deliveries")
	}
}

// or is the day in words, also where there is none.
func (d *day) or() string {
	if d == nil {
		return "no day"
	}
	return d.String()
}
