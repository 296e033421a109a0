//go:build unix

package trim

import (
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"syscall"
	"testing"
	"time"
)

// BenchmarkSets solves the open sets and prints a line for each: how many are
// proven optimal, how many are as good as the best known, the worst gap between
// cost and bound, and the processor times. LAYBILL_SETS narrows the sets by a regular
// expression, LAYBILL_OPEN=1 lists what is not proven.
func BenchmarkSets(b *testing.B) {
	want := regexp.MustCompile(os.Getenv("LAYBILL_SETS"))
	sets := map[string][]instance{}
	for _, in := range slices.Concat(literature(b), trimJobs(b)) {
		if want.MatchString(in.set + "/" + in.name) {
			sets[in.set] = append(sets[in.set], in)
		}
	}
	fmt.Printf("%-18s %5s %7s %7s %9s %9s %9s %9s %9s\n", "set", "n", "proven", "known", "gap", "median", "p99", "most", "sum")
	for _, set := range slices.Sorted(maps.Keys(sets)) {
		s := score{set: set}
		for _, in := range sets[set] {
			begin := processorTime(b)
			p, faults := Solve(in.order)
			spent := processorTime(b) - begin
			if len(faults) > 0 {
				b.Fatalf("%s: %v", in.name, faults)
			}
			if wrong := judge(in, p); wrong != "" {
				b.Errorf("%s: %s", in.name, wrong)
			}
			s.add(in, p, spent)
		}
		s.print()
	}
	for b.Loop() {
	}
}

// processorTime is what this process has used so far: other load on the machine
// does not count.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		b.Fatal(err)
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}

// score sums up the results of one set.
type score struct {
	set              string
	n, proven, known int // proven optimal; as good as the best known
	worst            float64
	times            []time.Duration
	open             []string
}

func (s *score) add(in instance, p Plan, spent time.Duration) {
	s.n++
	s.times = append(s.times, spent)
	if p.Proven {
		s.proven++
	} else {
		s.open = append(s.open, fmt.Sprintf("%s: bound %d cost %d known %d %v", in.name, p.LowerBound, p.Cost, in.optimum, spent.Round(time.Millisecond)))
	}
	if p.Cost <= in.optimum {
		s.known++
	}
	s.worst = max(s.worst, float64(p.Cost-p.LowerBound)/float64(max(1, p.Cost)))
}

func (s *score) print() {
	slices.Sort(s.times)
	sum := time.Duration(0)
	for _, d := range s.times {
		sum += d
	}
	at := func(share float64) time.Duration {
		return s.times[min(s.n-1, int(share*float64(s.n)))].Round(10 * time.Microsecond)
	}
	fmt.Printf("%-18s %5d %7d %7d %8.3f%% %9v %9v %9v %9v\n", s.set, s.n, s.proven, s.known, 100*s.worst, at(0.5), at(0.99), at(1), sum.Round(time.Millisecond))
	if os.Getenv("LAYBILL_OPEN") == "1" {
		for _, o := range s.open {
			fmt.Println("   ", o)
		}
	}
}
