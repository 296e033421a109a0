package trim

// random is a sequence of numbers that look drawn at random and are the same on
// every machine: the linear congruence of Knuth's MMIX.
type random uint64

// next is the next number below 1<<31.
func (r *random) next() int {
	*r = *r*6364136223846793005 + 1442695040888963407
	return int(*r >> 33)
}

// shuffle puts the values into another order.
func (r *random) shuffle(values []int) {
	for i := len(values) - 1; i > 0; i-- {
		j := r.next() % (i + 1)
		values[i], values[j] = values[j], values[i]
	}
}
