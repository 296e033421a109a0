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
		list.Add(problem.Problem{Code: problem.TableEmpty, At: problem.Ref{Sheet: "Rooms"}, Found: "no rooms",
			Want: "a row for every room of every apartment type", Fix: "fill in the Rooms sheet"})
	}
	seen := map[string]bool{}
	for _, buildUp := range j.BuildUps {
		for _, line := range buildUp.Lines {
			if line.Product == nil {
				continue
			}
			for _, row := range line.Product.Rows() {
				for _, lack := range lacks(row, line.Measure) {
					key := row.Ref.String() + "|" + lack
					if !seen[key] {
						seen[key] = true
						list.Add(incomplete(row, line, lack))
					}
				}
			}
		}
	}
	return list
}

func incomplete(product *job.Product, line *job.Line, lack string) problem.Problem {
	return problem.Problem{Code: problem.ProductIncomplete, At: product.Ref, Also: []problem.Ref{line.Ref},
		Found: fmt.Sprintf("%s has no %s", product.Code, lack),
		Want:  fmt.Sprintf("its %s, because a build-up counts it by %s", lack, line.Measure),
		Fix:   fmt.Sprintf("fill in the %s of %s", lack, product.Code)}
}

// lacks names the values that a product needs to be measured so and does not
// have.
func lacks(p *job.Product, measure job.Measure) []string {
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
	case p.Kind == job.Trim && cutFromStock(measure):
		need(p.Length > 0, "Length")
		need(purchase.PiecesPerSold(p) != nil, "Pieces per pack")
	case measure == job.AreaDepth, measure == job.Grinding:
		need(p.Spread.Sign() > 0, "Spread")
		need(p.Weight.Sign() > 0, "Weight")
	default:
		need(quantity.Content(p, measure) != nil, sizeFor(measure))
	}
	return missing
}

func cutFromStock(m job.Measure) bool {
	return m == job.SkirtingLength || m == job.Perimeter || m == job.Openings
}

func sizeFor(m job.Measure) string {
	switch m {
	case job.FloorArea, job.LaidArea, job.OldFloorArea, job.LevelledArea:
		return "Area per pack or Spread"
	}
	return "Length"
}
