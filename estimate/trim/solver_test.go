package trim

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/published"
)

// arcFlow writes the order as an integer programme in the LP format: a bar is a
// path through the points of its length, a piece an arc (Valerio de Carvalho
// 1999). It needs one unlimited source for each stock. Every split of a run is a
// variable of its own that asks for its parts.
func arcFlow(o Order) string {
	longest := 0
	for _, s := range o.Stocks {
		longest = max(longest, int(s.Length+o.Kerf))
	}
	out, in := make([][]string, longest+1), make([][]string, longest+1)
	var cost, demand, whole, limits []string
	arc := func(name string, from, to int) {
		out[from] = append(out[from], name)
		in[to] = append(in[to], name)
		whole = append(whole, name)
	}
	asked, splits, runs := splitVariables(o)
	whole = append(whole, splits...)
	demand = append(demand, runs...)
	cuts := slices.Clone(o.Cuts)
	for _, length := range slices.Sorted(maps.Keys(asked)) {
		if !slices.ContainsFunc(cuts, func(c Cut) bool { return c.Length == length }) {
			cuts = append(cuts, Cut{length, 0})
		}
	}
	for i, c := range cuts {
		var all []string
		size := int(c.Length + o.Kerf)
		for at := 0; at+size <= longest; at++ {
			name := fmt.Sprintf("x%d_%d", i, at)
			arc(name, at, at+size)
			all = append(all, name)
		}
		demand = append(demand, fmt.Sprintf(" %s%s >= %d", strings.Join(all, " + "), asked[c.Length], c.Count))
	}
	for at := range longest {
		arc(fmt.Sprintf("w%d", at), at, at+1)
	}
	for k, s := range o.Stocks {
		name := fmt.Sprintf("b%d", k)
		arc(name, int(s.Length+o.Kerf), 0)
		cost = append(cost, fmt.Sprintf("%d %s", s.Price, name))
		if s.Limit > 0 {
			limits = append(limits, fmt.Sprintf(" %s <= %d", name, s.Limit))
		}
	}
	var flow []string
	for at := range out {
		line := " " + strings.Join(in[at], " + ")
		for _, name := range out[at] {
			line += " - " + name
		}
		flow = append(flow, line+" = 0")
	}
	return "Minimize\n cost: " + strings.Join(cost, " + ") + "\nSubject To\n" +
		strings.Join(append(append(demand, flow...), limits...), "\n") +
		"\nGeneral\n " + strings.Join(whole, "\n ") + "\nEnd\n"
}

// splitVariables names a variable for each split of each run, says how they
// lower what is cut of every length, and that each run is split.
func splitVariables(o Order) (asked map[measure.Length]string, names, runs []string) {
	asked = map[measure.Length]string{}
	longest := o.longestStock()
	for j, r := range o.Runs {
		var all []string
		for k, parts := range allSplits(r.Length, o.LeastPart, longest, int((r.Length+longest-1)/longest)) {
			name := fmt.Sprintf("s%d_%d", j, k)
			all = append(all, name)
			n := map[measure.Length]int{}
			for _, part := range parts {
				n[part]++
			}
			for part, times := range n {
				asked[part] += fmt.Sprintf(" - %d %s", times, name)
			}
		}
		names = append(names, all...)
		runs = append(runs, fmt.Sprintf(" %s = %d", strings.Join(all, " + "), r.Count))
	}
	return asked, names, runs
}

// outside solves an LP file with another program, or skips the test when that
// is not installed; in continuous integration it must be.
func outside(t *testing.T, program string, model string) int64 {
	t.Helper()
	path := published.Program(t, program)
	dir := t.TempDir()
	file, answer := filepath.Join(dir, "model.lp"), filepath.Join(dir, "answer.txt")
	if err := os.WriteFile(file, []byte(model), 0o600); err != nil {
		t.Fatal(err)
	}
	arguments := []string{file, "solve", "solution", answer}
	if program == "glpsol" {
		arguments = []string{"--lp", file, "-o", answer}
	}
	if text, err := exec.Command(path, arguments...).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", program, err, text)
	}
	text, err := os.ReadFile(answer)
	if err != nil {
		t.Fatal(err)
	}
	match := regexp.MustCompile(`(?:objective value|cost =)\s+(-?[\d.]+)`).FindSubmatch(text)
	if match == nil {
		t.Fatalf("no optimum in the answer of %s:\n%.400s", program, text)
	}
	value, err := strconv.ParseFloat(string(match[1]), 64)
	if err != nil {
		t.Fatal(err)
	}
	return int64(value + 0.5)
}

// Orders too large for brute force, against GLPK and CBC on the arc-flow model.
func TestAgainstOtherSolvers(t *testing.T) {
	cuts := func(pairs ...int) []Cut {
		var all []Cut
		for i := 0; i < len(pairs); i += 2 {
			all = append(all, Cut{measure.Length(pairs[i]), pairs[i+1]})
		}
		return all
	}
	tests := []struct {
		name string
		o    Order
	}{
		{"one length", Order{Stocks: []Stock{{60, 1, 0}}, Kerf: 1, Cuts: cuts(29, 3, 24, 5, 19, 6, 17, 2, 13, 7)}},
		{"three priced lengths", Order{Stocks: []Stock{{24, 11, 0}, {30, 14, 0}, {42, 20, 0}}, Kerf: 0, Cuts: cuts(23, 2, 19, 4, 17, 3, 12, 6, 9, 5)}},
		{"with remnants", Order{Stocks: []Stock{{42, 201, 0}, {30, 145, 0}, {19, 0, 2}, {25, 0, 1}}, Kerf: 1, Cuts: cuts(28, 3, 21, 4, 16, 5, 11, 6, 8, 3)}},
		{"long runs", Order{Stocks: []Stock{{24, 54, 0}, {30, 70, 0}}, Kerf: 1, Cuts: cuts(19, 2, 13, 3, 8, 4), Runs: []Run{{48, 3}, {53, 2}, {37, 2}}, LeastPart: 5}},
		{"long runs and remnants", Order{Stocks: []Stock{{24, 110, 0}, {30, 143, 0}, {17, 0, 2}}, Kerf: 0, Cuts: cuts(22, 2, 11, 5), Runs: []Run{{31, 2}, {62, 1}, {44, 2}}, LeastPart: 4}},
	}
	for _, tt := range tests {
		p := mustSolve(t, tt.o)
		if !p.Proven {
			t.Errorf("%s: cost %d, bound %d", tt.name, p.Cost, p.LowerBound)
		}
		for _, program := range []string{"cbc", "glpsol"} {
			t.Run(tt.name+"/"+program, func(t *testing.T) {
				if want := outside(t, program, arcFlow(tt.o)); p.Cost != want {
					t.Errorf("cost %d, %s finds %d", p.Cost, program, want)
				}
			})
		}
	}
}
