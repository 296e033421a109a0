package in

import (
	"fmt"

	"laybill/estimate/problem"
)

// mostAlso is how many further cells of one cause are listed; the count that
// is shown goes on.
const mostAlso = 100

// collector gathers problems, one for each cause however many cells share it,
// and remembers which cells hold values that are not known.
type collector struct {
	problems []problem.Problem
	counts   []int
	causes   map[string]int // index into problems
	unknown  map[problem.Ref]bool
}

func newCollector() *collector {
	return &collector{causes: map[string]int{}, unknown: map[problem.Ref]bool{}}
}

// add takes a problem up. A problem with the cause of an earlier one becomes
// one more cell of that one. The cells of errors are unknown from here on.
func (c *collector) add(cause string, p problem.Problem) {
	p.Severity = p.Code.Entry().Severity
	if p.Severity == problem.Error {
		c.unknown[p.At] = true
	}
	key := string(p.Code) + "\x00" + cause
	if i, known := c.causes[key]; known && cause != "" {
		c.counts[i]++
		if len(c.problems[i].Also) < mostAlso {
			c.problems[i].Also = append(c.problems[i].Also, p.At)
		}
		return
	}
	c.causes[key] = len(c.problems)
	c.problems = append(c.problems, p)
	c.counts = append(c.counts, 1)
}

// list is every problem, with the number of cells of those hit more than once.
func (c *collector) list() problem.List {
	list := make(problem.List, len(c.problems))
	for i, p := range c.problems {
		if c.counts[i] > 1 {
			p.Found = fmt.Sprintf("%s (in %d cells)", p.Found, c.counts[i])
		}
		list[i] = p
	}
	return list
}
