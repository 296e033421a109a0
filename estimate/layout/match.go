package layout

import (
	"slices"

	"laybill/estimate/measure"
)

// matching pairs starters with end pieces that one plank gives: starter, end
// piece and a kerf are no longer than it. Both lists ascend. Pairs are indices
// into them; their number is the greatest possible: the longest end piece takes
// the shortest starter left, or none.
func matching(starters, ends []measure.Length, room measure.Length) [][2]int {
	var pairs [][2]int
	next := 0
	for j := len(ends) - 1; j >= 0 && next < len(starters); j-- {
		if starters[next]+ends[j] <= room {
			pairs = append(pairs, [2]int{next, j})
			next++
		}
	}
	return pairs
}

// freeMatching pairs pieces of one ascending list, any two that one plank gives.
func freeMatching(pieces []measure.Length, room measure.Length) [][2]int {
	var pairs [][2]int
	low, high := 0, len(pieces)-1
	for low < high {
		if pieces[low]+pieces[high] <= room {
			pairs = append(pairs, [2]int{low, high})
			low++
		}
		high--
	}
	return pairs
}

// overflow is by how much the n shortest starters and end pieces, paired
// shortest with longest, are too long for one plank each: nought when n pairs
// can be made. Counting ends once it is over most.
func overflow(starters, ends []measure.Length, n int, room, most measure.Length) measure.Length {
	var over measure.Length
	if short := n - min(len(starters), len(ends)); short > 0 {
		over = measure.Length(short) * room
		n -= short
	}
	if n <= 0 {
		return over
	}
	starters, ends = starters[:n], ends[:n]
	for j, a := range starters {
		if excess := a + ends[n-1-j] - room; excess > 0 {
			if over += excess; over > most {
				break
			}
		}
	}
	return over
}

// freeOverflow is overflow where pieces pair within one list.
func freeOverflow(pieces []measure.Length, n int, room, most measure.Length) measure.Length {
	var over measure.Length
	if short := n - len(pieces)/2; short > 0 {
		over = measure.Length(short) * room
		n -= short
	}
	for j := range max(0, n) {
		if excess := pieces[j] + pieces[2*n-1-j] - room; excess > 0 {
			if over += excess; over > most {
				break
			}
		}
	}
	return over
}

// exchange is a value of an ascending list taken out at one place, and another
// put in, which then stands at the other place.
type exchange struct {
	list      []measure.Length
	from, to  int
	old, next measure.Length
}

// replace takes a value out of an ascending list and puts another in.
func replace(list []measure.Length, old, next measure.Length) exchange {
	x := exchange{list, rank(list, old), rank(list, next), old, next}
	if x.to > x.from {
		x.to--
	}
	transfer(list, x.from, x.to, next)
	return x
}

// undo makes the list what it was before the last exchange.
func (x *exchange) undo() { transfer(x.list, x.to, x.from, x.old) }

// transfer takes out the value at one place and puts another in at the other.
func transfer(list []measure.Length, from, to int, next measure.Length) {
	if to > from {
		copy(list[from:to], list[from+1:to+1])
	} else {
		copy(list[to+1:from+1], list[to:from])
	}
	list[to] = next
}

// rank is the number of values of an ascending list below one. It stands in the
// innermost loop of the search, where branches that cannot be foreseen cost more
// than the arithmetic on signs that takes their place.
func rank(list []measure.Length, l measure.Length) int {
	low, left := 0, len(list) // the rank is in [low, low+left]
	for left > 0 {
		half := (left + 1) / 2
		below := int((list[low+half-1] - l) >> 63) // -1 or 0
		low += half & below
		left -= half
	}
	return low
}

// insert puts a value into an ascending list.
func insert(list []measure.Length, l measure.Length) []measure.Length {
	at, _ := slices.BinarySearch(list, l)
	return slices.Insert(list, at, l)
}

// remove takes a value out of an ascending list.
func remove(list []measure.Length, l measure.Length) []measure.Length {
	at, _ := slices.BinarySearch(list, l)
	return slices.Delete(list, at, at+1)
}
