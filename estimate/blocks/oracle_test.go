package blocks

import (
	"math/rand/v2"
	"testing"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Blocks shared by chains are as few as any way to share them: all ways to put up
// to eight pieces of a hand into blocks are tried.
func TestSharingIsLeast(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	least, found := 0, 0
	for range 150 {
		style := styles[r.IntN(len(styles))]
		p := poolOf(shape.Region{shape.Rectangle(shape.Box{X1: lengthBetween(r, 300, 1500), Y1: lengthBetween(r, 300, 1500)})})
		t0 := table{style: style, pool: &p, pattern: style.pattern(p.Plank), saw: saw{p.Rules.Kerf}}
		ways := t0.directions(&p.Rooms[0])
		l := ways[0].lay(0, t0.pattern, t0.origin(begun{ways[0], step{r.IntN(stepsAlong), r.IntN(stepsAcross)}}))
		for h, hand := range []layout.Hand{layout.Left, layout.Right} {
			var pieces []*cut
			for _, piece := range ofHand([]*laid{l}, hand) {
				if !piece.whole && len(pieces) < 8 {
					pieces = append(pieces, piece)
				}
			}
			_, n := t0.saw.share(pieces, t0.pattern.sides[h])
			best := fewest(t0.saw, pieces, nil)
			if n < best {
				t.Fatalf("%s: %d blocks, fewer than any way gives: %d", style, n, best)
			}
			least, found = least+best, found+n
			spot := t0.saw.spot(pieces, hand, t0.pattern.outlines[h], t0.pattern.sides[h])
			if spot.Pieces > best {
				t.Fatalf("%s: a spot of %d pieces, where %d blocks do", style, spot.Pieces, best)
			}
		}
	}
	t.Logf("%d blocks, least %d", found, least)
	if float64(found) > 1.01*float64(least) {
		t.Errorf("%d blocks, where %d do", found, least)
	}
}

// fewest is the least number of blocks for pieces, the first of them in blocks
// already.
func fewest(s saw, pieces []*cut, blocks [][]*cut) int {
	if len(pieces) == 0 {
		return len(blocks)
	}
	best := fewest(s, pieces[1:], append(blocks, []*cut{pieces[0]}))
	for i, block := range blocks {
		if with := append(block[:len(block):len(block)], pieces[0]); s.parts(with) {
			blocks[i] = with
			best = min(best, fewest(s, pieces[1:], blocks))
			blocks[i] = block
		}
	}
	return best
}

// The place where the pattern begins is as good as any of a fine grid of places
// tried one by one, to within a block in a hundred.
func TestBeginIsBest(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	best, found := 0, 0
	for i := range 8 {
		style := styles[i%len(styles)]
		style.Packs = Alike
		p := poolOf(shape.Region{shape.Rectangle(shape.Box{X1: lengthBetween(r, 900, 2600), Y1: lengthBetween(r, 900, 2600)})})
		found += mustLay(t, style, p).Planks
		t0 := table{style: style, pool: &p, pattern: style.pattern(p.Plank), saw: saw{p.Rules.Kerf}}
		way := t0.directions(&p.Rooms[0])[0]
		along, across := t0.pattern.periods()
		least := 1 << 30
		for a := range measure.Length(8) {
			for b := range measure.Length(40) {
				begin := t0.pattern.untorus(shape.Point{X: along * a / 8, Y: across * b / 40})
				l := way.lay(0, t0.pattern, begin)
				_, lefts := t0.saw.share(ofHand([]*laid{l}, layout.Left), t0.pattern.sides[0])
				_, rights := t0.saw.share(ofHand([]*laid{l}, layout.Right), t0.pattern.sides[1])
				least = min(least, lefts+rights)
			}
		}
		best += least
	}
	t.Logf("%d blocks, of the grid %d", found, best)
	if float64(found) > 1.01*float64(best) {
		t.Errorf("%d blocks, where %d do", found, best)
	}
}
