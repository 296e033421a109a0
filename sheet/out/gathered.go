package out

import (
	"fmt"
	"slices"

	"laybill/estimate/job"
	"laybill/sheet/crew"
)

// alike are lines that say the same of the same room of apartments of one type.
type alike[L any] struct {
	first L
	times int
	in    []*job.Apartment // each once, none for lines of the whole job

	place [3]int // of the type, the room and the item among those of all lines
	lines []int
}

// lineKey is equal for lines that are alike.
type lineKey struct{ kind, room, item, says string }

// gathered brings like lines together, ordered by type, room and item as these
// first come. A line has an apartment or is the whole job's.
func gathered[L any](lines []L, apartment func(L) *job.Apartment, key func(L) lineKey) []alike[L] {
	places := map[lineKey]int{}
	place := func(k lineKey) int {
		if _, known := places[k]; !known {
			places[k] = len(places)
		}
		return places[k]
	}
	var all []alike[L]
	at := map[lineKey]int{}
	for i, line := range lines {
		k := key(line)
		a := apartment(line)
		if a != nil {
			k.kind = a.Type
		}
		if _, known := at[k]; !known {
			at[k] = len(all)
			all = append(all, alike[L]{first: line, place: [3]int{place(lineKey{kind: k.kind}), place(lineKey{kind: k.kind, room: k.room}), place(lineKey{kind: k.kind, room: k.room, item: k.item})}})
		}
		g := &all[at[k]]
		g.times++
		g.lines = append(g.lines, i)
		if a != nil && !slices.Contains(g.in, a) {
			g.in = append(g.in, a)
		}
	}
	slices.SortStableFunc(all, func(a, b alike[L]) int { return slices.Compare(a.place[:], b.place[:]) })
	return all
}

// groupNumbers is the number of each line's group, from 1.
func groupNumbers[L any](all []alike[L], lines int) []int {
	numbers := make([]int, lines)
	for i, g := range all {
		for _, line := range g.lines {
			numbers[line] = i + 1
		}
	}
	return numbers
}

// inWords says which of its type's apartments the lines are in.
func (b *book) inWords(in []*job.Apartment) string {
	if len(in) == 0 {
		return ""
	}
	var ofType []*job.Apartment
	for _, a := range b.result.Job.Apartments {
		if a.Type == in[0].Type {
			ofType = append(ofType, a)
		}
	}
	switch n, mirrored := len(in), mirroredIn(ofType); {
	case n < 2:
	case n == len(ofType):
		return fmt.Sprintf("all %d", n)
	case n == mirrored && mirroredIn(in) == n:
		return fmt.Sprintf("all %d mirrored", n)
	case n == len(ofType)-mirrored && mirroredIn(in) == 0:
		return fmt.Sprintf("all %d not mirrored", n)
	}
	names := make([]string, len(in))
	for i, a := range in {
		names[i] = crew.Apartment(a)
	}
	return crew.SomeNames(names)
}

func mirroredIn(apartments []*job.Apartment) int {
	n := 0
	for _, a := range apartments {
		if a.Mirrored {
			n++
		}
	}
	return n
}
