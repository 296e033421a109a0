package exchange

import (
	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// areaPlaces is the number of decimals of a room's area in m2.
const areaPlaces = 6

func placeOf(room *building.Room) place {
	return place{Apartment: room.Apartment.Name, Type: room.Spec.Type, Room: &room.Spec.Name}
}

func rooms(r *estimate.Result) []roomEntry {
	entries := make([]roomEntry, len(r.Building.Rooms))
	for i, room := range r.Building.Rooms {
		entries[i] = roomEntry{
			Apartment: room.Apartment.Name, Type: room.Spec.Type, Room: room.Spec.Name,
			Floor: room.Apartment.Floor, Block: room.Apartment.Block,
			Outline: ring(room.Walls.Outer), Holes: rings(room.Holes),
			Area: dec(room.Area.Decimal(measure.M2, areaPlaces)), Perimeter: mm(room.Perimeter),
			Mirrored: room.Apartment.Mirrored,
		}
		if old := room.Spec.OldFloor; old != nil && r.CountsWaste() {
			entries[i].OldFloor = old.Name
		}
		for _, field := range room.Fields {
			entries[i].Fields = append(entries[i].Fields, fieldEntry{ring(field.Outer), rings(field.Holes)})
		}
		for _, o := range room.Openings {
			entries[i].Openings = append(entries[i].Openings, openingOf(o, room.ProfilesIn(o)))
		}
		for _, jamb := range room.Jambs {
			entries[i].Openings = append(entries[i].Openings, openingOf(jamb, nil))
		}
		if at := r.RoomFloor[i]; at.Layout != "" {
			entries[i].Layout = &at.Layout
			entries[i].Pool = r.Floors[at.Floor].ID
		}
	}
	for i := range r.Racked {
		racked := &r.Racked[i]
		entries[racked.Room.Index].Layout, entries[racked.Room.Index].Pool = &racked.ID, racked.Pool
	}
	return entries
}

func openingOf(o building.Opening, profiles []*job.Product) openingEntry {
	e := openingEntry{Wall: o.Wall, From: mm(o.From), Width: mm(o.Width)}
	if o.Spec != nil {
		e.Return = mm(o.Spec.Return)
	}
	for _, profile := range profiles {
		if profile.LengthOf != nil {
			profile = profile.LengthOf // as in lengths
		}
		e.Profiles = append(e.Profiles, profile.Code)
	}
	return e
}

// layouts are the layouts of the distinct floors; floors laid alike name the
// same ones.
func layouts(r *estimate.Result) []layoutEntry {
	var entries []layoutEntry
	for i := range r.Floors {
		floor := &r.Floors[i]
		if floor.First != i {
			continue
		}
		for slot, room := range floor.Rooms {
			if at := r.RoomFloor[room.Index]; at.Layout != "" {
				entries = append(entries, layoutOf(at.Layout, floor.Product, &floor.Plan.Layouts[slot]))
			}
		}
	}
	for i := range r.Racked {
		entries = append(entries, rackedOf(&r.Racked[i]))
	}
	return entries
}

// rackedOf is a floor of boards of random lengths: its pieces are whole rows.
func rackedOf(r *estimate.Racked) layoutEntry {
	p := r.Product
	e := layoutOf(r.ID, p, &r.Rows.Layout)
	e.Kind = "racked"
	e.Racked = &rackedEntry{Shortest: mm(p.Shortest), Longest: mm(p.Length), Width: mm(p.Width), Least: int64(r.Least()), Most: int64(r.Most())}
	return e
}

func layoutOf(id string, p *job.Product, l *layout.Layout) layoutEntry {
	kind := p.Kind.String()
	if l.Blocks != nil {
		kind = p.Pattern.String()
	}
	return layoutEntry{
		ID: id, Product: p.Code, Kind: kind, Direction: degrees(l.Direction),
		Gap: mm(p.Gap), Kerf: mm(p.Kerf), Joint: p.Joint.String(),
		Rules:   rulesEntry{LeastEnd: mm(p.LeastEnd), LeastStagger: mm(p.LeastStagger), LeastRow: mm(p.LeastRow), LeastLineUp: mm(leastLineUp(p)), LongestRun: mm(p.LongestRun)},
		Pattern: pattern(p, l), Planks: l.Planks, Blocks: blocks(p, l), Pieces: pieces(l),
	}
}

// pattern is a fixed pattern and its phase, nil of random joints.
func pattern(p *job.Product, l *layout.Layout) *patternEntry {
	if p.Pattern.Rows() == 0 {
		return nil
	}
	e := &patternEntry{Name: p.Pattern.String(), Phase: mm(l.Phase)}
	for _, field := range l.Fields {
		e.Phases = append(e.Phases, mm(field.Phase))
	}
	for _, shift := range layout.Pattern(p.Pattern.Rows()).Shifts(layout.Plank{Length: p.Length, Width: p.Width}) {
		e.Shifts = append(e.Shifts, mm(shift))
	}
	return e
}

// leastLineUp is the distance between joints two rows apart; half a plank twice
// is a whole one, so there they are in line by nature.
func leastLineUp(p *job.Product) measure.Length {
	if p.Pattern == job.PatternHalf {
		return 0
	}
	return estimate.LineUp
}

// blocks is how a floor of blocks lies, nil of planks in rows.
func blocks(p *job.Product, l *layout.Layout) *blocksEntry {
	if l.Blocks == nil {
		return nil
	}
	e := &blocksEntry{Origin: spot(l.Blocks.Origin)}
	if p.Pattern == job.PatternChevron {
		outline, side := l.Blocks.Outlines[0], l.Blocks.Sides[0]
		angle, pitch, depth, slant := degrees(p.ChevronAngle), mm(outline[1].X), mm(side.Y), mm(side.X)
		e.Angle, e.Pitch, e.Depth, e.Slant = &angle, &pitch, &depth, &slant
	}
	return e
}

func pieces(l *layout.Layout) []pieceEntry {
	entries := make([]pieceEntry, len(l.Pieces))
	for i, piece := range l.Pieces {
		entries[i] = pieceEntry{Row: piece.Row, Seq: piece.Seq, At: ring(piece.At), Holes: rings(piece.Holes),
			Stock: piece.Stock, InStock: box(shape.Box(piece.In)), Hand: piece.Hand.String()}
	}
	return entries
}

func pools(r *estimate.Result) []poolEntry {
	entries := make([]poolEntry, len(r.Floors))
	for i := range r.Floors {
		floor := &r.Floors[i]
		entries[i] = poolEntry{Product: floor.Product.Code, Pool: floor.ID, Planks: floor.Plan.Planks,
			AnyRows: floor.Plan.LowerBound, ByEye: floor.Plan.ByEye, Certificate: certificate(floor.Plan)}
		if c := floor.Plan.Certificate; c != nil {
			bound := certified(c)
			entries[i].LowerBound = &bound
		}
		if n := floor.Plan.InPattern; n > 0 {
			entries[i].LowerBound, entries[i].AllPhases, entries[i].Certificate = &n, true, nil
		}
		if len(floor.Plan.Spots) > 0 {
			entries[i].LowerBound = &floor.Plan.RowBound
			for _, s := range floor.Plan.Spots {
				entries[i].Spots = append(entries[i].Spots, spotEntry{Hand: s.Hand.String(), At: spot(s.At), Pieces: s.Pieces})
			}
		}
	}
	return entries
}

func stock(r *estimate.Result) []stockEntry {
	var entries []stockEntry
	for i := range r.Floors {
		floor := &r.Floors[i]
		hands := handsOf(floor.Plan)
		for number := range floor.Plan.Planks {
			entries = append(entries, stockEntry{Product: floor.Product.Code, Pool: floor.ID, Number: number + 1,
				Length: mm(floor.Product.Length), Width: mm(floor.Product.Width), Hand: hands[number+1].String()})
		}
	}
	return entries
}

// handsOf are the hands of a plan's blocks by their numbers; none of planks.
func handsOf(plan *layout.Plan) map[int]layout.Hand {
	hands := map[int]layout.Hand{}
	for i := range plan.Layouts {
		for _, piece := range plan.Layouts[i].Pieces {
			if piece.Hand != layout.NoHand {
				hands[piece.Stock] = piece.Hand
			}
		}
	}
	return hands
}

// certified is the number of planks that the certificate alone proves.
func certified(c *layout.Certificate) int {
	var weight int64
	for _, row := range c.Rows {
		weight += int64(row.Count) * row.Price
	}
	return int((weight + c.Plank - 1) / c.Plank)
}

// certificate is the proof of the pool's bound on planks, nil when there is
// none to give.
func certificate(plan *layout.Plan) *certificateEntry {
	c := plan.Certificate
	if c == nil {
		return nil
	}
	e := &certificateEntry{Plank: c.Plank}
	for _, row := range c.Rows {
		e.Rows = append(e.Rows, certifiedRow{Length: mm(row.Length), Width: mm(row.Width), Edges: string(row.Edges), Count: int64(row.Count), Price: row.Price})
	}
	for _, step := range c.Values {
		e.Values = append(e.Values, valueStep{From: mm(step.From), Weight: step.Weight})
	}
	return e
}
