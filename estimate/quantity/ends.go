package quantity

import (
	"math/big"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// EndCut is how an end of a piece of trim is cut.
type EndCut int

// The cuts of an end.
const (
	SquareCut EndCut = iota
	InsideMitre
	OutsideMitre
	ScribedCut
	JointCut // square, where a run longer than its stock goes on
)

// End is one end of a piece of trim.
type End struct {
	Cut  EndCut
	Turn building.Turn // of the corner that a mitre meets in
}

// endOf is how the product's end is cut at a run's end. At an inside corner
// that is scribed, the piece that a person facing it has on the right goes
// square into the corner, and the left end of the next is scribed to it.
func endOf(product *job.Product, end building.End, left bool) End {
	switch {
	case product.CornerCut == job.Squared || end.At == building.Butted:
		return End{}
	case end.At == building.OutsideCorner:
		return End{OutsideMitre, end.Turn}
	case product.CornerCut == job.Mitred:
		return End{InsideMitre, end.Turn}
	case left:
		return End{Cut: ScribedCut}
	}
	return End{}
}

// allowance is what the end adds to the run: a scribed end the product's
// allowance, an outside mitre the thickness times the tangent of half the
// corner's turn, to which the face of the piece reaches beyond the wall. An
// inside mitre adds nothing: its longest point is the wall's corner. Source:
// the geometry of a mitre.
func (e End) allowance(product *job.Product) measure.Length {
	switch e.Cut {
	case ScribedCut:
		return product.Scribing
	case OutsideMitre:
		reach := new(big.Int).Mul(big.NewInt(int64(product.Thickness)), big.NewInt(e.Turn.Rise))
		return measure.Length(roundRat(new(big.Rat).SetFrac(reach, big.NewInt(e.Turn.Reach)), 0).IntPart())
	}
	return 0
}
