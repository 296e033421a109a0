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
// can be made.
func overflow(starters, ends []measure.Length, n int, room measure.Length) measure.Length {
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
			over += excess
		}
	}
	return over
}

// freeOverflow is overflow where pieces pair within one list.
func freeOverflow(pieces []measure.Length, n int, room measure.Length) measure.Length {
	var over measure.Length
	if short := n - len(pieces)/2; short > 0 {
		over = measure.Length(short) * room
		n -= short
	}
	for j := range max(0, n) {
		over += max(0, pieces[j]+pieces[2*n-1-j]-room)
	}
	return over
}

// replace takes a value out of an ascending list and puts another in.
func replace(list []measure.Length, old, next measure.Length) {
	if old == next {
		return
	}
	from, to := rank(list, old), rank(list, next)
	if to > from {
		copy(list[from:to-1], list[from+1:to])
		list[to-1] = next
		return
	}
	copy(list[to+1:from+1], list[to:from])
	list[to] = next
}

// rank is the number of values of an ascending list below one. It stands in the
// innermost loop of the search, where a call per comparison shows.
func rank(list []measure.Length, l measure.Length) int {
	low, high := 0, len(list)
	for low < high {
		middle := int(uint(low+high) >> 1)
		if list[middle] < l {
			low = middle + 1
		} else {
			high = middle
		}
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
