package exchange

import (
	"laybill/estimate"
	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/quantity"
)

// endNames are how ends are written.
var endNames = [...]string{quantity.SquareCut: "square", quantity.InsideMitre: "inside mitre", quantity.OutsideMitre: "outside mitre",
	quantity.ScribedCut: "scribed", quantity.JointCut: "joint"}

// lengths are the pieces of every pool, by the runs they cover.
func lengths(r *estimate.Result) []lengthEntry {
	var entries []lengthEntry
	for i := range r.Cutting {
		pool := &r.Cutting[i]
		for _, piece := range pool.Pieces {
			entries = append(entries, lengthOf(pool, piece))
		}
	}
	return entries
}

func lengthOf(pool *cutting.Pool, piece cutting.Piece) lengthEntry {
	e := lengthEntry{place: wherever(nil, piece.Run.Room), Product: pool.Product.Code, Pool: pool.Place, For: piece.Run.By.String(), Wall: piece.Run.Wall,
		Run: mm(piece.Run.Run), Length: mm(piece.Length), Part: piece.Part, Parts: piece.Parts, Return: piece.Run.Return}
	if piece.Run.Room == nil {
		e.For = "loose"
	}
	if pool.Product.CornerCut != job.Squared {
		ends := piece.Ends()
		e.Ends = []string{endNames[ends[0].Cut], endNames[ends[1].Cut]}
	}
	return e
}

// corners are the trims whose ends take an allowance.
func corners(r *estimate.Result) []cornerEntry {
	var entries []cornerEntry
	for i := range r.Cutting {
		p := r.Cutting[i].Product
		if p.CornerCut == job.Squared || i > 0 && r.Cutting[i-1].Product == p {
			continue
		}
		entries = append(entries, cornerEntry{Product: p.Code, Cut: p.CornerCut.String(), Thickness: mm(p.Thickness), Scribing: mm(p.Scribing)})
	}
	return entries
}
