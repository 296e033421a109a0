package estimate

import (
	"context"
	"fmt"

	"laybill/estimate/blocks"
	"laybill/estimate/job"
	"laybill/estimate/layout"
)

// pool is rooms laid from common planks, or from common blocks in a pattern.
type pool struct {
	layout.Pool
	style blocks.Style // none: planks in rows
}

// plain is the pool or its mirror image, the same for both where either can be
// laid for both: blocks are laid anew, since a mirror changes their hands.
func (p pool) plain() (plain pool, mirrored bool) {
	if p.style.Pattern != blocks.None {
		return p, false
	}
	p.Pool, mirrored = p.Pool.Plain()
	return p, mirrored
}

// key is equal for pools that are laid alike.
func (p pool) key() string { return fmt.Sprintf("%v %s", p.style, p.Key()) }

// lay lays the pool. Its error is the context's.
func (p pool) lay(ctx context.Context) (layout.Plan, error) {
	if p.style.Pattern == blocks.None {
		return layout.Lay(ctx, p.Pool)
	}
	return blocks.Lay(ctx, p.style, p.Pool)
}

// styleOf is the pattern of a product's blocks and what a pack holds. Blocks
// with joints have hands, and so have a chevron's by their slanted ends; only a
// herringbone of blocks without joints can turn any block either way.
func styleOf(p *job.Product) blocks.Style {
	s := blocks.Style{Pattern: map[job.Pattern]blocks.Pattern{job.PatternHerringbone: blocks.Herringbone,
		job.PatternDoubleHerringbone: blocks.DoubleHerringbone, job.PatternChevron: blocks.Chevron}[p.Pattern]}
	switch {
	case s.Pattern == blocks.None, s.Pattern != blocks.Chevron && ends(p.Joint) == layout.Free:
		s.Packs = blocks.Alike
	case p.Hands == job.HandsApart:
		s.Packs = blocks.Apart
	}
	if s.Pattern == blocks.Chevron {
		s.Angle = p.ChevronAngle
	}
	return s
}

// noteHands tells suppliers how many blocks of each hand an order line is to
// bring, where packs hold one hand. What an order step or a minimum adds may be of
// either.
func (r *Result) noteHands() {
	for i := range r.Orders {
		for k := range r.Orders[i].Lines {
			line := &r.Orders[i].Lines[k]
			switch {
			case !line.Product.Pattern.Blocks():
			case styleOf(line.Product).Packs == blocks.Apart:
				lefts, rights := r.inPacks(line.Product, r.Orders[i].Consignment)
				line.Note = fmt.Sprintf("%d left blocks, %d right blocks", lefts, rights)
			case styleOf(line.Product).Packs == blocks.Mixed:
				line.Note = "left and right blocks in equal numbers"
			}
		}
	}
}

// inPacks is the blocks of each hand that come with a consignment, in whole
// packs of each place.
func (r *Result) inPacks(p *job.Product, consignment int) (lefts, rights int64) {
	whole := func(by []int64) int64 {
		pack := int64(max(1, p.PiecesPerPack))
		before, n := int64(0), int64(0)
		for i, more := range by[:min(len(by), consignment+1)] {
			if n += more; i < consignment {
				before = n
			}
		}
		return (n+pack-1)/pack*pack - (before+pack-1)/pack*pack
	}
	for i := range r.Needs {
		if need := &r.Needs[i]; need.Product == p {
			lefts += whole(need.Lefts)
			rights += whole(need.Rights)
		}
	}
	return lefts, rights
}
