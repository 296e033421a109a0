package job

// Copy is the job with products, build-ups, rooms, apartments, lengths and
// repairs of its own, all referring to one another; everything else is shared. What
// changes in them leaves the first job as it was.
func (j *Job) Copy() *Job {
	c := *j
	products := map[*Product]*Product{nil: nil}
	c.Products = copied(j.Products, products)
	for _, p := range c.Products {
		p.LengthOf = products[p.LengthOf]
	}
	buildUps := map[*BuildUp]*BuildUp{nil: nil}
	c.BuildUps = copied(j.BuildUps, buildUps)
	for _, b := range c.BuildUps {
		b.Lines = copied(b.Lines, map[*Line]*Line{})
		for _, line := range b.Lines {
			line.Product = products[line.Product]
		}
	}
	c.Rooms = copied(j.Rooms, map[*Room]*Room{})
	for _, room := range c.Rooms {
		room.BuildUp = buildUps[room.BuildUp]
		room.Openings = append([]Opening(nil), room.Openings...)
		for i := range room.Openings {
			room.Openings[i].Profile = products[room.Openings[i].Profile]
		}
	}
	apartments := map[*Apartment]*Apartment{}
	c.Apartments = copied(j.Apartments, apartments)
	c.Repairs = copied(j.Repairs, map[*Repair]*Repair{})
	for _, repair := range c.Repairs {
		repair.Apartment, repair.Product, repair.Method = apartments[repair.Apartment], products[repair.Product], buildUps[repair.Method]
	}
	c.LooseLengths = copied(j.LooseLengths, map[*LooseLength]*LooseLength{})
	for _, loose := range c.LooseLengths {
		loose.Product = products[loose.Product]
	}
	c.Remnants = copied(j.Remnants, map[*Remnant]*Remnant{})
	for _, remnant := range c.Remnants {
		remnant.Product = products[remnant.Product]
	}
	return &c
}

// copied copies every record and remembers which became which.
func copied[T any](records []*T, became map[*T]*T) []*T {
	copies := make([]*T, len(records))
	for i, record := range records {
		own := *record
		copies[i] = &own
		became[record] = &own
	}
	return copies
}
