package trim

import "laybill/estimate/measure"

// Split divides a run that is longer than a bar into the fewest pieces, none
// longer than stock and none under least: whole bars first, then a remainder,
// for which the bars before it give way when it would be too short. A run that
// fits one bar stays whole, however short. It returns nil when there is no
// such division.
func Split(run, stock, least measure.Length) []measure.Length {
	if run <= 0 || stock <= 0 {
		return nil
	}
	if run <= stock {
		return []measure.Length{run}
	}
	n := (run + stock - 1) / stock
	if least > stock || n*least > run {
		return nil
	}
	pieces := make([]measure.Length, n)
	for i := range pieces {
		pieces[i] = stock
	}
	last := n - 1
	pieces[last] = run - last*stock
	for i := last - 1; pieces[last] < least; i-- {
		give := min(stock-least, least-pieces[last])
		pieces[i] -= give
		pieces[last] += give
	}
	return pieces
}
