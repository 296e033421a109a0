package building

import (
	"cmp"
	"slices"

	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// openings are the room's doorways; without a table of them, the doors that are
// only counted, each of the job's door width.
func openings(spec *job.Room, mirrored bool, doorWidth measure.Length) []Opening {
	var all []Opening
	for i := range spec.Openings {
		o := &spec.Openings[i]
		all = append(all, Opening{Spec: o, Wall: wallNumber(spec, o.Wall, mirrored), Width: o.Width, Profile: o.Profile})
	}
	if len(all) == 0 {
		for range spec.Doors {
			all = append(all, Opening{Width: doorWidth})
		}
	}
	return all
}

// wallNumber is the number from 1 of a wall that was wall i, from 0, before
// mirroring: the anticlockwise walk meets mirrored walls in the reverse order,
// and the new walk starts at the corner nearest 0,0.
func wallNumber(spec *job.Room, i int, mirrored bool) int {
	if !mirrored {
		return i + 1
	}
	bounds := spec.Outline.Bounds()
	axis := bounds.X0 + bounds.X1
	wall := spec.Outline.Walls()[i]
	from, to := wall.To, wall.From
	from.X, to.X = axis-from.X, axis-to.X
	for number, mirror := range spec.Outline.Mirror(axis).Walls() {
		if mirror.From == from && mirror.To == to {
			return number + 1
		}
	}
	return i + 1
}

// skirtingRuns are the walls less the room's openings: each wall falls into the
// lengths between corners and openings. Doors that are only counted shorten
// the longest run, since nobody said where they are.
func skirtingRuns(spec *job.Room, mirrored bool, doorWidth measure.Length) []Run {
	if !spec.Skirting {
		return nil
	}
	var runs []Run
	for i, wall := range spec.Outline.Walls() {
		if wall.Ring > 0 {
			break // columns and shafts get no skirting
		}
		number := wallNumber(spec, i, mirrored)
		for _, length := range lengthsBetween(wall.Length, openingsOf(spec, i)) {
			runs = append(runs, Run{Wall: number, Length: length})
		}
	}
	if len(spec.Openings) == 0 {
		for range spec.Doors {
			shortenLongest(runs, doorWidth)
		}
	}
	slices.SortStableFunc(runs, func(a, b Run) int { return cmp.Compare(a.Wall, b.Wall) })
	return slices.DeleteFunc(runs, func(r Run) bool { return r.Length <= 0 })
}

func openingsOf(spec *job.Room, wall int) []job.Opening {
	var of []job.Opening
	for _, o := range spec.Openings {
		if o.Wall == wall {
			of = append(of, o)
		}
	}
	slices.SortStableFunc(of, func(a, b job.Opening) int { return cmp.Compare(a.From, b.From) })
	return of
}

// lengthsBetween is what is left of a wall between its openings.
func lengthsBetween(wall measure.Length, openings []job.Opening) []measure.Length {
	var lengths []measure.Length
	at := measure.Length(0)
	for _, o := range openings {
		lengths = append(lengths, o.From-at)
		at = max(at, o.From+o.Width)
	}
	return append(lengths, wall-at)
}

// shortenLongest takes a length off the longest run, and off the next when one
// is not long enough.
func shortenLongest(runs []Run, by measure.Length) {
	for by > 0 {
		longest := -1
		for i := range runs {
			if runs[i].Length > 0 && (longest < 0 || runs[i].Length > runs[longest].Length) {
				longest = i
			}
		}
		if longest < 0 {
			return
		}
		taken := min(by, runs[longest].Length)
		runs[longest].Length -= taken
		by -= taken
	}
}
