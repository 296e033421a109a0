package estimate

import (
	"fmt"
	"slices"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// Review finds what makes a job that reads well impossible to estimate: products
// that lack a size their build-up counts by, margins that leave nothing for the
// cost.
func Review(j *job.Job) problem.List {
	r := review{seen: map[string]bool{}}
	if len(j.Rooms) == 0 && len(j.LooseLengths) == 0 && len(j.Repairs) == 0 {
		r.list.Add(problem.Problem{Code: problem.TableEmpty, At: problem.Ref{Sheet: "Rooms"}, Found: "no rooms",
			Want: "a row for every room of every apartment type", Fix: "fill in the Rooms sheet"})
	}
	r.list.Append(j.Settings.NoPrice())
	for _, buildUp := range j.BuildUps {
		for _, line := range buildUp.Lines {
			r.line(buildUp, line)
		}
	}
	for _, lack := range repairLacks(j.Repairs) {
		r.once(lack.Found, lack)
	}
	for _, use := range stockUses(j) {
		r.stock(use)
	}
	for _, room := range j.Rooms {
		r.oldFloor(room)
	}
	return r.list
}

// review is what was found so far; what a product's row lacks is said once.
type review struct {
	list problem.List
	seen map[string]bool
}

func (r *review) once(lack string, p problem.Problem) {
	if key := p.At.String() + "|" + lack; !r.seen[key] {
		r.seen[key] = true
		r.list.Add(p)
	}
}

// line reviews a line of a build-up: what it, and the covering for it, must have.
func (r *review) line(buildUp *job.BuildUp, line *job.Line) {
	if covering := buildUp.Covering(); covering != nil {
		for _, lack := range coveringLacks(covering.Product, line.Measure) {
			r.list.Add(incomplete(covering.Product, line, lack))
		}
	}
	if line.Product == nil {
		return
	}
	for _, row := range line.Product.Rows() {
		for _, lack := range lacks(row, line.Measure) {
			r.once(lack, incomplete(row, line, lack))
		}
	}
}

// stock reviews goods that lengths are cut from.
func (r *review) stock(use stockUse) {
	for _, row := range use.product.Rows() {
		for _, lack := range lacks(row, job.Runs) {
			r.once(lack, problem.Problem{Code: problem.ProductIncomplete, At: row.Ref, Also: []problem.Ref{use.ref}, Found: fmt.Sprintf("%s has no %s", row.Code, lack),
				Want: fmt.Sprintf("its %s, because lengths are cut from it", lack), Fix: fmt.Sprintf("fill in the %s of %s", lack, row.Code)})
		}
	}
}

func (r *review) oldFloor(room *job.Room) {
	if room.LiftOld && room.OldFloor == nil && slices.ContainsFunc(room.BuildUp.Lines, func(l *job.Line) bool { return l.Measure.OfWaste() }) {
		r.list.Add(problem.Problem{Code: problem.OldFloorUncounted, At: room.Ref, Room: room.Name, Found: "an old floor of no kind lifted in " + room.Name,
			Want: "a row of Old floors with its thickness and weight", Fix: "name the old floor under Lift old floor"})
	}
}

// repairLacks are the values that planks need to be counted for repairs, or for
// the waste of their method, and do not have.
func repairLacks(repairs []*job.Repair) []problem.Problem {
	var all []problem.Problem
	add := func(r *job.Repair, row *job.Product, lack string) {
		all = append(all, problem.Problem{Code: problem.ProductIncomplete, At: row.Ref, Also: []problem.Ref{r.Ref}, Found: fmt.Sprintf("%s has no %s", row.Code, lack),
			Want: fmt.Sprintf("its %s, because a repair counts its planks", lack), Fix: fmt.Sprintf("fill in the %s of %s", lack, row.Code)})
	}
	for _, r := range repairs {
		for _, row := range r.Product.Rows() {
			for _, lack := range lacks(row, job.Pieces) {
				add(r, row, lack)
			}
		}
		for _, line := range r.Method.Lines {
			for _, lack := range coveringLacks(r.Product, line.Measure) {
				add(r, r.Product, lack)
			}
		}
	}
	return all
}

// stockUse is a trim that lengths are cut from, and where the job says so.
type stockUse struct {
	product *job.Product
	ref     problem.Ref
}

// stockUses are the trims of loose lengths and openings, and those that are
// other stock lengths of a trim. Those of build-ups are found by their lines.
func stockUses(j *job.Job) []stockUse {
	var uses []stockUse
	add := func(p *job.Product, ref problem.Ref) {
		if p != nil && p.Kind == job.Trim {
			uses = append(uses, stockUse{p, ref})
		}
	}
	for _, l := range j.LooseLengths {
		add(l.Product, l.Ref)
	}
	for _, room := range j.Rooms {
		for _, opening := range room.Openings {
			add(opening.Profile, opening.Ref)
		}
	}
	for _, p := range j.Products {
		if p.LengthOf != nil {
			add(p, p.LengthOf.Ref)
		}
	}
	return uses
}

func incomplete(product *job.Product, line *job.Line, lack string) problem.Problem {
	return problem.Problem{Code: problem.ProductIncomplete, At: product.Ref, Also: []problem.Ref{line.Ref},
		Found: fmt.Sprintf("%s has no %s", product.Code, lack),
		Want:  fmt.Sprintf("its %s, because a build-up counts it by %s", lack, line.Measure),
		Fix:   fmt.Sprintf("fill in the %s of %s", lack, product.Code)}
}

// lacks names the values that a product needs to be measured so and does not
// have.
func lacks(p *job.Product, by job.Measure) []string {
	var missing []string
	need := func(ok bool, what string) {
		if !ok {
			missing = append(missing, what)
		}
	}
	switch {
	case p.Mixed():
		need(p.Length > 0, "Length")
		need(p.Width > 0, "Width")
		need(p.AreaPerPack > 0, "Area per pack")
		need(p.SoldBy != job.PerPiece && p.SoldBy != job.PerEach, "unit of sale by pack or area")
	case p.Kind == job.Plank:
		need(p.Length > 0, "Length")
		need(p.Width > 0, "Width")
		need(purchase.PiecesPerSold(p) != nil, "Pieces per pack")
	case p.Kind.InStrips():
		need(p.Length > 0, "Length")
		need(p.Width > p.Overlap, "Width (wider than its overlap)")
		need(p.Kind == job.Film || purchase.PiecesPerSold(p) != nil, "Pieces per pack")
	case p.Kind == job.Trim && cutFromStock(by):
		need(p.Length > 0, "Length")
		need(p.CornerCut == job.Squared || p.Thickness > 0, "Thickness")
		need(purchase.PiecesPerSold(p) != nil, "Pieces per pack")
	case by == job.AreaDepth, by == job.Grinding, by.ByLitre():
		need(p.Spread.Sign() > 0, "Spread")
		need(p.Weight.Sign() > 0, "Weight")
	default:
		need(quantity.Content(p, by) != nil, sizeFor(by))
	}
	return missing
}

// coveringLacks names the values that a covering needs for its adhesive, grout or
// waste to be measured and does not have.
func coveringLacks(p *job.Product, m job.Measure) []string {
	var missing []string
	for _, value := range []struct {
		name   string
		needed bool
		given  bool
	}{
		{"Length", m == job.TileJoints, p.Length > 0}, {"Width", m == job.TileJoints, p.Width > 0},
		{"Thickness", m == job.TileJoints || m == job.WasteVolume, p.Thickness > 0},
		{"Joint width", m == job.TileJoints, p.JointWidth > 0}, {"Notch", m == job.TileBed, p.Notch > 0},
		{"Weight", m == job.WasteWeight, p.Weight.Sign() > 0},
	} {
		if value.needed && !value.given {
			missing = append(missing, value.name)
		}
	}
	return missing
}

func cutFromStock(m job.Measure) bool {
	return m == job.SkirtingLength || m == job.Runs || m == job.Perimeter || m == job.Openings || m == job.Steps
}

func sizeFor(m job.Measure) string {
	switch m {
	case job.FloorArea, job.LaidArea, job.OldFloorArea, job.LevelledArea:
		return "Area per pack or Spread"
	case job.WasteVolume:
		return "Spread"
	case job.WasteWeight:
		return "Weight"
	}
	return "Length"
}
