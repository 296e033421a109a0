package layout

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"laybill/estimate/measure"
)

// tally sums up plans of one line of the table.
type tally struct {
	planks, bound, rowBound, eye int
	rooms, proven, near          int
	net, floor                   measure.Area // inside the gap, wall to wall
	plank, bought, eyeBought     measure.Area
	took                         time.Duration
	slowest                      time.Duration
}

func (s *tally) add(t testing.TB, p Pool) Plan {
	start := time.Now()
	plan := mustLay(t, Lay, p)
	took := time.Since(start)
	s.took += took
	s.slowest = max(s.slowest, took)
	s.planks += plan.Planks
	s.bound += plan.LowerBound
	s.rowBound += plan.RowBound
	s.eye += plan.ByEye
	s.rooms++
	if plan.Proven {
		s.proven++
	}
	if plan.Planks <= plan.RowBound+1 {
		s.near++
	}
	s.plank = p.Plank.Length.Times(p.Plank.Width)
	s.bought += measure.Area(plan.Planks) * s.plank
	s.eyeBought += measure.Area(plan.ByEye) * s.plank
	for i := range plan.Layouts {
		s.net += plan.Layouts[i].Area()
		s.floor += p.Rooms[i].Floor.Area()
	}
	return plan
}

func (s *tally) String() string {
	share := func(a, b int) float64 { return float64(a) / float64(b) }
	return fmt.Sprintf("waste %4.1f %% (by eye %4.1f %%)  plan/eye %.3f  plan/bound %.4f  plan/row bound %.4f  proven %3.0f %%  within one %5.1f %%  %5.1f ms each, slowest %.0f",
		100*(float64(s.bought)/float64(s.net)-1), 100*(float64(s.eyeBought)/float64(s.net)-1),
		share(s.planks, s.eye), share(s.planks, s.bound), share(s.planks, s.rowBound),
		100*share(s.proven, s.rooms), 100*share(s.near, s.rooms),
		float64(s.took.Microseconds())/1000/float64(s.rooms), float64(s.slowest.Microseconds())/1000)
}

// BenchmarkGoals prints how good and how quick plans are on seeded rooms: 2 to 7 m
// a side, two in five rooms of an apartment L-shaped.
func BenchmarkGoals(b *testing.B) {
	kinds := []struct {
		name string
		room func(*rand.Rand) Room
	}{{"rectangle", rectangleRoom}, {"corner", cornerRoom}}
	for _, third := range []bool{false, true} {
		for _, kind := range kinds {
			for i, plank := range trialPlanks {
				rules := trialRules
				if third {
					rules.LeastStagger = plank.Length / 3
				}
				b.Run(fmt.Sprintf("%s %d third=%t", kind.name, plank.Length/mm, third), func(b *testing.B) {
					r := rand.New(rand.NewPCG(11, uint64(i)))
					var s tally
					for range 80 {
						s.add(b, poolOf(plank, rules, kind.room(r)))
					}
					b.Log(s.String())
				})
			}
		}
	}
	benchmarkPatterns(b)
	for _, ripped := range []bool{true, false} {
		for i, plank := range trialPlanks {
			rules := trialRules
			if !ripped {
				rules.LeastRow = plank.Width / 2 // no two strips and a kerf fit one plank
			}
			b.Run(fmt.Sprintf("apartment %d rips shared=%t", plank.Length/mm, ripped), func(b *testing.B) {
				r := rand.New(rand.NewPCG(12, uint64(i)))
				var s tally
				for range 15 {
					s.add(b, poolOf(plank, rules, apartmentRooms(r)...))
				}
				b.Log(s.String())
				b.Log(s.packs(perPack[i]))
			})
		}
	}
}

// benchmarkPatterns prints the same for fixed patterns, the four planks together:
// bound is that of joints at random but for single rooms in pattern, row by row.
func benchmarkPatterns(b *testing.B) {
	kinds := []struct {
		name  string
		rooms func(*rand.Rand) []Room
		each  int
	}{
		{"rectangle", func(r *rand.Rand) []Room { return []Room{rectangleRoom(r)} }, 80},
		{"corner", func(r *rand.Rand) []Room { return []Room{cornerRoom(r)} }, 80},
		{"apartment", apartmentRooms, 15},
	}
	for _, name := range slices.Sorted(maps.Keys(patterns)) {
		for _, kind := range kinds {
			b.Run(kind.name+" pattern "+name, func(b *testing.B) {
				var s tally
				inside, out := 0, 0
				for i, plank := range trialPlanks {
					r := rand.New(rand.NewPCG(11, uint64(i)))
					rules := trialRules
					rules.Pattern = patterns[name]
					for range kind.each {
						p := poolOf(plank, rules, kind.rooms(r)...)
						plan := s.add(b, p)
						rows := outOfPattern(plan)
						out += rows
						if rows == 0 {
							inside++
						}
					}
				}
				b.Log(s.String())
				b.Logf("%d of %d wholly in pattern, %d rows out of it", inside, s.rooms, out)
			})
		}
	}
}

func outOfPattern(plan Plan) int {
	n := 0
	for _, s := range plan.Shortfalls {
		if s.Rule == RulePattern {
			n++
		}
	}
	return n
}

// packs is what the plans buy for a job, and how much less that is than the floor
// area and a flat allowance, in per cent.
func (s *tally) packs(perPack int) string {
	pack := float64(s.plank) * float64(perPack)
	packs := (s.planks + perPack - 1) / perPack
	under := func(flat float64) float64 {
		return 100 * (1 - float64(packs)/math.Ceil(float64(s.floor)*flat/pack))
	}
	return fmt.Sprintf("%d packs: %.1f %% under flat 5 %%, %.1f %% under flat 7 %%, %.1f %% under flat 10 %%", packs, under(1.05), under(1.07), under(1.10))
}

// BenchmarkRealRooms lays every open room of real plans and checks each plan.
func BenchmarkRealRooms(b *testing.B) {
	for _, set := range []string{"residential", "commercial", "ifc_rooms"} {
		b.Run(set, func(b *testing.B) {
			var s tally
			lost, wrong := 0, 0
			for i, room := range planRooms(b, set, false) {
				p := poolOf(trialPlanks[i%4], trialRules, room)
				plan := s.add(b, p)
				if len(faultsOf(p, plan)) > 0 {
					wrong++
				}
				if len(plan.Layouts[0].Pieces) == 0 {
					lost++
				}
			}
			b.Logf("%d rooms, %d plans wrong, %d rooms lost, %s", s.rooms, wrong, lost, s.String())
		})
	}
}
