package blocks

import (
	"cmp"
	"slices"

	"laybill/estimate/layout"
	"laybill/estimate/shape"
)

// together is how many pieces to be cut are shared out at a time: a job's rooms
// in their order, where they all share.
const together = 1500

// share cuts the pieces of a hand from as few blocks as it finds: blocks[i] is
// the block of piece i, and there are count of them. Whole pieces take a block
// each. Pieces are chained along the block, each followed by one that the saw
// parts from it; as many links as possible make as few blocks as possible.
func (s saw) share(pieces []*cut, side shape.Point) (blocks []int, count int) {
	at := map[*cut]int{}
	for group := range slices.Chunk(toCut(pieces), together) {
		c := chains{saw: s, order: alongBlock(group, side)}
		c.link()
		for _, chain := range c.chains() {
			for _, piece := range chain {
				at[piece] = count
			}
			count++
		}
	}
	blocks = make([]int, len(pieces))
	for i, piece := range pieces {
		if number, shared := at[piece]; shared {
			blocks[i] = number
			continue
		}
		blocks[i] = count
		count++
	}
	return blocks, count
}

func toCut(pieces []*cut) []*cut {
	var cuts []*cut
	for _, piece := range pieces {
		if !piece.whole {
			cuts = append(cuts, piece)
		}
	}
	return cuts
}

// alongBlock are pieces in the order of their middles along the block.
func alongBlock(pieces []*cut, side shape.Point) []*cut {
	order := slices.Clone(pieces)
	middle := func(c *cut) int64 {
		return int64(c.box.X0+c.box.X1)*int64(side.X) + int64(c.box.Y0+c.box.Y1)*int64(side.Y)
	}
	slices.SortStableFunc(order, func(a, b *cut) int { return cmp.Compare(middle(a), middle(b)) })
	return order
}

// chains is a matching of pieces with the pieces that follow them in a block.
type chains struct {
	saw
	order []*cut
	fits  [][]bool // fits[b][a]: a may be followed by b, a before b
	next  []int    // of each, -1 for none
	last  []int    // the one before each, -1 for none
	tried []int
	round int
}

// link finds as many links as possible: first the longest piece that fits before
// each, then augmenting paths (H. W. Kuhn, 1955).
func (c *chains) link() {
	n := len(c.order)
	c.next, c.last, c.tried = make([]int, n), make([]int, n), make([]int, n)
	c.fits = make([][]bool, n)
	for b := range n {
		c.next[b], c.last[b] = -1, -1
		c.fits[b] = make([]bool, b)
		for a := range b {
			c.fits[b][a] = c.apart(c.order[a], c.order[b])
		}
	}
	var open []int
	for b := range n {
		for a := b - 1; a >= 0 && c.last[b] < 0; a-- {
			if c.fits[b][a] && c.next[a] < 0 {
				c.next[a], c.last[b] = b, a
			}
		}
		if c.last[b] < 0 {
			open = append(open, b)
		}
	}
	for _, b := range open {
		c.round++
		c.augment(b)
	}
}

// augment links a piece with one before it, others giving way.
func (c *chains) augment(b int) bool {
	for a := b - 1; a >= 0; a-- {
		if !c.fits[b][a] || c.tried[a] == c.round {
			continue
		}
		c.tried[a] = c.round
		if c.next[a] < 0 || c.augment(c.next[a]) {
			c.next[a], c.last[b] = b, a
			return true
		}
	}
	return false
}

// chains are the linked pieces, block by block. A chain that straight cuts do not
// part, which takes three pieces or more, is broken.
func (c *chains) chains() [][]*cut {
	var all [][]*cut
	for first := range c.order {
		if c.last[first] >= 0 {
			continue
		}
		var chain []*cut
		for i := first; i >= 0; i = c.next[i] {
			if piece := c.order[i]; len(chain) >= 2 && !c.parts(append(slices.Clone(chain), piece)) {
				all = append(all, chain)
				chain = nil
			}
			chain = append(chain, c.order[i])
		}
		all = append(all, chain)
	}
	return all
}

// ofHand are the cuts of a hand.
func ofHand(rooms []*laid, hand layout.Hand) []*cut {
	var pieces []*cut
	for _, room := range rooms {
		for i := range room.cuts {
			if room.cuts[i].hand == hand {
				pieces = append(pieces, &room.cuts[i])
			}
		}
	}
	return pieces
}
