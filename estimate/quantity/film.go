package quantity

import (
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// strip is one strip of film and the length of its seam with the strip before.
type strip struct {
	length measure.Length
	seam   measure.Length
}

// filmStrips are the strips of the room's film, none when its build-up has no
// film.
func filmStrips(room *building.Room) []strip {
	for _, line := range room.Spec.BuildUp.Lines {
		if line.Product != nil && line.Product.Kind == job.Film {
			return stripsOf(room, line.Product)
		}
	}
	return nil
}

// stripsOf lays film across the room in strips along its longer side: each
// strip overlaps the one before by the product's overlap, and the film turns
// up at the walls all round. Where a strip's band of floor falls into several
// parts, each part is a strip of its own.
func stripsOf(room *building.Room, film *job.Product) []strip {
	floor := room.Floor.Turn(room.Spec.Outline.LongerSide())
	bounds := floor.Bounds()
	var strips []strip
	step := film.Width - film.Overlap
	for y := bounds.Y0 - film.Upturn; ; y += step {
		seam := measure.Length(0)
		if len(strips) > 0 {
			seam = extent(parts(floor, y, y+film.Overlap))
		}
		for _, part := range parts(floor, y, y+film.Width) {
			b := part.Bounds()
			strips = append(strips, strip{length: b.X1 - b.X0 + 2*film.Upturn, seam: seam})
			seam = 0
		}
		if y+film.Width >= bounds.Y1+film.Upturn {
			return strips
		}
	}
}

func parts(floor shape.Region, y0, y1 measure.Length) []shape.Polygon {
	return shape.Rows(floor, []measure.Length{y0, y1})[0]
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
