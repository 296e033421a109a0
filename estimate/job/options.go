package job

import "laybill/estimate/problem"

// Option is an alternative to price beside the job: build-ups or products put
// in the place of others, in the apartments that name the option, or in the
// whole job when none does.
type Option struct {
	Ref   problem.Ref
	Name  string
	Note  string
	Swaps []Swap
}

// Swap is one replacement: of a build-up, or of a product wherever it is used.
type Swap struct {
	Ref                  problem.Ref
	BuildUp, WithBuildUp *BuildUp
	Product, WithProduct *Product
}

// InApartments are the apartments that name the option.
func (o *Option) InApartments(j *Job) []*Apartment {
	var named []*Apartment
	for _, a := range j.Apartments {
		if a.Option == o.Name {
			named = append(named, a)
		}
	}
	return named
}

// With is the job with an option taken. Rooms and build-ups that change are
// new; the job itself stays as it is. Repairs keep their products: they match a
// floor that lies there.
func (j *Job) With(o *Option) *Job {
	c := *j
	s := swapper{option: o, made: map[*BuildUp]*BuildUp{}}
	if len(o.InApartments(j)) == 0 {
		c.Rooms = s.rooms(j.Rooms)
		c.LooseLengths = s.looseLengths(j.LooseLengths)
	} else {
		s.someApartments(&c)
	}
	c.BuildUps = append(append([]*BuildUp(nil), j.BuildUps...), s.added...)
	return &c
}

// swapper makes what an option changes.
type swapper struct {
	option *Option
	made   map[*BuildUp]*BuildUp
	added  []*BuildUp
}

// someApartments gives the apartments that name the option a type of their own.
func (s *swapper) someApartments(c *Job) {
	apartments := append([]*Apartment(nil), c.Apartments...)
	varied, became := map[string]bool{}, map[*Apartment]*Apartment{}
	for i, a := range apartments {
		if a.Option != s.option.Name {
			continue
		}
		own := *a
		own.Type = s.variant(a.Type)
		apartments[i], became[a] = &own, &own
		varied[a.Type] = true
	}
	var rooms []*Room
	for _, room := range c.Rooms {
		if varied[room.Type] {
			own := *room
			own.Type = s.variant(room.Type)
			rooms = append(rooms, &own)
		}
	}
	c.Apartments, c.Repairs = apartments, movedRepairs(c.Repairs, became)
	c.Rooms = append(append([]*Room(nil), c.Rooms...), s.rooms(rooms)...)
}

// movedRepairs are the repairs in the apartments that theirs became.
func movedRepairs(all []*Repair, became map[*Apartment]*Apartment) []*Repair {
	moved := make([]*Repair, len(all))
	for i, repair := range all {
		own := *repair
		if a := became[repair.Apartment]; a != nil {
			own.Apartment = a
		}
		moved[i] = &own
	}
	return moved
}

func (s *swapper) variant(name string) string { return name + " (" + s.option.Name + ")" }

func (s *swapper) rooms(rooms []*Room) []*Room {
	changed := make([]*Room, len(rooms))
	for i, room := range rooms {
		own := *room
		own.BuildUp = s.buildUp(room.BuildUp)
		own.Openings = append([]Opening(nil), room.Openings...)
		for k := range own.Openings {
			own.Openings[k].Profile = s.product(own.Openings[k].Profile)
		}
		changed[i] = &own
	}
	return changed
}

func (s *swapper) looseLengths(all []*LooseLength) []*LooseLength {
	changed := make([]*LooseLength, len(all))
	for i, loose := range all {
		own := *loose
		own.Product = s.product(loose.Product)
		changed[i] = &own
	}
	return changed
}

// buildUp is what stands in a build-up's place.
func (s *swapper) buildUp(b *BuildUp) *BuildUp {
	if s.made[b] != nil {
		return s.made[b]
	}
	own := *b
	for _, swap := range s.option.Swaps {
		if swap.BuildUp == b {
			own = *swap.WithBuildUp
		}
	}
	lines := own.Lines
	own.Lines = make([]*Line, len(lines))
	for i, line := range lines {
		swapped := *line
		swapped.Product = s.product(line.Product)
		own.Lines[i] = &swapped
	}
	s.made[b] = &own
	s.added = append(s.added, &own)
	return &own
}

// product is what stands in a product's place.
func (s *swapper) product(p *Product) *Product {
	for _, swap := range s.option.Swaps {
		if swap.Product != nil && swap.Product == p {
			return swap.WithProduct
		}
	}
	return p
}
