package estimate

import (
	"cmp"
	"context"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/parallel"
	"laybill/estimate/quantity"
)

// LineUp is the distance kept between joints two rows apart where it costs no
// plank (common practice).
const LineUp measure.Length = 50 * 320

// lay gathers the rooms into floors and lays every distinct floor once.
func (r *Result) lay(ctx context.Context, watch func(Progress)) error {
	r.gatherFloors()
	distinct := r.twins()
	plans, err := r.layAll(ctx, r.pools(distinct), watch)
	if err != nil {
		return err
	}
	at := map[int]*layout.Plan{}
	for i, floor := range distinct {
		at[floor] = plans[i]
	}
	for i := range r.Floors {
		r.Floors[i].Plan = at[r.Floors[i].First]
	}
	r.nameLayouts()
	return nil
}

// gatherFloors puts rooms with planks into floors by product and by the place
// within which off-cuts are shared.
func (r *Result) gatherFloors() {
	r.RoomFloor = make([]RoomFloor, len(r.Building.Rooms))
	at := map[string]int{}
	for _, room := range r.Building.Rooms {
		r.RoomFloor[room.Index].Floor = -1
		covering := room.Spec.BuildUp.Covering()
		if covering == nil || covering.Product.Kind != job.Plank || covering.Product.Mixed() {
			continue
		}
		place := room.Place(r.Job.Settings.Sharing)
		id := poolID(place, covering.Product)
		i, known := at[id]
		if !known {
			i = len(r.Floors)
			at[id] = i
			r.Floors = append(r.Floors, Floor{ID: id, Product: covering.Product, Place: place})
		}
		r.Floors[i].Rooms = append(r.Floors[i].Rooms, room)
	}
	slices.SortFunc(r.Floors, func(a, b Floor) int {
		return cmp.Or(cmp.Compare(a.Product.Code, b.Product.Code), cmp.Compare(a.Place, b.Place))
	})
}

// poolID names the pool of a place's rooms with one product.
func poolID(place string, p *job.Product) string {
	return strings.TrimPrefix(place+" / "+p.Code, " / ")
}

// twins finds floors whose rooms are alike, sets First of every floor and
// returns the indices of the distinct ones.
func (r *Result) twins() []int {
	first := map[string]int{}
	var distinct []int
	for i := range r.Floors {
		key := r.Floors[i].likeness()
		at, known := first[key]
		if !known {
			at = i
			first[key] = i
			distinct = append(distinct, i)
		}
		r.Floors[i].First = at
	}
	return distinct
}

// likeness is equal for floors that are laid alike: the same rooms of the same
// types, mirrored alike, named alike within the floor.
func (f *Floor) likeness() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%p", f.Product)
	for _, room := range f.Rooms {
		fmt.Fprintf(&b, "|%p,%t,%s", room.Spec, room.Apartment.Mirrored, f.roomID(room))
	}
	return b.String()
}

// roomID names a room within its floor: by its own name when all rooms belong
// to one apartment, so that alike apartments are laid alike.
func (f *Floor) roomID(room *building.Room) string {
	if f.Rooms[0].Apartment == f.Rooms[len(f.Rooms)-1].Apartment {
		return room.Spec.Name
	}
	return room.Place(job.LevelRoom)
}

func (r *Result) pools(floors []int) []pool {
	pools := make([]pool, len(floors))
	for i, at := range floors {
		pools[i] = pool{r.Floors[at].pool(r.Job.Settings.Seed), styleOf(r.Floors[at].Product)}
	}
	return pools
}

func (f *Floor) pool(seed int64) layout.Pool {
	p := f.Product
	pool := layout.Pool{
		Plank:         layout.Plank{Length: p.Length, Width: p.Width},
		Rules:         rulesOf(p),
		PiecesPerPack: p.PiecesPerPack,
		Seed:          seed,
	}
	for _, room := range f.Rooms {
		laid := layout.Room{ID: f.roomID(room), Floor: room.Floor, Directions: room.Directions}
		if len(room.Fields) > 0 {
			laid.Fields = room.LaidInOne()
		}
		pool.Rooms = append(pool.Rooms, laid)
	}
	return pool
}

