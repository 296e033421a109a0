package estimate

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// Review finds what makes a job that reads well impossible to estimate: products
// that lack a size their build-up counts by.
func Review(j *job.Job) problem.List {
	var list problem.List
	if len(j.Rooms) == 0 && len(j.LooseLengths) == 0 {
		list.Add(problem.Problem{Code: problem.NothingToPrice, At: problem.Ref{Sheet: "Rooms"}, Found: "no rooms",
			Want: "a row for every room of every apartment type", Fix: "fill in the Rooms sheet"})
	}
	seen := map[string]bool{}
	for _, buildUp := range j.BuildUps {
		for _, line := range buildUp.Lines {
			if line.Product == nil {
				continue
			}
			for _, lack := range lacks(line) {
				key := line.Product.Code + "|" + lack
				if !seen[key] {
					seen[key] = true
					list.Add(incomplete(line, lack))
				}
			}
		}
	}
	return list
}

func incomplete(line *job.Line, lack string) problem.Problem {
	return problem.Problem{Code: problem.ProductIncomplete, At: line.Product.Ref, Also: []problem.Ref{line.Ref},
		Found: fmt.Sprintf("%s has no %s", line.Product.Code, lack),
		Want:  fmt.Sprintf("its %s, because a build-up counts it by %s", lack, line.Measure),
		Fix:   fmt.Sprintf("fill in the %s of %s", lack, line.Product.Code)}
}

// lacks names the values that the line's product needs and does not have.
func lacks(line *job.Line) []string {
	p := line.Product
	var missing []string
	need := func(ok bool, what string) {
		if !ok {
			missing = append(missing, what)
		}
	}
	switch {
	case p.Kind == job.Plank:
		need(p.Length > 0, "Length")
		need(p.Width > 0, "Width")
		need(purchase.PiecesPerSold(p) != nil, "Pieces per pack")
	case p.Kind == job.Film:
		need(p.Length > 0, "Length")
		need(p.Width > p.Overlap, "Width (wider than its overlap)")
	case p.Kind == job.Trim && cutFromStock(line.Measure):
		need(p.Length > 0, "Length")
		need(purchase.PiecesPerSold(p) != nil, "Pieces per pack")
	case line.Measure == job.AreaDepth:
		need(p.Spread.Sign() > 0, "Spread")
		need(p.Weight.Sign() > 0, "Weight")
	default:
		need(quantity.Content(p, line.Measure) != nil, sizeFor(line.Measure))
	}
	return missing
}

func cutFromStock(m job.Measure) bool {
	return m == job.SkirtingLength || m == job.Perimeter || m == job.Openings
}

func sizeFor(m job.Measure) string {
	switch m {
	case job.FloorArea, job.LaidArea, job.OldFloorArea:
		return "Area per pack or Spread"
	}
	return "Length"
}
