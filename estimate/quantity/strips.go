package quantity

import (
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// strip is one strip of film or underlay as it is cut, and the length of its
// seams with the strip before and across it. A strip much narrower than the
// roll is cut along into several that are laid end to end.
type strip struct {
	length measure.Length // to be cut from the roll, over its full width
	along  int            // strips that it is then cut into along its length
	seam   measure.Length
}

// seamsBefore are the strips whose seams a row of the build-up closes: those of
// the layer in strips that stands last before the row, else of the first.
func seamsBefore(room *building.Room, row *job.Line) []strip {
	var layer *job.Product
	for _, line := range room.Spec.BuildUp.Lines {
		if layer != nil && line == row {
			break
		}
		if line.Product != nil && line.Product.Kind.InStrips() {
			layer = line.Product
		}
	}
	if layer == nil {
		return nil
	}
	return stripsOf(room, layer)
}

// stripsOf lays film or underlay across the room in strips along its longer
// side.
func stripsOf(room *building.Room, product *job.Product) []strip {
	return stripsOn(room.Floor.Turn(room.Spec.Outline.LongerSide()), product)
}

// stripsOn lays strips along x. Each overlaps the one before by the product's
// overlap, and film turns up at the walls all round. Where a strip's band of
// floor falls into several parts, each part is a strip of its own.
func stripsOn(floor shape.Region, product *job.Product) []strip {
	bounds := floor.Bounds()
	var strips []strip
	step := product.Width - product.Overlap
	for y := bounds.Y0 - product.Upturn; ; y += step {
		seam := measure.Length(0)
		if len(strips) > 0 {
			seam = seamAt(floor, y, product.Overlap)
		}
		for _, part := range parts(floor, y, y+product.Width) {
			s := cutFor(part.Bounds(), product)
			s.seam += seam
			strips = append(strips, s)
			seam = 0
		}
		if y+product.Width >= bounds.Y1+product.Upturn {
			return strips
		}
	}
}

// cutFor is the strip that covers a part of the floor. Where the roll of an
// underlay is wide enough, it is cut along into strips laid end to end, none
// shorter than the product's least piece. Source of the rule: fill strips of
// roll goods, common practice.
func cutFor(part shape.Box, product *job.Product) strip {
	long, wide := part.X1-part.X0, part.Y1-part.Y0
	if product.Kind != job.Underlay {
		return strip{length: long + 2*product.Upturn, along: 1}
	}
	along := product.Width / wide
	if product.LeastEnd > 0 {
		along = min(along, long/product.LeastEnd)
	}
	along = max(1, along)
	return strip{length: (long + along - 1) / along, along: int(along), seam: (along - 1) * wide}
}

func parts(floor shape.Region, y0, y1 measure.Length) []shape.Polygon {
	return shape.Rows(floor, []measure.Length{y0, y1})[0]
}

// seamAt is how long the strip that begins at y meets the one before: over its
// overlap, or at its edge as far as there is floor on both sides.
func seamAt(floor shape.Region, y, overlap measure.Length) measure.Length {
	if overlap > 0 {
		return extent(parts(floor, y, y+overlap))
	}
	return min(extent(parts(floor, y-1, y)), extent(parts(floor, y, y+1)))
}

// extent is how far the parts reach along the strip, added up.
func extent(parts []shape.Polygon) measure.Length {
	var total measure.Length
	for _, part := range parts {
		b := part.Bounds()
		total += b.X1 - b.X0
	}
	return total
}

func seamLength(strips []strip) measure.Length {
	var total measure.Length
	for _, s := range strips {
		total += s.seam
	}
	return total
}