func rulesOf(p *job.Product) layout.Rules {
	return layout.Rules{Gap: p.Gap, Kerf: p.Kerf, LeastEnd: p.LeastEnd, LeastStagger: p.LeastStagger,
		LeastRow: p.LeastRow, LineUp: LineUp, Ends: ends(p.Joint), Pattern: layout.Pattern(p.Pattern.Rows())}
}

func ends(j job.Joint) layout.Ends {
	if j == job.GlueDown || j == job.Loose {
		return layout.Free
	}
	return layout.Handed
}

// layAll gives the plan of every pool, laying side by side those that are not
// laid yet. Pools of the same content have the same plan, and of a pool and its
// mirror image one is laid for both.
func (r *Result) layAll(ctx context.Context, pools []pool, watch func(Progress)) ([]*layout.Plan, error) {
	keys, mirrored := make([]string, len(pools)), make([]bool, len(pools))
	var open []pool
	for i, one := range pools {
		var plain pool
		plain, mirrored[i] = one.plain()
		keys[i] = plain.key()
		if _, known := r.plans.floors[keys[i]]; !known {
			r.plans.floors[keys[i]] = new(layout.Plan)
			open = append(open, plain)
		}
	}
	err := parallel.Each(ctx, len(open), func(n int) {
		plan, _ := open[n].lay(ctx) // its only error is the context's
		*r.plans.floors[open[n].key()] = plan
	}, func(done int) { watch(Progress{Stage: "laying floors", Done: done, Total: len(open)}) })
	if err != nil {
		return nil, err
	}
	plans := make([]*layout.Plan, len(pools))
	for i := range pools {
		plans[i] = r.plans.floors[keys[i]]
		if mirrored[i] {
			plan := plans[i].Mirrored(&pools[i].Pool)
			plans[i] = &plan
		}
	}
	return plans, nil
}

// nameLayouts numbers the layouts of distinct floors and tells every room its
// layout.
func (r *Result) nameLayouts() {
	before := 0
	offset := map[int]int{}
	for i := range r.Floors {
		floor := &r.Floors[i]
		if floor.First == i {
			offset[i] = before
			before += len(floor.Rooms)
		}
		for slot, room := range floor.Rooms {
			id := ""
			if len(floor.Plan.Layouts[slot].Pieces) > 0 {
				id = fmt.Sprintf("L%d", offset[floor.First]+slot+1)
			}
			r.RoomFloor[room.Index] = RoomFloor{Floor: i, Slot: slot, Layout: id}
		}
	}
}

// laid counts what the layouts contain, room by room.
func (r *Result) laid() []quantity.Laid {
	laid := make([]quantity.Laid, len(r.Building.Rooms))
	for _, room := range r.Building.Rooms {
		if plan := r.Layout(room); plan != nil {
			laid[room.Index] = quantity.Laid{ByPiece: true, Planks: plan.Planks, Area: plan.Area(), Rows: len(plan.Rows),
				Pieces: len(plan.Pieces), Cuts: plan.Cuts + plan.Rips + plan.Notches, Rips: plan.Rips, Notches: plan.Notches}
		}
	}
	for i := range r.Floors {
		r.Floors[i].shareWaste(laid)
	}
	for i := range r.Racked {
		laid[r.Racked[i].Room.Index] = r.Racked[i].laid()
	}
	return laid
}

// shareWaste shares out what the planks of the floor leave over to its rooms, by
// the area laid there; the shares add up to the whole.
func (f *Floor) shareWaste(laid []quantity.Laid) {
	var area measure.Area
	for _, room := range f.Rooms {
		area += laid[room.Index].Area
	}
	waste := measure.Area(f.Plan.Planks)*f.Product.Length.Times(f.Product.Width) - area
	var before, shared measure.Area
	for _, room := range f.Rooms {
		if area == 0 {
			return
		}
		before += laid[room.Index].Area
		upTo := new(big.Int).Mul(big.NewInt(int64(waste)), big.NewInt(int64(before)))
		share := measure.Area(upTo.Quo(upTo, big.NewInt(int64(area))).Int64())
		laid[room.Index].Waste, shared = share-shared, share
	}
}
