package quantity

import (
	"math/big"

	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// bedDepth is the millimetres of adhesive under a tile and on its back. A trowel
// with square notches as wide as its teeth leaves ridges that fill half their
// depth once the tile is pressed in (common practice).
func bedDepth(tile *job.Product) *big.Rat {
	return big.NewRat(int64(tile.Notch+2*tile.BackCoat), 2*int64(measure.Millimetre))
}

// jointDepth is the millimetres that the grout of a tiled floor would stand over
// all of it: (length + width) / (length x width) x thickness x joint. Every
// tile brings a joint along one length and one width; counted so, the corners
// where joints cross are a little too much. Source: the formula of makers of
// grout, there times 1.6 kg a litre.
func jointDepth(tile *job.Product) *big.Rat {
	around := big.NewRat(int64(tile.Length+tile.Width), 1)
	section := big.NewRat(int64(tile.Thickness.Times(tile.JointWidth)), 1)
	depth := new(big.Rat).Quo(new(big.Rat).Mul(around, section), big.NewRat(int64(tile.Length.Times(tile.Width)), 1))
	return depth.Quo(depth, big.NewRat(int64(measure.Millimetre), 1))
}
