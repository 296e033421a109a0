package programme

import (
	"fmt"
	"math/rand"
	"testing"

	"laybill/estimate/job"
)

// best is the earliest end of all schedules: every order of the visits in which
// each follows the one before it in its apartment, on every crew, each in the
// first gap. Some such schedule is best when the end alone counts (active
// schedules; from memory, job-shop scheduling).
type bruteForce struct {
	clock  *clock
	chains []*chain
	crews  [][]slot
	best   moment
}

func (b *bruteForce) visit(done []int, ready []moment, end moment) {
	if end >= b.best {
		return
	}
	open := false
	for i, c := range b.chains {
		if done[i] == visits {
			continue
		}
		open = true
		v := &c.visits[done[i]]
		crews := len(b.crews)
		if v.work == 0 {
			crews = 1
		}
		for crew := range crews {
			start := ready[i]
			if v.work > 0 {
				start = firstGap(b.crews[crew], start, v.work)
				b.crews[crew] = append(b.crews[crew], slot{crew, start, start + v.work})
			}
			was := ready[i]
			done[i], ready[i] = done[i]+1, b.clock.after(start+v.work, v.work, v.wait)
			later := end
			if v.work > 0 {
				later = max(end, start+v.work)
			}
			b.visit(done, ready, later)
			done[i], ready[i] = done[i]-1, was
			if v.work > 0 {
				b.crews[crew] = b.crews[crew][:len(b.crews[crew])-1]
			}
		}
	}
	if !open {
		b.best = end
	}
}

// firstGap tries every start.
func firstGap(taken []slot, from, work moment) moment {
	for start := from; ; start++ {
		free := true
		for _, s := range taken {
			free = free && (start+work <= s.start || start >= s.end)
		}
		if free {
			return start
		}
	}
}

// Small jobs beside the best of all schedules: in how many the programme ends on
// the same day, and the most days that it ends later.
func TestCloseToTheBest(t *testing.T) {
	random := rand.New(rand.NewSource(1))
	const cases = 30
	same, bounded, most := 0, 0, 0
	for range cases {
		s := newSite(1+random.Intn(2), 1, "0.04") // four units of work a day
		for n := range 2 + random.Intn(2) {
			hours := map[job.Step]string{
				job.Delivering: fmt.Sprintf("0.%02d", 1+random.Intn(2)), job.Laying: fmt.Sprintf("0.%02d", 2+random.Intn(12)),
			}
			s.apartment(fmt.Sprint(n), 0, hours)
		}
		chains := apartmentChains(s.job, s.work())
		p := &planner{settings: s.job.Settings, clock: newClock(NewCalendar(s.job), DayOf(s.job.Settings.StartDate), 4), chains: chains}
		p.settle()
		got := p.search()
		b := bruteForce{clock: p.clock, chains: chains, crews: make([][]slot, s.job.Settings.Crews), best: 1 << 40}
		b.visit(make([]int, len(chains)), make([]moment, len(chains)), 0)
		if got.finish < b.best || p.bound() > b.best {
			t.Fatalf("programme %d, best %d, bound %d", got.finish, b.best, p.bound())
		}
		late := p.clock.lastDayNumber(got.finish) - p.clock.lastDayNumber(b.best)
		most = max(most, late)
		if late == 0 {
			same++
		}
		if p.clock.lastDayNumber(p.bound()) == p.clock.lastDayNumber(b.best) {
			bounded++
		}
	}
	t.Logf("%d of %d jobs end on the best day, the others at most %d later; the bound is the best day in %d", same, cases, most, bounded)
	if same < cases*9/10 || most > 1 {
		t.Errorf("%d of %d jobs end on the best day, one %d days later", same, cases, most)
	}
}
