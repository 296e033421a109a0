package building

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// Repair is planks replaced in a room where nothing else is laid.
type Repair struct {
	*job.Repair
	At *Room // the place of the repair, one of Building.Repaired
}

// Places are all that costs are charged to: the rooms, then the repaired ones.
// A place's Index is its place here.
func (b *Building) Places() []*Room { return slices.Concat(b.Rooms, b.Repaired) }

// repair adds the places of the repairs. They follow the rooms, in the same order
// among themselves.
func (b *Building) repair(j *job.Job) {
	laid := map[at]bool{}
	for _, room := range b.Rooms {
		laid[at{room.Apartment, room.Spec.Name}] = true
	}
	made := map[at]*Room{}
	for _, spec := range j.Repairs {
		where := at{spec.Apartment, spec.Room}
		if laid[where] {
			where.room += " (repairs)"
		}
		if made[where] == nil {
			made[where] = &Room{Repaired: true, Apartment: where.apartment, Spec: &job.Room{Ref: spec.Ref, Type: where.apartment.Type, Name: where.room, BuildUp: &job.BuildUp{Name: "Repairs"}}}
			b.Repaired = append(b.Repaired, made[where])
		}
		b.Repairs = append(b.Repairs, made[where].replace(spec))
	}
	slices.SortStableFunc(b.Repaired, inOrder)
	for i, room := range b.Repaired {
		room.Index = len(b.Rooms) + i
	}
	slices.SortStableFunc(b.Repairs, func(x, y Repair) int {
		return cmp.Or(cmp.Compare(x.At.Index, y.At.Index), cmp.Compare(x.Product.Code, y.Product.Code), cmp.Compare(x.Method.Name, y.Method.Name),
			cmp.Compare(x.Length, y.Length), cmp.Compare(x.Rows, y.Rows), cmp.Compare(x.Pieces, y.Pieces), cmp.Compare(x.FromStock, y.FromStock))
	})
}

// at names a room of an apartment.
type at struct {
	apartment *job.Apartment
	room      string
}

// replace notes a repair in its place, whose area is that of all pieces replaced.
func (r *Room) replace(spec *job.Repair) Repair {
	r.Area += spec.AreaOf(spec.Pieces)
	b := r.Spec.BuildUp
	if !slices.ContainsFunc(b.Lines, func(l *job.Line) bool { return l.Product == spec.Product }) {
		b.Lines = append(b.Lines, &job.Line{Ref: spec.Ref, Product: spec.Product, Measure: job.Pieces, Factor: decimal.NewFromInt(1)})
		slices.SortStableFunc(b.Lines, func(x, y *job.Line) int { return cmp.Compare(x.Product.Code, y.Product.Code) })
	}
	return Repair{spec, r}
}
