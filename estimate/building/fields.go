package building

import (
	"laybill/estimate/fields"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// divide parts a floor that is longer than its covering may run into fields,
// where its build-up says what profile stands between them. A mirrored floor is
// divided as it was drawn, so that the profiles are mirror images. All fields
// are laid one way: with several directions to choose from, the first, which is
// along the longer side.
func (r *Room) divide(mirrored bool, axis measure.Length) {
	if !r.Spec.Overruns() || r.Spec.BuildUp.ExpansionProfile() == nil {
		return
	}
	drawn := r.Floor
	if mirrored {
		drawn = mirror(drawn, axis)
	}
	r.Fields, r.Profiles = fields.Divide(drawn, r.Spec.BuildUp.Covering().Product.LongestRun)
	r.Directions = r.Directions[:1]
	if !mirrored {
		return
	}
	r.Fields = mirror(r.Fields, axis)
	for i, p := range r.Profiles {
		r.Profiles[i] = p.Mirror(axis)
	}
}

func mirror(floor shape.Region, axis measure.Length) shape.Region {
	mirrored := make(shape.Region, len(floor))
	for i, part := range floor {
		mirrored[i] = part.Mirror(axis)
	}
	return mirrored
}

// LaidInOne are the parts of the floor that are laid in one piece each: its
// fields, or all of it.
func (r *Room) LaidInOne() []shape.Region {
	if len(r.Fields) == 0 {
		return []shape.Region{r.Floor}
	}
	parts := make([]shape.Region, len(r.Fields))
	for i, field := range r.Fields {
		parts[i] = shape.Region{field}
	}
	return parts
}

// InsideGaps is the floor less an expansion gap along every wall, fixture and
// profile.
func (r *Room) InsideGaps(gap measure.Length) measure.Area {
	var area measure.Area
	for _, part := range r.LaidInOne() {
		area += shape.Inset(part, gap).Area()
	}
	return area
}

// ProfileLength is the length of all expansion profiles.
func (r *Room) ProfileLength() measure.Length {
	var length measure.Length
	for _, p := range r.Profiles {
		length += p.Length()
	}
	return length
}
