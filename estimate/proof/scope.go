package proof

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"
)

// builtPlace is a part of the building at one of its levels.
type builtPlace struct{ block, floor, apartment, room string }

// placeAt is the part of the building that the room belongs to at a level.
func (r *roomEntry) placeAt(level string) (p builtPlace, known bool) {
	apartment := cmp.Or(r.Apartment, r.Type)
	switch level {
	case "room":
		return builtPlace{apartment: apartment, room: r.Room}, true
	case "apartment":
		return builtPlace{apartment: apartment}, true
	case "floor":
		return builtPlace{block: r.Block, floor: r.Floor}, true
	case "block":
		return builtPlace{block: r.Block}, true
	case "job":
		return builtPlace{}, true
	}
	return builtPlace{}, false
}

// checkSharing checks that off-cuts are carried no further than the job says.
func (c *checker) checkSharing() {
	t := c.claim(claimSharing)
	level := c.f.Job.Sharing
	if level == "" {
		t.remark = "the file does not say how far off-cuts are shared"
		return
	}
	first := map[poolName]*roomEntry{}
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		f := c.floorOf(room)
		if f == nil {
			continue
		}
		name := poolName{f.entry.Product, room.Pool}
		if first[name] == nil {
			first[name] = room
		}
		here, known := room.placeAt(level)
		there, _ := first[name].placeAt(level)
		t.want(known && here == there, room.sign(), "shares planks with "+first[name].sign(), "the same "+level, "off-cuts are carried further than the job says")
	}
}

// planksOf counts planks by their hand; those of rows have none.
type planksOf map[string]int64

// spare is a percentage of each hand, rounded up to whole planks.
func (n planksOf) spare(percent decimal.Decimal) int64 {
	sum := int64(0)
	for _, of := range n {
		sum += percent.Mul(decimal.NewFromInt(of)).Shift(-2).Ceil().IntPart()
	}
	return sum
}

func (n planksOf) all() int64 {
	sum := int64(0)
	for _, of := range n {
		sum += of
	}
	return sum
}

// checkPacks counts spares and packs again, place by place: both are rounded up
// where packs are opened.
func (c *checker) checkPacks() {
	t := c.claim(claimPacks)
	level := c.f.Job.PackRounding
	if level == "" {
		t.remark = "the file does not say where packs are opened"
		return
	}
	cut := c.cutByPlace(level, t)
	for i := range c.f.Materials {
		m := &c.f.Materials[i]
		if places := cut[m.Product]; places != nil && m.Piece != nil {
			m.checkPacks(places, &c.f.Job, c.packsOf(m.Product), t)
		}
	}
}

// cutByPlace counts the planks of every product by the place where their packs
// are opened, those of repairs too.
func (c *checker) cutByPlace(level string, t *tally) map[string]map[builtPlace]planksOf {
	opened := map[poolName]builtPlace{}
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		f := c.floorOf(room)
		if f == nil {
			continue
		}
		name := poolName{f.entry.Product, room.Pool}
		here, known := room.placeAt(level)
		there, met := opened[name]
		t.want(known && (!met || here == there), room.sign(), "shares planks beyond its "+level, "one place a pool", "packs are opened for smaller places than off-cuts are shared in")
		if !met {
			opened[name] = here
		}
	}
	cut := map[string]map[builtPlace]planksOf{}
	add := func(product string, place builtPlace, hand string, n int64) {
		if cut[product] == nil {
			cut[product] = map[builtPlace]planksOf{}
		}
		if cut[product][place] == nil {
			cut[product][place] = planksOf{}
		}
		cut[product][place][hand] += n
	}
	for i := range c.f.Stock {
		s := &c.f.Stock[i]
		add(s.Product, opened[poolName{s.Product, s.Pool}], s.Hand, 1)
	}
	for i := range c.f.Repairs {
		r := &c.f.Repairs[i]
		if room := c.roomAt(r.place); room != nil && r.NewPlanks > 0 {
			place, _ := room.placeAt(level)
			add(r.Product, place, "", r.NewPlanks)
		}
	}
	return cut
}

// packs are what the orders bring of a product: packs of so many pieces, or no
// packs but pieces.
type packs struct {
	inPack       decimal.Decimal // 0: sold by the piece
	packs, loose decimal.Decimal
}

func (c *checker) packsOf(product string) packs {
	var sum packs
	for i := range c.f.Orders {
		for _, line := range c.f.Orders[i].Lines {
			if line.Product != product {
				continue
			}
			if line.PiecesPerPack != nil && line.Packs != nil {
				sum.inPack = line.PiecesPerPack.Decimal
				sum.packs = sum.packs.Add(line.Packs.Decimal)
			} else if line.Pieces != nil {
				sum.loose = sum.loose.Add(line.Pieces.Decimal)
			}
		}
	}
	return sum
}

func (m *materialEntry) checkPacks(places map[builtPlace]planksOf, job *jobEntry, ordered packs, t *tally) {
	where := "material " + m.Product
	spare, attic := int64(0), int64(0)
	need, packed := int64(0), ordered.inPack.Sign() > 0
	for _, planks := range places {
		kept := planks.spare(job.Attic.Decimal)
		more := planks.spare(job.Breakage.Decimal) + kept
		attic += kept
		spare += more
		if packed {
			need += decimal.NewFromInt(planks.all() + more).Div(ordered.inPack).Ceil().IntPart()
		} else {
			need += planks.all() + more
		}
	}
	m.checkSpare(t, where, m.Spare, spare, "spares are not the job's percentages of every place's planks")
	m.checkSpare(t, where, m.Attic, attic, "attic stock is not the job's percentage of every place's planks")
	got, what := ordered.loose, "planks"
	if packed {
		got, what = ordered.packs, "packs"
	}
	t.want(got.Cmp(decimal.NewFromInt(need)) >= 0, where, got.String()+" "+what, fmt.Sprintf("at least %d", need), "not enough for every place where packs are opened")
}

func (m *materialEntry) checkSpare(t *tally, where string, stated whole, planks int64, why string) {
	want := m.Piece.Mul(decimal.NewFromInt(planks))
	t.want(stated.Equal(want), where, stated.String(), want.String(), why)
}
