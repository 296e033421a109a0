package layout

import "laybill/estimate/measure"

// random is the generator splitmix64 (Steele, Lea, Flood 2014): the same numbers
// from the same seed, everywhere.
type random uint64

func (r *random) next() uint64 {
	*r += 0x9e3779b97f4a7c15
	z := uint64(*r)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below is a number in [0, n).
func (r *random) below(n int) int { return int((r.next() >> 32) * uint64(n) >> 32) }

// length is a length in [0, n).
func (r *random) length(n measure.Length) measure.Length {
	return measure.Length(r.next() >> 1 % uint64(n))
}
